"""First packings: filling piece after piece, or all open pieces at once."""

from __future__ import annotations

from casewright.api.stock.levels import fill_levels
from casewright.api.stock.search import Bin, Space, StepBudget, new_bin, place

SNUG = 0.9
"""Share of a piece that one part takes up where it is laid on it before all others."""
PILE = 200
"""Pieces on hand, at most, that lie open all at once."""


def fill_one(space: Space, size: int, left: list[int], budget: StepBudget, scorer: float) -> tuple[Bin, list[int]]:
    """One piece filled part by part, and the parts left."""
    b = new_bin(space, size)
    return b, place(space, [b], left, budget, 0.0, scorer)


def fill_rows(space: Space, size: int, left: list[int], budget: StepBudget, scorer: float) -> tuple[Bin, list[int]]:
    """One piece filled with the best of a few sets of rows or columns and then part by part, and the parts left."""
    best: tuple[Bin, list[int]] | None = None
    for columns in (False, True):
        for spread in (0.04, 0.12):
            b = new_bin(space, size)
            rest = fill_levels(space, b, left, budget, columns, spread)
            if best is None or b.free < best[0].free:
                best = b, rest
    assert best is not None
    return best[0], place(space, [best[0]], best[1], budget, 0.0, scorer)


def fill_in_turn(
    space: Space, order: list[int], budget: StepBudget, scorer: float, rows: bool = False
) -> tuple[list[Bin], list[int]]:
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
            b, rest = fill_rows(space, t, left, budget, scorer) if rows else fill_one(space, t, left, budget, scorer)
            if not b.items:
                continue
            filled = float(b.wide) * float(b.high) - b.free
            key = (1.0, -space.price[t]) if not rest else (0.0, filled / space.price[t])
            if best is None or key > best_key:
                best, best_key, best_left = b, key, rest
            if budget.left <= 0 and best is not None:
                break
        if best is None:
            break
        counts[best.size] -= 1
        bins.append(best)
        left = best_left
    return bins, left


def fill_at_once(space: Space, order: list[int], budget: StepBudget, scorer: float) -> tuple[list[Bin], list[int]]:
    """One size of stock: put each part into the best of all open pieces, opening another when none has room."""
    bins: list[Bin] = []
    absent: list[int] = []
    for i in order:
        if bins and not place(space, bins, [i], budget, 0.0, scorer):
            continue
        if len(bins) < space.copies[0]:
            b = new_bin(space, 0)
            if not place(space, [b], [i], budget):
                bins.append(b)
                continue
        absent.append(i)
    return bins, absent


def is_pile(space: Space) -> bool:
    """Whether there are only so many pieces, and few enough to lay them all open."""
    return sum(space.copies) <= PILE


def fill_pile(space: Space, order: list[int], budget: StepBudget, scorer: float) -> tuple[list[Bin], list[int]]:
    """All pieces on hand lie open, small ones first: parts that all but fill a piece go there, then all others."""
    sizes = [size for size, count in enumerate(space.copies) for _ in range(count)]
    bins = [new_bin(space, size) for size in sorted(sizes, key=lambda t: (space.sizes[t][0] * space.sizes[t][1], t))]
    left = []
    for i in order:
        snug = [(b.free, at) for at, b in enumerate(bins) if b.root is None and space.share[i] >= SNUG * b.free]
        at = next((at for _, at in sorted(snug) if not place(space, [bins[at]], [i], budget)), None)
        if at is None:
            left.append(i)
    absent = place(space, bins, left, budget, 0.0, scorer) if bins else left
    return [b for b in bins if b.items], absent
