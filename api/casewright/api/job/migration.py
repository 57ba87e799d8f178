"""A job of an earlier form as today's: what was written and is refused now, taken out, each with its place."""

from dataclasses import dataclass, field
from typing import Any

from casewright.api.job.picking import PickReader
from casewright.api.job.reading import MapReader, NullReader, ObjectReader, Reader, RowsReader
from casewright.api.job.schema import job_schemas
from casewright.sdk.errors import pointer_to
from casewright.sdk.loader import Registry


@dataclass(slots=True)
class Migrated:
    """The job as it is to be, and the places at which `null` was taken out: it means nothing there since 0.2."""

    document: Any
    taken_out: list[str] = field(default_factory=list)


def migrated(document: Any, registry: Registry) -> Migrated:
    """Return a job document in today's form. What was no job stays none."""
    out = Migrated(None)
    out.document = _walk(document, job_schemas(registry).root, "", out.taken_out)
    return out


def _walk(value: Any, reader: Reader, at: str, taken_out: list[str]) -> Any:
    plain = reader.inner if isinstance(reader, NullReader) else reader
    if isinstance(plain, RowsReader) and isinstance(value, list):
        return [_walk(one, plain.inner, f"{at}/{i}", taken_out) for i, one in enumerate(value)]
    if not isinstance(value, dict):
        return value
    out = {}
    for key, inner in value.items():
        known = _inside(plain, key)
        here = at + pointer_to(key)
        if inner is None and known is not None and not isinstance(known, NullReader):
            taken_out.append(here)
        else:
            out[key] = inner if known is None else _walk(inner, known, here, taken_out)
    return out


def _inside(reader: Reader, key: str) -> Reader | None:
    """Return the reader of what stands under a key; None where it is a method's own, or not known."""
    if isinstance(reader, ObjectReader):
        return reader.fields.get(key)
    if isinstance(reader, MapReader):
        return reader.inner
    return reader.common_keys.get(key) if isinstance(reader, PickReader) else None
