"""The largest points of a grid that a pile yields: climbing from many sides, and a bound on what could be.

A point is a tuple of places, one in each range. It is taken that a point yields whenever a larger one does (the larger
a cabinet, the more wood), which is how climbing finds the greatest place of one range by halving; every answer is tried
itself. All is counted, never timed, and chance has a fixed seed: the same question has the same answers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush

from casewright.api.stock.search import Chance

Point = tuple[int, ...]
Worth = tuple[int, ...]
"""What an answer is worth, more being better, in the order it is compared."""


@dataclass(slots=True)
class Grid:
    """What is searched: how many places each range has, what a point is worth at best, and whether the pile yields it.

    `worth` asks nothing of the pile and never falls where a place rises; `possible` is false where it is proved that
    the pile does not yield a point or any larger one.
    """

    sizes: tuple[int, ...]
    worth: Callable[[Point], Worth]
    possible: Callable[[Point], bool]
    yields: Callable[[Point], bool]
    known: dict[Point, bool] = field(default_factory=dict)
    tried: int = 0

    @property
    def least(self) -> Point:
        """The point of the least sizes."""
        return (0,) * len(self.sizes)

    def has(self, point: Point) -> bool:
        """Return whether the pile yields a point, tried once."""
        if point not in self.known:
            smaller = any(not ok and all(a <= b for a, b in zip(p, point, strict=True)) for p, ok in self.known.items())
            self.tried += not smaller
            self.known[point] = not smaller and self.yields(point)
        return self.known[point]


def upper_bound(grid: Grid, most: int) -> Worth | None:
    """Return what no point is worth more than, by boxes halved until `most` are looked at; None: no point is possible.

    A box is worth no more than its largest corner, and holds nothing where its smallest is not possible.
    """
    top = tuple(n - 1 for n in grid.sizes)
    if not grid.possible(grid.least):
        return None
    heap = [(_falling(grid.worth(top)), grid.least, top)]
    for _ in range(most):
        if not heap:
            return None
        value, low, high = heappop(heap)
        if low == high:
            return _falling(value)
        at = max(range(len(low)), key=lambda i: ((high[i] - low[i]) / grid.sizes[i], -i))
        middle = (low[at] + high[at]) // 2
        below = (low, (*high[:at], middle, *high[at + 1 :]))
        above = ((*low[:at], middle + 1, *low[at + 1 :]), high)
        for a, b in (below, above):
            if grid.possible(a):
                heappush(heap, (_falling(grid.worth(b)), a, b))
    return _falling(heap[0][0]) if heap else None


def _falling(worth: Worth) -> Worth:
    return tuple([-value for value in worth])


def best_points(grid: Grid, most: int, seed: int, report: Callable[[int], None]) -> list[Point]:
    """Return the points found that the pile yields and no found one beats in every range, the best first.

    About `most` points are tried; `report` is called with how many are.
    """
    if not grid.has(grid.least):
        return []
    chance = Chance(seed)
    dims = [i for i, n in enumerate(grid.sizes) if n > 1]
    best = {grid.least}
    now = _raised(grid, _along(grid, dims), dims)
    best.add(now)
    starts = [dims[k:] + dims[:k] for k in range(len(dims))] + [dims[::-1]]
    idle = 0
    while grid.tried < most and idle < IDLE and dims:
        before = grid.tried
        if starts:
            order = starts.pop(0)
            point = _raised(grid, grid.least, order)
        else:
            order = _shuffled(dims, chance)
            point = _raised(grid, _lowered(grid, now, order, chance), order)
        idle = idle + 1 if grid.tried == before else 0
        best.add(point)
        if grid.worth(point) >= grid.worth(now):
            now = point
        report(min(grid.tried, most))
    ordered = sorted(best, key=lambda p: (_falling(grid.worth(p)), p))
    return [p for p in ordered if not any(q != p and _over(q, p) for q in best)]


IDLE = 300
"""Tries in a row that meet nothing new, after which the search ends."""


def _over(one: Point, other: Point) -> bool:
    return all(a >= b for a, b in zip(one, other, strict=True))


def _along(grid: Grid, dims: Sequence[int]) -> Point:
    """Return the furthest point on the way from the least sizes to the greatest, all ranges raised alike."""
    low, high = 0, max(grid.sizes) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if grid.has(_share(grid, middle, dims)):
            low = middle
        else:
            high = middle - 1
    return _share(grid, low, dims)


def _share(grid: Grid, step: int, dims: Sequence[int]) -> Point:
    most = max(grid.sizes) - 1
    return tuple([step * (n - 1) // most if i in dims else 0 for i, n in enumerate(grid.sizes)])


def _raised(grid: Grid, point: Point, order: Sequence[int]) -> Point:
    """Return a point with one range after another raised as far as the pile yields, until none can be."""
    moved = True
    while moved:
        moved = False
        for at in order:
            low, high = point[at], grid.sizes[at] - 1
            while low < high:
                middle = high if low == point[at] and high == grid.sizes[at] - 1 else (low + high + 1) // 2
                if grid.has((*point[:at], middle, *point[at + 1 :])):
                    low = middle
                else:
                    high = middle - 1
            if low > point[at]:
                point, moved = (*point[:at], low, *point[at + 1 :]), True
    return point


def _lowered(grid: Grid, point: Point, order: list[int], chance: Chance) -> Point:
    """Return a point with one to three ranges lowered by chance; those are raised last."""
    count = 1 + chance.below(min(3, len(order)))
    out = list(point)
    for at in order[-count:]:
        room = out[at] + 1 if chance.random() < 0.3 else min(out[at], 1 + grid.sizes[at] // 6) + 1
        out[at] -= chance.below(room)
    return tuple(out)


def _shuffled(dims: Sequence[int], chance: Chance) -> list[int]:
    left, out = list(dims), []
    while left:
        out.append(left.pop(chance.below(len(left))))
    return out
