"""Improving a packing: take some parts out of one to three pieces and put them back in another way.

Which pieces of stock may be used is fixed. Parts that found no place go back in with those taken out, and a move is
kept when no more area is left out than before (threshold accepting, with a little credit for free room that comes
together in one piece), until every part has a place or the counted
steps are used up.
"""

from __future__ import annotations

from casewright.api.stock.levels import fill_levels
from casewright.api.stock.search import SCORERS, Bin, Space, Work, new_bin, place
from casewright.api.stock.slicing import groups_of, parts_of


def emptiness(b: Bin) -> float:
    """Square of the free share: free room in one piece is worth more than the same room spread over several."""
    share = b.free / (b.wide * b.high)
    return share * share


class Mover:
    """Takes parts out of some pieces and puts them back, until nothing is absent or the steps are used."""

    def __init__(self, space: Space, bins: list[Bin], absent: list[int], work: Work) -> None:
        self.space = space
        self.bins = bins
        self.absent = absent
        self.work = work
        mean = max(1, sum(w * h for w, h in space.sizes) // max(1, len(space.sizes)))
        self.weight = [a / mean for a in space.area]
        self.bad = sum(self.weight[i] for i in absent)

    def run(self, limit: int) -> bool:
        """Move until `limit` steps in all are counted; True when every part has a place."""
        work = self.work
        per_bin = sum(len(b.items) for b in self.bins) / max(1, len(self.bins))
        whole = 1.0 if per_bin < 5 else 0.5 if per_bin < 8 else 0.1
        while self.absent and work.steps < limit:
            self.move(whole)
        return not self.absent

    def move(self, whole: float) -> None:
        """One move: choose pieces, take out, put back, keep if no worse."""
        space, bins, rng = self.space, self.bins, self.work.random
        chance = rng.random
        m = len(bins)
        full = chance() < whole
        k = min((2 if chance() < 0.6 else 3) if full else (1 if chance() < 0.5 else 2), m)
        chosen = rng.sample(range(m), min(m, k + 1))
        if len(chosen) > k:
            chosen.remove(min(chosen, key=lambda j: bins[j].free))
        pool = list(self.absent)
        fresh: list[Bin] = []
        for j in chosen:
            b = bins[j]
            if full or b.root is None:
                pool += b.items
                fresh.append(new_bin(space, b.size))
            else:
                out = self.pick(b)
                pool += sorted(out)
                fresh.append(b.without(out, space.area))
        self.shuffle(pool)
        scorer = SCORERS[int(chance() * 4)]
        if full and not space.strips and len(pool) > 12 * k and chance() < 0.5:
            left = pool
            for b in fresh:
                left = fill_levels(space, b, left, self.work, chance() < 0.5, 0.03 + 0.2 * chance())
            left = place(space, fresh, left, self.work, 0.0, scorer)
        elif chance() < 0.5:
            left = place(space, fresh, pool, self.work, 0.03, scorer)
        else:
            left = pool
            for b in fresh:
                left = place(space, [b], left, self.work, 0.03, scorer)
        bad = sum(self.weight[i] for i in left)
        gain = sum(emptiness(b) for b in fresh) - sum(emptiness(bins[j]) for j in chosen)
        if bad - 0.5 * gain <= self.bad * (1 + 0.05 * chance()) + 1e-12:
            for j, b in zip(chosen, fresh, strict=True):
                bins[j] = b
            self.absent = left
            self.bad = bad

    def pick(self, b: Bin) -> set[int]:
        """Give some parts of a piece: a group of its tree, a random share, or the smaller ones."""
        rng = self.work.random
        chance = rng.random
        assert b.root is not None
        kind = chance()
        out: set[int] = set()
        if kind < 0.4:
            groups = groups_of(b.root, [])
            if not groups:
                return set(b.items)
            for _ in range(1 if chance() < 0.5 else 2):
                out.update(parts_of(groups[int(chance() * len(groups))], []))
        elif kind < 0.7:
            share = (0.15, 0.3, 0.5)[int(chance() * 3)]
            out = {i for i in b.items if chance() < share}
        else:
            area = self.space.area
            ranked = sorted(b.items, key=lambda i: area[i] * (1 + 0.3 * chance()))
            out = set(ranked[: 1 + int(chance() * len(ranked))])
        return out or {b.items[int(chance() * len(b.items))]}

    def shuffle(self, pool: list[int]) -> None:
        """Sort parts large first by area, longer side, x or y size, with some noise."""
        chance = self.work.random.random
        noise = (0.1, 0.3, 0.6)[int(chance() * 3)]
        kind = chance()
        space = self.space
        if kind < 0.5:
            noise *= 2
            size = space.area
            pool.sort(key=lambda i: -size[i] * (1 + noise * (chance() - 0.5)))
            return
        options = space.options[self.bins[0].size] if self.bins else space.options[0]
        first = [options[i][0] if options[i] else (1, 1, False) for i in pool]
        if kind < 0.7:
            keys = [-max(o[0], o[1]) * (1 + noise * (chance() - 0.5)) for o in first]
        elif kind < 0.85:
            keys = [-o[0] * (1 + noise * (chance() - 0.5)) for o in first]
        else:
            keys = [-o[1] * (1 + noise * (chance() - 0.5)) for o in first]
        pool[:] = [i for _, i in sorted(zip(keys, pool, strict=True))]
