"""Tables as people save them from spreadsheets: separators, decimal marks, quotes, line ends, encodings.

Each is the same two cabinets, as programs of several countries save them (from memory of their exports; the forms are
RFC 4180's and those it names as variants). It is read as the plain table is, or refused with row and column.
"""

from collections.abc import Callable
from typing import Any

import pytest
from casewright.api.job.cells import CellProblem
from casewright.api.job.table import read_table
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry

HEADING = ("id", "width", "height", "depth", "title", "case.material", "job.units", "job.materials.ply.kind",
           "job.materials.ply.stuff", "job.materials.ply.thickness")  # fmt: skip
FIRST = ("tools", "600.5", "700", "300", "Tools", "ply", "mm", "sheet", "birch-plywood", "17.8")
SECOND = ("spares", "450", "700", "300.25", "Spare parts", "ply", "", "", "", "")


def table(mark: str = ",", decimal: str = ".", end: str = "\r\n", wrap: Callable[[str], str] = str) -> str:
    """Return the two cabinets as text."""
    rows = (HEADING, *(tuple(c.replace(".", decimal) if c[:1].isdigit() else c for c in r) for r in (FIRST, SECOND)))
    return "".join(mark.join(map(wrap, row)) + end for row in rows)


def quoted(cell: str) -> str:
    return f'"{cell}"'


def where_needed(cell: str) -> str:
    return f'"{cell}"' if "," in cell else cell


BOM = "\ufeff"
READ: dict[str, bytes] = {
    "commas, CRLF": table().encode(),
    "commas, LF": table(end="\n").encode(),
    "commas, with a mark": (BOM + table()).encode(),
    "all cells quoted": table(wrap=quoted).encode(),
    "no line end after the last row": table().rstrip().encode(),
    "empty rows after the last": (table() + ",,,,,,,,,\r\n,,,,,,,,,\r\n").encode(),
    "an empty row between": table().replace("spares", "\r\nspares").encode(),
    "spaces round cells": table(wrap=lambda cell: f" {cell} ").encode(),
    "semicolons, decimal comma": table(";", ",").encode(),
    "semicolons, decimal comma, with a mark": (BOM + table(";", ",")).encode(),
    "semicolons, decimal comma, LF": table(";", ",", "\n").encode(),
    "semicolons, decimal point": table(";").encode(),
    "semicolons, all quoted": table(";", ",", wrap=quoted).encode(),
    "semicolons named by a first line": ("sep=;\r\n" + table(";", ",")).encode(),
    "commas named by a first line": ("sep=,\r\n" + table()).encode(),
    "tabs named by a first line": ("sep=\t\n" + table("\t", ",", "\n")).encode(),
    "tabs, decimal point": table("\t").encode(),
    "tabs, decimal comma": table("\t", ",").encode(),
    "tabs, UTF-16 little end first": (BOM + table("\t", ",")).encode("utf-16-le"),
    "tabs, UTF-16 big end first": (BOM + table("\t")).encode("utf-16-be"),
    "semicolons, UTF-16": (BOM + table(";", ",")).encode("utf-16-le"),
    "empty cells after each row, the heading too": table().replace("\r\n", ",,\r\n").encode(),
    "fewer cells in a row": table().replace(",,,,\r\n", "\r\n").encode(),
    "rows filtered away": (table() + "\r\n\r\n").encode(),
}
REFUSED: dict[str, tuple[bytes, int, str]] = {
    "decimal comma between commas": (table(decimal=",").encode(), 2, ""),
    "two decimal marks": (table(";", ",").replace("300,25", "300.25").encode(), 3, "depth"),
    "a number with thousands": (table(";", ",").replace("600,5", "1.600,5").encode(), 2, "width"),
    "Latin letters of one byte": (table(";", ",").replace("Tools", "Ger\u00e4te").encode("cp1252"), 2, "title"),
    "an open quote": (table().replace("Spare parts", '"Spare parts').encode(), 3, ""),
    "a column twice": (table().replace("title", "depth").encode(), 1, "depth"),
    "a heading of another language": (table(";", ",").replace("width", "Breite").encode(), 1, "Breite"),
    "a word for a number": (table().replace("450", "about 450").encode(), 3, "width"),
}


def plan_of(body: bytes, registry: Registry) -> Any:
    from casewright.api.use.job_input import JobInput

    return JobInput.from_table(body, registry).read()


def test_there_are_thirty() -> None:
    assert len(READ) + len(REFUSED) >= 30


@pytest.mark.parametrize("name", READ)
def test_it_is_read_as_the_plain_one(name: str, registry: Registry) -> None:
    assert read_table(READ[name], registry).document == read_table(READ["commas, CRLF"], registry).document


def test_the_plain_one_says_what_it_says(registry: Registry) -> None:
    document = read_table(READ["commas, CRLF"], registry).document
    assert [(c["id"], c["width"], c["depth"]) for c in document["cabinets"]] == [
        ("tools", 600.5, 300), ("spares", 450, 300.25),
    ]  # fmt: skip
    assert document["materials"]["ply"]["thickness"] == 17.8


@pytest.mark.parametrize("name", REFUSED)
def test_it_is_refused_by_row_and_column(name: str, registry: Registry) -> None:
    body, row, column = REFUSED[name]
    with pytest.raises(ProblemsError) as refused:
        plan_of(body, registry)
    places = [(one.row, one.column) for one in refused.value.problems if isinstance(one, CellProblem)]
    assert (row, column) in places


def test_all_faults_are_named_at_once(registry: Registry) -> None:
    body = table().replace("title", "titel").replace(",,,,\r\n", ",,,,,,more\r\n").encode()
    with pytest.raises(ProblemsError) as refused:
        plan_of(body, registry)
    rows = {one.row for one in refused.value.problems if isinstance(one, CellProblem)}
    assert rows == {1, 3}
