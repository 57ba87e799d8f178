"""Whether a pile of stock yields some parts at all: quick proofs that it does not, then the packer.

What is asked here is not which cutting is best: the first that holds every part answers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.stock.choose import first_packing
from casewright.api.stock.group import Source, bought_of, grouped, space_of, usable_sources
from casewright.api.stock.request import Demand, ShopLimits
from casewright.api.stock.search import StepBudget
from casewright.sdk.model import StockPiece

STEPS = 60_000
"""Counted steps that one material of one answer may take."""


@dataclass(frozen=True, slots=True)
class Pile:
    """Pieces of stock and the saw that cuts them."""

    pieces: tuple[StockPiece, ...]
    limits: ShopLimits

    def groups(self, demands: Sequence[Demand]) -> list[tuple[list[Demand], list[Source]]]:
        """Return the parts of each material at each thickness, one entry a piece, with the pieces that serve them."""
        return [(parts, usable_sources(parts[0], self.pieces, self.limits)) for parts in grouped(demands)]

    def cannot(self, demands: Sequence[Demand]) -> bool:
        """Return whether it is proved, by area and by the longest parts, that the pieces do not yield the parts."""
        return any(_proved_short(parts, sources, self.limits) for parts, sources in self.groups(demands))

    def bought(self, demands: Sequence[Demand]) -> int | None:
        """Return how much is bought when the parts are cut (0: nothing), or None where no cutting of all is found.

        It is a whole number by cost, or by area where a size that can be bought has no cost.
        """
        total = 0
        for parts, sources in self.groups(demands):
            if not sources or _proved_short(parts, sources, self.limits):
                return None
            space, _, _ = space_of(parts, sources, self.limits)
            if not all(any(row[i] for row in space.options) for i in range(len(parts))):
                return None
            bins, absent = first_packing(space, StepBudget(STEPS))
            if absent:
                return None
            total += bought_of([sources[b.size] for b in bins if b.items], sources)
        return total


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
    held = sum((long + kerf) * (short + kerf) * (copies or 0) for long, short, copies in rooms)
    if sum((a + kerf) * (b + kerf) for a, b in sizes) > held:
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
