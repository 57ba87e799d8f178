"""The largest points of a grid that a pile yields: climbing from many sides, and a bound on what could be.

A point is a tuple of places, one in each range. It is taken that a point yields whenever a larger one does (the larger
a cabinet, the more wood), which is how climbing finds the greatest place of one range by halving. All is counted, never
timed, and chance has a fixed seed: the same question has the same answers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from operator import ge

from casewright.api.stock.search import Chance

Point = tuple[int, ...]
Worth = tuple[int, ...]
"""What an answer is worth, more being better, in the order it is compared."""


@dataclass(slots=True)
class Grid:
    """What is searched: how many places each range has, what a point is worth at best, and whether the pile yields it.

    `worth` asks nothing of the pile and never falls where a place rises; `possible` is false where it is proved that
    the pile does not yield a point or any larger one. `decided` counts points, `tried` those tried on the pile.
    """

    sizes: tuple[int, ...]
    worth: Callable[[Point], Worth]
    possible: Callable[[Point], bool]
    yields: Callable[[Point], bool]
    tried: int = 0
    decided: int = 0
    _known: dict[Point, bool] = field(default_factory=dict)
    _large: list[Point] = field(default_factory=list)
    _small: list[Point] = field(default_factory=list)

    @property
    def least(self) -> Point:
        """The point of the least sizes."""
        return (0,) * len(self.sizes)

    def has(self, point: Point) -> bool:
        """Return whether the pile yields a point: tried, unless a larger one was had or a smaller one was not."""
        if point not in self._known:
            self.decided += 1
            self._known[point] = self._decided(point)
        return self._known[point]

    def _decided(self, point: Point) -> bool:
        if any(is_over(had, point) for had in self._large):
            return True
        if any(is_over(point, lacking) for lacking in self._small):
            return False
        self.tried += 1
        if self.yields(point):
            self._large = [*(had for had in self._large if not is_over(point, had)), point]
            return True
        self._small = [*(lacking for lacking in self._small if not is_over(lacking, point)), point]
        return False


def is_over(one: Point, other: Point) -> bool:
    """Return whether a point is at least another in every range."""
    return all(map(ge, one, other))


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


IDLE = 300
"""Climbs in a row that try nothing new, after which the search ends."""
STALE = 30
"""Climbs in a row without a better point, after which the next ones begin at another of the best."""
ELITE = 6
"""Best points that climbs begin at."""


def best_points(grid: Grid, seed: int, more: Callable[[], bool]) -> list[Point]:
    """Return the points found that the pile yields and no found one beats in every range, the best first.

    Climbs go on while `more` says so, which is asked before each.
    """
    if not grid.has(grid.least):
        return []
    chance = Chance(seed)
    dims = [i for i, n in enumerate(grid.sizes) if n > 1]
    now = _raised(grid, _along(grid, dims), dims)
    best = {grid.least, now}
    starts = [dims[k:] + dims[:k] for k in range(len(dims))] + [dims[::-1]]
    idle = stale = 0
    while more() and idle < IDLE and dims:
        before = grid.tried
        if starts:
            order = starts.pop(0)
            point = _raised(grid, grid.least, order)
        else:
            order = _shuffled(dims, chance)
            point = _raised(grid, _lowered(grid, now, order, chance), order)
        idle = idle + 1 if grid.tried == before else 0
        stale = 0 if grid.worth(point) > grid.worth(now) else stale + 1
        best.add(point)
        if grid.worth(point) >= grid.worth(now):
            now = point
        if stale > STALE and not starts:
            elite = _ordered(grid, best)[:ELITE]
            now, stale = elite[chance.below(len(elite))], 0
    ordered = _ordered(grid, best)
    return [p for p in ordered if not any(q != p and is_over(q, p) for q in best)]


def _ordered(grid: Grid, points: set[Point]) -> list[Point]:
    return sorted(points, key=lambda p: (_falling(grid.worth(p)), p))


def _along(grid: Grid, dims: Sequence[int]) -> Point:
    """Return the furthest point on the way from the least sizes to the greatest, all ranges raised alike."""
    last = _greatest(0, max(grid.sizes) - 1, lambda step: grid.has(_part_way(grid, step, dims)))
    return _part_way(grid, last, dims)


def _part_way(grid: Grid, step: int, dims: Sequence[int]) -> Point:
    most = max(grid.sizes) - 1
    return tuple([step * (n - 1) // most if i in dims else 0 for i, n in enumerate(grid.sizes)])


def _raised(grid: Grid, point: Point, order: Sequence[int]) -> Point:
    """Return a point with one range after another raised as far as the pile yields, until none can be."""
    moved = True
    while moved:
        moved = False
        for at in order:
            furthest = _furthest(grid, point, at)
            if furthest > point[at]:
                point, moved = _put(point, at, furthest), True
    return point


def _furthest(grid: Grid, point: Point, at: int) -> int:
    """Return the greatest place of one range that the pile yields: by steps that double, then by halving."""
    low, top, step = point[at], grid.sizes[at] - 1, 1
    high = top
    while low < high:
        place = min(low + step, high)
        if not grid.has(_put(point, at, place)):
            high = place - 1
            break
        low, step = place, 2 * step
    return _greatest(low, high, lambda place: grid.has(_put(point, at, place)))


def _greatest(low: int, high: int, had: Callable[[int], bool]) -> int:
    """Return the greatest number that is had, by halving; `low` is."""
    while low < high:
        middle = (low + high + 1) // 2
        if had(middle):
            low = middle
        else:
            high = middle - 1
    return low


def _put(point: Point, at: int, place: int) -> Point:
    return (*point[:at], place, *point[at + 1 :])


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
