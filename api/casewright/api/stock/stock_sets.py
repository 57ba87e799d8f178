"""Sets of stock: how many pieces of each size, without saying what lies on them."""

from __future__ import annotations

from collections import Counter
from itertools import product
from math import ceil

from casewright.api.stock.search import Bin, Space

Set = tuple[int, ...]
"""How many pieces of each size of stock."""
TIGHT = 0.005
"""Share of its room that must be to spare for many unlike parts: about half of what moving them leaves at best."""
UNLIKE = 75
"""Unlike parts, at most, that may fill stock without such room."""
A_PIECE = 10
"""Parts a piece of stock, at most, that may."""


def every_set(space: Space, have: Set, total: int) -> list[Set] | None:
    """All sets of stock with room enough, when there are not too many; None when there are."""
    most = [min(c, max(n, 2 + total // (w * h))) for c, n, (w, h) in zip(space.copies, have, space.sizes, strict=True)]
    count = 1
    for m in most:
        count *= m + 1
        if count > 60_000:
            return None
    return [c for c in product(*[range(m + 1) for m in most]) if room_of(space, c) >= total]


def counts_of(space: Space, bins: list[Bin]) -> Set:
    """Give how many pieces of each size there are."""
    used = Counter(b.size for b in bins)
    return tuple(used[t] for t in range(len(space.sizes)))


def price_of(space: Space, counts: Set) -> int:
    """Give the price of a set of stock."""
    return sum(n * p for n, p in zip(counts, space.price, strict=True))


def room_of(space: Space, counts: Set) -> int:
    """Give the area of a set of stock."""
    return sum(n * w * h for n, (w, h) in zip(counts, space.sizes, strict=True))


def least_room(space: Space, total: int) -> int:
    """Give the room from which a set of stock is worth a long look: the area of all parts, `total`, at least.

    Many unlike parts need some to spare, but where they are large for their stock. With one size of stock only whole
    pieces can be saved, which is worth all steps, so none is asked for.
    """
    piece = sum(w * h for w, h in space.sizes) // len(space.sizes)
    few = piece * len(space.area) <= A_PIECE * total or len({*zip(*space.options, strict=True)}) <= UNLIKE
    return total if few or len(space.sizes) == 1 else ceil(total / (1 - TIGHT))


def cheaper_sets(space: Space, have: Set, now: int) -> list[Set]:
    """Give sets of stock near the one in hand that cost less: up to two pieces out, up to two in."""
    cheaper: set[Set] = set()
    kinds = range(len(have))
    firsts = [have]
    for _ in range(2):
        nexts = []
        for base in firsts:
            nexts += [(*base[:t], base[t] - 1, *base[t + 1 :]) for t in kinds if base[t]]
        firsts = sorted(set(nexts))
        fills = list(firsts)
        for _ in range(3):
            cheaper.update(c for c in fills if price_of(space, c) < now)
            more = []
            for base in fills:
                for t in kinds:
                    if base[t] < space.copies[t]:
                        bigger = (*base[:t], base[t] + 1, *base[t + 1 :])
                        if price_of(space, bigger) < now:
                            more.append(bigger)
            fills = sorted(set(more))
            if len(fills) > 2_000:
                break
    return sorted(cheaper)
