"""The plan as a workbook: parts, hardware, steps, leftovers.

Numbers are number cells; text is never a formula.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from casewright.api.engine.work.lying import piece_words
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.appendix import reason
from casewright.api.papers.text import clean
from casewright.sdk.model import Operation, Plan
from casewright.sdk.units import to_number
from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

LENGTHS = {"in": "0.000", "mm": "0.00"}
_START = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
_STAMP = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(</dcterms:)")
_LONGEST = 32_000
"""A cell holds 32 767 characters."""


def workbook(plan: Plan) -> bytes:
    """Return the plan as XLSX. The same plan always gives the same bytes."""
    facts = Facts(plan)
    book = Workbook()
    book.properties.creator = "casewright"
    book.properties.title = facts.title
    book.properties.created = _START
    first = book.active
    assert isinstance(first, Worksheet)
    if facts.stops:
        _stops(first, facts)
        first = book.create_sheet()
    _parts(first, facts)
    _hardware(book.create_sheet(), facts)
    _steps(book.create_sheet(), facts)
    _leftovers(book.create_sheet(), facts)
    out = BytesIO()
    book.save(out)
    return _timeless(out.getvalue())


def _timeless(data: bytes) -> bytes:
    """Return a workbook's archive with every date in it set to one moment."""
    out = BytesIO()
    with ZipFile(BytesIO(data)) as old, ZipFile(out, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            body = old.read(name)
            if name == "docProps/core.xml":
                body = _STAMP.sub(rb"\g<1>2000-01-01T00:00:00Z\g<3>", body)
            entry = ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = ZIP_DEFLATED
            new.writestr(entry, body)
    return out.getvalue()


@dataclass(frozen=True, slots=True)
class _Columns:
    """The columns of a sheet: headings, widths in characters, and which (from 1) hold lengths."""

    heads: Sequence[str]
    widths: Sequence[float]
    lengths: Sequence[int] = ()


def _sheet(sheet: Worksheet, facts: Facts, title: str, columns: _Columns, rows: Sequence[Sequence[Any]]) -> None:
    """Fill a sheet: a heading row, number cells with the format of a length where it is one, print set-up."""
    heads = columns.heads
    sheet.title = title
    rule = Border(bottom=Side("thin"))
    for c, head in enumerate(heads, start=1):
        top: Any = sheet.cell(1, c, head)
        top.font = Font(bold=True)
        top.border = rule
        top.alignment = Alignment(wrap_text=True, vertical="bottom")
    for r, row in enumerate(rows, start=2):
        for c, value in enumerate(row, start=1):
            if value is None or value == "":
                continue
            cell: Any = sheet.cell(r, c)
            if isinstance(value, str):
                cell.value = clean(value, _LONGEST)
                cell.data_type = "s"
                cell.quotePrefix = cell.value.startswith(("=", "+", "-", "@"))
                cell.alignment = Alignment(wrap_text=True, vertical="top")
            else:
                cell.value = value
                cell.alignment = Alignment(vertical="top")
                if c in columns.lengths:
                    cell.number_format = LENGTHS[facts.units]
    for c, width in enumerate(columns.widths, start=1):
        sheet.column_dimensions[get_column_letter(c)].width = width
    sheet.freeze_panes = "A2"
    if rows:
        sheet.auto_filter.ref = f"A1:{get_column_letter(len(heads))}{len(rows) + 1}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = 1 if facts.units == "in" else 9
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = "1:1"
    header: Any = sheet.oddHeader
    footer: Any = sheet.oddFooter
    header.right.text = facts.stop_words
    header.left.text = facts.title.replace("&", "&&")[:200]
    footer.left.text = title
    footer.right.text = "&P / &N"


def _stops(sheet: Worksheet, facts: Facts) -> None:
    rows = [(check.subject, check.message, check.code) for check in facts.stops]
    _sheet(sheet, facts, "STOP", _Columns((facts.stop_words, "Why", "Code"), (36, 90, 24)), rows)


def _parts(sheet: Worksheet, facts: Facts) -> None:
    units = facts.units
    heads = ("Cabinet", "Part", "Name", "Role", "Pieces", "Material", f"Length {units}", f"Width {units}",
             f"Thickness {units}", "Length, tape", "Width, tape", "Grain", "Edge band", "Why this length",
             "Why this width")  # fmt: skip
    rows = [
        (
            p.cabinet, p.id, p.name, p.role, p.quantity, p.material, facts.number(p.length), facts.number(p.width),
            facts.number(p.thickness), facts.tape(p.length), facts.tape(p.width), p.grain,
            ", ".join(dict.fromkeys(b.material for b in p.bands)), reason(facts, p.why_length),
            reason(facts, p.why_width),
        )
        for p in facts.plan.parts
    ]  # fmt: skip
    widths = (12, 26, 22, 12, 8, 14, 10, 10, 10, 14, 14, 13, 12, 48, 48)
    _sheet(sheet, facts, "Parts", _Columns(heads, widths, (7, 8, 9)), rows)


def _hardware(sheet: Worksheet, facts: Facts) -> None:
    rows = [(h.cabinet, h.item, h.name, h.used_for, h.quantity) for h in facts.plan.hardware]
    columns = _Columns(("Cabinet", "Item", "What", "For", "Pieces"), (14, 20, 50, 40, 8))
    _sheet(sheet, facts, "Hardware", columns, rows)


def _steps(sheet: Worksheet, facts: Facts) -> None:
    units = facts.units
    heads = ("Step", "Stage", "Machine", f"Fence {units}", f"Stop {units}", f"Height {units}", f"Depth {units}",
             f"Cutter {units}", "What", "Pieces", "Check", "Mind", "After", "Minutes", "Start, min", "Finish, min",
             "Done")  # fmt: skip
    rows = [
        (
            step.number, step.stage, step.machine,
            *(None if nm is None else to_number(nm, units) for nm in (
                step.setting.fence, step.setting.stop, step.setting.height, step.setting.depth, step.setting.cutter,
            )),
            step.do, "; ".join(piece_words(step, facts.parts, facts.sides, facts.tape)), step.check,
            " ".join(step.cautions), " ".join(map(str, step.needs)), *_times(facts, step),
        )
        for step in facts.plan.steps
    ]  # fmt: skip
    columns = _Columns(heads, (6, 11, 14, 10, 10, 10, 10, 10, 50, 50, 26, 40, 12, 9, 9, 9, 7), (4, 5, 6, 7, 8))
    _sheet(sheet, facts, "Steps", columns, rows)


def _times(facts: Facts, step: Operation) -> tuple[float | str | None, ...]:
    """Return how long a step takes, its earliest start and finish, and whether it is done."""
    minutes = None if step.minutes is None else round(float(step.minutes), 2)
    if step.number in facts.done:
        return minutes, None, None, "done"
    time = facts.times[step.number]
    return minutes, round(float(time.start), 2), round(float(time.finish), 2), ""


def _leftovers(sheet: Worksheet, facts: Facts) -> None:
    units = facts.units
    heads = ("Layout", "Stock", "Piece", f"Length {units}", f"Width {units}", "Keep", "Label")
    rows = [
        (
            left.layout, left.stock, left.piece, to_number(left.length, units), to_number(left.width, units),
            "keep" if left.keep else "", left.label(facts.tape),
        )
        for left in (facts.plan.stock.leftovers if facts.plan.stock else ())
    ]  # fmt: skip
    _sheet(sheet, facts, "Leftovers", _Columns(heads, (8, 16, 16, 11, 11, 8, 70), (4, 5)), rows)
