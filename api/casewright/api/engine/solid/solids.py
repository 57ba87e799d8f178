"""Exact room of parts on the nanometre grid: what two parts would both fill, and a part's volume and centre.

A solid is its blank box and bands, less its waste. Boxes and wedges are exact.
Round holes are left out of clash tests (the wood is counted as still there), which errs on the safe side.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import fsum, pi

from casewright.api.engine.solid.slants import volumes_left
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.units import MM


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
    whole: Fraction | int = 0
    for b in second.wood:
        for a in first.wood:
            if not a.meets(b):
                continue
            shared = a.cut(b)
            waste = _reaching(shared, (*first.waste, *second.waste))
            wedges = [w for w in (*first.wedges, *second.wedges) if w.box.meets(shared)]
            if wedges or _uncovered(shared, waste):
                whole += left_over(shared, waste, wedges)
    return whole


def share_when_moved(first: Solid, second: Solid, axis: int, by: int) -> bool:
    """Return whether both would fill some room with `second` moved along a signed axis by `by` nm."""
    step = [0, 0, 0]
    step[abs(axis) - 1] = by if axis > 0 else -by
    dx, dy, dz = step
    for b in second.wood:
        moved = b.moved(dx, dy, dz)
        for a in first.wood:
            if not a.meets(moved):
                continue
            shared = a.cut(moved)
            cutting = _reaching(shared, first.waste)
            slanting = [w for w in first.wedges if w.box.meets(shared)] if first.wedges else []
            if second.waste or second.wedges:
                there = shared.moved(-dx, -dy, -dz)
                cutting += [w.moved(dx, dy, dz) for w in _reaching(there, second.waste)]
                slanting += [w.moved(dx, dy, dz) for w in second.wedges if w.box.meets(there)]
            if any(volumes_left(shared, cutting, slanting)) if slanting else _uncovered(shared, cutting):
                return True
    return False


def left_over(box: Box, waste: Iterable[Box], wedges: Iterable[Wedge]) -> Fraction | int:
    """Return the volume of `box` that neither waste boxes nor wedges take away, in cubic nm."""
    return _left(box, _cuts(box, waste), [w for w in wedges if w.box.meets(box)])


def _reaching(box: Box, waste: Iterable[Box]) -> list[Box]:
    """Return the waste boxes that take some of `box`."""
    return [cut for cut in waste if cut.meets(box)]


def _cuts(box: Box, waste: Iterable[Box]) -> list[Box]:
    """Return what each waste box takes of `box`, for those that take some."""
    return [cut.cut(box) for cut in _reaching(box, waste)]


def _left(box: Box, cutting: Sequence[Box], slanting: Sequence[Wedge]) -> Fraction | int:
    """Return the volume of `box` less cuts that lie in it and wedges that reach into it, in cubic nm."""
    if box in cutting:
        return 0
    if slanting:
        return sum(volumes_left(box, cutting, slanting), 0)
    return box.volume - sum([c.volume for c in disjoint(cutting)])


def _uncovered(box: Box, cutting: Sequence[Box]) -> bool:
    """Return whether any of `box` lies outside every one of `cutting`, each of which reaches into it."""
    if not cutting:
        return True
    pieces, rest = _without(box, cutting[0]), cutting[1:]
    return any(_uncovered(piece, _reaching(piece, rest)) for piece in pieces) if rest else bool(pieces)


def disjoint(boxes: Sequence[Box]) -> list[Box]:
    """Return boxes that do not overlap and fill just what `boxes` fill together."""
    out: list[Box] = []
    for box in boxes:
        met = _reaching(box, out) if out else []
        pieces = [box]
        for earlier in met:
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


def moment_centre(
    box: Box, waste: Sequence[Box] = (), wedges: Sequence[Wedge] = (), holes: Sequence[Cylinder] = ()
) -> tuple[float, tuple[float, float, float]]:
    """Return the volume in cubic mm and the centroid in mm of a box less its cuts.

    The centroid is of the box less its boxes of waste alone; in the volume, holes that break into another cut are
    counted whole.
    """
    whole = box.volume
    twice = [whole * (box.low(axis) + box.high(axis)) for axis in (1, 2, 3)]
    for cut in disjoint(_cuts(box, waste)):
        whole -= cut.volume
        twice = [moment - cut.volume * (cut.low(axis) + cut.high(axis)) for axis, moment in enumerate(twice, start=1)]
    if whole <= 0:
        return 0.0, (0.0, 0.0, 0.0)
    exact = float(left_over(box, waste, wedges)) / 1e18 if wedges else whole / 10**18
    x, y, z = (moment / (2 * MM * whole) for moment in twice)
    return exact - _rounds_mm3(holes), (x, y, z)


def _rounds_mm3(holes: Iterable[Cylinder]) -> float:
    return fsum([pi * hole.diameter**2 / 4 * hole.depth for hole in holes]) / 1e18
