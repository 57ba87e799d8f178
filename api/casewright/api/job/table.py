"""CSV as it comes in: one cabinet a row, headed by dotted paths into the cabinet.

Columns are `id`, `width`, `case.corner.method`, `space.tiers.0.front` and so on; a whole number in a path is a
place in a list. Columns that begin with `at.` are the cabinet's places on the wall. Columns that begin with `job.` are
paths into the job and are read from the first row; later rows leave them empty or repeat them. An empty cell is a key
not given. Whether a cell is a number, `true`/`false` or text follows from the schema's field at its path, never from
guessing.

Cells are separated by commas, semicolons or tabs: as the caller or a first line `sep=;` says, else whichever the
heading has. Where that is no comma, or the caller says so, a number may have a decimal comma: all have the mark that
most have. Text is UTF-8, or UTF-16 with its mark, as spreadsheets save it. Columns without a heading and without a cell
are left over, and let be; so is a column whose heading begins with `#`, and whatever stands in it.

Every problem of a table is a `CellProblem`, which names row and column beside the pointer; what is wrong with the table
itself, and what a schema refuses in JSON too, is a `BadDocumentError`.
"""

import re
from collections.abc import Sequence
from typing import Any

from casewright.api.job import limits
from casewright.api.job.cells import CellProblem, JobTable
from casewright.api.job.columns import AT, JOB, UNREAD, Astray, field_at
from casewright.api.job.marks import GUESSED, Marks, Miswritten, quoted_decimals, typed, usual_decimal, with_point
from casewright.api.job.problems import shown
from casewright.api.job.schema import JobSchemas, job_schemas
from casewright.api.job.table_text import MARKS, parted_otherwise, rows_of
from casewright.sdk.errors import BadDocumentError, pointer_to
from casewright.sdk.fields import Choice, Flag, Text
from casewright.sdk.loader import Registry
from marshmallow import fields

_ID = "id"
_HEADING = re.compile(r"[\w.#-]+")
_FAULT = re.compile(r"#(?:REF!|VALUE!|NAME\?|DIV/0!|N/A|NUM!|NULL!|SPILL!|CALC!)|Err:[0-9]{3}")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,15})(?:\.[0-9]{1,15})?\Z", re.ASCII)


def read_table(body: bytes, registry: Registry, marks: Marks = GUESSED) -> JobTable:
    """Return the job a CSV body stands for. Raises `BadDocumentError` where rows and cells cannot be told apart."""
    return _Table(job_schemas(registry), marks).read(body)


class _Table:
    def __init__(self, schemas: JobSchemas, marks: Marks) -> None:
        self.schemas = schemas
        self.problems: list[CellProblem] = []
        self.mark, self.decimal = marks.delimiter, marks.decimal
        self.leaves: dict[str, fields.Field[Any] | None] = {}
        self.places: dict[str, tuple[int, str]] = {}
        self.cabinets: dict[int, int] = {}
        self.names: dict[int, str] = {}

    def read(self, body: bytes) -> JobTable:
        rows, self.mark = rows_of(body, self.mark)
        top = next(place for place, row in enumerate(rows) if any(cell.strip() for cell in row))
        heading = _without_empty([cell.strip() for cell in rows[top]])
        under = [(number, row) for number, row in enumerate(rows[top + 1 :], start=top + 2) if any(map(str.strip, row))]
        heading = self._checked(heading, top + 1, under)
        self.decimal = self.decimal or self._usual_decimal(heading, [row for _, row in under])
        document: dict[str, Any] = {"cabinets": []}
        for number, row in under:
            self._row(document, heading, row, number)
        columns = frozenset(column for column, leaf in self.leaves.items() if leaf is not None)
        texts = frozenset(column for column in columns if _is_text(self.leaves[column]))
        marks = Marks(self.mark, self.decimal)
        return JobTable(_lists(document), self.places, tuple(self.problems), marks, columns, texts)

    def _usual_decimal(self, heading: list[str], rows: list[list[str]]) -> str:
        """Return the decimal mark of the table.

        Where the comma stands between cells too, those that hold one are quoted, as some programs save them. Such a
        comma is a decimal mark where none of them can stand between thousands.
        """
        numbers = [place for place, column in enumerate(heading) if not _is_text(self.leaves[column])]
        cells = [row[place].strip() for row in rows for place in numbers if place < len(row)]
        return "." if self.mark == "," and not quoted_decimals(cells) else usual_decimal(cells)

    def _settle(self) -> None:
        if self.problems:
            raise BadDocumentError(*self.problems[: limits.PROBLEMS])

    def _note(self, row: int, column: str, rule: str, got: str, fix: str) -> None:
        pointer = self._pointer(row, column) if row in self.cabinets else ""
        self.problems.append(CellProblem(pointer, rule, got, fix, row, column))

    def _pointer(self, row: int, column: str) -> str:
        """Return where in the document the value of a cell is, or of a row where the column is empty."""
        if column.startswith(JOB):
            return pointer_to(*column.removeprefix(JOB).split("."))
        if column.startswith(AT):
            return pointer_to("wall", "cabinets_at", self.names[row], *column.removeprefix(AT).split("."))
        return pointer_to("cabinets", self.cabinets[row], *(column.split(".") if column else ()))

    def _checked(self, heading: list[str], at: int, under: list[tuple[int, list[str]]]) -> list[str]:
        """Return the headings, those that say for the second time what one before does as columns that are not read."""
        lower = next((number for number, row in under if _ID in map(str.strip, row)), 0)
        if lower and _ID not in heading:
            fix = f"Row {lower} seems to be the heading; take out what stands over it."
            self._note(at, "", "a heading in the first row", shown(heading[0]), fix)
            self._settle()
        if len(heading) == 1 and not _HEADING.fullmatch(heading[0]):
            other = next((words for mark, words in MARKS.items() if mark in heading[0]), None)
            fix = f"Name {other} as the mark between cells." if other else "Use commas, semicolons or tabs."
            self._note(at, heading[0], f"headings separated by {MARKS[self.mark]}", shown(heading[0]), fix)
            self._settle()
        once: list[str] = []
        for column in heading:
            if column in once and not column.startswith(UNREAD):
                self._note(at, column, "each column once", shown(column), "Take the second one out.")
                column = f"{UNREAD}{column}"
            once.append(column)
            self.leaves[column] = None if column.startswith(UNREAD) else self._leaf(column, at)
        return once

    def _leaf(self, column: str, row: int) -> fields.Field[Any] | None:
        """Return the field a column is read by, noting a path that leads nowhere."""
        field = field_at(column, self.schemas)
        if isinstance(field, Astray):
            self._note(row, column, field.rule, shown(column), field.fix)
            return None
        return field

    def _plain(self, cell: str, declared: fields.Field[Any], at: tuple[int, str]) -> str:
        """Return a cell with a decimal point, where it is a number written as the rest of the table has it."""
        if _FAULT.fullmatch(cell):
            self._note(*at, "a value", f"{shown(cell)}, a fault of the spreadsheet's formula", "Mend the formula.")
            return ""
        if _is_text(declared):
            return cell
        read = with_point(typed(cell), self.decimal)
        if isinstance(read, Miswritten):
            self._note(*at, read.rule, shown(cell), read.fix)
            return ""
        return read

    def _row(self, document: dict[str, Any], heading: list[str], row: list[str], number: int) -> None:
        index = self.cabinets[number] = len(document["cabinets"])
        row = [*row[: len(heading)], *_without_empty([cell.strip() for cell in row[len(heading) :]])]
        if other := parted_otherwise(row, self.mark, len(heading)):
            rule, fix = f"cells separated by {MARKS[self.mark]}, as the headings are", "Separate all rows by one mark."
            self._note(number, "", rule, f"cells separated by {MARKS[other]}", fix)
            return
        if len(row) > len(heading):
            got = f"{len(row)} cells under {len(heading)} headings"
            self._note(number, "", "a heading over each cell", got, "Give each cell a heading.")
        cabinet: dict[str, Any] = {}
        self.places[f"/cabinets/{index}"] = (number, "")
        named = (cell.strip() for column, cell in zip(heading, row, strict=False) if column == _ID)
        self.names[number] = next(named, "")
        for column, cell in zip(heading, row, strict=False):
            if not cell.strip():
                continue
            declared = self.leaves[column]
            if declared is None:
                continue
            plain = self._plain(cell.strip(), declared, (number, column))
            if not plain:
                continue
            value = _value(plain, declared)
            if column.startswith(AT):
                self._spot(document, (number, column), value)
                continue
            if not column.startswith(JOB):
                _put(cabinet, column.split("."), value)
                self.places[pointer_to("cabinets", index, *column.split("."))] = (number, column)
                continue
            path = column.removeprefix(JOB)
            if index == 0:
                _put(document, path.split("."), value)
                self.places[pointer_to(*path.split("."))] = (number, column)
            elif _get(document, path) != value:
                self._note(number, column, "the first row's value, or nothing", shown(cell), "Empty this cell.")
        document["cabinets"].append(cabinet)

    def _spot(self, document: dict[str, Any], at: tuple[int, str], value: Any) -> None:
        """Put one value of a cabinet's places on the wall where the job has it; a row without an id is refused."""
        row, column = at
        if name := self.names[row]:
            steps = ("wall", "cabinets_at", name, *column.removeprefix(AT).split("."))
            _put(document, steps, value)
            self.places[pointer_to(*steps[:3])] = (row, "")
            self.places[pointer_to(*steps)] = at


def _without_empty(cells: list[str]) -> list[str]:
    """Return cells without the empty ones after the last."""
    return cells[: max((place for place, cell in enumerate(cells, start=1) if cell), default=0)]


def _is_text(declared: fields.Field[Any] | None) -> bool:
    return declared is None or isinstance(declared, (Text, Choice, fields.String))


def _value(cell: str, declared: fields.Field[Any]) -> Any:
    """Return a cell as the JSON value its field reads: a number, true or false, or text."""
    if _is_text(declared):
        return cell
    if cell in ("true", "false") and isinstance(declared, Flag):
        return cell == "true"
    if not _NUMBER.match(cell):
        return cell
    return float(cell) if "." in cell else int(cell)


def _put(target: dict[str, Any], path: Sequence[str], value: Any) -> None:
    *steps, last = path
    for step in steps:
        inner = target.setdefault(step, {})
        if not isinstance(inner, dict):
            inner = target[step] = {}
        target = inner
    target[last] = value


def _get(target: Any, path: str) -> Any:
    for step in path.split("."):
        target = target.get(step) if isinstance(target, dict) else None
    return target


def _lists(value: Any) -> Any:
    """Turn objects keyed 0, 1, 2 … without a gap into arrays."""
    if isinstance(value, list):
        return [_lists(item) for item in value]
    if not isinstance(value, dict):
        return value
    inner = {key: _lists(item) for key, item in value.items()}
    places = [str(i) for i in range(len(inner))]
    return [inner[i] for i in places] if inner and set(places) == set(inner) else inner
