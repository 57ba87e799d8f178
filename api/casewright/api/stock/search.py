"""Packing parts into pieces of stock greedily: one by one, each where the slicing tree wastes least.

A step, the unit in which all work is counted, is one look at one place for one part. This module is compiled where a
C compiler is at hand; its `i64` are plain int otherwise, and the answer is the same. Areas inside it are floats: only
whether a size fits is exact.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from casewright.api.stock.slicing import (
    OVER,
    Node,
    Place,
    column_positions,
    copy_without,
    insert,
    leaf,
    positions,
    row_positions,
)

if TYPE_CHECKING:
    from mypy_extensions import i64

Option = tuple[int, int, bool]
SCORERS: Final = (0.0, 0.05, 0.3, 1.0)
FREE: Final = 0
ROWS: Final = 1
COLUMNS: Final = 2
TWENTIETHS: Final = 20
ROUNDING: Final = 1e-9
"""Share of a piece's area that sums of float areas may be off by."""


class Way:
    """One way a part may lie on a size of stock."""

    __slots__ = ("h", "turned", "w")

    def __init__(self, w: i64, h: i64, turned: bool) -> None:
        self.w: i64 = w
        self.h: i64 = h
        self.turned = turned


class Space:
    """A packing problem in reduced whole units, one kerf added to every size.

    `sizes[t]` is the room of stock size t, `copies[t]` how many may be used, `price[t]` what one costs (whole, > 0),
    `options[t][i]` the ways part i may lie on it, `area[i]` its area. `strips` asks for rip-then-crosscut layouts.
    `kind[t][i]` is equal for parts that lie on size t in the same ways.
    """

    __slots__ = ("area", "copies", "kind", "options", "price", "share", "sizes", "strips", "ways")

    def __init__(
        self,
        sizes: list[tuple[int, int]],
        copies: list[int],
        price: list[int],
        options: list[list[tuple[Option, ...]]],
        area: list[int],
        strips: bool = False,
    ) -> None:
        self.sizes = sizes
        self.copies = copies
        self.price = price
        self.options = options
        self.area = area
        self.strips = strips
        self.share = [float(a) for a in area]
        self.ways: list[list[list[Way]]] = []
        self.kind: list[list[int]] = []
        for row in options:
            known: dict[tuple[Option, ...], int] = {}
            kinds: list[list[Way]] = []
            names: list[int] = []
            for option in row:
                if option not in known:
                    known[option] = len(known)
                    kinds.append([Way(w, h, turned) for w, h, turned in option])
                names.append(known[option])
            self.kind.append(names)
            self.ways.append([kinds[name] for name in names])


class Chance:
    """Fixed-seed chance: the multiplicative generator of Park and Miller (1988) with Schrage's constants, 48271."""

    __slots__ = ("state",)

    def __init__(self, seed: i64) -> None:
        self.state: i64 = seed % 2147483646 + 1

    def random(self) -> float:
        """Give a number from 0 up to, not including, 1."""
        self.state = self.state * 48271 % 2147483647
        return float(self.state - 1) / 2147483646.0

    def below(self, n: i64) -> i64:
        """Give a whole number from 0 to n - 1."""
        self.state = self.state * 48271 % 2147483647
        return (self.state - 1) * n // 2147483646


def no_report(twentieths: int) -> None:
    """Report nothing."""


class StepBudget:
    """Counted steps and the one source of (fixed-seed) chance.

    `report` is called with each twentieth of the steps allowed at first as it is used up.
    """

    __slots__ = ("_reported", "_share", "chance", "limit", "report", "steps")

    def __init__(self, limit: i64, report: Callable[[int], None] = no_report, seed: i64 = 20_240_229) -> None:
        self.limit: i64 = limit
        self.steps: i64 = 0
        self.chance = Chance(seed)
        self.report = report
        self._share: i64 = max(1, limit // TWENTIETHS)
        self._reported: i64 = 0

    def spend(self, steps: i64) -> None:
        """Count steps."""
        self.steps += steps
        used: i64 = self.steps // self._share
        if used > self._reported and self._reported < TWENTIETHS:
            self._reported = min(used, TWENTIETHS)
            self.report(self._reported)

    @property
    def left(self) -> int:
        """Give the steps not yet counted."""
        return self.limit - self.steps


class Bin:
    """One piece of stock being filled; `free` is the area left."""

    __slots__ = ("free", "high", "items", "places", "root", "size", "wide")

    def __init__(self, size: i64, wide: i64, high: i64) -> None:
        self.size: i64 = size
        self.wide: i64 = wide
        self.high: i64 = high
        self.root: Node | None = None
        self.items: list[int] = []
        self.free: float = float(wide) * float(high)
        self.places: list[Place] | None = None

    def put(self, place: Place | None, way: Way, item: int) -> None:
        """Add a part at a place of the tree (None: the piece is empty)."""
        new = leaf(way.w, way.h, item, way.turned)
        root = self.root
        self.root = new if place is None or root is None else insert(root, place, new)
        self.items.append(item)
        self.free -= float(way.w) * float(way.h)
        self.places = None

    def without(self, out: set[int], space: Space) -> Bin:
        """Copy the piece without some of its parts."""
        new = Bin(self.size, self.wide, self.high)
        if self.root is not None:
            new.root = copy_without(self.root, out)
        new.items = [i for i in self.items if i not in out]
        for i in new.items:
            new.free -= space.share[i]
        return new


def new_bin(space: Space, size: int) -> Bin:
    """Give an empty piece of stock of a size."""
    wide, high = space.sizes[size]
    return Bin(size, wide, high)


def _places(b: Bin, root: Node, form: i64) -> list[Place]:
    if form == FREE:
        return positions(root, b.wide, b.high)
    if form == ROWS:
        return row_positions(root, b.wide, b.high)
    return column_positions(root, b.wide, b.high)


def place(
    space: Space,
    bins: list[Bin],
    order: list[int],
    budget: StepBudget,
    blink: float = 0.0,
    scorer: float = 0.0,
    form: i64 = FREE,
) -> list[int]:
    """Put parts in order into bins, each at its least wasteful place; returns those that found none.

    `form` keeps the layout to rows (rip first) or columns (crosscut first).
    """
    absent: list[int] = []
    chance = budget.chance
    strips = space.strips
    if strips:
        form = ROWS
    steps: i64 = len(order)
    failed: set[int] = set()
    alike = len(bins) == 1 or len(space.sizes) == 1
    kind = space.kind[bins[0].size]
    share = space.share
    for i in order:
        if kind[i] in failed:
            absent.append(i)
            continue
        area = share[i]
        best_score: float = 0.0
        best_bin: Bin | None = None
        best_way: Way | None = None
        best_place: Place | None = None
        for b in bins:
            if area > b.free * (1.0 + ROUNDING):
                continue
            root = b.root
            for way in space.ways[b.size][i]:
                w: i64 = way.w
                h: i64 = way.h
                if root is None:
                    if best_bin is None and w <= b.wide and h <= b.high:
                        best_score = 1e300
                        best_bin = b
                        best_way = way
                        best_place = None
                    continue
                places = b.places
                if places is None:
                    places = _places(b, root, form)
                    b.places = places
                    steps += len(places)
                steps += len(places)
                for p in places:
                    if w > p.room_w or h > p.room_h:
                        continue
                    if blink > 0.0 and chance.random() < blink:
                        continue
                    match: i64 = p.match
                    score: float
                    if p.axis == OVER:
                        score = float(h) * float(match - w) if w <= match else float(p.grow) * float(w - match)
                        score += scorer * float(p.room_h - h) * float(w)
                    else:
                        if h <= match:
                            if strips and h != match:
                                continue
                            score = float(w) * float(match - h)
                        elif strips:
                            continue
                        else:
                            score = float(p.grow) * float(h - match)
                        score += scorer * float(p.room_w - w) * float(h)
                    if best_bin is None or score < best_score:
                        best_score = score
                        best_bin = b
                        best_way = way
                        best_place = p
        if best_bin is None or best_way is None:
            absent.append(i)
            if alike:
                failed.add(kind[i])
            continue
        best_bin.put(best_place, best_way, i)
    budget.spend(steps)
    return absent


def orders(space: Space) -> list[list[int]]:
    """Give the orders in which the greedy filler tries the parts."""
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


def cost_of(space: Space, bins: list[Bin]) -> int:
    """Give the price of the pieces used."""
    return sum(space.price[b.size] for b in bins)
