"""Labels for parts: id, sizes with the sides they lie between, material, and a scannable square with the part id."""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby

import segno
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Line, Path, Shape, Sheet, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.page import size_of
from casewright.api.stock import leftover_ids
from casewright.sdk.model import Part

COLUMNS, ROWS = 3, 8
EDGE = 8.0
"""Paper left free round the labels, mm."""

PAD = 3.0
SQUARE = 24.0
"""Side of the scannable square with its quiet zone, mm."""

GRAIN = {"along-length": "grain along L", "along-width": "grain along W", "free": "no grain"}

QUIET = 4
"""Modules left white round the square, as ISO/IEC 18004 asks."""


def label_sheets(facts: Facts, paper: str, fingerprint: str = "") -> Iterator[Sheet]:
    """Yield sheets of labels: one for each piece, in the order of the plan, then one for each leftover that is kept.

    The last pieces of a part that the stock listed does not yield say so.
    """
    width, high = size_of(paper, True)
    cell = ((width - 2 * EDGE) / COLUMNS, (high - 2 * EDGE) / ROWS)
    labels = [*_of_parts(facts), *_of_leftovers(facts)]
    per = COLUMNS * ROWS
    for start in range(0, max(1, len(labels)), per):
        shapes: list[Shape] = list(_grid(width, high, cell))
        for i, (name, lines) in enumerate(labels[start : start + per]):
            corner = (EDGE + (i % COLUMNS) * cell[0], high - EDGE - (i // COLUMNS + 1) * cell[1])
            mark = [f"plan {metrics.short(fingerprint)}"] if fingerprint else []
            stop = ["STOP: do not cut"] if facts.stops else []
            shapes += _label(name, [*stop, *lines, *mark], corner, cell)
        view = View("labels", tuple(shapes), furniture=True)
        yield Sheet("Part labels", facts.title, width, high, facts.units, (view,))


def _of_parts(facts: Facts) -> Iterator[tuple[str, list[str]]]:
    """Yield the id and the lines of each piece's label."""
    short = Counter({one.part: one.quantity for one in facts.plan.stock.short}) if facts.plan.stock else Counter[str]()
    for part in facts.plan.parts:
        lines = _lines(facts, part)
        for number in range(1, part.quantity + 1):
            missing = ["NO STOCK YET"] if number > part.quantity - short[part.id] else []
            row = f", row {part.matched.place} of {part.matched.of}" if part.matched else ""
            yield part.id, [*missing, *lines, f"piece {number} of {part.quantity}{row}"]


def _of_leftovers(facts: Facts) -> Iterator[tuple[str, list[str]]]:
    """Yield the id, which the next job lists it by, and the lines of the label of each leftover that is kept."""
    for layout in facts.layouts:
        for left, name in leftover_ids(layout).items():
            sizes = [f"{letter} {facts.bare(size)}" for letter, size in (("L", left.length), ("W", left.width))]
            grain = GRAIN[left.grain]
            yield name, ["LEFT OVER", *sizes, f"T {facts.bare(left.thickness)}", metrics.clean(left.material), grain]


def _grid(width: float, high: float, cell: XY) -> Iterator[Line]:
    for c in range(COLUMNS + 1):
        x = EDGE + c * cell[0]
        yield Line((x, EDGE), (x, high - EDGE), Kind.FINE)
    for r in range(ROWS + 1):
        y = EDGE + r * cell[1]
        yield Line((EDGE, y), (width - EDGE, y), Kind.FINE)


def _lines(facts: Facts, part: Part) -> list[str]:
    """Return what stands on a label under the part's id: each size with the two sides it lies between."""
    names = facts.sides[part.id]
    ways = (
        ("L", part.length, names.length_low, names.length_high),
        ("W", part.width, names.width_low, names.width_high),
        ("T", part.thickness, names.thickness_low, names.thickness_high),
    )
    sizes = [
        f"{letter} {facts.bare(size)}, {low.rsplit(' ', 1)[0]}–{high.rsplit(' ', 1)[0]}"
        for letter, size, low, high in ways
    ]
    return [*sizes, metrics.clean(part.material)]


def _label(name: str, lines: Sequence[str], corner: XY, cell: XY) -> list[Shape]:
    x, top = corner[0] + PAD, corner[1] + cell[1] - PAD
    room = cell[0] - 2 * PAD
    beside = room - SQUARE
    shapes: list[Shape] = []
    y = top - 3.2
    for line in metrics.wrapped(metrics.clean(name), 2.5, room, 2, True):
        shapes.append(Text((x, y), line, 2.5, bold=True))
        y -= 4.2
    for line in lines:
        if y < corner[1] + 1.2:
            break
        shapes.append(Text((x, y), metrics.fitted(line, TEXT, beside - 1), TEXT))
        y -= 3.7
    shapes += _square(name, (corner[0] + cell[0] - PAD - SQUARE + 1, corner[1] + 1.0))
    return shapes


def _square(words: str, corner: XY) -> Iterator[Path]:
    """Yield the dark runs of a scannable square that holds a part id."""
    modules, runs = _dark_runs(words)
    step = SQUARE / (modules + 2 * QUIET)
    for row, start, end in runs:
        y = corner[1] + SQUARE - (row + 1 + QUIET) * step
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
