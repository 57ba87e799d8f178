"""Which parts can leave an assembly, and which way: the blocking graph over six directions, from geometry alone.

An arc runs from P to Q in direction d where P, moved along d as far as it goes, meets Q. Parts may leave along d
together where no arc runs from any of them to a part that stays (Wilson and Latombe 1994). The smallest such sets are
the strongly connected components that no arc leaves. Read backwards, parts coming off are parts going in.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import NamedTuple

from casewright.api.engine.solid.cells import Cell, Number, Vector, overlap
from casewright.sdk.geometry import Axis, opposite

__all__ = ["DIRECTIONS", "Blocking", "Bounds", "Leave", "around", "blocking"]

Bounds = tuple[Number, ...]
"""The low and then the high bounds of a box along each axis."""

DIRECTIONS: tuple[Axis, ...] = (1, -1, 2, -2, 3, -3)


class Leave(NamedTuple):
    """Parts that come off together, and the way they go."""

    parts: frozenset[str]
    way: Axis


@dataclass(frozen=True, slots=True)
class Blocking:
    """For each direction and part, the parts it would meet if it moved that way.

    `let_in` are, for each part, those whose boxes share room with its own, and how much of it along each axis.
    """

    arcs: Mapping[Axis, Mapping[str, frozenset[str]]]
    let_in: Mapping[str, Sequence[tuple[str, Vector]]]

    def free(self, staying: Iterable[str]) -> list[Leave]:
        """Return what can leave of the parts still together, with every way it can go.

        Single parts where any is free; where none is, the smallest sets that are free together.
        """
        there = frozenset(staying)
        out = [
            Leave(frozenset((part,)), way)
            for part in sorted(there)
            for way in DIRECTIONS
            if self.arcs[way][part].isdisjoint(there)
        ]
        if out or len(there) < 2:
            return out
        for way in DIRECTIONS:
            sets = _ends({part: self.arcs[way][part] & there for part in sorted(there)})
            out += [Leave(going, way) for going in sets if going != there]
        return sorted(out, key=lambda leave: (len(leave.parts), sorted(leave.parts), DIRECTIONS.index(leave.way)))


def blocking(parts: Mapping[str, Sequence[Cell]]) -> Blocking:
    """Return the blocking graph of parts, each given as disjoint convex cells in one frame."""
    names = sorted(parts)
    boxes = {name: around(parts[name]) for name in names}
    arcs: dict[Axis, dict[str, set[str]]] = {way: {name: set() for name in names} for way in DIRECTIONS}
    let_in: dict[str, list[tuple[str, Vector]]] = {name: [] for name in names}
    for n, first in enumerate(names):
        for second in names[n + 1 :]:
            a, b = boxes[first], boxes[second]
            level = [a[i] < b[i + 3] and b[i] < a[i + 3] for i in range(3)]
            if sum(level) < 2:
                continue
            if all(level):
                shared = _shared(a, b)
                let_in[first].append((second, shared))
                let_in[second].append((first, shared))
            for way in _ways_to_meet(parts[first], parts[second]):
                arcs[way][first].add(second)
                arcs[opposite(way)][second].add(first)
    return Blocking({way: {name: frozenset(met) for name, met in by.items()} for way, by in arcs.items()}, let_in)


def around(cells: Sequence[Cell]) -> Bounds:
    """Return the low and then the high bounds of cells."""
    if len(cells) == 1:
        return cells[0].box
    bounds = list(zip(*[cell.box for cell in cells], strict=True))
    return (*map(min, bounds[:3]), *map(max, bounds[3:]))


def _shared(a: Bounds, b: Bounds) -> Vector:
    """Return how far two boxes that meet lie over one another along each axis."""
    return min(a[3], b[3]) - max(a[0], b[0]), min(a[4], b[4]) - max(a[1], b[1]), min(a[5], b[5]) - max(a[2], b[2])


def _ways_to_meet(first: Sequence[Cell], second: Sequence[Cell]) -> Iterable[Axis]:
    """Return the ways in which `first` meets `second`, moved as far as it goes."""
    out: set[Axis] = set()
    for one in first:
        ax0, ay0, az0, ax1, ay1, az1 = one.box
        for other in second:
            bx0, by0, bz0, bx1, by1, bz1 = other.box
            x = ax0 < bx1 and bx0 < ax1
            y = ay0 < by1 and by0 < ay1
            if not (x or y):
                continue
            z = az0 < bz1 and bz0 < az1
            if one.corners or other.corners:
                out.update(list(_slanting(one, other, out)))
            elif x and y and z:
                return DIRECTIONS
            elif y and z:
                out.add(1 if ax1 <= bx0 else -1)
            elif x and z:
                out.add(2 if ay1 <= by0 else -2)
            elif x and y:
                out.add(3 if az1 <= bz0 else -3)
    return out


def _slanting(one: Cell, other: Cell, known: Set[Axis]) -> Iterator[Axis]:
    """Yield the ways, but those known, in which a cell meets another, where faces of either slant."""
    for i in range(3):
        ahead, back = DIRECTIONS[2 * i], DIRECTIONS[2 * i + 1]
        before = ahead not in known and other.box[i + 3] > one.box[i]
        behind = back not in known and other.box[i] < one.box[i + 3]
        span = overlap(one, other, i + 1) if before or behind else None
        if span is not None and before and span.high > 0:
            yield ahead
        if span is not None and behind and span.low < 0:
            yield back


def _ends(meets: Mapping[str, frozenset[str]]) -> list[frozenset[str]]:
    """Return the strongly connected components of a graph that no arc leaves (Tarjan 1972)."""
    number: dict[str, int] = {}
    low: dict[str, int] = {}
    trail: list[str] = []
    ends: list[frozenset[str]] = []
    home: dict[str, frozenset[str]] = {}

    def visit(part: str) -> None:
        number[part] = low[part] = len(number)
        trail.append(part)
        for met in sorted(meets[part]):
            if met not in number:
                visit(met)
            if met not in home:
                low[part] = min(low[part], low[met])
        if low[part] == number[part]:
            ring = frozenset(trail[trail.index(part) :])
            del trail[trail.index(part) :]
            home.update(dict.fromkeys(ring, ring))
            if all(meets[one] <= ring for one in ring):
                ends.append(ring)

    for part in meets:
        if part not in number:
            visit(part)
    return ends
