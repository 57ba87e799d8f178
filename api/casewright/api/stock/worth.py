"""Finding room for all parts on so many pieces of one size, with patterns chosen by what parts are worth.

A pattern is one piece filled. What a part is worth rises while the patterns in use do not hold it and falls while
they hold it more than once: multipliers of a covering problem, by the volume algorithm (Barahona and Anbil,
Mathematical Programming 87, 2000). More patterns are made of whatever is worth more than a piece (Gilmore and Gomory,
Operations Research 9, 1961). Those with the largest share in the fewest pieces are chosen one by one, and the parts
left for the last few pieces are moved about on them. All three from memory; nothing is proved where this finds nothing.

This module is compiled where a C compiler is at hand.
"""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, Final

from casewright.api.stock.moves import HANDLED, Mover
from casewright.api.stock.search import ROUNDING, SCORERS, Bin, Space, StepBudget, new_bin, place

if TYPE_CHECKING:
    from mypy_extensions import i64

LAST: Final = 4
"""Pieces left to moves."""
MOVES: Final = 8_000_000
"""Steps of moving parts about on the last pieces."""
WASTE: Final = 0.3
"""Price of a piece's waste, in pieces: of patterns that do as well by the worth of parts, the fuller is better."""
TURNS: Final = 80
"""Turns at setting what parts are worth; more of them at first."""
KEEP: Final = 0.93
"""Share of a mean over turns that a turn leaves as it was."""
TRIES: Final = 600
"""Patterns tried each time that some are made, of `SOURCES` patterns that are nearest to use."""
SOURCES: Final = 150
ROUNDS: Final = 4
"""Times that patterns are made before one is chosen; three times as often before the very first."""
ALMOST: Final = 0.995
"""Worth in pieces from which a pattern is kept."""
MOST: Final = 6_000
"""Patterns known, at most; half of them are forgotten then."""
LOOKS: Final = 2
"""Parts of patterns looked at that count a step."""


class Pattern:
    """One piece filled: what it costs with its waste, its `share` in the fewest pieces, and what it is `short` of use.

    `short` is its cost less what its parts are worth: patterns under 0 are in use.
    """

    __slots__ = ("bin", "cost", "items", "share", "short")

    def __init__(self, b: Bin) -> None:
        self.bin = b
        self.items = sorted(b.items)
        self.cost: float = 1.0 + WASTE * b.free / (float(b.wide) * float(b.high))
        self.share: float = 0.0
        self.short: float = self.cost


class ByWorth:
    """Looks for room for all parts on `count` pieces of size 0, again and again with what it has learned."""

    __slots__ = ("area", "budget", "count", "known", "limit", "settled", "space", "worth")

    def __init__(self, space: Space, bins: list[Bin], count: i64, budget: StepBudget) -> None:
        self.space = space
        self.budget = budget
        self.count: i64 = count
        self.limit: i64 = budget.limit
        wide, high = space.sizes[0]
        self.area = [a / (float(wide) * float(high)) for a in space.share]
        self.worth = list(self.area)
        self.settled = False
        self.known = [Pattern(b) for b in bins if b.items]
        for i in range(len(self.area)):
            alone = new_bin(space, 0)
            place(space, [alone], [i], budget)
            self.known.append(Pattern(alone))

    def run(self, limit: int) -> list[Bin] | None:
        """Give pieces that hold every part, or None when `limit` steps in all are counted."""
        self.limit = limit
        while self.budget.steps < limit:
            found = self.chosen()
            if found is not None:
                return found
        return None

    def chosen(self) -> list[Bin] | None:
        """Choose patterns one after another, and give the pieces if all parts find room."""
        left = list(range(len(self.area)))
        known = self.known
        bins: list[Bin] = []
        while self.count - len(bins) > LAST:
            room: i64 = self.count - len(bins)
            known, may = self.learned(known, left, room)
            if not bins:
                self.known = known
            elif not may:
                return None
            if self.budget.steps >= self.limit:
                return None
            gone: set[int] = set()
            for pattern in self.best(known, room - LAST):
                bins.append(pattern.bin.without(gone, self.space))
                gone.update(pattern.items)
            left = [i for i in left if i not in gone]
            known = self.without(known, gone)
        space = self.space
        last = [new_bin(space, 0) for _ in range(self.count - len(bins))]
        left.sort(key=lambda i: -space.area[i])
        absent = place(space, last, left, self.budget)
        mover = Mover(space, last, absent, self.budget, True)
        return bins + mover.bins if mover.run(min(self.limit, self.budget.steps + MOVES)) else None

    def learned(self, known: list[Pattern], left: list[int], room: i64) -> tuple[list[Pattern], bool]:
        """Set what parts are worth and make patterns of those worth most, in turn, while the known ones cannot do.

        Gives the patterns then known, and whether they may do: not where the parts left are worth more than all that
        the pieces left and their waste may cost, which is proved of these patterns.
        """
        may: float = float(room) * (1.0 + WASTE)
        for i in left:
            may -= WASTE * self.area[i]
        first = not self.settled
        self.settled = True
        least = self.settle(known, left, room, 4 * TURNS if first else TURNS)
        for turn in range(3 * ROUNDS if first else ROUNDS):
            if turn > 0 and least <= may and not first:
                break
            known.sort(key=lambda p: p.short)
            made = self.made(known, left)
            if not made or self.budget.steps >= self.limit:
                break
            if len(known) > MOST:
                known = known[: MOST // 2] + [p for p in known[MOST // 2 :] if len(p.items) == 1]
            known = known + made
            least = self.settle(known, left, room, TURNS)
        return known, least <= may

    def settle(self, known: list[Pattern], left: list[int], room: i64, turns: i64) -> float:
        """Set what parts are worth, and each pattern's share; gives a proved least of what these patterns cost."""
        worth = self.worth
        best_worth = list(worth)
        best: float = -1e300
        often = [0.0] * len(worth)
        pace: float = 1.0
        goal: float = float(room) * 1.01 * (1.0 + 0.05 * WASTE)
        looks: i64 = 0
        for turn in range(turns):
            keep: float = KEEP if turn > 0 else 0.0
            now = [0.0] * len(worth)
            total: float = 0.0
            for i in left:
                total += worth[i]
            for p in known:
                short: float = p.cost
                for i in p.items:
                    short -= worth[i]
                p.share *= keep
                if short < 0.0:
                    total += short
                    p.share += 1.0 - keep
                    for i in p.items:
                        now[i] += 1.0
                looks += len(p.items)
            norm: float = 0.0
            for i in left:
                often[i] = keep * often[i] + (1.0 - keep) * now[i]
                norm += (1.0 - often[i]) * (1.0 - often[i])
            if total > best:
                best = total
                best_worth = list(worth)
            elif turn % 10 == 9:
                pace *= 0.8
            if norm < 1e-9:
                break
            step: float = pace * max(0.05, goal - total) / norm
            for i in left:
                worth[i] = max(0.0, best_worth[i] + step * (1.0 - often[i]))
        self.worth = best_worth
        for p in known:
            p.short = p.cost
            for i in p.items:
                p.short -= best_worth[i]
        self.budget.spend(looks // LOOKS)
        return best

    def made(self, known: list[Pattern], left: list[int]) -> list[Pattern]:
        """Give new patterns worth a piece: others with some parts taken out and parts worth most put in."""
        space, budget = self.space, self.budget
        luck = budget.chance
        gain = [w + WASTE * a for w, a in zip(self.worth, self.area, strict=True)]
        dense = [g / sqrt(a) for g, a in zip(gain, self.area, strict=True)]
        sources = [p.bin for p in known[:SOURCES]]
        names = {tuple(p.items) for p in known}
        found: list[Pattern] = []
        for _ in range(TRIES):
            if budget.steps >= self.limit:
                break
            source = sources[luck.below(len(sources))]
            share = (0.2, 0.4, 0.6, 1.0)[luck.below(4)]
            out: set[int] = set()
            for i in source.items:
                if luck.random() < share:
                    out.add(i)
            b = source.without(out, space)
            order = self.order(left, b, gain if luck.random() < 0.5 else dense)
            place(space, [b], order, budget, 0.1, SCORERS[luck.below(4)])
            value: float = -WASTE
            for i in b.items:
                value += gain[i]
            if value < ALMOST - 0.045:
                continue
            name = tuple(sorted(b.items))
            if name in names:
                continue
            if value >= ALMOST:
                names.add(name)
                found.append(Pattern(b))
            else:
                sources[luck.below(len(sources))] = b
        return found

    def order(self, left: list[int], b: Bin, gain: list[float]) -> list[int]:
        """Give the parts that may find room in a piece, those that gain most first, with some noise."""
        luck = self.budget.chance
        noise = (0.1, 0.3, 0.8)[luck.below(3)]
        share = self.space.share
        there = set(b.items)
        free: float = b.free * (1.0 + ROUNDING)
        fits = [i for i in left if share[i] <= free and i not in there]
        keys = sorted([(-gain[i] * (1.0 + noise * (luck.random() - 0.5)), i) for i in fits])
        self.budget.spend(HANDLED * len(keys))
        return [i for _, i in keys]

    def best(self, known: list[Pattern], most: i64) -> list[Pattern]:
        """Give the patterns wholly in use, at most so many, or else one of those with the largest shares."""
        whole = [p for p in known if p.share > 0.999]
        if whole:
            return whole[:most]
        luck = self.budget.chance
        return [max([(p.share * (1.0 + luck.random()), -at, p) for at, p in enumerate(known)])[2]]

    def without(self, known: list[Pattern], gone: set[int]) -> list[Pattern]:
        """Give the patterns without some parts, each once."""
        names: set[tuple[int, ...]] = set()
        found: list[Pattern] = []
        for p in known:
            if not gone.isdisjoint(p.items):
                p = Pattern(p.bin.without(gone, self.space))
            name = tuple(p.items)
            if name and name not in names:
                names.add(name)
                found.append(p)
        return found
