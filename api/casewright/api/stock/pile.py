"""Whether a pile of stock yields some parts at all: quick proofs that it does not, then the packer.

What is asked here is not which cutting is best: the first that holds every part answers. A pile is asked of many sets
of parts, and what was answered for one material is kept.
"""

from __future__ import annotations

from collections.abc import Sequence

from casewright.api.stock.choose import first_packing
from casewright.api.stock.group import grouped, lying_somewhere, space_of
from casewright.api.stock.request import Demand, ShopLimits, limits_for
from casewright.api.stock.search import StepBudget
from casewright.api.stock.sources import Source, bought_of, crosscut_first, usable_sources
from casewright.sdk.model import CutKind, GrainRule, StockPiece

STEPS = 60_000
"""Counted steps that one material of one answer may take."""

_Stuff = tuple[CutKind, str, int]
"""How parts are cut, their material and their thickness."""
_Sizes = tuple[tuple[int, int, GrainRule, bool, int], ...]


class Pile:
    """Pieces of stock and the saw that cuts them; `steps` are counted over all that is asked."""

    def __init__(self, pieces: Sequence[StockPiece], limits: ShopLimits) -> None:
        self.pieces, self.limits = tuple(pieces), limits
        self.steps = 0
        self._stock: dict[_Stuff, tuple[ShopLimits, list[Source]]] = {}
        self._answers: dict[tuple[_Stuff, _Sizes], int | None] = {}

    def groups(self, demands: Sequence[Demand]) -> list[tuple[list[Demand], list[Source]]]:
        """Return the parts of each material at each thickness, one entry a piece, with the pieces that serve them."""
        return [(parts, self._serving(parts[0])[1]) for parts in grouped(demands)]

    def cannot(self, demands: Sequence[Demand]) -> bool:
        """Return whether it is proved, by area and by the longest parts, that the pieces do not yield the parts."""
        return any(_proved_short(parts, sources, self.limits) for parts, sources in self.groups(demands))

    def bought(self, demands: Sequence[Demand]) -> int | None:
        """Return how much is bought when the parts are cut (0: nothing), or None where no cutting of all is found.

        It is a whole number by cost, or by area where a size that can be bought has no cost.
        """
        groups = self.groups(demands)
        if any(not sources or _proved_short(parts, sources, self.limits) for parts, sources in groups):
            return None
        total = 0
        for parts, sources in sorted(groups, key=lambda group: len(group[0])):
            got = self._bought(parts, sources)
            if got is None:
                return None
            total += got
        return total

    def _serving(self, part: Demand) -> tuple[ShopLimits, list[Source]]:
        """Return what a material is cut from, and the limits with what milling takes of it."""
        key = _stuff(part)
        if key not in self._stock:
            limits = limits_for(self.limits, self.pieces, part)
            self._stock[key] = limits, usable_sources(part, self.pieces, limits)
        return self._stock[key]

    def _bought(self, parts: list[Demand], sources: list[Source]) -> int | None:
        """Return what is bought for one material, kept once it is known."""
        sizes = sorted((one.length, one.width, one.grain, one.seen, len(one.pieces)) for one in parts)
        key = (_stuff(parts[0]), tuple(sizes))
        if key not in self._answers:
            answer = self._packed(parts, sources)
            if answer is None and any(source.piece.rough for source in sources):
                answer = self._packed(parts, crosscut_first(sources))
            self._answers[key] = answer
        return self._answers[key]

    def _packed(self, parts: list[Demand], sources: list[Source]) -> int | None:
        space, _, _ = space_of(parts, sources, self._serving(parts[0])[0])
        if len(lying_somewhere(space)) < len(parts):
            return None
        budget = StepBudget(STEPS)
        bins, absent = first_packing(space, budget)
        self.steps += budget.steps
        return None if absent else bought_of([sources[b.size] for b in bins if b.items], sources)


def _stuff(part: Demand) -> _Stuff:
    return part.kind, part.material, part.thickness


def _proved_short(parts: Sequence[Demand], sources: Sequence[Source], limits: ShopLimits) -> bool:
    """Whether for some part there are more that are at least as large than the pieces can hold of that size.

    A piece holds no more rectangles of a size, a kerf round each, than its area divided by theirs; and the area of all
    parts may not be more than that of all pieces. Both are asked of the sizes with their kerfs.
    """
    kerf = limits.kerf
    sizes = [_size(part) for part in parts]
    rooms = [(max(s.room), min(s.room), s.piece.copies) for s in sources]
    if any(copies is None for _, _, copies in rooms):
        return any(not any(a <= long and b <= short for long, short, _ in rooms) for a, b in set(sizes))
    area = sum((long + kerf) * (short + kerf) * (copies or 0) for long, short, copies in rooms)
    if sum((a + kerf) * (b + kerf) for a, b in sizes) > area:
        return True
    for a, b in set(sizes):
        need = sum(c >= a and d >= b for c, d in sizes)
        have = 0
        for long, short, copies in rooms:
            if a <= long and b <= short:
                have += (copies or 0) * ((long + kerf) * (short + kerf) // ((a + kerf) * (b + kerf)))
        if need > have:
            return True
    return False


def _size(part: Demand) -> tuple[int, int]:
    """Return the longer and the shorter side of what is cut for a part, the allowances of milling left out."""
    return max(part.length, part.width), min(part.length, part.width)
