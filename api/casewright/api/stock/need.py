"""What cutting some parts takes of stock: what is bought of each material, and how many parts are short."""

from __future__ import annotations

from dataclasses import dataclass, replace

from casewright.api.stock.choose import Effort
from casewright.api.stock.group import serves, solve_group, source_of
from casewright.api.stock.request import StockRequest, limits_for

STEPS = 300_000
"""Counted steps for each material: less than a plan takes, as many jobs are compared."""


@dataclass(frozen=True, slots=True)
class StockNeed:
    """By material and thickness: parts that are short, and what is bought, by cost or by area."""

    short: tuple[int, ...]
    bought: tuple[int, ...]

    def betters(self, other: StockNeed) -> bool:
        """Return whether this takes less of some material and no more of any, fewer short parts counting first."""
        mine = list(zip(self.short, self.bought, strict=True))
        theirs = list(zip(other.short, other.bought, strict=True))
        return len(mine) == len(theirs) and mine != theirs and all(a <= b for a, b in zip(mine, theirs, strict=True))


def stock_need(request: StockRequest) -> StockNeed:
    """Return what a request takes, looked for in a fixed number of steps whatever its effort is."""
    rows: dict[tuple[str, str, int], list[int]] = {}
    for at, one in enumerate(request.demands):
        rows.setdefault((one.kind, one.material, one.thickness), []).extend([at] * one.quantity)
    short, bought = [], []
    for _, places in sorted(rows.items()):
        if not places:
            continue
        parts = [replace(request.demands[at], quantity=1) for at in places]
        limits = limits_for(request.limits, request.pieces, parts[0])
        sources = [source_of(piece, limits) for piece in request.pieces if serves(piece, parts[0], limits)]
        usable = [source for source in sources if source.piece.copies != 0 and min(source.room) > 0]
        result = solve_group(parts, usable, limits, Effort(2, STEPS))
        short.append(len(result.absent))
        bought.append(result.used)
    return StockNeed(tuple(short), tuple(bought))
