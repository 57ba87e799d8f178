"""Which parts can leave an assembly, and which way: the blocking graph over six directions, from geometry alone.

An arc runs from P to Q in direction d where P, moved along d as far as it goes, meets Q. Parts may leave along d
together where no arc runs from any of them to a part that stays (Wilson and Latombe 1994). The smallest such sets are
the strongly connected components that no arc leaves. Read backwards, parts coming off are parts going in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.solid.cells import Cell, overlap
from casewright.sdk.geometry import Axis

__all__ = ["DIRECTIONS", "Blocking", "Leave", "blocking"]

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
        """Return the smallest sets of the parts still together that can leave, with every way each can go."""
        there = frozenset(staying)
        out: list[Leave] = []
        for way in DIRECTIONS:
            meets = {part: self.arcs[way][part] & there for part in sorted(there)}
            sets = _ends(meets)
            if sets != [there]:
                out += [Leave(found, way) for found in sets]
        return sorted(out, key=lambda leave: (len(leave.parts), sorted(leave.parts), DIRECTIONS.index(leave.way)))


def blocking(parts: Mapping[str, Sequence[Cell]]) -> Blocking:
    """Return the blocking graph of parts, each given as disjoint convex cells in one frame."""
    names = sorted(parts)
    arcs: dict[Axis, dict[str, set[str]]] = {way: {name: set() for name in names} for way in DIRECTIONS}
    for n, first in enumerate(names):
        for second in names[n + 1 :]:
            for axis in (1, 2, 3):
                ahead, behind = _meets(parts[first], parts[second], axis)
                along: Axis = DIRECTIONS[2 * axis - 2]
                back: Axis = DIRECTIONS[2 * axis - 1]
                if ahead:
                    arcs[along][first].add(second)
                    arcs[back][second].add(first)
                if behind:
                    arcs[back][first].add(second)
                    arcs[along][second].add(first)
    return Blocking({way: {name: frozenset(met) for name, met in by.items()} for way, by in arcs.items()})


def _meets(first: Sequence[Cell], second: Sequence[Cell], axis: int) -> tuple[bool, bool]:
    """Return whether `first` meets `second` when it moves up along an axis, and when it moves down."""
    ahead = behind = False
    for a in first:
        for b in second:
            span = overlap(a, b, axis)
            if span is not None:
                ahead = ahead or span.high > 0
                behind = behind or span.low < 0
                if ahead and behind:
                    return True, True
    return ahead, behind


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
