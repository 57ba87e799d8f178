"""CSV as it leaves: as many cells as headings in every row, sums kept, no cell a spreadsheet takes for a formula."""

import csv
import io
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job
from casewright.api.wire import tables


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return plan(example_job())


WRITERS = (
    tables.parts_csv,
    tables.hardware_csv,
    tables.steps_csv,
    tables.cutting_csv,
    tables.checks_csv,
    tables.mounting_csv,
    tables.costs_csv,
)


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


def rows_of(written: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(written.decode(), newline="")))


def test_a_wall_fastener_is_a_row_with_its_place_in_job_units(document: dict[str, Any]) -> None:
    rows = rows_of(tables.mounting_csv(document))
    assert len(rows) == sum(len(hung["fasteners"]) for hung in document["mounting"])
    first = rows[0]
    assert (first["cabinet"], first["method"], first["number"], first["units"]) == ("tools", "bevel-cleat", "1", "in")
    assert float(first["at"]) == 7  # the first stud of the example's wall
    # The cabinet's bottom is set at 54, and is set in: the strip is higher, and under the cabinet's top at 54 + 33.
    assert 54 < float(first["height"]) < 87
    assert {hung["cabinet"] for hung in document["mounting"]} == {row["cabinet"] for row in rows}


def test_a_cabinet_without_known_fasteners_is_a_row(document: dict[str, Any]) -> None:
    hung = {"cabinet": "bench", "method": "screw-strip", "lengths": {}, "lift": 0, "cautions": []}
    (row,) = rows_of(tables.mounting_csv({**document, "mounting": [hung]}))
    assert {name: cell for name, cell in row.items() if cell} == {
        "cabinet": "bench", "method": "screw-strip", "units": "in",
    }  # fmt: skip


def test_costs_without_rates_are_an_order_of_stock_and_of_all_hardware() -> None:
    document = plan({key: value for key, value in example_job().items() if key != "rates"})
    *rows, total = rows_of(tables.costs_csv(document))
    hardware = Counter[str]()
    for line in document["hardware"]:
        hardware[line["item"]] += line["quantity"]
    assert {row["item"]: float(row["quantity"]) for row in rows if row["kind"] == "hardware"} == hardware
    # What has no price has an empty cell, and the total is of what has one: here stock alone.
    assert not any(row["rate"] or row["amount"] for row in rows if row["kind"] != "stock")
    paid = sum(one["cost"] for one in document["stock"]["buy"])
    assert float(total["amount"]) == pytest.approx(paid)
    others = sum(row["kind"] != "stock" for row in rows)
    assert total["note"] == f"{others} lines without an amount are not in it"
    rows = [row for row in rows if row["kind"] == "stock"]
    bought = {one["stock"]: one for one in document["stock"]["buy"]}
    assert {row["item"]: float(row["quantity"]) for row in rows} == {
        name: one["quantity"] for name, one in bought.items()
    }
    assert rows[0]["size"] == "45/64 in × 96 in × 48 in"  # 0.709 in to the tape's 1/64, and what the job says of it


def test_costs_by_rates_end_with_their_total() -> None:
    job = example_job()
    job["rates"] = {"currency": "EUR", "hour": 40, "minutes": {"rip": 2}}
    *lines, total = rows_of(tables.costs_csv(plan(job)))
    assert total["kind"] == "total"
    assert total["name"] == "EUR"
    amounts = [float(row["amount"]) for row in lines if row["amount"]]
    assert float(total["amount"]) == pytest.approx(sum(amounts), abs=0.005 * len(amounts))
    missing = sum(not row["amount"] for row in lines)
    assert total["note"] == f"{missing} lines without an amount are not in it"


def test_a_total_of_nothing_that_has_a_price_is_empty(document: dict[str, Any]) -> None:
    bare = [line for line in document["costs"]["lines"] if line["amount"] is None]
    costs = {**document["costs"], "lines": bare, "missing": len(bare), "total": None}
    *lines, total = rows_of(tables.costs_csv({**document, "stock": None, "costs": costs}))
    assert all(row["quantity"] and not row["amount"] for row in lines)
    assert (total["amount"], total["note"]) == ("", "no line has an amount")
