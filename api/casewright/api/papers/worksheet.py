"""A sheet of the workbook: headings, number cells, text that is never a formula, and its set-up for paper.

Every sheet is as wide as a landscape page of either paper, at a scale that can be read.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from textwrap import wrap
from typing import Any

from casewright.api.papers.facts import Facts
from casewright.api.papers.text import clean
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.page import PageMargins
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

LENGTHS = {"in": "0.000", "mm": "0.00"}
_LONGEST = 32_000
"""A cell holds 32 767 characters."""


LINE, FILLED, FILLED_BOLD = 15.0, 1.0, 0.85
"""Height of a line, points, and how much of a column's width text and bold headings may fill, as fonts differ.

A row without a height is as high as one line in some programs, and its text then runs over the next rows.
"""


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a sheet: headings, widths in characters, which (from 1) hold lengths, other formats of numbers.

    `printed` are the first so many, which go on paper, as do the first `rows`; 0 and None print all. Text that is not
    printed stands on one line, so that it makes no printed row higher.
    """

    heads: Sequence[str]
    widths: Sequence[float]
    lengths: Sequence[int] = ()
    printed: int = 0
    rows: int | None = None
    formats: Mapping[int, str] = field(default_factory=dict)


def _lines(value: object, width: float) -> int:
    """Return how many lines a cell's text takes where `width` characters stand on one."""
    if not isinstance(value, str):
        return 1
    return max(1, len(wrap(value, max(1, int(width)))))


def fill(sheet: Worksheet, facts: Facts, title: str, columns: Columns, rows: Sequence[Sequence[Any]]) -> None:
    """Fill a sheet: a heading row, number cells with the format of a length where it is one, print set-up."""
    sheet.title = title
    printed = columns.printed or len(columns.heads)
    _write_heads(sheet, columns.heads)
    for r, row in enumerate(rows, start=2):
        for c, value in enumerate(row, start=1):
            if isinstance(value, str) and value:
                _write_text(sheet.cell(r, c), value, wrapped=c <= printed)
            elif value is not None and value != "":
                length = LENGTHS[facts.units] if c in columns.lengths else None
                _write_number(sheet.cell(r, c), value, length or columns.formats.get(c))
    for c, width in enumerate(columns.widths, start=1):
        sheet.column_dimensions[get_column_letter(c)].width = width
    for r, row in enumerate([columns.heads, *rows], start=1):
        cells = zip(row[:printed], columns.widths, strict=False)
        filled = FILLED if r > 1 else FILLED_BOLD
        lines = max((_lines(value, width * filled) for value, width in cells), default=1)
        if lines > 1:
            sheet.row_dimensions[r].height = LINE * lines
    sheet.freeze_panes = "A2"
    if rows:
        sheet.auto_filter.ref = f"A1:{get_column_letter(len(columns.heads))}{len(rows) + 1}"
    last = len(rows) if columns.rows is None else columns.rows
    sheet.print_area = f"A1:{get_column_letter(printed)}{last + 1}"
    _set_up_print(sheet, facts, title)


def _write_heads(sheet: Worksheet, heads: Sequence[str]) -> None:
    rule = Border(bottom=Side("thin"))
    for c, head in enumerate(heads, start=1):
        top: Any = sheet.cell(1, c, head)
        top.font = Font(bold=True)
        top.border = rule
        top.alignment = Alignment(wrap_text=True, vertical="bottom")


def _write_text(cell: Any, words: str, *, wrapped: bool) -> None:
    """Write text that is never taken for a formula."""
    cell.value = clean(words, _LONGEST)
    cell.data_type = "s"
    cell.quotePrefix = cell.value.startswith(("=", "+", "-", "@"))
    cell.alignment = Alignment(wrap_text=wrapped, vertical="top")


def _write_number(cell: Any, value: Any, form: str | None) -> None:
    cell.value = value
    cell.alignment = Alignment(vertical="top", horizontal="right", indent=1)
    if form is not None:
        cell.number_format = form


def _set_up_print(sheet: Worksheet, facts: Facts, title: str) -> None:
    """Set a sheet up to be printed as wide as the paper, its heading and the plan's title on every page."""
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = 1 if facts.units == "in" else 9
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_margins = PageMargins(left=0.4, right=0.4, top=0.6, bottom=0.6, header=0.3, footer=0.3)
    sheet.print_title_rows = "1:1"
    sheet.print_options.gridLines = True  # text that fills its column stands beside the next; rows are ticked off
    header: Any = sheet.oddHeader
    footer: Any = sheet.oddFooter
    header.right.text = facts.stop_words
    header.left.text = facts.title.replace("&", "&&")[:200]
    footer.left.text = title
    footer.right.text = "&P / &N"
