"""The headings of a job's table: dotted paths into a cabinet or the job, and the field each leads to."""

import re
from dataclasses import dataclass
from typing import Any

from casewright.api.job.picking import PickReader
from casewright.api.job.problems import advice
from casewright.api.job.reading import LeafReader, MapReader, NullReader, ObjectReader, Reader, RowsReader
from casewright.api.job.schema import JobSchemas
from marshmallow import fields

JOB, AT, UNREAD = "job.", "at.", "#"
"""How headings of columns begin that lead into the job, to a cabinet's places on the wall (`at.0.x` is the job's
`wall.cabinets_at`, then the id, then `0.x`), and of those that are the writer's own and not read."""
_PLACES = "wall.cabinets_at.id."


@dataclass(frozen=True, slots=True)
class Astray:
    """What is wrong with a heading that leads to no value, and what to do."""

    rule: str
    fix: str


def field_at(column: str, schemas: JobSchemas) -> fields.Field[Any] | Astray:
    """Return the field that a column's cells are read by."""
    at: Reader = schemas.cabinet
    path = column
    if column.startswith(JOB):
        at, path = schemas.root, column.removeprefix(JOB)
        if path.split(".")[0] == "cabinets":
            return Astray("a path into the job", "Head a cabinet's columns by its keys.")
    elif f"{column}.".startswith(AT):
        at, path = schemas.root, _PLACES + column.removeprefix(AT) if column.startswith(AT) else _PLACES[:-1]
    for step in path.split("."):
        deeper = _down(_within(at), step)
        if isinstance(deeper, list):
            own = f' A column of your own is let be as "{UNREAD}{column}".'
            return Astray("a path of known keys", _fix(step, deeper) + own)
        at = deeper
    at = _within(at)
    if isinstance(at, LeafReader):
        return at.field
    if isinstance(at, PickReader):
        fix = f"Write {column}.{at.field.tag}."
    elif isinstance(at, MapReader):
        fix = f"Go on to one of its entries by name: {column}.NAME."
    elif isinstance(at, ObjectReader):
        fix = f"Go on to a key of it: {column}.{next(iter(at.fields))}."
    else:
        fix = f"Go on to one of its entries: {column}.0."
    return Astray("a path that ends at a value", fix)


def _within(at: Reader) -> Reader:
    return at.inner if isinstance(at, NullReader) else at


def _down(at: Reader, step: str) -> Reader | list[str]:
    """Return the reader one step of a path leads to, or the steps that would lead somewhere."""
    if isinstance(at, ObjectReader):
        return at.fields.get(step) or list(at.fields)
    if isinstance(at, RowsReader):
        return at.inner if _is_index(step) else ["0", "1"]
    if isinstance(at, MapReader):
        return at.inner
    if isinstance(at, PickReader):
        if step == at.field.tag:
            return LeafReader(fields.String())
        if step in at.common_keys:
            return at.common_keys[step]
        for options in at.option_keys.values():
            if step in options:
                return LeafReader(options[step])
        known = [key for options in at.option_keys.values() for key in options]
        return [at.field.tag, *at.common_keys, *known]
    if isinstance(at, LeafReader) and _is_index(step):
        return at
    return []


def _fix(step: str, known: list[str]) -> str:
    word = re.split(r"[\s(\[]", step)[0] or step  # a unit after it is no part of the word
    return advice(word, known, most=20) if known else "End the path before this step."


def _is_index(step: str) -> bool:
    return step.isascii() and step.isdigit() and len(step) <= 4
