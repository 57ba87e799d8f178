"""What cutting some parts takes of stock: what is bought of each material, and how many parts are short."""

from __future__ import annotations

from dataclasses import dataclass

from casewright.api.stock.choose import STEPS as EVERY_STEP
from casewright.api.stock.choose import Effort, holds_all
from casewright.api.stock.group import grouped, lying_somewhere, solve_group, space_of
from casewright.api.stock.request import StockLimitError, StockRequest, limits_for, validate
from casewright.api.stock.sources import usable_sources

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


def is_enough(request: StockRequest) -> bool:
    """Return whether it is plain that nothing will be short: a first greedy cutting of each material holds all of it.

    A whole plan of the request begins with that cutting, in no fewer steps, so its `short` is then empty. False says
    nothing: the plan may find a cutting that this does not, or refuse the request.
    """
    try:
        validate(request)
    except StockLimitError:
        return False
    groups = grouped(request.demands)
    steps = EVERY_STEP[request.effort - 1] // (2 * max(1, len(groups)))
    for parts in groups:
        limits = limits_for(request.limits, request.pieces, parts[0])
        sources = usable_sources(parts[0], request.pieces, limits)
        if not sources:
            return False
        space, _, _ = space_of(parts, sources, limits)
        if len(lying_somewhere(space)) < len(parts) or not holds_all(space, steps):
            return False
    return True
