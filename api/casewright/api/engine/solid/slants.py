"""What slanting cuts leave of a box: exact volumes, in whole numbers until the last division.

A polygon's corner is kept as whole numbers (x·w, y·w, w), w above zero, so that clipping makes no fractions.
"""

import itertools
from collections.abc import Iterator, Sequence
from fractions import Fraction

from casewright.api.engine.solid.convex import convex_left
from casewright.sdk.geometry import Box, Wedge

Polygon = list[tuple[int, int, int]]


def volumes_left(box: Box, cutting: Sequence[Box], slanting: Sequence[Wedge]) -> Iterator[Fraction | int]:
    """Yield the volume, in cubic nm, of each piece that cuts which lie in `box` and wedges leave of it."""
    return (_cell_volume(cell, slanting) for cell in _cells(box, cutting, slanting))


def _cells(box: Box, cutting: Sequence[Box], slanting: Sequence[Wedge]) -> list[Box]:
    """Return the grid cells of `box`, as every cut's faces divide it, that no cutting box covers."""
    edges: list[list[int]] = []
    boxes = [*cutting, *(w.box for w in slanting)]
    for axis in (0, 1, 2):
        low, high = box[axis], box[axis + 3]
        marks = {low, high}
        for b in boxes:
            marks.update([mark for mark in (b[axis], b[axis + 3]) if low < mark < high])
        edges.append(sorted(marks))
    xs, ys, zs = edges
    out: list[Box] = []
    for x0, x1 in itertools.pairwise(xs):
        near_x = [c for c in cutting if c.x0 <= x0 and x1 <= c.x1]
        for y0, y1 in itertools.pairwise(ys):
            near = [c for c in near_x if c.y0 <= y0 and y1 <= c.y1]
            for z0, z1 in itertools.pairwise(zs):
                if not near or not any(c.z0 <= z0 and z1 <= c.z1 for c in near):
                    out.append(Box(x0, y0, z0, x1, y1, z1))
    return out


def _cell_volume(cell: Box, slanting: Sequence[Wedge]) -> Fraction | int:
    """Return what wedges leave of one cell; every wedge's box covers the whole cell or none of it."""
    over = [w for w in slanting if w.box.meets(cell)]
    if not over:
        return cell.volume
    if len({w.along for w in over}) == 1:
        return _prism_left(cell, over[0].along, over)
    return convex_left(cell, over)


def _prism_left(cell: Box, axis: int, wedges: Sequence[Wedge]) -> Fraction | int:
    u, v = [a for a in (1, 2, 3) if a != axis]
    u0, u1, v0, v1 = cell.low(u), cell.high(u), cell.low(v), cell.high(v)
    polygon: Polygon = [(u0, v0, 1), (u1, v0, 1), (u1, v1, 1), (u0, v1, 1)]
    for wedge in wedges:
        polygon = _clipped(polygon, wedge, u, v)
        if not polygon:
            return 0
    return _area(polygon) * (cell.high(axis) - cell.low(axis))


def _clipped(polygon: Polygon, wedge: Wedge, u: int, v: int) -> Polygon:
    """Return the part of a convex polygon in the (u, v) plane that a wedge's slanting face leaves."""
    box, signs = wedge.box, {abs(a): a > 0 for a in wedge.corner}
    cu = box.high(u) if signs[u] else box.low(u)
    cv = box.high(v) if signs[v] else box.low(v)
    du = box.low(u) + box.high(u) - 2 * cu
    dv = box.low(v) + box.high(v) - 2 * cv
    sign = 1 if du * dv > 0 else -1
    at = cu * dv + cv * du + du * dv
    beyond = [sign * (x * dv + y * du - w * at) for x, y, w in polygon]
    if min(beyond) >= 0:
        return polygon
    if max(beyond) <= 0:
        return []
    out: Polygon = []
    p, fp = polygon[-1], beyond[-1]
    for q, fq in zip(polygon, beyond, strict=True):
        if (fp > 0 > fq) or (fp < 0 < fq):
            a, b = abs(fq), abs(fp)
            out.append((p[0] * a + q[0] * b, p[1] * a + q[1] * b, p[2] * a + q[2] * b))
        if fq >= 0:
            out.append(q)
        p, fp = q, fq
    return out


def _area(polygon: Polygon) -> Fraction:
    """Return the area of a simple polygon."""
    twice, under = 0, 1
    x0, y0, w0 = polygon[-1]
    for x1, y1, w1 in polygon:
        twice, under = twice * w0 * w1 + (x0 * y1 - x1 * y0) * under, under * w0 * w1
        x0, y0, w0 = x1, y1, w1
    return Fraction(abs(twice), 2 * under)
