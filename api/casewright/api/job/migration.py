"""A job of an earlier form as today's: what is refused now, taken out or renamed, each with its place."""

from dataclasses import dataclass, field
from typing import Any

from casewright.api.job.picking import PickReader
from casewright.api.job.reading import MapReader, NullReader, ObjectReader, Reader, RowsReader
from casewright.api.job.schema import job_schemas
from casewright.sdk.errors import pointer_to
from casewright.sdk.loader import Registry

_RENAMED = {"/rates/minutes/cross-cut": "crosscut"}
"""Keys that have another name today, by where they stood."""


@dataclass(slots=True)
class Migrated:
    """The job as it is to be, where `null` was taken out (it means nothing there since 0.2), and the keys renamed."""

    document: Any
    taken_out: list[str] = field(default_factory=list)
    renamed: dict[str, str] = field(default_factory=dict)


def migrated(document: Any, registry: Registry) -> Migrated:
    """Return a job document in today's form. What was no job stays none."""
    out = Migrated(None)
    out.document = _walk(document, job_schemas(registry).root, "", out)
    return out


def _walk(value: Any, reader: Reader, at: str, made: Migrated) -> Any:
    plain = reader.inner if isinstance(reader, NullReader) else reader
    if isinstance(plain, RowsReader) and isinstance(value, list):
        return [_walk(one, plain.inner, f"{at}/{i}", made) for i, one in enumerate(value)]
    if not isinstance(value, dict):
        return value
    out = {}
    for key, inner in value.items():
        known = _inside(plain, key)
        here = at + pointer_to(key)
        if here in _RENAMED and known is None:
            made.renamed[here] = key = _RENAMED[here]
            known = _inside(plain, key)
        if inner is None and known is not None and not isinstance(known, NullReader):
            made.taken_out.append(here)
        else:
            out[key] = inner if known is None else _walk(inner, known, here, made)
    return out


def _inside(reader: Reader, key: str) -> Reader | None:
    """Return the reader of what stands under a key; None where it is a method's own, or not known."""
    if isinstance(reader, ObjectReader):
        return reader.fields.get(key)
    if isinstance(reader, MapReader):
        return reader.inner
    return reader.common_keys.get(key) if isinstance(reader, PickReader) else None
