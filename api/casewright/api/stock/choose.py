"""Choosing which pieces of stock to use: the cheapest set that the packer can show to hold every part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from math import fsum
from typing import Self

from casewright.api.stock.bounds import least_cost, tightest_shares
from casewright.api.stock.exact import fill_exactly, may_be_exact
from casewright.api.stock.fill import fill_at_once, fill_in_turn, fill_pile, is_pile
from casewright.api.stock.moves import Mover
from casewright.api.stock.search import SCORERS, Bin, Space, StepBudget, cost_of, new_bin, no_report, orders
from casewright.api.stock.worth import LAST, ByWorth

HOPELESS = 0.25
"""Area missing, in mean pieces of stock, after a share of the steps: another set of stock is tried instead."""
SHRINK = 0.75
"""What is missing must come down to this share of itself for the same set to be tried on."""
STEPS = (100_000, 10_000_000, 70_000_000, 110_000_000, 340_000_000)
"""Steps of a job by effort: about a twelfth of a second for a million, on a machine of the day."""
AGAIN = 20_000_000
"""Steps after which the last set that could do is begun anew, unless less is missing; twice as many later on."""
MOVED = 100_000_000
"""Steps of moving parts about in the last set of stock that could do, before it is filled by what parts are worth.

So it is where at least as many steps are left then: with fewer, patterns are hardly known.
"""
TIGHTER = 1.05
"""How many times their area all parts must take, by what is tightest, to count by that."""
EXACT = 3
"""Least effort at which a cutting without waste is looked for, where pieces of stock have just the parts' area."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look, 1 to 5, in `steps` counted steps; `report` is called with each twentieth of them."""

    level: int
    steps: int
    report: Callable[[int], None] = no_report

    @classmethod
    def of(cls, level: int) -> Self:
        """Return the effort of a level for a job of one group."""
        return cls(level, STEPS[level - 1])


@dataclass(slots=True)
class Packing:
    """Pieces of stock with their parts, and the parts that found no place."""

    bins: list[Bin]
    absent: list[int]
    steps: int


def pack(space: Space, effort: Effort, bought: int = 0, share: int = 1) -> Packing:
    """Give the best packing found within the counted steps of an effort.

    `bought` is a proved least of what is bought and `share` how many units of price one unit bought is: once that
    much is reached, only a fifth of the steps that are left go into using less of what is on hand.
    """
    area = least_cost(space, sum(space.area), [w * h for w, h in space.sizes]) or 0
    bound = max(area, bought * share)
    budget = StepBudget(effort.steps, effort.report)
    bins, absent = first_packing(space, budget, bound)
    if (
        not absent
        and effort.level >= EXACT
        and not space.strips
        and cost_of(space, bins) > bound
        and may_be_exact(space)
    ):
        found = fill_exactly(space, budget, budget.steps + budget.left // 4)
        if found is not None and cost_of(space, found) < cost_of(space, bins):
            bins = found
    if not absent:
        bins = _cheapen(space, bins, bound, budget, (bought + 1) * share)
    return Packing([b for b in bins if b.items], absent, budget.steps)


def first_packing(space: Space, budget: StepBudget, bound: int | None = None) -> tuple[list[Bin], list[int]]:
    """Give pieces of stock with as many parts as find a place, and the parts left.

    Cheap ones are looked for until one costs `bound`, a proved least; without it the first that holds all will do.
    """
    bins, absent = _construct(space, budget, 10**30 if bound is None else bound)
    return _use_all(space, bins, absent, budget) if absent else (bins, absent)


def holds_all(space: Space, steps: int) -> bool:
    """Whether a greedy filling holds every part: `pack` begins with it, so with as many steps it holds them too."""
    return not _construct(space, StepBudget(steps), 10**30)[1]


def _construct(space: Space, budget: StepBudget, bound: int) -> tuple[list[Bin], list[int]]:
    """Give the best of several greedy fillings."""
    best: tuple[list[Bin], list[int]] | None = None
    best_key: tuple[int, int] = (0, 0)
    one = len(space.sizes) == 1 and len(space.area) <= 600
    many = len(space.area) >= 60 and not space.strips
    fills = [(0, scorer) for scorer in SCORERS] + ([(1, scorer) for scorer in SCORERS] if one else [])
    tries = [(order, how, scorer) for order in orders(space) for how, scorer in fills]
    if many:
        first = orders(space)[0]
        tries[1:1] = [(first, 2, 0.0), (first, 2, 0.3)]
    if is_pile(space):
        tries += [(order, 3, scorer) for order in orders(space) for scorer in SCORERS]
    for order, how, scorer in tries:
        if best is not None and budget.steps * 3 > budget.limit:
            return best
        if how == 3:
            bins, absent = fill_pile(space, order, budget, scorer)
        elif how == 1:
            bins, absent = fill_at_once(space, order, budget, scorer)
        else:
            bins, absent = fill_in_turn(space, order, budget, scorer, how == 2)
        key = (sum(space.area[i] for i in absent), cost_of(space, bins))
        if best is None or key < best_key:
            best, best_key = (bins, absent), key
        if not absent and key[1] <= bound:
            return bins, absent
    assert best is not None
    return best


def _use_all(space: Space, bins: list[Bin], absent: list[int], budget: StepBudget) -> tuple[list[Bin], list[int]]:
    """All stock on the table: place as much area as can be placed."""
    used = Counter(b.size for b in bins)
    every = list(bins)
    for t, count in enumerate(space.copies):
        every += [new_bin(space, t) for _ in range(min(count, len(absent) + used[t]) - used[t])]
    if not every:
        return bins, absent
    mover = Mover(space, every, absent, budget)
    mover.run(budget.steps + budget.left // 2)
    return mover.bins, mover.absent


def _cheapen(space: Space, bins: list[Bin], bound: int, budget: StepBudget, enough: int) -> list[Bin]:
    """Try sets of stock that cost less, easiest first, until the bound is met or the steps are used."""
    bins = [b for b in bins if b.items]
    tried: Counter[tuple[int, ...]] = Counter()
    total = sum(space.area)
    every = _every_set(space, _counts(space, bins), total)
    capped = False
    pace = 0.5
    while budget.left > 0 and cost_of(space, bins) > bound:
        now = cost_of(space, bins)
        if now < enough and not capped:
            capped = True
            budget.limit = budget.steps + budget.left // 5
        near = every if every is not None else _cheaper_sets(space, _counts(space, bins), now)
        targets = [c for c in near if bound <= _price(space, c) < now and _room(space, c) >= total]
        if not targets:
            break
        # aim between the price in hand and the least that could be: a success aims as high again, a failure lower
        least = min(_price(space, c) for c in targets)
        aim = now - pace * (now - least)
        target = min(
            targets, key=lambda c: (tried[c] + abs(_price(space, c) - aim) / now * 20, -_room(space, c), sum(c), c)
        )
        tried[target] += 1
        by_worth = len(targets) == 1 == len(target) and target[0] > LAST and budget.limit >= 2 * MOVED
        if by_worth and budget.steps >= MOVED:
            bins = ByWorth(space, bins, target[0], budget).run(budget.limit) or bins
            continue
        limit = MOVED if by_worth else budget.limit
        start, absent = _start(space, bins, target)
        if len(targets) == 1:
            mover, share = _last(space, start, absent, budget, tried[target])
        else:
            mover, share = Mover(space, start, absent, budget, tried.total() % 2 == 0), max(budget.limit // 48, 1)
        if _runs(mover, budget, share, limit):
            bins = [b for b in mover.bins if b.items]
        else:
            pace = pace * 0.6 if pace > 0.02 else 0.5
    return bins


def _last(space: Space, start: list[Bin], absent: list[int], budget: StepBudget, attempt: int) -> tuple[Mover, int]:
    """Give who moves parts in the last set that could do, and the steps of it: by area at first, then pressed.

    Every other time parts count by what is tightest, where that is more than their area.
    """
    mover = Mover(space, start, absent, budget, attempt > 1)
    if attempt > 1 and attempt % 2 == 1 and len(space.sizes) == 1:
        shares = tightest_shares(space)
        if fsum(shares) > TIGHTER * fsum(mover.plain):
            mover.measure_by(shares)
    return mover, AGAIN if attempt <= 3 else 2 * AGAIN


def _runs(mover: Mover, budget: StepBudget, share: int, limit: int) -> bool:
    """Whether every part finds a place within a share of the steps, and more shares while less and less is missing.

    At most `limit` steps in all are counted.
    """
    while True:
        before = mover.bad
        if mover.run(min(limit, budget.steps + share)):
            return True
        if budget.steps >= limit or mover.bad > HOPELESS or mover.bad > SHRINK * before:
            return False


def _every_set(space: Space, have: tuple[int, ...], total: int) -> list[tuple[int, ...]] | None:
    """All sets of stock with room enough, when there are not too many; None when there are."""
    most = [min(c, max(n, 2 + total // (w * h))) for c, n, (w, h) in zip(space.copies, have, space.sizes, strict=True)]
    count = 1
    for m in most:
        count *= m + 1
        if count > 60_000:
            return None
    return [c for c in product(*[range(m + 1) for m in most]) if _room(space, c) >= total]


def _counts(space: Space, bins: list[Bin]) -> tuple[int, ...]:
    used = Counter(b.size for b in bins)
    return tuple(used[t] for t in range(len(space.sizes)))


def _price(space: Space, counts: tuple[int, ...]) -> int:
    return sum(n * p for n, p in zip(counts, space.price, strict=True))


def _room(space: Space, counts: tuple[int, ...]) -> int:
    return sum(n * w * h for n, (w, h) in zip(counts, space.sizes, strict=True))


def _cheaper_sets(space: Space, have: tuple[int, ...], now: int) -> list[tuple[int, ...]]:
    """Give sets of stock near the one in hand that cost less: up to two pieces out, up to two in."""
    found: set[tuple[int, ...]] = set()
    kinds = range(len(have))
    firsts = [have]
    for _ in range(2):
        nexts = []
        for base in firsts:
            nexts += [(*base[:t], base[t] - 1, *base[t + 1 :]) for t in kinds if base[t]]
        firsts = sorted(set(nexts))
        fills = list(firsts)
        for _ in range(3):
            found.update(c for c in fills if _price(space, c) < now)
            more = []
            for base in fills:
                for t in kinds:
                    if base[t] < space.copies[t]:
                        bigger = (*base[:t], base[t] + 1, *base[t + 1 :])
                        if _price(space, bigger) < now:
                            more.append(bigger)
            fills = sorted(set(more))
            if len(fills) > 2_000:
                break
    return sorted(found)


def _start(space: Space, bins: list[Bin], target: tuple[int, ...]) -> tuple[list[Bin], list[int]]:
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
