"""Which parts can leave an assembly, and which way: the blocking graph over six directions, from geometry alone.

An arc runs from P to Q in direction d where P, moved along d as far as it goes, meets Q. Parts may leave along d
together where no arc runs from any of them to a part that stays (Wilson and Latombe 1994). The smallest such sets are
the strongly connected components that no arc leaves. Read backwards, parts coming off are parts going in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from casewright.api.engine.solid.cells import Cell, Number, Vector, overlap
from casewright.sdk.geometry import Axis, opposite

__all__ = ["DIRECTIONS", "Blocking", "Leave", "blocking"]

Bounds = tuple[Number, ...]

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
            out += [Leave(found, way) for found in sets if found != there]
        return sorted(out, key=lambda leave: (len(leave.parts), sorted(leave.parts), DIRECTIONS.index(leave.way)))


def blocking(parts: Mapping[str, Sequence[Cell]]) -> Blocking:
    """Return the blocking graph of parts, each given as disjoint convex cells in one frame."""
    names = sorted(parts)
    boxes = {name: _around(parts[name]) for name in names}
    arcs: dict[Axis, dict[str, set[str]]] = {way: {name: set() for name in names} for way in DIRECTIONS}
    let_in: dict[str, list[tuple[str, Vector]]] = {name: [] for name in names}
    for n, first in enumerate(names):
        for second in names[n + 1 :]:
            a, b = boxes[first], boxes[second]
            level = [a[i] < b[i + 3] and b[i] < a[i + 3] for i in range(3)]
            if all(level):
                shared = _shared(a, b)
                let_in[first].append((second, shared))
                let_in[second].append((first, shared))
            for way in _ways_to_meet(parts[first], parts[second], (a, b), level):
                arcs[way][first].add(second)
                arcs[opposite(way)][second].add(first)
    return Blocking({way: {name: frozenset(met) for name, met in by.items()} for way, by in arcs.items()}, let_in)


def _around(cells: Sequence[Cell]) -> Bounds:
    """Return the low and then the high bounds of cells."""
    if len(cells) == 1:
        return cells[0].box
    bounds = list(zip(*[cell.box for cell in cells], strict=True))
    return (*map(min, bounds[:3]), *map(max, bounds[3:]))


def _shared(a: Bounds, b: Bounds) -> Vector:
    """Return how far two boxes that meet lie over one another along each axis."""
    return min(a[3], b[3]) - max(a[0], b[0]), min(a[4], b[4]) - max(a[1], b[1]), min(a[5], b[5]) - max(a[2], b[2])


def _ways_to_meet(
    first: Sequence[Cell], second: Sequence[Cell], boxes: tuple[Bounds, Bounds], level: Sequence[bool]
) -> list[Axis]:
    """Return the ways in which `first` meets `second`, moved as far as it goes.

    `boxes` are the boxes round them, and `level` is whether these lie over one another along each axis.
    """
    out: list[Axis] = []
    a, b = boxes
    for i in range(3):
        if level[i - 1] and level[i - 2]:
            ahead, back = _along(first, second, i, (b[i + 3] > a[i], b[i] < a[i + 3]))
            if ahead:
                out.append(DIRECTIONS[2 * i])
            if back:
                out.append(DIRECTIONS[2 * i + 1])
    return out


def _along(first: Sequence[Cell], second: Sequence[Cell], i: int, can: tuple[bool, bool]) -> tuple[bool, bool]:
    """Return whether `first` meets `second` ahead and behind along one axis; `can` is what their boxes allow."""
    j, k = (i + 1) % 3, (i + 2) % 3
    ahead = back = False
    for one in first:
        a = one.box
        i0, j0, k0, i1, j1, k1 = a[i], a[j], a[k], a[i + 3], a[j + 3], a[k + 3]
        for other in second:
            b = other.box
            if j0 < b[j + 3] and b[j] < j1 and k0 < b[k + 3] and b[k] < k1:
                low, high = b[i] - i1, b[i + 3] - i0
                if (ahead or high <= 0) and (back or low >= 0):
                    continue
                if one.corners or other.corners:
                    span = overlap(one, other, i + 1)
                    if span is None:
                        continue
                    low, high = span
                ahead, back = ahead or high > 0, back or low < 0
                if (ahead, back) == can:
                    return can
    return ahead, back


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
            found = frozenset(trail[trail.index(part) :])
            del trail[trail.index(part) :]
            home.update(dict.fromkeys(found, found))
            if all(meets[one] <= found for one in found):
                ends.append(found)

    for part in meets:
        if part not in number:
            visit(part)
    return ends
