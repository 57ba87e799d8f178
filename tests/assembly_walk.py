"""An order of assembly walked through in a solid kernel, manifold3d: what parts sweep on their way meets nothing.

Nothing here is the engine's but the records: every move is the hull of each convex cell where it starts and ends.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from casewright.api.engine.solid.cells import Cell
from casewright.api.engine.work.assembly import AssemblyOrder
from casewright.sdk.geometry import Axis, opposite

SIZE = 1000.0
"""What the longest way across all parts is scaled to, so that a thousandth of a cube of side 1 is nothing."""
NOTHING = 1e-3
FAR = 3 * SIZE
"""Far enough to be free of everything."""

Point = tuple[float, ...]


def order_is_clear(parts: Mapping[str, Sequence[Cell]], order: AssemblyOrder) -> bool:
    """Return whether every part is set in, and no insertion meets, on its whole way, what stands there before it."""
    boxes = [cell.box for cells in parts.values() for cell in cells]
    scale = SIZE / float(max(max(box[i + 3] for box in boxes) - min(box[i] for box in boxes) for i in range(3)))
    corners = {name: [_corners(cell, scale) for cell in cells] for name, cells in parts.items()}
    there = {order.first} if order.first else set(order.locked)
    for insertion in order.insertions:
        rest = [cell for name in there for cell in corners[name]]
        going = [cell for name in insertion.parts for cell in corners[name]]
        for leg in reversed(insertion.legs):
            by = FAR if leg.by is None else float(leg.by) * scale
            gone = [[_along(corner, opposite(leg.way), by) for corner in cell] for cell in going]
            if any(_meet([*a, *b], still) for a, b in zip(going, gone, strict=True) for still in rest):
                return False
            going = gone
        there |= set(insertion.parts)
    return there == set(parts)


def _corners(cell: Cell, scale: float) -> list[Point]:
    x0, y0, z0, x1, y1, z1 = cell.box
    corners = cell.corners or [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
    return [tuple(float(c) * scale for c in corner) for corner in corners]


def _along(corner: Point, way: Axis, by: float) -> Point:
    return tuple(c + (by if way > 0 else -by) * (i + 1 == abs(way)) for i, c in enumerate(corner))


def _meet(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """Return whether the hulls of two sets of points share volume."""
    if any(high <= low for low, high in _lows_and_highs(first, second)):
        return False
    return float((_hull(first) ^ _hull(second)).volume()) > NOTHING


def _lows_and_highs(first: Sequence[Point], second: Sequence[Point]) -> Iterator[tuple[float, float]]:
    """Yield, along each axis, from where to where both could reach."""
    for a, b in zip(zip(*first, strict=True), zip(*second, strict=True), strict=True):
        yield max(min(a), min(b)), min(max(a), max(b))


def _hull(points: Sequence[Point]) -> Any:
    import numpy as np
    from manifold3d import Manifold

    return Manifold.hull_points(np.array(points))
