"""A change of a job (JSON Patch) in words: where in its cabinets or its table something else is to stand, and what."""

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from casewright.api.job.cells import JobTable
from casewright.api.job.json_patch import with_patch
from casewright.api.job.marks import with_mark
from casewright.api.use.job_input import JobInput
from casewright.sdk.errors import pointer_to, steps_of


def change_lines(patch: Sequence[Mapping[str, Any]], job: JobInput) -> list[str]:
    """Return what to write where: a line an operation, or of a job that came as a table, a line a cell."""
    if job.table is None:
        return [_operation_words(one, job.document) for one in patch]
    after = with_patch(job.document, patch)
    return [_cell_words(pointer, value, job.table) for pointer, value in _changed(job.document, after)]


def _operation_words(operation: Mapping[str, Any], document: Any) -> str:
    where = _where(operation["path"], document)
    if operation["op"] == "remove":
        return f"{where}: take it out"
    return f"{where}: {json.dumps(operation.get('value'), ensure_ascii=False)}"


def _where(pointer: str, document: Any) -> str:
    """Return the keys that lead to a value, of a cabinet's after its id; places in a list count from 1."""
    match steps_of(pointer):
        case ["cabinets", place, *keys] if place.isdigit() and int(place) < len(document["cabinets"]):
            name = f"cabinet {document['cabinets'][int(place)]['id']}"
            return f"{name}, {_keys(keys)}" if keys else name
        case keys:
            return _keys(keys)


def _keys(steps: Sequence[str]) -> str:
    return "".join(f" {int(step) + 1}" if step.isdigit() else f".{step}" for step in steps).strip(" .")


def _changed(before: Any, after: Any) -> Iterator[tuple[str, Any]]:
    """Yield each value of a document that is another, or is new; `None` for one that is gone."""
    was, now = dict(_values(before)), dict(_values(after))
    for pointer in {**now, **was}:
        if was.get(pointer) != now.get(pointer):
            yield pointer, now.get(pointer)


def _values(value: Any, pointer: str = "") -> Iterator[tuple[str, Any]]:
    """Yield every value that is no list or object, by its JSON Pointer."""
    if isinstance(value, dict):
        inner = [(str(key), item) for key, item in value.items()]
    elif isinstance(value, list):
        inner = [(str(place), item) for place, item in enumerate(value)]
    else:
        yield pointer, value
        return
    for key, item in inner:
        yield from _values(item, pointer + pointer_to(key))


def _cell_words(pointer: str, value: Any, table: JobTable) -> str:
    row, column = table.cell(pointer)
    if column not in table.columns:
        column, row = f"{column} (a new one)", max(row, table.cell("/cabinets/0")[0])
    if value is None:
        return f"row {row}, column {column}: empty the cell"
    text = value if isinstance(value, str) else with_mark(json.dumps(value), table.marks.decimal)
    return f"row {row}, column {column}: {text}"
