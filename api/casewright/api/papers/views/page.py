"""Paper sizes, scales, and the title bar every drawing carries (the fields of ISO 7200, in a layout of our own)."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import fsum

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import LARGE, SMALL, TEXT, USUAL, XY, Kind, Line, Shape, Sheet, Text, View
from casewright.api.papers.facts import Facts

PAPERS: dict[str, XY] = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
}
"""Paper sizes upright, mm: ISO 216 and ANSI Y14.1."""

Box = tuple[float, float, float, float]
"""x0, y0, x1, y1."""

MARGIN = 10.0
BAR = 17.0
"""Height of the title bar, mm."""

UPPER, LOWER = (33.0, 24.0, 18.0, 28.0, 27.0), (45.0, 31.0, 31.0, 23.0)
"""Widths of the title bar's cells, mm: the upper and the lower row, as wide as one another in all."""

TABLE_LINE = 4.6
"""Height of a table's line, mm."""

_METRIC = "10 5 2 1 1/2 1/2.5 1/4 1/5 1/8 1/10 1/15 1/20 1/25 1/40 1/50 1/75 1/100 1/150 1/200 1/500 1/1000"
_INCH = "8 4 2 1 1/2 1/3 1/4 1/6 1/8 1/12 1/16 1/24 1/32 1/48 1/64 1/96 1/128 1/192 1/384 1/768"


@dataclass(frozen=True, slots=True)
class Page:
    """A page before its title bar: what it is called, its views, the scale to name, and how the paper lies."""

    name: str
    views: tuple[View, ...]
    scale: str = ""
    upright: bool = False
    notes: tuple[str, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle of paper, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """How wide it is."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """How high it is."""
        return self.y1 - self.y0


def paper_for(facts: Facts, paper: str | None) -> str:
    """Return the paper asked for, or the one usual with the job's units."""
    if paper is None:
        return "letter" if facts.units == "in" else "A4"
    for name in PAPERS:
        if name.lower() == paper.lower():
            return name
    raise ValueError(f"no paper {paper!r}; there are {', '.join(PAPERS)}")


def size_of(paper: str, upright: bool) -> XY:
    """Return a paper's width and height as it lies, mm."""
    short, long = PAPERS[paper]
    return (short, long) if upright else (long, short)


def area_of(paper: str, upright: bool = False) -> Area:
    """Return the room over the title bar."""
    width, height = size_of(paper, upright)
    return Area(MARGIN, MARGIN + BAR + 4, width - MARGIN, height - MARGIN)


def scale_for(facts: Facts, width: float, height: float, room: XY, most: float = 1.0) -> tuple[float, str]:
    """Return the largest usual scale, at most `most`, at which `width` × `height` (mm) fits `room`, and its name.

    Metric steps are those of ISO 5455 with steps between; inch steps are the usual fractions.
    """
    steps = _INCH if facts.units == "in" else _METRIC
    for step in steps.split():
        whole, _, under = step.partition("/")
        value = 1 / float(under) if under else float(whole)
        if value <= most and width * value <= room[0] and height * value <= room[1]:
            return value, f"{whole}:{under or 1}"
    value = min(room[0] / width, room[1] / height)
    return value, "not to a usual scale"


def finish(facts: Facts, pages: Sequence[Page], paper: str, fingerprint: str = "") -> tuple[Sheet, ...]:
    """Return the pages as sheets of paper, each with its title bar."""
    sheets = []
    for number, page in enumerate(pages, start=1):
        width, height = size_of(paper, page.upright)
        shapes = _bar(facts, page, width, fingerprint, f"{number} of {len(pages)}")
        bar = View("title bar", tuple(shapes), furniture=True)
        sheets.append(Sheet(page.name, facts.title, width, height, facts.units, (*page.views, bar)))
    return tuple(sheets)


def _bar(facts: Facts, page: Page, width: float, fingerprint: str, number: str) -> list[Shape]:
    """Return the title block: the sheet's own data over what the job says of itself, blank where it does not."""
    job, middle, top = facts.job, MARGIN + BAR / 2, MARGIN + BAR
    block = job.title_block
    upper = (("Scale", page.scale or "none"), ("Lengths in", facts.unit_name), ("Sheet", number),
             ("Plan", metrics.short(fingerprint)), ("Number", block.number))  # fmt: skip
    lower = (("Owner", block.owner), ("Drawn by", block.drawn_by), ("Approved by", block.approved_by),
             ("Date", block.date))  # fmt: skip
    left = width - MARGIN - fsum(UPPER)
    shapes: list[Shape] = [
        Line((MARGIN, top), (width - MARGIN, top), Kind.WIDE),
        Line((left - 2, middle), (width - MARGIN, middle), Kind.NARROW),
    ]
    for cells, widths, high in ((upper, UPPER, top), (lower, LOWER, middle)):
        x = left
        for (label, value), wide in zip(cells, widths, strict=True):
            shapes.append(Line((x - 2, high - BAR / 2), (x - 2, high), Kind.NARROW))
            shapes.append(Text((x, high - 2.9), label, SMALL))
            words = metrics.clean(value)
            height = USUAL if metrics.width(words, USUAL) <= wide - 3 else SMALL
            if words:
                shapes.append(Text((x, high - 7.0), metrics.fitted(words, height, wide - 3), height))
            x += wide
    room = left - MARGIN - 4
    name = metrics.clean(page.name)
    large = LARGE if metrics.width(name, LARGE, True) <= room else USUAL
    lines = [(facts.stop_words, USUAL, True), (name, large, True)]
    lines += [(line, USUAL, False) for line in metrics.wrapped(facts.title, USUAL, room, 1 if facts.stops else 2)]
    y = top - 1.5
    for words, height, bold in lines:
        if words:
            y -= height + 1.2
            shapes.append(Text((MARGIN, y), metrics.fitted(words, height, room, bold), height, bold=bold))
    return shapes


def centred(corner: XY, room: XY, box: Box, scale: float) -> XY:
    """Return where a view's origin stands so that its box (mm of the thing) lies in the middle of its room of paper."""
    x0, y0, x1, y1 = box
    return (
        corner[0] + max(0.0, (room[0] - (x1 - x0) * scale) / 2) - x0 * scale,
        corner[1] + max(0.0, (room[1] - (y1 - y0) * scale) / 2) - y0 * scale,
    )


def furniture(name: str, shapes: Sequence[Shape]) -> View:
    """Return shapes that belong to the paper as a view."""
    return View(name, tuple(shapes), furniture=True)


def caption(at: XY, words: str, room: float = 120.0) -> Text:
    """Return the caption of a view."""
    return Text(at, metrics.fitted(words, USUAL, room, True), USUAL, bold=True)


def table(
    corner: XY, heads: Sequence[str], rows: Sequence[Sequence[Text | str]], widths: Sequence[float]
) -> list[Shape]:
    """Return a table from its upper left corner: its head in bold over a rule, one line a row, cells cut to width."""
    shapes: list[Shape] = []
    x, top = corner
    y = top - TABLE_LINE
    at = x
    for head, width in zip(heads, widths, strict=True):
        shapes.append(Text((at, y), metrics.fitted(head, TEXT, width - 1, True), TEXT, bold=True))
        at += width
    shapes.append(Line((x, y - 1.5), (x + fsum(widths), y - 1.5), Kind.NARROW))
    y -= 1.2
    for row in rows:
        y -= TABLE_LINE
        at = x
        for cell, width in zip(row, widths, strict=True):
            made = Text((0, 0), cell) if isinstance(cell, str) else cell
            words = metrics.fitted_cell(made.text, TEXT, width - 1)
            if words:
                shapes.append(Text((at, y), words, TEXT, shows=made.shows))
            at += width
    return shapes
