"""What cutting some parts takes of stock: what is bought of each material, and how many parts are short."""

from __future__ import annotations

from dataclasses import dataclass

from casewright.api.stock.choose import Effort
from casewright.api.stock.group import grouped, solve_group, usable_sources
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
    short, bought = [], []
    for parts in grouped(request.demands):
        limits = limits_for(request.limits, request.pieces, parts[0])
        sources = usable_sources(parts[0], request.pieces, limits)
        result = solve_group(parts, sources, limits, Effort(2, STEPS))
        short.append(len(result.absent))
        bought.append(result.used)
    return StockNeed(tuple(short), tuple(bought))
