"""In which order parts go together, and which way each is moved: taking the assembly apart, read backwards.

Nothing here knows a case from a door. A part, or the fewest parts that must go together, comes off where nothing
blocks it; where no single move frees any, a bounded search tries a move along one axis and then along another. Parts
that neither frees are locked, as far as this search goes.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.solid.blocking import DIRECTIONS, Blocking, Bounds, Leave, around, blocking
from casewright.api.engine.solid.cells import Cell, Number, moved, overlap
from casewright.sdk.geometry import Axis, opposite

__all__ = ["AssemblyOrder", "Insertion", "Leg", "assembly_order"]

EASY: tuple[Axis, ...] = (3, 1, -1, -2, 2, -3)
"""Ways to take a part off, easiest first (set in from above, then from a side; common practice)."""
DRAWN = 40_000_000
"""What is let in no deeper than this, in nm, is drawn out of its joint and not slid (common practice, no source)."""
Joined = Mapping[str, frozenset[str]]
"""For each part that a joint holds, those it meets in one."""
MOST_AT_ONCE = 2
"""Parts that are tried together in a move of two legs (a person's hands, common practice)."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One straight move: the way, and how far in nm; `None` comes from where nothing is in the way."""

    way: Axis
    by: Number | None = None


@dataclass(frozen=True, slots=True)
class Insertion:
    """Parts that are set in together, and the moves that bring them there, in the order they are made."""

    parts: tuple[str, ...]
    legs: tuple[Leg, ...]


@dataclass(frozen=True, slots=True)
class AssemblyOrder:
    """The part laid down first, what is set in after it one after another, and the parts no move tried frees."""

    first: str
    insertions: tuple[Insertion, ...]
    locked: tuple[str, ...] = ()

    def renamed(self, names: Mapping[str, str]) -> "AssemblyOrder":
        """Return the order with every part by its other name."""
        insertions = [Insertion(tuple([names[one] for one in step.parts]), step.legs) for step in self.insertions]
        first = names[self.first] if self.first else ""
        return AssemblyOrder(first, tuple(insertions), tuple([names[one] for one in self.locked]))


def assembly_order(
    parts: Mapping[str, Sequence[Cell]],
    joined: Iterable[frozenset[str]] = (),
) -> AssemblyOrder:
    """Return how parts, each given as disjoint convex cells in one frame, go together.

    `joined` are pairs that meet in a joint: parts are set in where what is there already holds them, if any order
    does so. Deterministic. `first` is empty where locked parts are what everything else is set in to.
    """
    graph = blocking(parts)
    known = _Known(graph, _beside(joined), _base(parts, graph))
    staying = frozenset(parts)
    off: list[Insertion] = []
    way: Axis | None = None
    while len(staying) > 1:
        leaves = known.graph.free(staying)
        if leaves:
            leave = _best(leaves, staying, known, way)
            way = leave.way
            off.append(Insertion(tuple(sorted(leave.parts)), (Leg(opposite(way)),)))
            staying -= leave.parts
            continue
        turned = next(_two_legs(parts, staying), None)
        if turned is None:
            break
        off.append(turned)
        staying -= frozenset(turned.parts)
    locked = tuple(sorted(staying)) if len(staying) > 1 else ()
    return AssemblyOrder("" if locked else min(staying, default=""), tuple(reversed(off)), locked)


def _beside(pairs: Iterable[frozenset[str]]) -> Joined:
    """Return the parts that each part meets in a joint."""
    beside: dict[str, frozenset[str]] = {}
    for pair in pairs:
        for part in pair:
            beside[part] = beside.get(part, frozenset()) | pair
    return beside


@dataclass(frozen=True, slots=True)
class _Known:
    """What decides between parts that are free: what blocks them, what joints hold, what the rest is set round."""

    graph: Blocking
    beside: Joined
    base: str


def _base(parts: Mapping[str, Sequence[Cell]], graph: Blocking) -> str:
    """Return the part that lies flat while the whole lies lowest, the largest of such, where the others lock it in.

    One that another is as large as, or that comes off while all others stay, is no base: it may as well be set last.
    """
    bounds = {name: around(cells) for name, cells in parts.items()}
    whole = _sizes(around([cell for cells in parts.values() for cell in cells]))
    lying: dict[tuple[Number, Number], list[str]] = {}
    for name, box in bounds.items():
        thin, wide, long = sorted(zip(_sizes(box), whole, strict=True))
        lying.setdefault((thin[1], -wide[0] * long[0]), []).append(name)
    first, *alike = lying[min(lying)]
    free = any(first in leave.parts for leave in graph.free(parts))
    return "" if alike or free else first


def _sizes(bounds: Bounds) -> list[Number]:
    """Return how long, deep and high a box is."""
    return [bounds[i + 3] - bounds[i] for i in range(3)]


def _best(leaves: Sequence[Leave], staying: frozenset[str], known: _Known, way: Axis | None) -> Leave:
    """Return the leave that is best done next, of those in which the fewest parts come off at once.

    What no joint holds comes off first; what stays holds together; the way out of what a part is let into is short:
    drawn, not slid; the base stays longest, as it lies flat on the bench and one person alone can set the others
    round it (common practice); the way is as before, or else upwards before all others.
    """
    beside, graph = known.beside, known.graph
    best = [one for one in leaves if len(one.parts) == len(leaves[0].parts)]
    if beside:
        best = [one for one in best if beside.keys().isdisjoint(one.parts)] or best
    if len(best) > 1:
        whole = {parts: _together(staying - parts, beside) for parts in {one.parts for one in best}}
        best = [one for one in best if whole[one.parts]] or best
    if len(best) > 1:
        slid = {one: _slid(one, staying, graph) for one in best}
        rest = [one for one in best if known.base not in one.parts]
        if rest and min(slid[one] for one in rest) <= DRAWN:
            best = rest
        least = min(slid[one] for one in best)
        best = [one for one in best if slid[one] == least]
    return min(best, key=lambda one: (one.way != way, sorted(one.parts), EASY.index(one.way)))


def _slid(leave: Leave, staying: frozenset[str], graph: Blocking) -> Number:
    """Return how far a leave slides in what it is let into, at most."""
    along, rest = abs(leave.way) - 1, staying - leave.parts
    rooms = [shared[along] for part in leave.parts for other, shared in graph.let_in[part] if other in rest]
    return max(rooms, default=0)


def _together(parts: frozenset[str], beside: Joined) -> bool:
    """Return whether joints hold all these parts together, but those that no joint of any holds."""
    apart = {part for part in parts if part in beside}
    reached = [apart.pop()] if apart else []
    while reached and apart:
        met = beside[reached.pop()] & apart
        apart -= met
        reached += met
    return not apart


def _two_legs(parts: Mapping[str, Sequence[Cell]], staying: frozenset[str]) -> Iterator[Insertion]:
    """Yield how one or two parts come off in a bounded move and then a free one, as the insertion it is backwards."""
    names = sorted(staying)
    groups: list[tuple[str, ...]] = [(name,) for name in names]
    if len(names) > MOST_AT_ONCE:
        groups += [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    for group in groups:
        going = [cell for name in group for cell in parts[name]]
        rest = [cell for name in names if name not in group for cell in parts[name]]
        for way in DIRECTIONS:
            for by in _stops(going, rest, way):
                step = by if way > 0 else -by
                there = [moved(cell, abs(way), step) for cell in going]
                for turn in DIRECTIONS:
                    if abs(turn) != abs(way) and _clear(there, rest, turn):
                        yield Insertion(group, (Leg(opposite(turn)), Leg(opposite(way), by)))


def _clear(going: Sequence[Cell], rest: Sequence[Cell], way: Axis) -> bool:
    """Return whether cells moved along a way, as far as they go, meet none of the rest."""
    for a in going:
        for b in rest:
            span = overlap(a, b, abs(way))
            if span is not None and (span.high > 0 if way > 0 else span.low < 0):
                return False
    return True


def _stops(going: Sequence[Cell], rest: Sequence[Cell], way: Axis) -> list[Number]:
    """Return the distances along a way worth stopping at before the first contact: where some face comes level."""
    reach = _reach(going, rest, way)
    if reach == 0:
        return []
    i = abs(way) - 1
    level: set[Number] = set()
    for a in going:
        for b in rest:
            edges = (b.box[i] - a.box[i + 3], b.box[i + 3] - a.box[i], b.box[i] - a.box[i], b.box[i + 3] - a.box[i + 3])
            level.update(edge if way > 0 else -edge for edge in edges)
    return sorted(by for by in level if by > 0 and (reach is None or by <= reach))


def _reach(going: Sequence[Cell], rest: Sequence[Cell], way: Axis) -> Number | None:
    """Return how far cells move along a way until they first meet one of the rest; `None` where they meet none."""
    i = abs(way) - 1
    reach: Number | None = None
    for a in going:
        for b in rest:
            least = b.box[i] - a.box[i + 3] if way > 0 else a.box[i] - b.box[i + 3]
            if reach is not None and least >= reach:
                continue  # no cell meets another before their boxes meet
            span = overlap(a, b, i + 1)
            ahead = None if span is None else span.low if way > 0 else -span.high
            if ahead is not None and ahead >= 0:
                reach = ahead if reach is None else min(reach, ahead)
            if reach == 0:
                return reach
    return reach
