"""Packing parts into pieces of stock greedily: one by one, each where the slicing tree wastes least.

A step, the unit in which all work is counted, is one look at one place for one part.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from random import Random

from casewright.api.stock.slicing import (
    Node,
    Position,
    column_positions,
    copy_without,
    insert,
    leaf,
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


TWENTIETHS = 20


def _unheard(twentieths: int) -> None:
    """Hear nothing."""


@dataclass(slots=True)
class Work:
    """Counted steps and the one source of (fixed-seed) chance.

    `heard` is told each twentieth of the steps allowed at first as it is used up.
    """

    limit: int
    steps: int = 0
    random: Random = field(default_factory=lambda: Random(20_240_229))
    heard: Callable[[int], None] = _unheard
    _share: int = field(init=False)
    _told: int = field(init=False, default=0)

    def __post_init__(self) -> None:
        """Take a twentieth of the steps allowed."""
        self._share = max(1, self.limit // TWENTIETHS)

    def spend(self, steps: int) -> None:
        """Count steps."""
        self.steps += steps
        used = min(TWENTIETHS, self.steps // self._share)
        if used > self._told:
            self._told = used
            self.heard(used)

    @property
    def left(self) -> int:
        """Give the steps not yet counted."""
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
        """Add a part at a place of the tree (None: the piece is empty)."""
        new = leaf(w, h, item, turned)
        self.root = new if place is None or self.root is None else insert(self.root, place, new)
        self.items.append(item)
        self.free -= w * h
        self.places = None

    def without(self, out: set[int], area: Sequence[int]) -> Bin:
        """Copy the piece without some of its parts."""
        new = Bin(self.size, self.wide, self.high)
        if self.root is not None:
            new.root = copy_without(self.root, out)
        new.items = [i for i in self.items if i not in out]
        new.free -= sum(area[i] for i in new.items)
        return new


def new_bin(space: Space, size: int) -> Bin:
    """Give an empty piece of stock of a size."""
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
    work.spend(steps + len(order))
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


def cost_of(space: Space, bins: Sequence[Bin]) -> int:
    """Give the price of the pieces used."""
    return sum(space.price[b.size] for b in bins)
