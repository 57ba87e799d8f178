"""Which parts can leave an assembly, and which way: the blocking graph over six directions, from geometry alone.

An arc runs from P to Q in direction d where P, moved along d as far as it goes, meets Q. Parts may leave along d
together where no arc runs from any of them to a part that stays (Wilson and Latombe 1994). The smallest such sets are
the strongly connected components that no arc leaves. Read backwards, parts coming off are parts going in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.solid.cells import Cell, Number, overlap
from casewright.sdk.geometry import Axis, opposite

__all__ = ["DIRECTIONS", "Blocking", "Leave", "around", "blocking"]

Bounds = tuple[Number, ...]

DIRECTIONS: tuple[Axis, ...] = (1, -1, 2, -2, 3, -3)


@dataclass(frozen=True, slots=True)
class Leave:
    """Parts that come off together, and the way they go."""

    parts: frozenset[str]
    way: Axis


@dataclass(frozen=True, slots=True)
class Blocking:
    """For each direction and part, the parts it would meet if it moved that way."""

    arcs: Mapping[Axis, Mapping[str, frozenset[str]]]

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
    round_all = {name: around(parts[name]) for name in names}
    arcs: dict[Axis, dict[str, set[str]]] = {way: {name: set() for name in names} for way in DIRECTIONS}
    for n, first in enumerate(names):
        for second in names[n + 1 :]:
            for way in _ways_to_meet(parts[first], parts[second], (round_all[first], round_all[second])):
                arcs[way][first].add(second)
                arcs[opposite(way)][second].add(first)
    return Blocking({way: {name: frozenset(met) for name, met in by.items()} for way, by in arcs.items()})


def around(cells: Sequence[Cell]) -> Bounds:
    """Return the low and then the high bounds of cells."""
    bounds = list(zip(*[cell.box for cell in cells], strict=True))
    return (*map(min, bounds[:3]), *map(max, bounds[3:]))


def _ways_to_meet(first: Sequence[Cell], second: Sequence[Cell], boxes: tuple[Bounds, Bounds]) -> list[Axis]:
    """Return the ways in which `first` meets `second`, moved as far as it goes; `boxes` are the boxes round them."""
    out: list[Axis] = []
    a, b = boxes
    for i in range(3):
        j, k = (i + 1) % 3, (i + 2) % 3
        if not (a[j] < b[j + 3] and b[j] < a[j + 3] and a[k] < b[k + 3] and b[k] < a[k + 3]):
            continue
        ahead, back = b[i + 3] > a[i], b[i] < a[i + 3]
        met = _along(first, second, i, (ahead, back))
        out += [DIRECTIONS[2 * i + n] for n in range(2) if met[n]]
    return out


def _along(first: Sequence[Cell], second: Sequence[Cell], i: int, can: tuple[bool, bool]) -> tuple[bool, bool]:
    """Return whether `first` meets `second` ahead and behind along one axis; `can` is what their boxes allow."""
    j, k = (i + 1) % 3, (i + 2) % 3
    ahead = back = False
    for one in first:
        a = one.box
        for other in second:
            b = other.box
            if a[j] < b[j + 3] and b[j] < a[j + 3] and a[k] < b[k + 3] and b[k] < a[k + 3]:
                low, high = b[i] - a[i + 3], b[i + 3] - a[i]
                if not (high > 0 and not ahead) and not (low < 0 and not back):
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
