"""Cutting without any waste, where pieces of stock hold just the area of all parts.

Seen backwards, straight cuts put two rectangles with an equal side together into one, again and again, until every
rectangle is a piece of stock; without waste each such pair fits exactly. So the parts are joined pair by pair, many
states side by side (a beam), and those states are followed on in which fewest sides have no partner of equal length.
First all parts lie as they are given, which leaves fewer pairs to look at; then they are turned where all may be.
Nothing is proved where this finds nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.stock.search import Bin, Option, Space, StepBudget, new_bin
from casewright.api.stock.slicing import OVER, SIDE, Node, joined, leaf

__all__ = ["fill_exactly", "may_be_exact"]

Rect = tuple[int, int]
Move = tuple[Rect, Rect, Rect]  # two rectangles and the one they become
COST = 75
"""Steps that one look at a pair counts."""
WIDTHS = (30, 120, 500, 2_000)
"""States kept side by side, from try to try."""
SUMS = 50_000
"""Sums of areas kept, at most, to see whether some stock has just the area of all parts; ten times the looks."""


@dataclass(frozen=True, slots=True)
class Tree:
    """A rectangle put together: of a part (`item`), or of two others."""

    rect: Rect
    item: int
    pair: tuple[Tree, Tree] | None = None


class State:
    """Rectangles with their numbers, and the state and move they come from."""

    __slots__ = ("count", "key", "lone", "move", "parent")

    def __init__(self, count: dict[Rect, int], key: int, lone: int, parent: State | None, move: Move | None) -> None:
        self.count = count
        self.key = key
        self.lone = lone
        self.parent = parent
        self.move = move


def may_be_exact(space: Space) -> bool:
    """Whether some pieces of stock have just the area of all parts together."""
    total = sum(space.area)
    sums = {0}
    for (w, h), copies in zip(space.sizes, space.copies, strict=True):
        if len(sums) > SUMS or len(sums) * (1 + min(copies, total // (w * h))) > 10 * SUMS:
            return False
        sums = {s + k * w * h for s in sums for k in range(min(copies, (total - s) // (w * h)) + 1)}
    return len(sums) <= SUMS and total in sums


def fill_exactly(space: Space, budget: StepBudget, limit: int) -> list[Bin] | None:
    """Give pieces of stock cut without waste, or None where none were found by `limit` steps in all."""
    ways = [next((row[i] for row in space.options if row[i]), ()) for i in range(len(space.area))]
    if not all(ways) or not _alike(space, ways):
        return None
    turning = all(len(w) == 2 or w[0][0] == w[0][1] for w in ways)
    for free, end in ((False, budget.steps + (limit - budget.steps) // (2 if turning else 1)), (turning, limit)):
        joiner = _Joiner(space, [(w[0][0], w[0][1]) for w in ways], free)
        for width in WIDTHS:
            state = joiner.run(width, budget, end)
            if state is not None:
                return joiner.bins(state)
            if budget.steps >= end:
                break
        if free == turning:
            break
    return None


def _alike(space: Space, ways: Sequence[tuple[Option, ...]]) -> bool:
    """Whether parts may lie in these ways on all stock that has room for them so."""
    return all(
        way in row[i]
        for row, (wide, high) in zip(space.options, space.sizes, strict=True)
        for i in range(len(ways))
        for way in ways[i]
        if way[0] <= wide and way[1] <= high
    )


class _Joiner:
    """Joins rectangles that have an equal side.

    Where parts are turned (`free`), a rectangle is (longer, shorter); else all lie in their first way, `sizes`, and
    only equal widths or equal heights are joined. Sides are numbered so that those that may be joined have one number.
    """

    def __init__(self, space: Space, sizes: Sequence[Rect], free: bool) -> None:
        self.space = space
        self.free = free
        self.stock: dict[Rect, int] = {}
        for size, copies in zip(space.sizes, space.copies, strict=True):
            rect = self.named(*size)
            self.stock[rect] = self.stock.get(rect, 0) + copies
        self.parts: dict[Rect, list[int]] = {}
        for i, way in enumerate(sizes):
            self.parts.setdefault(self.named(*way), []).append(i)
        self.numbers: dict[Rect, int] = {}

    def named(self, w: int, h: int) -> Rect:
        """Give a rectangle as it is kept."""
        return (w, h) if w >= h or not self.free else (h, w)

    def sides(self, rect: Rect) -> tuple[int, int]:
        """Give the numbers of a rectangle's sides."""
        return rect if self.free else (2 * rect[0], 2 * rect[1] + 1)

    def number(self, rect: Rect) -> int:
        """Give a whole number that stands for a rectangle in sums that stand for states."""
        if rect not in self.numbers:
            self.numbers[rect] = hash((rect, 7)) & 0xFFFF_FFFF_FFFF
        return self.numbers[rect]

    def fits(self, rect: Rect) -> bool:
        """Whether a rectangle lies in some piece of stock."""
        return any(rect[0] <= w and rect[1] <= h for w, h in self.stock)

    def done(self, state: State) -> bool:
        """Whether all is put together."""
        return all(n <= self.stock.get(rect, 0) for rect, n in state.count.items())

    def run(self, width: int, budget: StepBudget, limit: int) -> State | None:
        """Give a state in which every rectangle is a piece of stock."""
        start = {rect: len(items) for rect, items in self.parts.items()}
        level = [State(start, sum(n * self.number(rect) for rect, n in start.items()), 0, None, None)]
        while level:
            coming: dict[int, tuple[float, State, Move]] = {}
            for state in level:
                if self.done(state):
                    return state
                looks = 0
                for key, lone, move in self.moves(state):
                    looks += 1
                    if key not in coming:
                        coming[key] = (lone + 0.5 * budget.chance.random(), state, move)
                budget.spend(COST * (looks + len(state.count)))
                if budget.steps >= limit:
                    return None
            best = sorted(coming.items(), key=lambda row: row[1][0])[:width]
            level = [self.after(state, move, key, int(lone)) for key, (lone, state, move) in best]
        return None

    def moves(self, state: State) -> Iterator[tuple[int, int, Move]]:
        """Yield the states one join away: their number, how many sides have no partner, and the join."""
        often: dict[int, int] = {}
        having: dict[int, list[Rect]] = {}
        for rect, n in state.count.items():
            for side in {*self.sides(rect)}:
                having.setdefault(side, []).append(rect)
            if rect not in self.stock:
                for side in self.sides(rect):
                    often[side] = often.get(side, 0) + n
        lone = sum(n == 1 for n in often.values())
        for side, rects in having.items():
            for at, a in enumerate(rects):
                for b in rects[at:]:
                    if a is b and state.count[a] < 2:
                        continue
                    made = self.made(a, b, side)
                    if not self.fits(made):
                        continue
                    change: dict[int, int] = {}
                    for rect, by in ((a, -1), (b, -1), (made, 1)):
                        if rect not in self.stock:
                            for s in self.sides(rect):
                                change[s] = change.get(s, 0) + by
                    less = 0
                    for s, by in change.items():
                        before = often.get(s, 0)
                        less += (before == 1) - (before + by == 1)
                    key = state.key - self.number(a) - self.number(b) + self.number(made)
                    yield key, lone - less, (a, b, made)

    def made(self, a: Rect, b: Rect, side: int) -> Rect:
        """Give what two rectangles become when joined along a side."""
        if self.free:
            along = (a[1] if a[0] == side else a[0]) + (b[1] if b[0] == side else b[0])
            return self.named(side, along)
        return (a[0], a[1] + b[1]) if side % 2 == 0 else (a[0] + b[0], a[1])

    def after(self, state: State, move: Move, key: int, lone: int) -> State:
        """Give the state after a join."""
        count = dict(state.count)
        for rect in move[:2]:
            if count[rect] == 1:
                del count[rect]
            else:
                count[rect] -= 1
        count[move[2]] = count.get(move[2], 0) + 1
        return State(count, key, lone, state, move)

    def bins(self, state: State) -> list[Bin]:
        """Give the pieces of stock, each with its parts."""
        moves: list[Move] = []
        at: State | None = state
        while at is not None:
            if at.move is not None:
                moves.append(at.move)
            at = at.parent
        trees = {rect: [Tree(rect, i) for i in items] for rect, items in self.parts.items()}
        for a, b, made in reversed(moves):
            pair = (trees[a].pop(), trees[b].pop())
            trees.setdefault(made, []).append(Tree(made, -1, pair))
        left = list(self.space.copies)
        bins = []
        for tree in [tree for rect in sorted(trees) for tree in trees[rect]]:
            size = next(t for t, (w, h) in enumerate(self.space.sizes) if left[t] and self.named(w, h) == tree.rect)
            left[size] -= 1
            piece = new_bin(self.space, size)
            piece.root = self.node(tree, piece.wide, piece.high, piece)
            bins.append(piece)
        return bins

    def node(self, tree: Tree, w: int, h: int, b: Bin) -> Node:
        """Give the slicing tree of a rectangle that is to lie w by h in a piece."""
        if tree.pair is None:
            b.items.append(tree.item)
            b.free -= float(w) * float(h)
            turned = next(o[2] for o in self.space.options[b.size][tree.item] if o[:2] == (w, h))
            return leaf(w, h, tree.item, turned)
        one, other = tree.pair
        axis, sizes = next(
            (axis, (p, q))
            for axis in (SIDE, OVER)
            for p in self.lying(one.rect)
            for q in self.lying(other.rect)
            if (axis == SIDE and p[1] == q[1] == h and p[0] + q[0] == w)
            or (axis == OVER and p[0] == q[0] == w and p[1] + q[1] == h)
        )
        kids: list[Node] = []
        for part, (wide, high) in zip((one, other), sizes, strict=True):
            kid = self.node(part, wide, high, b)
            kids += kid.kids if kid.axis == axis else [kid]
        return joined(axis, kids)

    def lying(self, rect: Rect) -> tuple[Rect, ...]:
        """Give the ways a rectangle may lie."""
        return (rect, (rect[1], rect[0])) if self.free and rect[0] != rect[1] else (rect,)
