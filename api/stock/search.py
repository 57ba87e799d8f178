"""Packing parts into a given set of stock pieces: greedy filling, then taking out and putting back.

Filling takes parts one by one and puts each where the slicing tree wastes least. The improver then fixes which pieces
of stock may be used, and keeps taking some parts out of one to three pieces and putting them back together with the
parts that found no place, keeping the result when no more area is left out than before (threshold accepting), until
every part has a place or the counted steps are used up. A step is one look at one place for one part.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from casewright.api.stock.slicing import (
    Node,
    Position,
    column_positions,
    copy_without,
    groups_of,
    insert,
    leaf,
    parts_of,
    positions,
    row_positions,
)

Option = tuple[int, int, bool]
SCORERS = (0.0, 0.05, 0.3, 1.0)
FREE, ROWS, COLUMNS = range(3)
FORMS = (positions, row_positions, column_positions)


@dataclass(slots=True)
class Space:
    """A packing problem in reduced whole units, one kerf added to every size.

    `sizes[t]` is the room of stock size t, `copies[t]` how many may be used, `price[t]` what one costs (whole, > 0),
    `options[t][i]` the ways part i may lie on it, `area[i]` its area. `strips` asks for rip-then-cross-cut layouts.
    """

    sizes: list[tuple[int, int]]
    copies: list[int]
    price: list[int]
    options: list[list[tuple[Option, ...]]]
    area: list[int]
    strips: bool = False


@dataclass(slots=True)
class Work:
    """Counted steps and the one source of (fixed-seed) chance."""

    limit: int
    steps: int = 0
    random: Random = field(default_factory=lambda: Random(20_240_229))

    @property
    def left(self) -> int:
        return self.limit - self.steps


class Bin:
    """One piece of stock being filled."""

    __slots__ = ("free", "high", "items", "places", "root", "size", "wide")

    def __init__(self, size: int, wide: int, high: int) -> None:
        self.size = size
        self.wide = wide
        self.high = high
        self.root: Node | None = None
        self.items: list[int] = []
        self.free = wide * high
        self.places: list[Position] | None = None

    def put(self, place: Position | None, w: int, h: int, item: int, turned: bool) -> None:
        new = leaf(w, h, item, turned)
        self.root = new if place is None or self.root is None else insert(self.root, place, new)
        self.items.append(item)
        self.free -= w * h
        self.places = None

    def without(self, out: set[int], area: Sequence[int]) -> Bin:
        new = Bin(self.size, self.wide, self.high)
        if self.root is not None:
            new.root = copy_without(self.root, out)
        new.items = [i for i in self.items if i not in out]
        new.free -= sum(area[i] for i in new.items)
        return new


def new_bin(space: Space, size: int) -> Bin:
    """An empty piece of stock of a size."""
    wide, high = space.sizes[size]
    return Bin(size, wide, high)


def place(
    space: Space,
    bins: Sequence[Bin],
    order: Sequence[int],
    work: Work,
    blink: float = 0.0,
    scorer: float = 0.0,
    form: int = FREE,
) -> list[int]:
    """Put parts in order into bins, each at its least wasteful place; returns those that found none.

    `form` keeps the layout to rows (rip first) or columns (cross-cut first).
    """
    absent: list[int] = []
    chance = work.random.random
    strips = space.strips
    find = row_positions if strips else FORMS[form]
    steps = 0
    failed: set[tuple[Option, ...]] = set()
    by_size = [(b, space.options[b.size]) for b in bins]
    for i in order:
        best_score = -1.0
        best: tuple[Bin, Position | None, Option] | None = None
        key = by_size[0][1][i]
        if key in failed:
            absent.append(i)
            continue
        for b, options in by_size:
            free = b.free
            for option in options[i]:
                w, h, _ = option
                if w * h > free:
                    continue
                if b.root is None:
                    if w <= b.wide and h <= b.high and best is None:
                        best_score = 1e300
                        best = (b, None, option)
                    continue
                places = b.places
                if places is None:
                    places = b.places = find(b.root, b.wide, b.high)
                steps += len(places)
                for p in places:
                    if w <= p[0] and h <= p[1]:
                        if blink and chance() < blink:
                            continue
                        match = p[2]
                        score: float
                        if p[4] == 0:
                            if strips and h != match:
                                continue
                            score = w * (match - h) if h <= match else p[3] * (h - match)
                            score += scorer * (p[0] - w) * h
                        else:
                            score = h * (match - w) if w <= match else p[3] * (w - match)
                            score += scorer * (p[1] - h) * w
                        if best is None or score < best_score:
                            best_score = score
                            best = (b, p, option)
        if best is None:
            absent.append(i)
            if len(by_size) == 1 or len(space.sizes) == 1:
                failed.add(key)
            continue
        b, where, (w, h, turned) = best
        b.put(where, w, h, i, turned)
    work.steps += steps + len(order)
    return absent


def orders(space: Space) -> list[list[int]]:
    """The orders in which the greedy filler tries the parts."""
    options = space.options[0]
    for row in space.options[1:]:
        options = [a or b for a, b in zip(options, row, strict=True)]
    n = range(len(space.area))
    wide = [max((o[0] for o in options[i]), default=0) for i in n]
    high = [max((o[1] for o in options[i]), default=0) for i in n]
    area = space.area
    keys = (
        [(-area[i], i) for i in n],
        [(-max(wide[i], high[i]), -area[i], i) for i in n],
        [(-high[i], -wide[i], i) for i in n],
        [(-wide[i], -high[i], i) for i in n],
    )
    return [[k[-1] for k in sorted(row)] for row in keys]


def cost_of(space: Space, bins: Sequence[Bin]) -> int:
    """The price of the pieces used."""
    return sum(space.price[b.size] for b in bins)


def fill_in_turn(space: Space, order: Sequence[int], work: Work, scorer: float) -> tuple[list[Bin], list[int]]:
    """Fill one piece after another, each time the size that takes most area for its price."""
    left = list(order)
    counts = list(space.copies)
    bins: list[Bin] = []
    while left:
        best: Bin | None = None
        best_key: tuple[float, float] = (0.0, 0.0)
        best_left: list[int] = []
        for t, count in enumerate(counts):
            if count <= 0:
                continue
            b = new_bin(space, t)
            rest = place(space, [b], left, work, 0.0, scorer)
            if not b.items:
                continue
            filled = b.wide * b.high - b.free
            key = (1.0, -space.price[t]) if not rest else (0.0, filled / space.price[t])
            if best is None or key > best_key:
                best, best_key, best_left = b, key, rest
            if work.left <= 0 and best is not None:
                break
        if best is None:
            break
        counts[best.size] -= 1
        bins.append(best)
        left = best_left
    return bins, left


def fill_at_once(space: Space, order: Sequence[int], work: Work, scorer: float) -> tuple[list[Bin], list[int]]:
    """One size of stock: put each part into the best of all open pieces, opening another when none has room."""
    bins: list[Bin] = []
    absent: list[int] = []
    for i in order:
        if bins and not place(space, bins, [i], work, 0.0, scorer):
            continue
        if len(bins) < space.copies[0]:
            b = new_bin(space, 0)
            if not place(space, [b], [i], work):
                bins.append(b)
                continue
        absent.append(i)
    return bins, absent


class Mover:
    """Takes parts out of some pieces and puts them back, until nothing is absent or the steps are used."""

    def __init__(self, space: Space, bins: list[Bin], absent: list[int], work: Work) -> None:
        self.space = space
        self.bins = bins
        self.absent = absent
        self.work = work
        mean = max(1, sum(w * h for w, h in space.sizes) // len(space.sizes))
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
        chosen = rng.sample(range(m), k)
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
        if chance() < 0.5:
            left = place(space, fresh, pool, self.work, 0.03, scorer)
        else:
            left = pool
            for b in fresh:
                left = place(space, [b], left, self.work, 0.03, scorer)
        bad = sum(self.weight[i] for i in left)
        if bad <= self.bad * (1 + 0.05 * chance()) + 1e-12:
            for j, b in zip(chosen, fresh, strict=True):
                bins[j] = b
            self.absent = left
            self.bad = bad

    def pick(self, b: Bin) -> set[int]:
        """Some parts of a piece: a group of its tree, a random share, or the smaller ones."""
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
