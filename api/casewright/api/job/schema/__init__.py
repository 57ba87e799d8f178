"""The schemas of a job document, built once for a registry."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from casewright.api.job import limits
from casewright.api.job.fields import MapOf, Rows, Tape
from casewright.api.job.picking import PickReader
from casewright.api.job.readers import Readers
from casewright.api.job.reading import NullReader, ObjectReader, Reader, RowsReader
from casewright.api.job.schema.built import BuiltSize
from casewright.api.job.schema.cabinets import cabinet_schema, fragment, house_schema, made
from casewright.api.job.schema.pieces import Climate, LoosePart, Material, about
from casewright.api.job.schema.rates import Rates
from casewright.api.job.schema.shop import Shop
from casewright.api.job.schema.stock import Stock
from casewright.api.job.schema.wall import Wall
from casewright.sdk.fields import Choice, Count, Text
from casewright.sdk.loader import Registry
from marshmallow import Schema, fields

__all__ = ["JobSchemas", "job_schemas"]


@dataclass(frozen=True, slots=True, eq=False)
class JobSchemas:
    """A registry's job schemas: the marshmallow class of the whole job, and the readers made from it.

    `faults` names methods left out because their options hide a key that every method shares.
    """

    registry: Registry
    job: type[Schema]
    root: ObjectReader
    house: ObjectReader
    cabinet: ObjectReader
    case: ObjectReader
    back: ObjectReader
    face_frame: ObjectReader
    drawers: ObjectReader
    doors: PickReader
    mounting: PickReader
    readers: Readers
    faults: tuple[str, ...]

    def of(self, schema: type[Schema]) -> ObjectReader:
        """Return the reader of one of the fixed schemas."""
        return self.readers.object(schema)


TITLE_BLOCK = {
    "owner": "whose drawing it is",
    "number": "the drawing's number among its owner's",
    "date": "the date of issue, written as it is to be read",
    "drawn_by": "who made it",
    "approved_by": "who approved it",
}
"""Fields of ISO 7200 that a job may give."""


def _build(registry: Registry) -> JobSchemas:
    faults: list[str] = []
    shared = fragment(registry, faults)
    job = made("Job", _declared(shared))
    readers = Readers()
    root = readers.object(job)
    cabinet = _object(_inner(root.fields["cabinets"]))
    case = _object(cabinet.fields["case"])
    return JobSchemas(
        registry=registry,
        job=job,
        root=root,
        house=_object(root.fields["house"]),
        cabinet=cabinet,
        case=case,
        back=_object(_inner(case.fields["back"])),
        face_frame=_object(_inner(cabinet.fields["face_frame"])),
        drawers=_object(_inner(cabinet.fields["drawers"])),
        doors=_pick(_inner(cabinet.fields["doors"])),
        mounting=_pick(_inner(cabinet.fields["mounting"])),
        readers=readers,
        faults=tuple(faults),
    )


def _declared(shared: dict[str, Any]) -> dict[str, Any]:
    """Return the fields of a job, with what its cabinets share."""
    return {
        "title": Text(most=limits.TITLE_LENGTH, load_default="", about="what the job is called"),
        **{
            name: Text(most=limits.TITLE_LENGTH, load_default="", about=f"for title blocks: {words}")
            for name, words in TITLE_BLOCK.items()
        },
        "units": Choice("in", "mm", required=True, about="unit of lengths that name none"),
        "tape": Tape(metadata=about("finest division of the bench tape, in `units`; default: 1/64 in or 0.5 mm")),
        "materials": MapOf(
            fields.Nested(Material), most=limits.MATERIALS, load_default=dict, metadata=about("materials by key")
        ),
        "house": fields.Nested(house_schema(shared), metadata=about("what every cabinet has that does not say")),
        "cabinets": Rows(
            fields.Nested(cabinet_schema(shared)),
            most=limits.CABINETS,
            load_default=list,
            metadata=about("the cabinets"),
        ),
        "wall": fields.Nested(Wall, allow_none=False, load_default=None, metadata=about("the wall they hang on")),
        "shop": fields.Nested(Shop, metadata=about("what the shop can do")),
        "climate": fields.Nested(Climate, metadata=about("the air that wood is in")),
        "stock": fields.Nested(Stock, allow_none=False, load_default=None, metadata=about("what there is to cut from")),
        "rates": fields.Nested(Rates, allow_none=False, load_default=None, metadata=about("the shop's prices")),
        "done": Rows(
            Count(least=1, most=limits.STEPS),
            most=limits.STEPS,
            load_default=list,
            metadata=about("numbers of steps of this job's plan that are done"),
        ),
        "built": Rows(
            fields.Nested(BuiltSize),
            most=limits.BUILT,
            load_default=list,
            metadata=about("what is built, as it came out: the rest is planned round it"),
        ),
        "loose_parts": Rows(
            fields.Nested(LoosePart), most=limits.LOOSE_PARTS, load_default=list, metadata=about("parts only cut")
        ),
    }


def _inner(reader: Reader) -> Reader:
    assert isinstance(reader, (NullReader, RowsReader))
    return reader.inner


def _object(reader: Reader) -> ObjectReader:
    assert isinstance(reader, ObjectReader)
    return reader


def _pick(reader: Reader) -> PickReader:
    assert isinstance(reader, PickReader)
    return reader


class _ById:
    """Lets a registry, which holds mappings, be a cache key by identity; it is kept alive by the key."""

    def __init__(self, registry: Registry) -> None:
        self.registry = registry

    def __hash__(self) -> int:
        return id(self.registry)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _ById) and other.registry is self.registry


@lru_cache(maxsize=16)
def _cached(key: _ById) -> JobSchemas:
    return _build(key.registry)


def job_schemas(registry: Registry) -> JobSchemas:
    """Return the schemas for a registry, built on first use."""
    return _cached(_ById(registry))
