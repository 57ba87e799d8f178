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


WRITERS = (tables.parts_csv, tables.hardware_csv, tables.steps_csv, tables.cutting_csv, tables.checks_csv)


@pytest.mark.parametrize("write", WRITERS)
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


def test_a_step_is_a_row_for_each_line_of_pieces(document: dict[str, Any]) -> None:
    rows = list(csv.DictReader(io.StringIO(tables.steps_csv(document).decode(), newline="")))
    steps = {str(step["number"]): step for step in document["steps"]}
    assert len(rows) == sum(len(step["on"]) or 1 for step in steps.values())
    for row in rows:
        step = steps[row["number"]]
        assert (row["do"], row["machine"], row["units"]) == (step["do"], step["machine"], "in")
        for name in ("fence", "stop", "height", "cutter", "depth"):
            assert (float(row[name]) if row[name] else None) == step["setting"].get(name)
        assert [int(number) for number in row["needs"].split()] == step["needs"]


def test_the_cutting_table_is_the_steps_that_cut_and_mill(document: dict[str, Any]) -> None:
    rows = list(csv.DictReader(io.StringIO(tables.cutting_csv(document).decode(), newline="")))
    assert {row["number"] for row in rows} == {
        str(step["number"]) for step in document["steps"] if step["stage"] in ("cut", "mill")
    }
    assert tables.cutting_csv({**document, "stock": None}).count(b"\r\n") == 1  # the heading


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
