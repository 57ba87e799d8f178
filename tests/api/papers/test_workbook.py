"""The workbook: cells as numbers and text, no formula, no clock."""

import io
import zipfile
from collections import Counter
from collections.abc import Callable

import openpyxl
import pytest
import samples
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.model import Plan

SHEETS = ["Cut list", "Stock", "Steps", "Hardware", "Costs", "Checks", "Fits", "Parts", "Leftovers"]


@pytest.mark.parametrize("name", samples.JOBS)
def test_workbook_cells(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(made)))
    stops = any(check.level == "stop" for check in made.checks)
    assert book.sheetnames == [*(["STOP"] if stops else []), *SHEETS]
    unit = {"in": 25_400_000, "mm": 1_000_000}[made.job.units]
    sheet = book["Parts"]
    for part, row in zip(made.parts, sheet.iter_rows(min_row=2), strict=True):
        assert (row[1].value, row[4].value) == (part.id, part.quantity)
        for cell, nm in zip(row[6:9], (part.length, part.width, part.thickness), strict=True):
            assert cell.data_type == "n"
            assert cell.value == pytest.approx(nm / unit, abs=1e-3)
    for step, row in zip(made.steps, book["Steps"].iter_rows(min_row=2), strict=True):
        assert (row[0].value, row[8].value) == (step.number, step.do)
        fence = step.setting.fence
        assert row[3].value == (None if fence is None else pytest.approx(fence / unit, abs=1e-3))
    for sheet in book:
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.print_title_rows == "$1:$1"
        assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)


def test_workbook_takes_no_text_for_a_formula(plan: Callable[[str], Plan]) -> None:
    from dataclasses import replace

    made = plan("smallest")
    hostile = [replace(p, name=f"{c}1+1") for p, c in zip(made.parts, ("=", "+", "-", "@", "\x07="), strict=False)]
    data = documents.workbook(replace(made, parts=tuple(hostile)))
    archive = zipfile.ZipFile(io.BytesIO(data))
    sheets = [name for name in archive.namelist() if name.startswith("xl/worksheets/sheet")]
    assert len(sheets) == len(SHEETS)
    assert not any(b"<f>" in archive.read(name) for name in sheets)
    cells = [row[2] for row in openpyxl.load_workbook(io.BytesIO(data))["Parts"].iter_rows(min_row=2)]
    assert [c.value for c in cells] == ["=1+1", "+1+1", "-1+1", "@1+1", "=1+1"]
    assert all(c.data_type == "s" and c.quotePrefix for c in cells)


def test_workbook_knows_no_clock(bay: Plan) -> None:
    data = documents.workbook(bay)
    archive = zipfile.ZipFile(io.BytesIO(data))
    assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert archive.read("docProps/core.xml").count(b"2000-01-01T00:00:00Z") == 2
    assert data == documents.workbook(bay)


def test_a_workbook_names_its_job_and_can_be_filtered(bay: Plan) -> None:
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(bay)))
    assert book.properties.title == "Repair bay"
    # Every sheet's filter spans its heading and its rows.
    for sheet in book:
        assert sheet.auto_filter.ref == (sheet.dimensions if sheet.max_row > 1 else None)


def test_the_cut_list_stands_as_it_is_printed(bay: Plan) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(documents.workbook(bay)))["Cut list"]
    rows = list(sheet.iter_rows(min_row=2, values_only=True))
    assert [row[0] for row in rows] == list(range(1, len(rows) + 1))
    assert sum(row[2] for row in rows) == sum(part.quantity for part in bay.parts)
    sizes = {(part.material, part.length, part.width) for part in bay.parts}
    inches = {(row[3], round(row[4] * 25_400_000), round(row[5] * 25_400_000)) for row in rows}
    # Numbers are rounded to a ten-thousandth of an inch, 2540 nm.
    assert all(any(s[0] == m and abs(s[1] - a) <= 2540 and abs(s[2] - b) <= 2540 for m, a, b in inches) for s in sizes)


def test_checks_and_fits_are_all_there(bay: Plan) -> None:
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(bay)))
    assert [row[2] for row in book["Checks"].iter_rows(min_row=2, values_only=True)] == [
        check.message for check in sorted(bay.checks, key=lambda check: ("stop", "caution", "note").index(check.level))
    ]
    assert book["Fits"].max_row == len(bay.fits) + len(bay.unproved) + 1


def test_an_order_can_be_made_from_the_workbook(plan: Callable[[str], Plan]) -> None:
    """Hardware stands in all first and then by place; costs have a line for all of it, with a price or without."""
    made = plan("demo")
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(made)))
    counts = Counter[str]()
    for line in made.hardware:
        counts[line.item] += line.quantity
    hardware = list(book["Hardware"].iter_rows(min_row=2, values_only=True))
    totals, places = hardware[: len(counts)], hardware[len(counts) :]
    assert {row[1]: row[4] for row in totals} == counts
    assert [(row[1], row[4], row[5]) for row in places] == [(h.item, None, h.quantity) for h in made.hardware]
    money = [cell for row in book["Costs"].iter_rows(min_row=2, min_col=6, max_col=7) for cell in row]
    money += [row[0] for row in book["Stock"].iter_rows(min_row=2, min_col=8, max_col=8)]
    assert {cell.number_format for cell in money if cell.value is not None} == {"0.00"}  # cents, as a shop writes them
    costs = list(book["Costs"].iter_rows(min_row=2, values_only=True))
    assert {row[1]: row[3] for row in costs if row[0] == "hardware"} == counts
    sums = {row[0]: (row[6], row[8]) for row in costs if not row[1]}
    priced = sum(row[6] for row in costs if row[1] and row[6] is not None)
    without = sum(row[6] is None for row in costs if row[1])
    assert sums["in all"] == (pytest.approx(priced), f"{without} lines without an amount are not in it")
    assert sums["work"] == (None, "no line has an amount")


def test_what_is_printed_reads_on_both_papers(bay: Plan) -> None:
    """Widths are in characters of 7 dots and 5 dots of padding at 96 dots an inch (ECMA-376, 18.3.1.13)."""
    for sheet in openpyxl.load_workbook(io.BytesIO(documents.workbook(bay))):
        assert sheet.print_options.gridLines  # words that fill their column end where the next begins
        last = openpyxl.utils.range_boundaries(str(sheet.print_area).rpartition("!")[2])[2]
        letters = [openpyxl.utils.get_column_letter(c) for c in range(1, last + 1)]
        inches = sum((7 * sheet.column_dimensions[letter].width + 5) / 96 for letter in letters)
        margins = sheet.page_margins.left + sheet.page_margins.right
        for long in (297 / 25.4, 11.0):
            # Calibri of 11 points, made smaller where the columns are wider than the page: 7.5 points at least, and 9
            # for steps, which are read at arm's length (common practice, no source).
            least = 9 if sheet.title == "Steps" else 7.5
            assert 11 * min(1.0, (long - margins) / inches) >= least, sheet.title


@pytest.mark.parametrize("name", ["repair-bay", "hostile"])
def test_every_row_is_as_high_as_its_text(plan: Callable[[str], Plan], name: str) -> None:
    """A line of 11 points is 15 high; a column is as wide as so many figures, which text of as many letters fills.

    Where a line ends a space falls away, so lines of w letters hold one more each, but for the last.
    """
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(plan(name))))
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                wide = sheet.column_dimensions[cell.column_letter].width
                if isinstance(cell.value, str) and len(cell.value) > wide and cell.alignment.wrap_text:
                    high = sheet.row_dimensions[cell.row].height
                    assert high is not None, (sheet.title, cell.coordinate)
                    assert high >= 15 * -(-(len(cell.value) + 1) // (wide + 1)), (sheet.title, cell.coordinate)


def test_what_the_bench_needs_is_printed_and_nothing_else_makes_its_rows_high(bay: Plan) -> None:
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(bay)))
    for sheet in book:
        _, _, last, rows = openpyxl.utils.range_boundaries(str(sheet.print_area).rpartition("!")[2])
        for row in sheet.iter_rows(min_row=2):
            assert {cell.column <= last for cell in row if cell.alignment.wrap_text} <= {True}, sheet.title
        assert rows == sheet.max_row or sheet.title == "Leftovers"
        printed = [cell.value for cell in sheet[1][:last]]
        if sheet.title == "Steps":
            assert {"Step", "Machine", "What", "Check", "Done"} <= set(printed)
            assert "Pieces" not in printed  # the booklet has them, beside the drawing of each
    leftovers = book["Leftovers"]
    _, _, _, rows = openpyxl.utils.range_boundaries(str(leftovers.print_area).rpartition("!")[2])
    keep = [row[5] == "keep" for row in leftovers.iter_rows(min_row=2, values_only=True)]
    assert keep == sorted(keep, reverse=True)
    assert sum(keep) == rows - 1


def test_stock_with_defects_is_on_hand_under_the_name_it_lies_there_under(registry) -> None:
    job = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [],
        "loose_parts": [{"id": "flap", "material": "ply", "length": 500, "width": 200}],
        "stock": {
            "offcuts": [
                {"id": "knotty", "material": "ply", "length": 560, "width": 220,
                 "defects": [{"x": 0, "y": 0, "length": 20, "width": 220}]}
            ]
        },
    }  # fmt: skip
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(make_plan(read_job(job, registry), registry))))
    row = next(book["Stock"].iter_rows(min_row=2, values_only=True))
    # all 560 by 220 of it lie in the rack; what is clear of the knot is a piece of it
    assert row[:7] == ("on hand", 1, "knotty", "ply", 560, 220, 18)
    assert row[8] == "knotty.1 1"
