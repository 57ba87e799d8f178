"""Which of many sets of stock of about one price holds all parts: short tries of each, longer ones of the best."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from casewright.api.stock.moves import Mover
from casewright.api.stock.search import Bin, Space, StepBudget, new_bin
from casewright.api.stock.stock_sets import Set

HOPELESS = 0.25
"""Area missing, in mean pieces of stock, after a share of the steps: another set of stock is tried instead."""
SHRINK = 0.75
"""What is missing must come down to this share of itself for the same set to be tried on."""
TRY = 2_000
"""Steps for each part in the first heat; twice as many in each that follows."""
KEPT = 4
"""One set of so many goes on to the next heat."""
LAST = 3
"""Sets that are tried for longer, and of these the best for longer still."""
LONG = 30
"""Share of all steps of one such longer try is one in so many."""
LOOSE = 0.12
"""Share of the mean part's area by which more may be missing after a move, so that heats do not end in a corner."""


def begun(space: Space, bins: list[Bin], target: Set) -> tuple[list[Bin], list[int]]:
    """Keep the fullest pieces the target allows; the parts of the others are absent at first."""
    quota = list(target)
    kept: list[Bin] = []
    absent: list[int] = []
    for b in sorted(bins, key=lambda b: (b.free / float(b.wide * b.high), b.size)):
        if quota[b.size] > 0:
            quota[b.size] -= 1
            kept.append(b)
        else:
            absent += b.items
    for t, count in enumerate(quota):
        kept += [new_bin(space, t) for _ in range(count)]
    return kept, absent


def runs(mover: Mover, budget: StepBudget, share: int, limit: int) -> bool:
    """Whether every part finds a place within a share of the steps, and more shares while less and less is missing.

    At most `limit` steps in all are counted.
    """
    while True:
        before = mover.bad
        if mover.run(min(limit, budget.steps + share)):
            return True
        if budget.steps >= limit or mover.bad > HOPELESS or mover.bad > SHRINK * before:
            return False


def best_of(space: Space, bins: list[Bin], targets: Sequence[Set], budget: StepBudget) -> list[Bin] | None:
    """Give pieces of one of these sets that hold all parts, the sets named first being tried if not all can be.

    All go on from the pieces in hand; after each heat those sets are dropped that miss most.
    """
    each = TRY * len(space.area)
    most = max(LAST, budget.left // 6 // each)
    movers = [Mover(space, *begun(space, bins, target), budget) for target in targets[:most]]
    loose = LOOSE * fsum(movers[0].plain) / len(movers[0].plain)
    for mover in movers:
        mover.slack = loose
    while len(movers) > LAST:
        for mover in movers:
            if mover.run(min(budget.limit, budget.steps + each)):
                return mover.bins
        movers.sort(key=lambda mover: mover.bad)
        movers = movers[: max(LAST, len(movers) // KEPT)]
        each *= 2
    for mover in movers:
        if mover.run(min(budget.limit, budget.steps + budget.limit // LONG)):
            return mover.bins
    best = min(movers, key=lambda mover: mover.bad)
    for calmer in (1.0, 0.7, 0.4, 0.0):
        best.slack = loose * calmer
        if best.run(min(budget.limit, budget.steps + budget.limit // LONG)):
            return best.bins
    return None
