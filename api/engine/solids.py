"""Exact room of parts on the nanometre grid: what two parts would both fill, and a part's volume and centre.

A solid is its blank box and bands, less its waste. Boxes are exact; wedges are clipped exactly as polygons.
Round holes are left out of clash tests (the wood is counted as still there), which errs on the safe side.
"""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import pi

from casewright.api.engine.convex import convex_left
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.records import quickly_made

MM = 1_000_000

_new = tuple.__new__
"""Makes a box of six numbers known to be six, quicker than its constructor."""

Polygon = list[tuple[Fraction | int, Fraction | int]]


@quickly_made
@dataclass(frozen=True, slots=True)
class Solid:
    """A part as it stands in the cabinet: `wood` boxes less `waste`, `wedges` and `holes`."""

    id: str
    wood: tuple[Box, ...]
    waste: tuple[Box, ...]
    wedges: tuple[Wedge, ...]
    holes: tuple[Cylinder, ...]


def common_volume(first: Solid, second: Solid) -> Fraction | int:
    """Return the volume, in cubic nm, that both solids would fill."""
    return common_when_moved(first, second, 1, 0)


def common_when_moved(first: Solid, second: Solid, axis: int, by: int) -> Fraction | int:
    """Return the volume, in cubic nm, that both would fill with `second` moved along a signed axis by `by` nm."""
    step = [0, 0, 0]
    step[abs(axis) - 1] = by if axis > 0 else -by
    dx, dy, dz = step
    whole: Fraction | int = 0
    for b in second.wood:
        moved = b.moved(dx, dy, dz) if by else b
        for a in first.wood:
            if not a.meets(moved):
                continue
            shared = a.cut(moved)
            cutting = _cuts(shared, first.waste)
            if by:
                there = shared.moved(-dx, -dy, -dz)
                cutting += [c.moved(dx, dy, dz) for c in _cuts(there, second.waste)]
            else:
                there = shared
                cutting += _cuts(shared, second.waste)
            slanting = [w for w in first.wedges if w.box.meets(shared)]
            slanting += [w.moved(dx, dy, dz) if by else w for w in second.wedges if w.box.meets(there)]
            whole += _left(shared, cutting, slanting)
    return whole


def left_over(box: Box, waste: Iterable[Box], wedges: Iterable[Wedge]) -> Fraction | int:
    """Return the volume of `box` that neither waste boxes nor wedges take away, in cubic nm."""
    return _left(box, _cuts(box, waste), [w for w in wedges if w.box.meets(box)])


def _cuts(box: Box, waste: Iterable[Box]) -> list[Box]:
    """Return what each waste box takes of `box`, for those that take some."""
    x0, y0, z0, x1, y1, z1 = box
    return [
        _new(
            Box,
            (
                a0 if a0 > x0 else x0,
                b0 if b0 > y0 else y0,
                c0 if c0 > z0 else z0,
                a1 if a1 < x1 else x1,
                b1 if b1 < y1 else y1,
                c1 if c1 < z1 else z1,
            ),
        )
        for a0, b0, c0, a1, b1, c1 in waste
        if a0 < x1 and x0 < a1 and b0 < y1 and y0 < b1 and c0 < z1 and z0 < c1
    ]


def _left(box: Box, cutting: Sequence[Box], slanting: Sequence[Wedge]) -> Fraction | int:
    """Return the volume of `box` less cuts that lie in it and wedges that reach into it, in cubic nm."""
    if slanting:
        return sum((_cell_volume(cell, slanting) for cell in cells(box, cutting, slanting)), 0)
    if not cutting:
        return box.volume
    if box in cutting:
        return 0
    return box.volume - sum([c.volume for c in disjoint(cutting)])


def disjoint(boxes: Sequence[Box]) -> list[Box]:
    """Return boxes that do not overlap and fill just what `boxes` fill together."""
    if len(boxes) == 1:
        return [boxes[0]]
    out: list[Box] = []
    for box in boxes:
        pieces = [box]
        for earlier in tuple(out):
            if any(p.meets(earlier) for p in pieces):
                pieces = [rest for p in pieces for rest in (_without(p, earlier) if p.meets(earlier) else (p,))]
        out += pieces
    return out


def _without(box: Box, hole: Box) -> list[Box]:
    """Return up to six boxes that fill `box` less `hole`, which it meets."""
    x0, y0, z0, x1, y1, z1 = box
    out: list[Box] = []
    if hole.x0 > x0:
        out.append(Box(x0, y0, z0, hole.x0, y1, z1))
        x0 = hole.x0
    if hole.x1 < x1:
        out.append(Box(hole.x1, y0, z0, x1, y1, z1))
        x1 = hole.x1
    if hole.y0 > y0:
        out.append(Box(x0, y0, z0, x1, hole.y0, z1))
        y0 = hole.y0
    if hole.y1 < y1:
        out.append(Box(x0, hole.y1, z0, x1, y1, z1))
        y1 = hole.y1
    if hole.z0 > z0:
        out.append(Box(x0, y0, z0, x1, y1, hole.z0))
    if hole.z1 < z1:
        out.append(Box(x0, y0, hole.z1, x1, y1, z1))
    return out


def cells(box: Box, cutting: Sequence[Box], slanting: Sequence[Wedge]) -> list[Box]:
    """Return the grid cells of `box`, as every cut's faces divide it, that no cutting box covers."""
    edges: list[list[int]] = []
    boxes = [*cutting, *(w.box for w in slanting)]
    for axis in (1, 2, 3):
        low, high = box.low(axis), box.high(axis)
        marks = {low, high}
        for b in boxes:
            for mark in (b.low(axis), b.high(axis)):
                if low < mark < high:
                    marks.add(mark)
        edges.append(sorted(marks))
    xs, ys, zs = edges
    out: list[Box] = []
    for x0, x1 in itertools.pairwise(xs):
        near_x = [c for c in cutting if c.x0 <= x0 and x1 <= c.x1]
        for y0, y1 in itertools.pairwise(ys):
            near = [c for c in near_x if c.y0 <= y0 and y1 <= c.y1]
            for z0, z1 in itertools.pairwise(zs):
                if not any(c.z0 <= z0 and z1 <= c.z1 for c in near):
                    out.append(Box(x0, y0, z0, x1, y1, z1))
    return out


def _cell_volume(cell: Box, slanting: Sequence[Wedge]) -> Fraction | int:
    """Return what wedges leave of one cell; every wedge's box covers the whole cell or none of it."""
    over = [w for w in slanting if w.box.meets(cell)]
    if not over:
        return cell.volume
    axes = {w.along for w in over}
    if len(axes) == 1:
        return _prism_left(cell, over[0].along, over)
    return convex_left(cell, over)


def _prism_left(cell: Box, axis: int, wedges: Sequence[Wedge]) -> Fraction | int:
    u, v = [a for a in (1, 2, 3) if a != axis]
    u0, u1, v0, v1 = cell.low(u), cell.high(u), cell.low(v), cell.high(v)
    polygon: Polygon = [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]
    for wedge in wedges:
        polygon = clipped(polygon, wedge, u, v)
    return polygon_area(polygon) * (cell.high(axis) - cell.low(axis))


def clipped(polygon: Polygon, wedge: Wedge, u: int, v: int) -> Polygon:
    """Return the part of a convex polygon in the (u, v) plane that a wedge's slanting face leaves."""
    signs = {abs(a): a > 0 for a in wedge.corner}
    cu = wedge.box.high(u) if signs[u] else wedge.box.low(u)
    cv = wedge.box.high(v) if signs[v] else wedge.box.low(v)
    du = wedge.box.low(u) + wedge.box.high(u) - 2 * cu
    dv = wedge.box.low(v) + wedge.box.high(v) - 2 * cv
    sign = 1 if du * dv > 0 else -1

    def beyond(p: tuple[Fraction | int, Fraction | int]) -> Fraction | int:
        return sign * ((p[0] - cu) * dv + (p[1] - cv) * du - du * dv)

    out: Polygon = []
    for i, p in enumerate(polygon):
        q = polygon[(i + 1) % len(polygon)]
        fp, fq = beyond(p), beyond(q)
        if fp >= 0:
            out.append(p)
        if (fp > 0 > fq) or (fp < 0 < fq):
            share = Fraction(fp) / Fraction(fp - fq)
            out.append((p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share))
    return out


def polygon_area(polygon: Polygon) -> Fraction | int:
    """Return the area of a simple polygon."""
    twice: Fraction | int = 0
    for i, (x0, y0) in enumerate(polygon):
        x1, y1 = polygon[(i + 1) % len(polygon)]
        twice += x0 * y1 - x1 * y0
    return abs(Fraction(twice) / 2)


def volume_mm3(solid: Solid) -> float:
    """Return the volume of a part in cubic mm. Holes that break into another cut are counted whole."""
    exact = sum((left_over(box, solid.waste, solid.wedges) for box in solid.wood), 0)
    return float(exact) / 1e18 - _rounds_mm3(solid)


def _rounds_mm3(solid: Solid) -> float:
    return sum(pi * hole.diameter**2 / 4 * hole.depth for hole in solid.holes) / 1e18


def moment_centre(solid: Solid) -> tuple[float, tuple[float, float, float]]:
    """Return a part's volume in cubic mm and its centroid in mm; round holes and slants count by their boxes."""
    whole = mx = my = mz = 0
    for box in solid.wood:
        for sign, pieces in ((1, (box,)), (-1, disjoint(_cuts(box, solid.waste)))):
            for piece in pieces:
                x0, y0, z0, x1, y1, z1 = piece
                volume = sign * (x1 - x0) * (y1 - y0) * (z1 - z0)
                whole += volume
                mx += volume * (x0 + x1)
                my += volume * (y0 + y1)
                mz += volume * (z0 + z1)
    if whole <= 0:
        return 0.0, (0.0, 0.0, 0.0)
    volume_in_use = volume_mm3(solid) if solid.wedges else whole / 10**18 - _rounds_mm3(solid)
    twice = 2 * MM * whole
    return volume_in_use, (mx / twice, my / twice, mz / twice)
