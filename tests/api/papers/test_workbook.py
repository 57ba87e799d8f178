"""The workbook: cells as numbers and text, no formula, no clock."""

import io
import zipfile
from collections.abc import Callable

import openpyxl
import pytest
import samples
from casewright.api import papers as documents
from casewright.sdk.model import Plan


@pytest.mark.parametrize("name", samples.JOBS)
def test_workbook_cells(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(made)))
    assert book.sheetnames == ["Parts", "Hardware", "Steps", "Leftovers"]
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
    assert b"<f>" not in zipfile.ZipFile(io.BytesIO(data)).read("xl/worksheets/sheet1.xml")
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
