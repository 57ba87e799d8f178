"""Each sheet and board as it is cut: the parts on it, what is left, and the number of every cut in working order."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from casewright.api.engine.work.schedule import ranges
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import dimension_end
from casewright.api.papers.drawing.shapes import TEXT, Dimension, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import chosen
from casewright.api.papers.views.layout_picture import layout_picture
from casewright.api.papers.views.page import Area, Page, area_of, furniture, scale_for, table
from casewright.sdk.model import Action, CutPiece, Stage, StockLayout

COLUMNS, LINE = 3, 4.6
KEY_LINES = 9
"""Lines of the key of parts under the picture, at most."""

UPRIGHT, WIDE = 2, 220.0
"""Columns of a table on paper that is narrower than this, mm."""

OVER, MISSED, UNDER = 14.5, 3.5, 6.0
"""Paper over a picture for its heading and dimension, for the numbers of cuts without room, and under it, mm."""

CLEAR = 9.0
"""Paper right over a picture in which no words stand beside its dimension, mm."""

THIN = 30.0
"""What is drawn no higher than this stays as large where other pieces are drawn smaller for fewer pages, mm."""

FIRST, LAST = 9.0, 32.0
"""Widths of the first and last cells of a table's row, mm."""

Row = list[Text | str]
Scale = tuple[float, str]
"""A scale and its name."""
PART_HEADS = ("No.", "Part", "Size")
CUT_HEADS = ("Cut", "Makes", "Step and setting")


def layout(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return pages for each piece of stock, by its number; none where no cutting was planned."""
    layouts = {str(one.number): one for one in facts.layouts}
    return [page for n in chosen("layout", subject, list(layouts)) for page in _pages(facts, layouts[n], paper)]


def pictures(facts: Facts, paper: str) -> list[Page]:
    """Return every piece of stock for papers that give each cut in its step: as many on a page as it holds.

    The rings on the cuts hold the numbers of their steps. Parts whose name or size finds no room on the picture
    stand under it.
    """
    area = area_of(paper, upright=True)
    long = max((mm(one.length) for one in facts.layouts), default=1.0)
    wide = max((mm(one.width) for one in facts.layouts), default=1.0)
    room = (area.width - 24, area.height - OVER - MISSED - UNDER)
    large = scale_for(facts, long, wide, room)
    small = scale_for(facts, long, wide, room, most=large[0] * 0.999)
    tried = [_packed([_cell(facts, one, _scaled(one, large, other)) for one in facts.layouts], area)
             for other in (large, small)]  # fmt: skip
    return [page for cells in min(tried, key=len) for page in _several(facts, cells, area, paper)]


def _scaled(layout: StockLayout, large: Scale, other: Scale) -> Scale:
    """Return the scale that a piece of stock is drawn at: a thin one as large as can be."""
    return large if mm(layout.width) * large[0] <= THIN else other


def _packed(cells: "Sequence[_Cell]", area: Area) -> "list[list[_Cell]]":
    """Return the pieces of stock by page: each on the first page that has room under what it holds."""
    pages: list[list[_Cell]] = []
    for cell in cells:
        fits = (page for page in pages if fsum([cell.high, *(one.high for one in page)]) <= area.height)
        page = next(fits, None)
        if page is None:
            pages.append([cell])
        else:
            page.append(cell)
    return pages


@dataclass(frozen=True, slots=True)
class _Cell:
    """A piece of stock on a page: its picture, what of it stands under that, and the paper it takes, mm.

    `later` are the steps that cut milled blanks to size, `missed` those of other cuts that found no room.
    """

    layout: StockLayout
    scale: Scale
    shapes: tuple[Shape, ...]
    missed: tuple[int, ...]
    later: tuple[int, ...]
    keys: tuple[Row, ...]

    @property
    def note(self) -> str:
        """Which steps stand on the picture no more than in words."""
        rows = (("too tight to number on the picture", self.missed), ("once milled", self.later))
        words = "; ".join(f"{what}: {ranges(steps)}" for what, steps in rows if steps)
        return words[:1].upper() + words[1:]

    @property
    def over(self) -> float:
        """Paper over the picture, mm: more where the number of its width stands over it."""
        past = (
            max((dimension_end(one, self.scale[0]) - max(one.a, one.b) for one in self._upward), default=0.0)
            * self.scale[0]
        )
        return OVER + (MISSED if self.note else 0.0) + max(0.0, past - CLEAR)

    @property
    def _upward(self) -> "Iterator[Dimension]":
        return (one for one in self.shapes if isinstance(one, Dimension) and one.along == "y")

    @property
    def tall(self) -> float:
        """How high the picture is, mm of paper."""
        return mm(self.layout.width) * self.scale[0]

    @property
    def high(self) -> float:
        """All the paper it takes, mm."""
        lines = -(-len(self.keys) // UPRIGHT)
        return self.over + self.tall + UNDER + (LINE * (lines + 1) + 3 if self.keys else 0)


def _cell(facts: Facts, layout: StockLayout, scale: Scale) -> _Cell:
    every = {cut.number: cut.step for cut in layout.cuts}
    rested = [step.number for step in facts.plan.steps if step.stage is Stage.MILL and step.action is Action.WAIT]
    milled = min(rested) if rested and layout.kind == "board" else max(every.values(), default=0)
    steps = {number: step for number, step in every.items() if step <= milled}
    later = tuple(sorted({step for step in every.values() if step > milled}))
    shapes, missed, short = layout_picture(facts, layout, _numbers(layout), scale[0], steps)
    keys = [_key(facts, layout, part, number) for part, number in _numbers(layout).items() if part in short]
    return _Cell(layout, scale, tuple(shapes), tuple(sorted(set(missed))), later, tuple(keys))


def _several(facts: Facts, cells: Sequence[_Cell], area: Area, paper: str) -> Iterator[Page]:
    """Yield a page of pieces of stock from the top down, and pages of keys that find no room under the last."""
    views: list[View] = []
    low = area.y1
    rest: list[Page] = []
    for cell in cells:
        layout = cell.layout
        foot = low - cell.over - cell.tall
        at = (area.x0 + 18 + (area.width - 24 - mm(layout.length) * cell.scale[0]) / 2, foot)
        own = Area(area.x0, area.y0, area.x1, low)
        extra: list[Shape] = [_heading(facts, layout, own)]
        if cell.note:
            extra.append(Text((area.x0, low - 7.5), metrics.fitted(cell.note, TEXT, area.width), TEXT))
        most = int((foot - area.y0 - LINE - 3) / LINE)
        extra += _columns(own, foot - 2, PART_HEADS, cell.keys[: most * UPRIGHT], most)
        views += (
            View(f"layout {layout.number}", cell.shapes, at, cell.scale[0]),
            furniture(f"key {layout.number}", extra),
        )
        low -= cell.high
        if cell.keys[most * UPRIGHT :]:
            rest += _listed(f"Layout {layout.number}, parts", PART_HEADS, cell.keys[most * UPRIGHT :], area_of(paper))
    numbers = [cell.layout.number for cell in cells]
    row = numbers == list(range(numbers[0], numbers[-1] + 1)) and len(numbers) > 1
    words = f"{numbers[0]} to {numbers[-1]}" if row else ", ".join(map(str, numbers))
    name = f"Layout{'' if len(numbers) == 1 else 's'} {words}"
    scales = " and ".join(dict.fromkeys(cell.scale[1] for cell in cells))
    yield Page(name, tuple(views), scales, upright=True)
    yield from rest


def _numbers(layout: StockLayout) -> dict[str, int]:
    return {part: i + 1 for i, part in enumerate(dict.fromkeys(p.part for p in layout.placed))}


def _pages(facts: Facts, layout: StockLayout, paper: str) -> list[Page]:
    area = area_of(paper)
    numbers = _numbers(layout)
    keys = [_key(facts, layout, part, number) for part, number in numbers.items()]
    cuts = _cut_rows(facts, layout)
    lines = min(-(-len(keys) // COLUMNS), KEY_LINES)
    cut_lines = -(-len(cuts) // COLUMNS)
    shown = lines * COLUMNS
    long, width = mm(layout.length), mm(layout.width)
    low = area.y0 + LINE * (lines + 1) + 5
    high = area.y1 - 9
    wish, _ = scale_for(facts, long, width, (area.width - 24, high - low - 14))
    with_cuts = low + LINE * (cut_lines + 2)
    together = shown >= len(keys) and width * wish <= high - with_cuts - 14
    plot = Area(area.x0, with_cuts if together else low, area.x1, high)
    low = plot.y0
    room = (plot.width - 24, plot.height - 14)
    scale, name = scale_for(facts, long, width, room)
    shapes, missed, _ = layout_picture(facts, layout, numbers, scale)
    at = (plot.x0 + 18 + (room[0] - long * scale) / 2, plot.y0 + 2 + (room[1] - width * scale) / 2)
    extra: list[Shape] = [_heading(facts, layout, area)]
    extra += _columns(area, low - 2, PART_HEADS, keys[:shown], lines)
    if together:
        top = low - 2 - LINE * (lines + 1) - 3
        extra += _columns(area, top, CUT_HEADS, cuts, cut_lines)
    if missed:
        words = f"Too tight to number on the picture: cut{'s' if len(missed) > 1 else ''} " + ", ".join(
            map(str, missed)
        )
        extra.append(Text((area.x0, area.y1 - 7.5), metrics.fitted(words, TEXT, area.width), TEXT))
    title = f"Layout {layout.number}"
    first = Page(title, (View("layout", tuple(shapes), at, scale), furniture("key", extra)), name)
    more = _listed(f"{title}, parts", PART_HEADS, keys[shown:], area)
    return [first, *more, *([] if together else _listed(f"{title}, cuts in order", CUT_HEADS, cuts, area))]


def _listed(title: str, heads: tuple[str, str, str], rows: Sequence[Row], area: Area) -> Iterator[Page]:
    """Yield pages of what found no room under the picture."""
    most = int((area.height - 8) / LINE)
    for start in range(0, len(rows), most * COLUMNS):
        shapes = _columns(area, area.y1, heads, rows[start : start + most * COLUMNS], most)
        yield Page(title, (furniture(title.partition(", ")[2], shapes),))


def _heading(facts: Facts, layout: StockLayout, area: Area) -> Text:
    thick = facts.text(layout.thickness)
    words = f"{layout.stock} {layout.number}: {layout.material}, {thick} thick"
    words += f"; {layout.use * 100:.0f} % becomes parts"
    return Text((area.x0, area.y1 - 3), metrics.fitted(metrics.clean(words), 2.5, area.width, True), bold=True)


def _columns(area: Area, top: float, heads: tuple[str, str, str], rows: Sequence[Row], lines: int) -> list[Shape]:
    """Return rows in columns of tables, `lines` rows each at most: as many columns as the paper is wide for."""
    columns = COLUMNS if area.width > WIDE else UPRIGHT
    lines = min(lines, -(-len(rows) // columns)) if columns == UPRIGHT else lines
    third = area.width / columns
    widths = (FIRST, third - (FIRST + LAST) - 2, LAST)
    out: list[Shape] = []
    for c in range(columns):
        some = rows[c * lines : (c + 1) * lines]
        if some:
            out += table((area.x0 + c * third, top), heads, some, widths)
    return out


def _key(facts: Facts, layout: StockLayout, part: str, number: int) -> Row:
    placed = [p for p in layout.placed if p.part == part]
    dx, dy = placed[0].dx, placed[0].dy
    times = f" ({len(placed)})" if len(placed) > 1 else ""
    shows = (Shown(part, "along the stock's length", dx), Shown(part, "along the stock's width", dy))
    size = Text((0, 0), f"{facts.bare(dx)} × {facts.bare(dy)}", shows=shows)
    return [str(number), metrics.clean(part) + times, size]


def _cut_rows(facts: Facts, layout: StockLayout) -> list[Row]:
    """Return the cuts in order: number, what it makes, its step, the tool and its distance."""
    pieces = {piece.label: piece for piece in _pieces(layout.tree)}
    rows: list[Row] = []
    for cut in layout.cuts:
        shown = (Shown(f"cut {cut.number}", "fence", cut.fence),)
        setting = Text((0, 0), f"{cut.step}: {cut.tool} {facts.bare(cut.fence)}", shows=shown)
        rows.append([str(cut.number), _made(facts, pieces[cut.makes]), setting])
    return rows


def _pieces(piece: CutPiece) -> Iterator[CutPiece]:
    yield piece
    for inner in piece.inside:
        yield from _pieces(inner)


def _made(facts: Facts, piece: CutPiece) -> str:
    """Return what a cut makes: the part's id, or a piece by its size."""
    if piece.part:
        return metrics.clean(piece.part)
    return f"piece {facts.bare(piece.dx)} × {facts.bare(piece.dy)}"
