"""How the booklet's pages are set: type sizes, headings, tables, tick boxes, and drawings as whole pages."""

from collections.abc import Sequence
from math import fsum
from typing import Any
from xml.sax.saxutils import escape

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.pdf import POINTS, draw_sheet
from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.papers.pages.canvas import (
    CONTENTS,
    LINE,
    note_cabinets,
    note_contents,
    note_place,
    note_section,
)
from casewright.api.papers.pages.lines import Lines
from casewright.api.papers.shaping import is_shaped
from reportlab.lib.colors import black
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import (
    CondPageBreak,
    Flowable,
    NextPageTemplate,
    PageBreak,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

SIZE = 10.0
MARGIN = 13.0 * POINTS

BODY = ParagraphStyle("body", fontName=metrics.PLAIN, fontSize=SIZE, leading=12.8, spaceAfter=3)
CELL = ParagraphStyle("cell", parent=BODY, fontSize=9, leading=10.4, spaceAfter=0)
SMALL = ParagraphStyle("small", parent=BODY, fontSize=9, leading=11)
FINE = ParagraphStyle("fine", parent=BODY, fontSize=7.5, leading=9.2, spaceAfter=0)
BIG = ParagraphStyle("big", parent=BODY, fontName=metrics.BOLD, fontSize=18, leading=22, spaceAfter=8)
HEAD = ParagraphStyle("head", parent=BODY, fontName=metrics.BOLD, fontSize=16, leading=20, spaceAfter=8)
UNDER = ParagraphStyle(
    "under", parent=BODY, fontName=metrics.BOLD, fontSize=11.5, leading=15, spaceBefore=6, spaceAfter=3
)
WARN = ParagraphStyle(
    "warn", parent=BODY, fontName=metrics.BOLD, borderColor=black, borderWidth=1.2, borderPadding=5, spaceBefore=8,
    spaceAfter=10,
)  # fmt: skip

ROOM = 200.0
"""Room in points in which a section of steps may begin under another."""

LEAST = 1.0
"""Room in points for a section that is kept together, and so finds its page itself."""

BOX, TICKED = "☐", "☑"

_RULES = TableStyle(
    [
        ("LINEBELOW", (0, 0), (-1, 0), 1.0, "black"),
        ("LINEBELOW", (0, 1), (-1, -1), 0.25, "black"),
        ("FONTNAME", (0, 0), (-1, -1), metrics.PLAIN),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), 0.8),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.3),
    ]
)


def marked(words: object, bold: bool = False, limit: int = 100_000) -> str:
    """Return text as paragraph markup: cleaned, escaped, each character in a font that has it."""
    out = []
    usual = metrics.BOLD if bold else metrics.PLAIN
    for run in metrics.runs(metrics.clean(words, limit), bold):
        body = escape(run.text)
        out.append(body if run.font == usual else f'<font name="{run.font}">{body}</font>')
    return "".join(out)


def para(words: object, style: ParagraphStyle = BODY) -> Paragraph | Lines:
    """Return a paragraph of plain text; nothing in it is taken for markup."""
    made = metrics.clean(words, 100_000)
    return Lines(made, style) if is_shaped(made) else Paragraph(marked(made, style.fontName == metrics.BOLD), style)


TALLEST = 600.0
"""A row of a table taller than this (points) is broken over pages; a lower one moves to the next page whole."""


class _Rows(Table):
    """A table in which a row is broken only where no page holds it."""

    def split(self, width: float, high: float) -> list[Flowable]:
        """Return what goes on this page and what is left, or nothing where it all goes to the next page."""
        state = vars(self)
        first = state["_rowHeights"][1:2]
        state["splitInRow"] = int(bool(first) and (first[0] or 0) > TALLEST)
        parts: list[Flowable] = super().split(width, high)
        return parts


def table(heads: Sequence[str], rows: Sequence[Sequence[object]], widths: Sequence[float]) -> Table:
    """Return a table over the width of the page, its head on every page; `widths` are shares. Cells wrap."""
    whole = fsum(widths)
    bold = ParagraphStyle("cell head", parent=CELL, fontName=metrics.BOLD)
    data: list[list[Any]] = [[para(h, bold) for h in heads]]
    data += [[_cell(cell) for cell in row] for row in rows]
    shares = [f"{100 * w / whole:.3f}%" for w in widths]
    made = _Rows(data, colWidths=shares, repeatRows=1, style=_RULES, spaceAfter=6)
    made.hAlign = "LEFT"
    return made


def _cell(cell: object) -> Any:
    if isinstance(cell, Flowable) or (isinstance(cell, list) and all(isinstance(c, Flowable) for c in cell)):
        return cell
    return para("" if cell is None else cell, CELL)


def gap(high: float = 6) -> Spacer:
    """Return some room, in points."""
    return Spacer(1, high)


class Heading(Paragraph):
    """The heading of a section, which the first page lists with its page."""

    def draw(self) -> None:
        """Draw it, and note where."""
        note_section(self.canv, self.getPlainText())
        super().draw()


def head(words: str) -> Heading:
    """Return the heading of a section."""
    return Heading(marked(words, True), HEAD)


class Contents(Flowable):
    """Room for the list of sections, which is written once their pages are known."""

    def __init__(self) -> None:
        super().__init__()
        self.width, self.height = 1.0, CONTENTS * LINE

    def draw(self) -> None:
        """Note where the list begins."""
        note_contents(self.canv, self.canv.absolutePosition(0, self.height))


class Size(Flowable):
    """A length for the cut list: as the tape shows it, large, and its decimals beside it where they say more."""

    def __init__(self, tape: str, exact: str) -> None:
        super().__init__()
        self.tape, self.exact = tape, exact

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Take one line."""
        return (room, 11.6)

    def draw(self) -> None:
        """Draw both."""
        self.canv.setFont(metrics.BOLD, 11.5)
        self.canv.drawString(0, 2.2, self.tape)
        x = float(metrics.font(metrics.BOLD).stringWidth(self.tape, 11.5)) + 5
        self.canv.setFont(metrics.PLAIN, 9)
        self.canv.drawString(x, 2.2, self.exact)


class WholePage(Flowable):
    """A sheet drawn over its whole page, at true size; the first of a section carries the section's `name`.

    `cabinet` is the id of the one it is about, where it is about one.
    """

    def __init__(self, sheet: Sheet, name: str = "", cabinet: str = "") -> None:
        super().__init__()
        self.sheet, self.name, self.cabinet = sheet, name, cabinet
        self.width, self.height = 1.0, 1.0

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Take the whole frame."""
        return (room, high)

    def draw(self) -> None:
        """Draw it from the page's corner."""
        if self.name:
            note_section(self.canv, self.name)
        if self.cabinet:
            note_section(self.canv, self.sheet.name, 1)
            note_place(self.canv, self.cabinet)
            note_cabinets(self.canv, (self.cabinet,))
        self.canv.saveState()
        self.canv.setPageSize((self.sheet.width * POINTS, self.sheet.height * POINTS))
        x, y = self.canv.absolutePosition(0, 0)
        self.canv.translate(-x, -y)
        draw_sheet(self.canv, self.sheet)
        self.canv.restoreState()


def drawings(name: str, sheets: Sequence[Sheet], cabinets: Sequence[str] = ()) -> list[Flowable]:
    """Return a section of sheets as whole pages in the run of the text; `cabinets` are those the sheets are about."""
    out: list[Flowable] = []
    for number, sheet in enumerate(sheets):
        about = cabinets[number] if cabinets else ""
        out += [NextPageTemplate("drawing"), PageBreak(), WholePage(sheet, "" if out else name, about)]
    return [*out, NextPageTemplate("text")] if out else []


def section(story: Sequence[Flowable], room: float = 0.0) -> list[Flowable]:
    """Return a section that begins a page, or goes on under the one before where there are so many points of room."""
    if not story:
        return []
    return [CondPageBreak(room) if room else PageBreak(), *story]
