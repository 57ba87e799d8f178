"""A small picture of how a piece lies at a saw or router: on which side, what rides the fence, where the cutter is."""

from collections.abc import Iterator, Mapping

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Line, Path, Shape, Text, View
from casewright.api.papers.pages.picture import Picture
from casewright.sdk.model import Action, Operation, Side, Sides

WIDTH, HIGH = 76.0, 11.5
"""Size of the picture, mm."""

DRAWN = frozenset({Action.GROOVE, Action.RABBET})
"""What is drawn: cuts along a fence, by a cutter that stands up out of the table."""

TABLE, FENCE, LONG, CUTTER, AT = 1.0, 3.0, 24.0, 3.0, 7.0
"""Height of the table's top, thickness of the fence, length of the piece, width of the cutter and its distance, mm."""

FLAT, UPRIGHT = 4.5, 9.0
"""Height of a piece that lies on a face, and of one on an edge or an end, mm."""


def lying(step: Operation, sides: Mapping[str, Sides]) -> Picture | None:
    """Return the picture of a step's first piece; nothing for a step that is not cut along a fence."""
    first = step.on[0] if step.on else None
    if step.action not in DRAWN or step.setting.fence is None or first is None:
        return None
    if first.part not in sides or first.down is None or first.against is None:
        return None
    names = sides[first.part]
    shapes = list(_shapes(first.down, names[first.down], names[first.against]))
    return Picture([View("lying", tuple(shapes), furniture=True)], WIDTH, HIGH)


def _shapes(down: Side, below: str, at_fence: str) -> Iterator[Shape]:
    """Yield table, fence, piece and cutter, seen along the cut, and the names of the two sides."""
    high = FLAT if down.axis == 3 else UPRIGHT
    long = LONG if down.axis == 3 else FLAT + AT
    yield Line((0.0, TABLE), (FENCE + LONG + 6, TABLE), Kind.WIDE)
    yield _box((0.5, TABLE), (FENCE, HIGH - 0.5), False)
    yield _box((FENCE, TABLE), (FENCE + long, TABLE + high), False)
    left = FENCE + (AT if down.axis == 3 else FLAT / 2)
    yield _box((left, TABLE), (left + (CUTTER if down.axis == 3 else FLAT / 2), TABLE + high * 0.45), True)
    x = FENCE + LONG + 8
    words = (f"{below} down", f"{at_fence} to the fence")
    for i, line in enumerate(words):
        yield Text((x, HIGH - 4.0 - 3.8 * i), metrics.fitted(line, TEXT, WIDTH - x), TEXT)


def _box(low: XY, high: XY, solid: bool) -> Path:
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    return Path(corners, Kind.NARROW, closed=True, solid=solid)
