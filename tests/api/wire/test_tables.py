"""CSV as it leaves: as many cells as headings in every row, sums kept, no cell a spreadsheet takes for a formula."""

import csv
import io
from collections.abc import Callable
from typing import Any

import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job
from casewright.api.wire import tables


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return plan(example_job())


@pytest.mark.parametrize("write", [tables.parts_csv, tables.hardware_csv, tables.settings_csv, tables.checks_csv])
def test_rows_are_as_long_as_their_heading(write: Callable[[Any], bytes], document: dict[str, Any]) -> None:
    heading, *rows = csv.reader(io.StringIO(write(document).decode(), newline=""))
    assert rows
    assert {len(row) for row in rows} == {len(heading)}
    assert len(set(heading)) == len(heading)


def test_a_part_of_the_table_is_the_part_of_the_plan(document: dict[str, Any]) -> None:
    rows = list(csv.DictReader(io.StringIO(tables.parts_csv(document).decode(), newline="")))
    assert [row["id"] for row in rows] == [part["id"] for part in document["parts"]]
    for row, part in zip(rows, document["parts"], strict=True):
        assert float(row["length"]) == part["length"]
        assert row["width_text"] == part["text"]["width"]


def test_a_reason_reads_as_a_sum() -> None:
    """22 1/2 + 3/8 - 1/8 = 22 3/4."""
    terms = [("inside width", 22.5), ("groove depth", 0.375), ("gap", -0.125)]
    written = tables.reason([{"term": term, "value": value} for term, value in terms])
    assert written == "inside width 22.5 + groove depth 0.375 - gap 0.125"


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@a", "\tx", "\rx"])
def test_text_is_no_formula(text: str) -> None:
    """A leading apostrophe makes a spreadsheet take a cell for text (from memory)."""
    ((cell,),) = csv.reader(io.StringIO(tables.write_csv(("a",), [(text,)]).decode().partition("\r\n")[2], newline=""))
    assert cell == f"'{text}"


def test_numbers_and_nothing_are_written_bare() -> None:
    assert tables.write_csv(("a", "b"), [(-1.5, None)]) == b"a,b\r\n-1.5,\r\n"


def test_lines_end_as_rfc_4180_says() -> None:
    assert tables.write_csv(("a", "b"), [("x,y", 'say "so"'), (1, None)]) == b'a,b\r\n"x,y","say ""so"""\r\n1,\r\n'
