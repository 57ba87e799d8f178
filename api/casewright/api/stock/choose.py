"""Choosing which pieces of stock to use: the cheapest set that the packer can show to hold every part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from math import fsum
from typing import Self

from casewright.api.stock.bounds import least_cost, tightest_shares
from casewright.api.stock.exact import fill_exactly, may_be_exact
from casewright.api.stock.fill import fill_at_once, fill_in_turn, fill_pile, is_pile
from casewright.api.stock.heats import begun, best_of, runs
from casewright.api.stock.moves import Mover
from casewright.api.stock.nooks import Nooks
from casewright.api.stock.search import SCORERS, Bin, Space, StepBudget, cost_of, new_bin, no_report, orders
from casewright.api.stock.stock_sets import Set, cheaper_sets, counts_of, every_set, least_room, price_of, room_of
from casewright.api.stock.worth import LAST, ByWorth

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
BAND = 0.005
"""Share of the price in hand within which sets cost about the same: they are tried in heats."""
CROWD = 24
"""Sets, at least, that are tried in heats."""
HEATS = 100_000_000
"""Steps, at least, of a packing with heats."""
EXACT = 3
"""Least effort at which a cutting without waste is looked for, where pieces of stock have just the parts' area."""
FEW = 75
"""Parts of which such a cutting is looked for: of more none is found in the steps there are."""
NOOKS = 12
"""Parts a piece from which they are put back nook by nook, where stock has several sizes."""
NOOK_TRY = 8
"""Share of all steps of the first attempt at a set nook by nook is one in so many; of half that, where sets crowd."""
NOOK_STEPS = 2
"""Steps among nooks that take the time of one of other moves."""


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
        and len(space.area) <= FEW
        and cost_of(space, bins) > bound
        and may_be_exact(space)
    ):
        found = fill_exactly(space, budget, budget.steps + budget.left // 2)
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
    tried: Counter[Set] = Counter()
    total = sum(space.area)
    ample = least_room(space, total)
    all_sets = every_set(space, counts_of(space, bins), total)
    heats = budget.limit >= HEATS
    capped = False
    pace = 0.5
    while budget.left > 0 and cost_of(space, bins) > bound:
        now = cost_of(space, bins)
        if now < enough and not capped:
            capped = True
            budget.limit = budget.steps + budget.left // 5
        near = all_sets if all_sets is not None else cheaper_sets(space, counts_of(space, bins), now)
        targets = [c for c in near if bound <= price_of(space, c) < now and room_of(space, c) >= total]
        if all(tried[c] and room_of(space, c) < ample for c in targets):
            break
        nooks = heats and _has_nooks(space, bins)
        if nooks:
            targets = [c for c in targets if not tried[c] or room_of(space, c) >= ample]
        # aim between the price in hand and the least that could be: a success aims as high again, a failure lower
        aim = now - pace * (now - min(price_of(space, c) for c in targets))
        targets.sort(key=lambda c: (tried[c] + abs(price_of(space, c) - aim) / now * 20, -room_of(space, c), sum(c), c))
        price = min((price_of(space, c) for c in targets), key=lambda one: (abs(one - aim), one))
        crowd = [c for c in targets if abs(price_of(space, c) - price) < BAND * now] if heats else []
        if len(crowd) >= CROWD and not nooks:
            tried.update(crowd)
            found = best_of(space, bins, crowd, budget)
        else:
            target = targets[0]
            tried[target] += 1
            if nooks:
                each = budget.limit // NOOK_TRY // (2 if len(crowd) >= CROWD else 1)
                found = _in_nooks(space, bins, target, budget, (each * tried[target], tried[target]))
            elif len(targets) == 1 and room_of(space, target) >= ample:
                found = _in_last(space, bins, target, budget, tried[target])
            else:
                found = _in_one(space, bins, target, budget, tried.total() % 2 == 0)
        if found is not None:
            bins = [b for b in found if b.items]
        else:
            pace = pace * 0.6 if pace > 0.02 else 0.5
    return bins


def _has_nooks(space: Space, bins: list[Bin]) -> bool:
    """Whether parts are small enough for their stock, and stock of sizes enough, to fill it nook by nook."""
    return len(space.sizes) > 1 and not space.strips and len(space.area) >= NOOKS * len(bins)


def _in_nooks(
    space: Space, bins: list[Bin], target: Set, budget: StepBudget, attempt: tuple[int, int]
) -> list[Bin] | None:
    """Give pieces of a set of stock that hold all parts, if they are found nook by nook.

    Of an attempt come its steps, more at each, and its number: each has chance of its own, so that what was tried
    before changes nothing in it.
    """
    share, number = attempt
    steps = min(budget.left, share) * NOOK_STEPS
    own = StepBudget(steps, seed=room_of(space, target) + number)
    nooks = Nooks(space, *begun(space, bins, target), own)
    done = nooks.run(steps)
    budget.spend(max(1, own.steps // NOOK_STEPS))
    return nooks.bins if done else None


def _in_one(space: Space, bins: list[Bin], target: Set, budget: StepBudget, pressed: bool) -> list[Bin] | None:
    """Give pieces of a set of stock that hold all parts, if a short try finds them."""
    mover = Mover(space, *begun(space, bins, target), budget, pressed)
    return mover.bins if runs(mover, budget, max(budget.limit // 48, 1), budget.limit) else None


def _in_last(space: Space, bins: list[Bin], target: Set, budget: StepBudget, attempt: int) -> list[Bin] | None:
    """Give pieces of the last set of stock that could do, if they hold all parts."""
    by_worth = len(target) == 1 and target[0] > LAST and budget.limit >= 2 * MOVED
    if by_worth and budget.steps >= MOVED:
        return ByWorth(space, bins, target[0], budget).run(budget.limit)
    mover, share = _last(space, *begun(space, bins, target), budget, attempt)
    return mover.bins if runs(mover, budget, share, MOVED if by_worth else budget.limit) else None


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
