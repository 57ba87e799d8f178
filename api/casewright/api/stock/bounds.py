"""Proved lower bounds on what the stock must cost, for straight-cut or any other orthogonal layout.

Sizes are changed by functions that never let parts that fit side by side stop fitting (dual feasible functions), and
the changed areas are compared with the changed areas of the stock. The functions are the usual three families, from
memory of Fekete and Schepers (2004) and Carlier, Clautiaux and Moukrim (2007): rounding, cutting off parts under or
over a threshold, and counting thresholds. All are superadditive, so that stock smaller than the largest size keeps at
most the changed area of its own sides. Everything is whole numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import fsum

from casewright.api.stock.search import Option, Space

Scale = Callable[[int], int]
MANY = 16
"""Thresholds tried for each axis where the tightest functions are looked for."""


def _same(x: int) -> int:
    return x


def _threshold(top: int, low: int) -> Scale:
    """0 below `low`, `top` above top - low, unchanged between."""

    def scale(x: int) -> int:
        return 0 if x < low else top if x > top - low else x

    return scale


def _counting(top: int, low: int) -> Scale:
    """Count how many of size `low` a part displaces (2 a unit, so that half is whole)."""
    many = top // low

    def scale(x: int) -> int:
        if 2 * x > top:
            return 2 * (many - (top - x) // low)
        if 2 * x == top:
            return many
        return 2 * (x // low)

    return scale


def _rounding(top: int, k: int) -> Scale:
    """Round to k-ths of the top, keeping exact multiples of top/(k + 1); times k(k+1) to stay whole."""

    def scale(x: int) -> int:
        return x * k if (k + 1) * x % top == 0 else (k + 1) * x // top * top

    return scale


def scales(top: int, sizes: Sequence[int], many: int) -> list[Scale]:
    """Up to about `many` functions for one axis of length `top`, thresholds taken from the part sizes."""
    lows = sorted({min(s, top - s) for s in sizes if min(s, top - s) > 0} | {s for s in sizes if 0 < 2 * s <= top})
    lows = [s for s in lows if 2 * s <= top]
    if len(lows) > many:
        lows = [lows[i * len(lows) // many] for i in range(many)]
    every: list[Scale] = [_same]
    every += [_threshold(top, s) for s in lows]
    every += [_counting(top, s) for s in lows]
    every += [_rounding(top, k) for k in (1, 2, 3, 4, 5)]
    return every


def least_cost(space: Space, need: int, room: Sequence[int]) -> int | None:
    """Give the least price of whole pieces with room for `need`, or a proved value under it; None when none has."""
    rows = [(space.price[t], room[t], space.copies[t]) for t in range(len(room)) if room[t] > 0 and space.copies[t] > 0]
    if need <= 0:
        return 0
    if sum(r * min(c, -(-need // r)) for _, r, c in rows) < need:
        return None
    rows.sort(key=lambda row: row[0] / row[1])
    if len(rows) == 1:
        return rows[0][0] * -(-need // rows[0][1])
    search = _CheapestSet(rows)
    complete = search.run(need)
    return search.best if complete else search.relaxed(0, need)


class _CheapestSet:
    """Searches the cheapest set of pieces, (price, room, copies) each, by price for room, within a budget of steps."""

    BUDGET = 20_000

    def __init__(self, rows: Sequence[tuple[int, int, int]]) -> None:
        self.rows = rows
        self.best: int | None = None
        self.steps = 0

    def relaxed(self, at: int, need: int) -> int:
        """Give the least price when the last piece may be bought in part, rounded up; -1 where there is no room."""
        total = 0
        for price, room, count in self.rows[at:]:
            take = min(count, -(-need // room))
            if take * room >= need:
                return total + -(-(need * price) // room)
            total += take * price
            need -= take * room
        return -1

    def run(self, need: int) -> bool:
        """Try every number of the pieces, one kind after another; False when the budget is used up."""
        tried = [iter(((need, 0),))]
        while tried:
            one = next(tried[-1], None)
            if one is None:
                tried.pop()
                continue
            self.steps += 1
            if self.steps > self.BUDGET:
                return False
            left, spent = one
            at = len(tried) - 1
            if left <= 0:
                self.best = spent if self.best is None else min(self.best, spent)
            elif at < len(self.rows):
                low = self.relaxed(at, left)
                if low >= 0 and (self.best is None or spent + low < self.best):
                    tried.append(self._takes(at, left, spent))
        return True

    def _takes(self, at: int, need: int, spent: int) -> Iterator[tuple[int, int]]:
        """Yield what is still needed, and spent, with each number of one kind, most of it first."""
        price, room, count = self.rows[at]
        for take in range(min(count, -(-need // room)), -1, -1):
            yield need - take * room, spent + take * price


def lower_bound(space: Space, effort: int) -> tuple[int, str]:
    """Give the best proved lower bound on the price of the stock for all parts, and how it was proved."""
    parts: dict[tuple[Option, ...], int] = {}
    for i in range(len(space.area)):
        shapes = {o for row in space.options for o in row[i]}
        key = tuple(sorted({(w, h, False) for w, h, _ in shapes}))
        parts[key] = parts.get(key, 0) + 1
    usable = [t for t in range(len(space.sizes)) if space.copies[t] > 0]
    top_w = max(space.sizes[t][0] for t in usable)
    top_h = max(space.sizes[t][1] for t in usable)
    many = (4, 8, 16, 24, 32)[effort - 1]
    if len(parts) > 400:
        many = min(many, 4)
    ws = scales(top_w, [o[0] for key in parts for o in key], many)
    hs = scales(top_h, [o[1] for key in parts for o in key], many)
    best = least_cost(space, sum(a for a in space.area), [w * h for w, h in space.sizes]) or 0
    how = "area"
    flat = list(parts.items())
    rooms_w = [[f(w) for w, _ in space.sizes] for f in ws]
    rooms_h = [[f(h) for _, h in space.sizes] for f in hs]
    parts_w = [[[f(o[0]) for o in key] for key, _ in flat] for f in ws]
    parts_h = [[[f(o[1]) for o in key] for key, _ in flat] for f in hs]
    counts = [count for _, count in flat]
    single = len(space.sizes) == 1
    for rw, pw in zip(rooms_w, parts_w, strict=True):
        for rh, ph in zip(rooms_h, parts_h, strict=True):
            need = 0
            for a, b, count in zip(pw, ph, counts, strict=True):
                if len(a) == 1:
                    need += count * a[0] * b[0]
                else:
                    need += count * min([x * y for x, y in zip(a, b, strict=True)])
            room = [x * y for x, y in zip(rw, rh, strict=True)]
            if single:
                got = -(-need // room[0]) * space.price[0] if room[0] > 0 else 0
            else:
                if need * max(space.price) <= best * min(room, default=1):
                    continue
                got = least_cost(space, need, room) or 0
            if got > best:
                best, how = got, "dual feasible functions"
    return best, how


def tightest_shares(space: Space) -> list[float]:
    """Give the share of a piece that each part takes under those functions under which all parts take most of it.

    There must be one size of stock. Where parts cannot lie beside one another, this says more of it than their area.
    """
    ((wide, high),) = space.sizes
    ways = [[(w, h) for w, h, _ in row] for row in space.options[0]]
    best: list[float] = []
    for f in scales(wide, [w for way in ways for w, _ in way], MANY):
        for g in scales(high, [h for way in ways for _, h in way], MANY):
            room = f(wide) * g(high)
            shares = [min([f(w) * g(h) for w, h in way]) / room for way in ways] if room > 0 else []
            if fsum(shares) > fsum(best):
                best = shares
    return best
