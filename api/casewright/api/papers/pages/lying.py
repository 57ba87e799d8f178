"""A small picture of how a piece lies at a machine: on which side, what rides the fence, where the cutter goes in."""

from collections.abc import Iterator, Mapping
from math import radians, tan

from casewright.api.engine.work.lying import ENTERS
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Line, Path, Shape, Text, View
from casewright.api.papers.pages.picture import Picture
from casewright.sdk.model import Action, Machine, Operation, Side, Sides, Tilts, Workpiece

WIDTH, HIGH = 76.0, 11.5
"""Size of the picture, mm."""

SLOTS = frozenset({Action.GROOVE, Action.RABBET})
"""Cuts along a fence or a straight edge."""

STOOD = frozenset({*SLOTS, Action.TENON})
"""Cuts by a cutter that stands up out of the table."""

TABLE, FENCE, LONG, CUTTER, AT = 1.0, 3.0, 24.0, 3.0, 7.0
"""Height of the table's top, thickness of the fence, length of the piece, width of the cutter and its distance, mm."""

FLAT, UPRIGHT = 4.5, 9.0
"""Height of a piece that lies on a face, and of one on an edge or an end, mm."""

BLADE = 0.8
"""Thickness of a blade, mm."""


def lying(step: Operation, sides: Mapping[str, Sides]) -> Picture | None:
    """Return the picture of a step's first piece; nothing for a step of which none is drawn."""
    first = step.on[0] if step.on else None
    if first is None or first.part not in sides or first.down is None or first.against is None:
        return None
    shapes = list(_piece(step, first, first.down))
    if not shapes:
        return None
    below, beside = sides[first.part][first.down], sides[first.part][first.against]
    enters = step.machine in ENTERS
    words = (f"into the {below}", f"from the {beside}") if enters else (f"{below} down", f"{beside} to the fence")
    x = FENCE + LONG + 8
    shapes += [
        Text((x, HIGH - 4.0 - 3.8 * i), metrics.fitted(line, TEXT, WIDTH - x), TEXT) for i, line in enumerate(words)
    ]
    return Picture([View("lying", tuple(shapes), furniture=True)], WIDTH, HIGH)


def _piece(step: Operation, first: Workpiece, down: Side) -> Iterator[Shape]:
    """Yield piece and cutter, seen along the cut, with table and fence where the machine has them."""
    fence, tilt = step.setting.fence, step.setting.tilt_deg
    if step.machine in ENTERS:
        if step.action in SLOTS and fence is not None:
            yield from _from_above(down)
    elif step.action is Action.BEVEL and step.machine is not Machine.TRACK_SAW and tilt is not None:
        yield from _tilted(down, tilt, step.setting.tilts is Tilts.NEAR)
    elif step.action in STOOD and tilt is None and fence is not None:
        yield from _over_cutter(down, beside=fence <= 0)
    elif step.action is Action.TENON and first.at:
        yield from _fingers()


def _bench(fence: bool) -> Iterator[Shape]:
    yield Line((0.0, TABLE), (FENCE + LONG + 6, TABLE), Kind.WIDE)
    if fence:
        yield _box((0.5, TABLE), (FENCE, HIGH - 0.5), False)


def _over_cutter(down: Side, beside: bool) -> Iterator[Shape]:
    """Yield a piece over a cutter that stands up out of the table, away from the fence or `beside` it."""
    high, long, wide = _sizes(down)
    off = 0.0 if beside else AT if down.axis == 3 else FLAT / 2
    yield from _bench(True)
    yield _box((FENCE, TABLE), (FENCE + long, TABLE + high), False)
    yield _box((FENCE + off, TABLE), (FENCE + off + wide, TABLE + high * 0.45), True)


def _from_above(down: Side) -> Iterator[Shape]:
    """Yield a piece with the side up that a router cuts into."""
    high, long, wide = _sizes(down)
    off = AT if down.axis == 3 else FLAT / 2
    yield from _bench(False)
    yield _box((FENCE, TABLE), (FENCE + long, TABLE + high), False)
    yield _box((FENCE + off, TABLE + high * 0.55), (FENCE + off + wide, TABLE + high), True)


def _sizes(down: Side) -> tuple[float, float, float]:
    """Return height and length of a piece as it is seen, and the width of the cutter."""
    return (FLAT, LONG, CUTTER) if down.axis == 3 else (UPRIGHT, FLAT + AT, FLAT / 2)


def _tilted(down: Side, tilt: float, near: bool) -> Iterator[Shape]:
    """Yield a piece and a blade through it, whose top leans away from the fence or, where `near`, towards it."""
    high, long, _ = _sizes(down)
    lean = high * tan(radians(tilt)) * (-1 if near else 1)
    foot = FENCE + long - max(lean, 0.0) - 2 * BLADE
    yield from _bench(True)
    yield _box((FENCE, TABLE), (FENCE + long, TABLE + high), False)
    corners = ((foot, TABLE), (foot + BLADE, TABLE), (foot + BLADE + lean, TABLE + high), (foot + lean, TABLE + high))
    yield Path(corners, Kind.NARROW, closed=True, solid=True)


def _fingers() -> Iterator[Shape]:
    """Yield a piece stood on its end, its edge to the fence, and the first cuts between its fingers."""
    yield from _bench(True)
    yield _box((FENCE, TABLE), (FENCE + LONG, TABLE + UPRIGHT), False)
    for i in range(3):
        left = FENCE + CUTTER * (2 * i + 1)
        yield _box((left, TABLE), (left + CUTTER, TABLE + UPRIGHT * 0.35), True)


def _box(low: XY, high: XY, solid: bool) -> Path:
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    return Path(corners, Kind.NARROW, closed=True, solid=solid)
