"""Sets of stock that cost less than the pieces in hand, tried one after another: what holds all parts is kept."""

from __future__ import annotations

from collections import Counter
from math import fsum

from casewright.api.stock.bounds import tightest_shares
from casewright.api.stock.heats import begun, best_of, runs
from casewright.api.stock.moves import Mover
from casewright.api.stock.nooks import Nooks
from casewright.api.stock.search import Bin, Space, StepBudget, cost_of
from casewright.api.stock.stock_sets import Set, cheaper_sets, counts_of, every_set, least_room, price_of, room_of
from casewright.api.stock.worth import LAST, ByWorth

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
NOOKS = 12
"""Parts a piece from which they are put back nook by nook, where stock has several sizes."""
NOOK_TRY = 8
"""Share of all steps of the first attempt at a set nook by nook is one in so many; of half that, where sets crowd."""
NOOK_STEPS = 2
"""Steps among nooks that take the time of one of other moves."""


class Cheaper:
    """The pieces in hand, the sets of stock that cost less, and how often each was tried.

    `pace` is how far down from the price in hand to the least that could be the next try aims: a success aims as far
    again, a failure less far.
    """

    def __init__(self, space: Space, bins: list[Bin], bound: int, budget: StepBudget) -> None:
        self.space, self.bound, self.budget = space, bound, budget
        self.bins = [b for b in bins if b.items]
        self.total = sum(space.area)
        self.ample = least_room(space, self.total)
        self.every = every_set(space, counts_of(space, self.bins), self.total)
        self.in_heats = budget.limit >= HEATS
        self.tried: Counter[Set] = Counter()
        self.pace = 0.5

    def run(self, enough: int) -> list[Bin]:
        """Try sets, easiest first, until the bound is met or the steps are used; give what holds all parts for least.

        From a price under `enough` on, a fifth of the steps that are left then are all there are.
        """
        capped = False
        while self.budget.left > 0 and (now := cost_of(self.space, self.bins)) > self.bound:
            if now < enough and not capped:
                capped = True
                self.budget.limit = self.budget.steps + self.budget.left // 5
            targets = self._targets(now)
            if not targets:
                break
            bins = self._attempt(targets, now)
            if bins is not None:
                self.bins = [b for b in bins if b.items]
            else:
                self.pace = self.pace * 0.6 if self.pace > 0.02 else 0.5
        return self.bins

    def _targets(self, now: int) -> list[Set]:
        """Give the sets that may do for less than `now`; none where all were tried and none has ample room."""
        near = self.every if self.every is not None else cheaper_sets(self.space, counts_of(self.space, self.bins), now)
        targets = [
            c for c in near if self.bound <= price_of(self.space, c) < now and room_of(self.space, c) >= self.total
        ]
        open_still = [c for c in targets if not self.tried[c] or room_of(self.space, c) >= self.ample]
        return targets if open_still and not self._has_nooks() else open_still

    def _attempt(self, targets: list[Set], now: int) -> list[Bin] | None:
        """Give pieces of one of the targets that hold all parts, if a try of the likeliest finds them."""
        space, tried = self.space, self.tried
        aim = now - self.pace * (now - min(price_of(space, c) for c in targets))
        targets.sort(key=lambda c: (tried[c] + abs(price_of(space, c) - aim) / now * 20, -room_of(space, c), sum(c), c))
        price = min((price_of(space, c) for c in targets), key=lambda one: (abs(one - aim), one))
        crowd = [c for c in targets if abs(price_of(space, c) - price) < BAND * now] if self.in_heats else []
        crowded = len(crowd) >= CROWD
        nooks = self._has_nooks()
        if crowded and not nooks:
            tried.update(crowd)
            return best_of(space, self.bins, crowd, self.budget)
        target = targets[0]
        tried[target] += 1
        if nooks:
            return self._in_nooks(target, self.budget.limit // NOOK_TRY // (2 if crowded else 1))
        if len(targets) == 1 and room_of(space, target) >= self.ample:
            return self._in_last(target)
        return self._in_one(target)

    def _has_nooks(self) -> bool:
        """Whether parts are small enough for their stock, and stock of sizes enough, to fill it nook by nook."""
        space = self.space
        several = self.in_heats and len(space.sizes) > 1 and not space.strips
        return several and len(space.area) >= NOOKS * len(self.bins)

    def _in_nooks(self, target: Set, share: int) -> list[Bin] | None:
        """Give pieces of a set that hold all parts, if they are found nook by nook, in more steps at each attempt.

        Each attempt has chance of its own, so that what was tried before changes nothing in it.
        """
        attempt = self.tried[target]
        steps = min(self.budget.left, share * attempt) * NOOK_STEPS
        own = StepBudget(steps, seed=room_of(self.space, target) + attempt)
        nooks = Nooks(self.space, *begun(self.space, self.bins, target), own)
        done = nooks.run(steps)
        self.budget.spend(max(1, own.steps // NOOK_STEPS))
        return nooks.bins if done else None

    def _in_one(self, target: Set) -> list[Bin] | None:
        """Give pieces of a set that hold all parts, if a short try finds them: pressed every other time."""
        budget, pressed = self.budget, self.tried.total() % 2 == 0
        mover = Mover(self.space, *begun(self.space, self.bins, target), budget, pressed)
        return mover.bins if runs(mover, budget, max(budget.limit // 48, 1), budget.limit) else None

    def _in_last(self, target: Set) -> list[Bin] | None:
        """Give pieces of the last set that could do, if they hold all parts."""
        budget = self.budget
        by_worth = len(target) == 1 and target[0] > LAST and budget.limit >= 2 * MOVED
        if by_worth and budget.steps >= MOVED:
            return ByWorth(self.space, self.bins, target[0], budget).run(budget.limit)
        attempt = self.tried[target]
        mover = self._last(target, attempt)
        share = AGAIN if attempt <= 3 else 2 * AGAIN
        return mover.bins if runs(mover, budget, share, MOVED if by_worth else budget.limit) else None

    def _last(self, target: Set, attempt: int) -> Mover:
        """Give who moves parts in the last set that could do: by area at first, then pressed.

        Every other time parts count by what is tightest, where that is more than their area.
        """
        space = self.space
        mover = Mover(space, *begun(space, self.bins, target), self.budget, attempt > 1)
        if attempt > 1 and attempt % 2 == 1 and len(space.sizes) == 1:
            shares = tightest_shares(space)
            if fsum(shares) > TIGHTER * fsum(mover.plain):
                mover.measure_by(shares)
        return mover
