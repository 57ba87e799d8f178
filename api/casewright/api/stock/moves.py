"""Improving a packing: take some parts out of one to three pieces and put them back in another way.

Which pieces of stock may be used is fixed. Parts that found no place go back in with those taken out, and a move is
kept when no more area is left out than before (threshold accepting, with a little credit for free room that comes
together in one piece), until every part has a place or the counted steps are used up. Where parts are pressed, one
weighs more the longer it is left out, so that in the end only moves that give it a place are kept. Parts may count by
another measure than their area, in shares of a piece (`bounds.tightest_shares`). `slack` is how much more may be
left out after any move, at most, in mean pieces of stock.

This module is compiled where a C compiler is at hand.
"""

from __future__ import annotations

from math import fsum
from typing import TYPE_CHECKING, Final

from casewright.api.stock.levels import fill_levels
from casewright.api.stock.search import SCORERS, Bin, Chance, Space, StepBudget, new_bin, place
from casewright.api.stock.slicing import PART, SIDE, groups_of, parts_of

if TYPE_CHECKING:
    from mypy_extensions import i64


ROWS_SHARE: Final = 0.75
"""Share of the moves in pieces of many parts that lay whole rows anew."""
MANY: Final = 15
"""Parts a piece from which whole rows are taken out and laid anew."""
PRESS: Final = 0.002
"""Share of its area that a part weighs more after each move that leaves it out."""
EASE: Final = 3_000
"""Moves after which half of what parts weigh beyond their area is taken off."""
HANDLED: Final = 12
"""Steps that a part taken out counts beside the places looked at for it: as the time that it takes."""


class Mover:
    """Takes parts out of some pieces and puts them back, until nothing is absent or the steps are used."""

    __slots__ = (
        "absent",
        "bins",
        "budget",
        "credit",
        "growth",
        "left_out",
        "many",
        "moves",
        "plain",
        "shares",
        "slack",
        "space",
        "weight",
    )

    def __init__(
        self, space: Space, bins: list[Bin], absent: list[int], budget: StepBudget, pressed: bool = False
    ) -> None:
        self.space = space
        self.bins = bins
        self.absent = absent
        self.budget = budget
        mean = max(1.0, fsum([float(w) * float(h) for w, h in space.sizes]) / max(1, len(space.sizes)))
        self.many = False
        self.plain = [a / mean for a in space.share]
        self.weight = list(self.plain)
        self.credit: float = 0.5 / mean
        self.growth: float = PRESS if pressed else 0.0
        self.shares: list[float] = []
        self.slack: float = 0.0
        self.moves: i64 = 0
        self.left_out = self.weighed(absent)

    def measure_by(self, shares: list[float]) -> None:
        """Count parts by these shares of a piece of stock instead of their area."""
        self.shares = shares
        self.plain = shares
        self.weight = list(shares)
        self.left_out = self.weighed(self.absent)

    @property
    def bad(self) -> float:
        """Give how much is left out, in mean pieces of stock."""
        return fsum([self.plain[i] for i in self.absent])

    def weighed(self, absent: list[int]) -> float:
        """Give what some parts weigh: their area in mean pieces of stock, and more the longer they are left out."""
        total = 0.0
        for i in absent:
            total += self.weight[i]
        return total

    def emptiness(self, b: Bin) -> float:
        """Give what is free times its share: free room in one piece is worth more than the same spread over several."""
        room = float(b.wide) * float(b.high)
        if not self.shares:
            return b.free * b.free / room
        free = 1.0
        for i in b.items:
            free -= self.shares[i]
        return free * free * room

    def press(self) -> None:
        """Let the parts left out weigh more from now on, and now and then all parts less."""
        self.moves += 1
        if self.moves % EASE == 0:
            self.weight = [(w + a) / 2.0 for w, a in zip(self.weight, self.plain, strict=True)]
        for i in self.absent:
            self.weight[i] += self.growth * self.plain[i]
        self.left_out = self.weighed(self.absent)

    def run(self, limit: int) -> bool:
        """Move until `limit` steps in all are counted; True when every part has a place."""
        budget = self.budget
        per_bin = float(sum([len(b.items) for b in self.bins])) / float(max(1, len(self.bins)))
        whole = 1.0 if per_bin < 5 else 0.5 if per_bin < 8 else 0.1
        self.many = per_bin >= MANY and not self.space.strips
        while self.absent and budget.steps < limit:
            self.move(whole)
        return not self.absent

    def choose(self, k: i64) -> list[int]:
        """Give k pieces by chance, drawn from one more with the fullest of them left out."""
        bins, luck = self.bins, self.budget.chance
        m: i64 = len(bins)
        chosen: list[int] = []
        want: i64 = min(m, k + 1)
        while len(chosen) < want:
            at = luck.below(m)
            if at not in chosen:
                chosen.append(at)
        if want > k:
            fullest = chosen[0]
            for j in chosen:
                if bins[j].free < bins[fullest].free:
                    fullest = j
            chosen.remove(fullest)
        return chosen

    def move(self, whole: float) -> None:
        """One move: choose pieces, take out, put back, keep if no worse."""
        space, bins, luck = self.space, self.bins, self.budget.chance
        full = luck.random() < whole
        k: i64 = (2 if luck.random() < 0.6 else 3) if full else (1 if luck.random() < 0.5 else 2)
        k = min(k, len(bins))
        rows = self.many and not full and luck.random() < ROWS_SHARE
        chosen = self.choose(k)
        pool = list(self.absent)
        fresh: list[Bin] = []
        before = 0.0
        for j in chosen:
            b = bins[j]
            before += self.emptiness(b)
            if full or b.root is None:
                pool.extend(b.items)
                fresh.append(new_bin(space, b.size))
            else:
                out = self.pick_rows(b) if rows else self.pick(b)
                pool.extend(sorted(out))
                fresh.append(b.without(out, space))
        self.budget.spend(HANDLED * len(pool))
        pool = shuffled(space, pool, self.bins[0].size if self.bins else 0, luck)
        scorer = SCORERS[luck.below(4)]
        if rows or (full and not space.strips and len(pool) > 12 * k and luck.random() < 0.5):
            left = pool
            spread = 0.03 + 0.2 * luck.random()
            stacks = luck.random() < 0.5
            for b in fresh:
                columns = luck.random() < 0.5 if b.root is None else b.root.axis == SIDE
                left = fill_levels(space, b, left, self.budget, columns, spread, stacks)
            left = place(space, fresh, left, self.budget, 0.0, scorer)
        elif luck.random() < 0.5:
            left = place(space, fresh, pool, self.budget, 0.03, scorer)
        else:
            left = pool
            for b in fresh:
                left = place(space, [b], left, self.budget, 0.03, scorer)
        weighed = self.weighed(left)
        gain = -before
        for b in fresh:
            gain += self.emptiness(b)
        most = self.left_out * (1.0 + 0.05 * luck.random())
        if self.slack > 0.0:
            most += self.slack * luck.random()
        if weighed - self.credit * gain <= most + 1e-12:
            for j, b in zip(chosen, fresh, strict=True):
                bins[j] = b
            self.absent = left
        self.press()

    def pick_rows(self, b: Bin) -> set[int]:
        """Give the parts of some whole rows (or columns) of a piece."""
        luck = self.budget.chance
        assert b.root is not None
        out: set[int] = set()
        if b.root.axis == PART:
            out.update(b.items)
            return out
        rows = b.root.kids
        for _ in range(1 + luck.below(min(4, len(rows)))):
            out.update(parts_of(rows[luck.below(len(rows))], []))
        return out

    def pick(self, b: Bin) -> set[int]:
        """Give some parts of a piece: a group of its tree, a random share, or the smaller ones."""
        luck = self.budget.chance
        assert b.root is not None
        kind = luck.random()
        out: set[int] = set()
        if kind < 0.4:
            groups = groups_of(b.root, [])
            if not groups:
                return set(b.items)
            for _ in range(1 if luck.random() < 0.5 else 2):
                out.update(parts_of(groups[luck.below(len(groups))], []))
        elif kind < 0.7:
            share = (0.15, 0.3, 0.5)[luck.below(3)]
            for i in b.items:
                if luck.random() < share:
                    out.add(i)
        else:
            size = self.space.share
            ranked = sorted([(size[i] * (1.0 + 0.3 * luck.random()), i) for i in b.items])
            for _, i in ranked[: 1 + luck.below(len(ranked))]:
                out.add(i)
        if not out:
            out.add(b.items[luck.below(len(b.items))])
        return out


def shuffled(space: Space, pool: list[int], size: i64, luck: Chance) -> list[int]:
    """Give parts large first by area, longer side, x or y size as they lie on a size of stock, with some noise."""
    noise = (0.1, 0.3, 0.6)[luck.below(3)]
    kind = luck.random()
    keys: list[tuple[float, int]] = []
    if kind < 0.5:
        keys = [(-space.share[i] * (1.0 + 2.0 * noise * (luck.random() - 0.5)), i) for i in pool]
    else:
        every = space.ways[size]
        for i in pool:
            ways = every[i]
            w: i64 = ways[0].w if ways else 1
            h: i64 = ways[0].h if ways else 1
            side = w if kind < 0.85 else h
            if kind < 0.7:
                side = max(w, h)
            keys.append((-float(side) * (1.0 + noise * (luck.random() - 0.5)), i))
    keys.sort()
    return [i for _, i in keys]
