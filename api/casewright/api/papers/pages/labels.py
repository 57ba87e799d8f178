"""Labels for parts, on sheets of them as they are sold: name, number, sizes by side, band, where it goes, a square."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

import segno
from casewright.api.engine.work.naming import short_title
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import SMALL, TEXT, XY, Kind, Path, Shape, Sheet, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.page import Area, size_of
from casewright.api.stock import leftover_ids
from casewright.sdk.model import Band, Part, Side

GRAIN = {"along-length": "grain along L", "along-width": "grain along W", "free": "no grain"}

QUIET = 4
"""Modules left white round the square, as ISO/IEC 18004 asks."""

ARROW = "↑"

ALL_ROUND = 4
"""Sides that are banded where no end and no edge is left bare."""

LINES, LINE = 7, 3.0
"""Lines under a heading, and from one to the next, mm, at most."""


@dataclass(frozen=True, slots=True)
class Format:
    """Labels as sheets of them are sold: width, height, from one to the next across, and the least margin above, mm.

    `pad` and `top` are left free inside a label's edge, at its sides and above and below: where labels reach to the
    paper's edge, what printers do not print on (4.2 mm and less, common practice).
    """

    width: float
    high: float
    pitch: float
    above: float
    pad: float
    top: float

    def grid(self, paper: XY) -> tuple[int, int, XY]:
        """Return how many stand across and down a paper, and the upper left corner of the first."""
        columns = int(paper[0] / self.pitch + 1e-6)
        rows = int((paper[1] - 2 * self.above) / self.high + 1e-6)
        left = (paper[0] - columns * self.pitch + self.pitch - self.width) / 2
        return columns, rows, (left, paper[1] - (paper[1] - rows * self.high) / 2)


METRIC, INCH = Format(70.0, 37.0, 70.0, 0.0, 5.0, 4.5), Format(66.675, 25.4, 69.85, 12.7, 4.0, 2.0)
"""24 to a sheet of A4; 30 to a sheet of letter, 2 5/8 by 1 in: what most makers of labels sell."""


@dataclass(frozen=True, slots=True)
class Label:
    """A label: its heading, its lines, and what its square holds."""

    heading: str
    lines: tuple[str, ...]
    code: str


def label_sheets(facts: Facts, paper: str, fingerprint: str = "") -> Iterator[Sheet]:
    """Yield sheets of labels: one for each piece, in the order of the plan, then one for each leftover that is kept.

    The last pieces of a part that the stock listed does not yield say so.
    """
    size = size_of(paper, True)
    form = INCH if paper in ("letter", "tabloid") else METRIC
    columns, rows, corner = form.grid(size)
    labels = [*_of_parts(facts), *_of_leftovers(facts)]
    stop = ("STOP: do not cut",) if facts.stops else ()
    mark = (f"plan {metrics.short(fingerprint)}",) if fingerprint and not stop else ()
    for start in range(0, max(1, len(labels)), columns * rows):
        shapes: list[Shape] = []
        for i, label in enumerate(labels[start : start + columns * rows]):
            x, y = corner[0] + i % columns * form.pitch, corner[1] - i // columns * form.high
            whole = Label(label.heading, (*stop, *label.lines, *mark), label.code)
            room = Area(x + form.pad, y - form.high + form.top, x + form.width - form.pad, y - form.top)
            shapes += _label(whole, room)
        yield Sheet("Part labels", facts.title, *size, facts.units, (View("labels", tuple(shapes), furniture=True),))


def _of_parts(facts: Facts) -> Iterator[Label]:
    """Yield the label of each piece."""
    short = Counter({one.part: one.quantity for one in facts.plan.stock.short}) if facts.plan.stock else Counter[str]()
    numbers = {part.id: i for c in facts.cabinets for i, part in enumerate(facts.of(c), start=1)}
    for part in facts.plan.parts:
        cabinet = facts.cabinets.get(part.cabinet)
        number = f"({numbers[part.id]}) " if part.id in numbers else ""
        for piece in range(1, part.quantity + 1):
            where = part.cabinet
            if cabinet is not None and part.quantity % cabinet.count == 0:
                where = cabinet.copy_name((piece - 1) // (part.quantity // cabinet.count))
            goes = f"piece {piece} of {part.quantity}, for {where}"
            if piece > part.quantity - short[part.id]:
                goes = f"NO STOCK YET, piece {piece} of {part.quantity}"
            row = [f"{part.matched.place} of {part.matched.of} in its row of grain"] if part.matched else []
            yield Label(f"{number}{short_title(part)}", (part.id, *_lines(facts, part), *row, goes), part.id)


def _of_leftovers(facts: Facts) -> Iterator[Label]:
    """Yield the label of each leftover that is kept, with the id by which the next job lists it."""
    listed = {piece.id for piece in facts.job.stock.pieces} if facts.job.stock else set[str]()
    for layout in facts.layouts:
        for left, name in leftover_ids(layout, listed).items():
            sizes = " × ".join(facts.bare(size) for size in (left.length, left.width, left.thickness))
            yield Label(name, ("LEFT OVER", sizes, metrics.clean(left.material), GRAIN[left.grain]), name)


def _lines(facts: Facts, part: Part) -> list[str]:
    """Return each size of a part with the two sides it lies between, what is banded, and which edge looks forward."""
    names = facts.sides[part.id]
    ways = (
        ("L", part.length, names.end_low, names.end_high),
        ("W", part.width, names.edge_low, names.edge_high),
        ("T", part.thickness, names.face_low, names.face_high),
    )
    late = facts.over_size.get(part.id, ())
    lines = [
        f"{letter} {facts.bare(size)}{' or as measured' if axis in late else ''}, "
        f"{low.rsplit(' ', 1)[0]}–{high.rsplit(' ', 1)[0]}"
        for axis, (letter, size, low, high) in enumerate(ways, start=1)
    ]
    lines[-1] += f", {metrics.clean(part.material)}"
    bands = list(dict.fromkeys(names[side] for band in part.bands for side in _banded(part, band)))
    front = _front(part)
    more = [f"{ARROW} {names[front]}"] if front is not None else []
    more += [f"band: {', '.join(bands) if len(bands) < ALL_ROUND else 'all round'}"] if bands else []
    return [*lines, *([", ".join(more)] if more else [])]


def _banded(part: Part, band: Band) -> Iterator[Side]:
    """Yield the side of a part that a band is glued on."""
    for axis, low, high in ((1, Side.END_LOW, Side.END_HIGH), (2, Side.EDGE_LOW, Side.EDGE_HIGH)):
        if band.box.high(axis) <= part.blank.low(axis):
            yield low
        elif band.box.low(axis) >= part.blank.high(axis):
            yield high


def _front(part: Part) -> Side | None:
    """Return the edge or end of a part that looks to the cabinet's front; none where a face does."""
    low, high = (Side.END_LOW, Side.EDGE_LOW), (Side.END_HIGH, Side.EDGE_HIGH)
    for i, axis in enumerate((part.place.x, part.place.y)):
        if abs(axis) == 2:
            return low[i] if axis > 0 else high[i]
    return None


def _label(label: Label, area: Area) -> Iterator[Shape]:
    """Yield a label in what is printed on of it: its heading over its lines, and beside them its square."""
    side = min(24.0, area.height)
    x, y = area.x0, area.y1 - TEXT
    beside = area.width - side - 1
    heading = metrics.clean(label.heading)
    height = TEXT if metrics.width(heading, TEXT, True) <= beside else SMALL
    yield Text((x, y), metrics.fitted(heading, height, beside, True), height, bold=True)
    step = min(LINE, (y - area.y0) / LINES)
    for i, line in enumerate(label.lines[:LINES], start=1):
        yield Text((x, y - step * i), metrics.fitted_cell(metrics.clean(line), SMALL, beside), SMALL)
    yield from _square(label.code, (area.x1 - side, area.y0 + (area.height - side) / 2), side)


def _square(words: str, corner: XY, side: float) -> Iterator[Path]:
    """Yield the dark runs of a scannable square that holds a part id."""
    modules, runs = _dark_runs(words)
    step = side / (modules + 2 * QUIET)
    for row, start, end in runs:
        y = corner[1] + side - (row + 1 + QUIET) * step
        x0, x1 = corner[0] + (start + QUIET) * step, corner[0] + (end + QUIET) * step
        yield Path(((x0, y), (x1, y), (x1, y + step), (x0, y + step)), Kind.FINE, closed=True, solid=True)


@lru_cache(maxsize=1)  # the copies of a part follow one another
def _dark_runs(words: str) -> tuple[int, tuple[tuple[int, int, int], ...]]:
    """Return how many modules a square has each way, and its dark runs: row from the top, start and end in the row."""
    code = segno.make(words, error="m", micro=False)
    runs = []
    for number, row in enumerate(code.matrix):
        at = 0
        for dark, run in groupby(row):
            end = at + len(list(run))
            if dark:
                runs.append((number, at, end))
            at = end
    return len(code.matrix), tuple(runs)
