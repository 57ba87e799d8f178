"""What is cut for the cabinets of a question at any place of its ranges, mostly without planning them there.

The parts of a cabinet hang on its own ranges and on those of its house. For each choice of its numbers it is planned
with its least and its greatest sizes, and with each size by itself halfway and at its greatest. Where all its parts
grow evenly between these, their sizes at all other places follow, rounded down by a nanometre; where they do not (what
follows lengths that are sold, say), the cabinet is planned at each place. It is taken that a cabinet has no stop that a
larger one has not. What a search finds is planned whole in the end, so nothing but what is looked at hangs on it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from casewright.api.job.ranges import SIZES, Range
from casewright.api.stock import Demand
from casewright.api.use.pile_search import Point, is_over

NEAR = 10
"""Nanometres that the size of a part may be off an even growth: what equal divisions leave over."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A job planned at one place: what is cut for each cabinet ("": for none of them), and the codes of its stops."""

    demands: Mapping[str, tuple[Demand, ...]]
    stops: frozenset[str]


Planning = Callable[[Point], Planned | None]
"""Plans the job at a place; `None` where it has no geometry."""


class PileSizes:
    """The parts of all cabinets at any place, and whether they have stops that are not `common` ones."""

    def __init__(
        self, ranges: Sequence[Range], cabinets: Sequence[str], planning: Planning, common: frozenset[str]
    ) -> None:
        self.least = (0,) * len(ranges)
        at_least = planning(self.least)
        self.rest = () if at_least is None else at_least.demands.get("", ())
        self.cabinets = [_CabinetSizes(_Own(ranges, at), name, planning, common) for at, name in enumerate(cabinets)]

    def demands(self, point: Point) -> tuple[Demand, ...] | None:
        """Return what is cut at a place; `None` where it has no geometry."""
        out = [self.rest]
        for one in self.cabinets:
            wanted = one.demands(point)
            if wanted is None:
                return None
            out.append(wanted)
        return tuple([demand for some in out for demand in some])

    def allowed(self, point: Point) -> bool:
        """Return whether no cabinet has a stop that is not a common one."""
        return all(one.allowed(point) for one in self.cabinets)


class _Own:
    """Which ranges a cabinet hangs on: sizes and numbers, by their places in the question."""

    def __init__(self, ranges: Sequence[Range], at: int) -> None:
        every = [i for i, one in enumerate(ranges) if one.path[0] == "house" or one.path[1] == at]
        self.sizes = tuple([i for i in every if ranges[i].path[-1] in SIZES])
        self.numbers = tuple([i for i in every if ranges[i].path[-1] not in SIZES])
        self.most = tuple([len(ranges[i].values) - 1 for i in self.sizes])
        self.count = len(ranges)

    def whole(self, numbers: Point, sizes: Point) -> Point:
        """Return the place in all ranges, those of other cabinets at their least."""
        at = dict(zip((*self.numbers, *self.sizes), (*numbers, *sizes), strict=True))
        return tuple([at.get(i, 0) for i in range(self.count)])


@dataclass(slots=True)
class _Family:
    """A cabinet with one choice of its numbers.

    `growth` is how much each part grows in length and width over each whole range; `None` where not all grow evenly.
    `fine` and `faulty` are sizes known to have no stop of their own, and to have one.
    """

    base: tuple[Demand, ...] = ()
    growth: list[list[tuple[int, int]]] | None = None
    fine: list[Point] = field(default_factory=list)
    faulty: list[Point] = field(default_factory=list)


class _CabinetSizes:
    def __init__(self, own: _Own, name: str, planning: Planning, common: frozenset[str]) -> None:
        self.own, self.name, self.planning, self.common = own, name, planning, common
        self.families: dict[Point, _Family] = {}
        self.known: dict[tuple[Point, Point], tuple[Demand, ...] | None] = {}

    def demands(self, point: Point) -> tuple[Demand, ...] | None:
        """Return what is cut for the cabinet at a place."""
        key = self._key(point)
        if key not in self.known:
            family = self._family(key[0])
            self.known[key] = self._planned(*key) if family.growth is None else _grown(family, key[1], self.own.most)
        return self.known[key]

    def allowed(self, point: Point) -> bool:
        """Return whether the cabinet has no stop that is not a common one, by those asked before where they decide."""
        numbers, sizes = self._key(point)
        family = self._family(numbers)
        if any(is_over(fine, sizes) for fine in family.fine):
            return True
        if any(is_over(sizes, faulty) for faulty in family.faulty):
            return False
        self._planned(numbers, sizes)
        return sizes in family.fine

    def _key(self, point: Point) -> tuple[Point, Point]:
        own = self.own
        return tuple([point[i] for i in own.numbers]), tuple([point[i] for i in own.sizes])

    def _planned(self, numbers: Point, sizes: Point) -> tuple[Demand, ...] | None:
        """Plan the cabinet, and note whether it has stops of its own."""
        planned = self.planning(self.own.whole(numbers, sizes))
        family = self.families[numbers]
        good = planned is not None and planned.stops <= self.common
        (family.fine if good else family.faulty).append(sizes)
        return None if planned is None else planned.demands.get(self.name, ())

    def _family(self, numbers: Point) -> _Family:
        if numbers not in self.families:
            family = self.families[numbers] = _Family()
            most = self.own.most
            least = (0,) * len(most)
            base = self._planned(numbers, least)
            alone = [_only(most, i, most[i]) for i in range(len(most))]
            tops = [self._planned(numbers, sizes) for sizes in alone]
            if base is None or not all(top is not None and _alike(base, top) for top in tops):
                return family
            growth = [
                [(b.length - a.length, b.width - a.width) for a, b in zip(base, top or (), strict=True)] for top in tops
            ]
            even = replace(family, base=base, growth=growth)
            halfway = [_only(most, i, n // 2) for i, n in enumerate(most) if n > 1]
            if all(self._near(even, numbers, sizes) for sizes in (*halfway, most)):
                family.base, family.growth = base, growth
        return self.families[numbers]

    def _near(self, family: _Family, numbers: Point, sizes: Point) -> bool:
        """Return whether growing evenly comes to what planning does."""
        planned, grown = self._planned(numbers, sizes), _grown(family, sizes, self.own.most)
        return (
            planned is not None
            and _alike(planned, grown)
            and all(
                abs(a.length - b.length) <= NEAR and abs(a.width - b.width) <= NEAR
                for a, b in zip(planned, grown, strict=True)
            )
        )


def _only(most: Point, at: int, value: int) -> Point:
    return tuple([value if i == at else 0 for i in range(len(most))])


def _alike(some: Sequence[Demand], others: Sequence[Demand]) -> bool:
    """Return whether demands are the same but for their sizes."""
    return [_unsized(one) for one in some] == [_unsized(one) for one in others]


def _unsized(one: Demand) -> Demand:
    return replace(one, length=1, width=1, row=tuple([_unsized(part) for part in one.row]))


def _grown(family: _Family, sizes: Point, most: Point) -> tuple[Demand, ...]:
    """Return the parts of a family at sizes between the least and the greatest; the parts of rows keep theirs."""
    out = []
    for at, part in enumerate(family.base):
        length, width = part.length, part.width
        for place, of, growth in zip(sizes, most, family.growth or (), strict=True):
            if place:
                length += _share(growth[at][0], place, of)
                width += _share(growth[at][1], place, of)
        out.append(replace(part, length=length, width=width))
    return tuple(out)


def _share(growth: int, place: int, of: int) -> int:
    """Return a share of a growth, a nanometre less where it is no whole number."""
    whole, over = divmod(growth * place, of)
    return whole - (over > 0)
