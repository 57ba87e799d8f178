"""Filling large pieces of many parts closely: a few parts that stand together are put back in another way.

A nook is some kids of one node of a piece's tree, with the room that they could take up without anything else being
moved. The parts of one nook, or of two, go back in with some of those that found no place, and the move is kept or
undone as in annealing (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983; from memory): by the area left out, and a
little by how closely the parts stand. It costs a tenth of laying a whole piece anew.

While there is area to spare nothing asks for close filling, and the last parts find only slivers. So a strip of one
piece, a share of what is to spare, is kept back at first.

This module is compiled where a C compiler is at hand.
"""

from __future__ import annotations

from math import exp, fsum, log
from typing import TYPE_CHECKING, Final

from casewright.api.stock.moves import HANDLED, shuffled
from casewright.api.stock.search import SCORERS, Bin, Space, StepBudget, place
from casewright.api.stock.slicing import NO_KIDS, PART, SIDE, Node, joined, parts_of

if TYPE_CHECKING:
    from mypy_extensions import i64

HOT: Final = 0.1
"""Share of the mean part's area that a move may well cost at first."""
WARM: Final = 0.003
"""The same when the strip kept back is opened, and `COLD` at the end."""
COLD: Final = 0.001
STRIP: Final = 0.4
"""Share of the area to spare that is kept back at first."""
KEPT_BACK: Final = 0.7
"""Share of the steps for which it is."""
CLOSE: Final = 0.3
"""What a unit of area counts by which the rectangle round the parts of a nook grows, in area left out."""
MOST: Final = 12
"""Parts in a nook, at most; three times as many in a share `WIDE` of the moves."""
WIDE: Final = 0.1
TWO: Final = 0.6
"""Share of the moves with two nooks."""
OFFERED: Final = 12
"""Parts left out that a move tries to place, about."""
BLINK: Final = 0.03
"""Share of the places that are overlooked."""
MOVE: Final = 20
"""Steps that a move counts beside those for its parts."""
COPIED: Final = 4
"""Steps that each part of a piece counts when the move is kept."""
STAND_IN: Final = -2
"""Number of what stands for a nook while another is chosen."""


class Nook:
    """Kids `chosen` of the node at the end of a `path` of kids from the root, or if none are chosen that node itself.

    The room is `w` by `h`, and `area` that of the rectangle which they take up now.
    """

    __slots__ = ("area", "chosen", "h", "items", "path", "w")

    def __init__(self, path: list[int], node: Node, chosen: list[int], dx: i64, dy: i64) -> None:
        w: i64 = node.w
        h: i64 = node.h
        self.path = path
        self.chosen = chosen
        self.items: list[int] = []
        if not chosen:
            parts_of(node, self.items)
            self.area = float(w) * float(h)
        else:
            some = joined(node.axis, [node.kids[k] for k in chosen])
            parts_of(some, self.items)
            self.area = float(some.w) * float(some.h)
            if node.axis == SIDE:
                w = some.w
            else:
                h = some.h
        self.w: i64 = w + dx
        self.h: i64 = h + dy


class Nooks:
    """Puts the parts of nooks back in another way, until nothing is absent or the steps are used."""

    __slots__ = ("absent", "bins", "budget", "left_out", "space")

    def __init__(self, space: Space, bins: list[Bin], absent: list[int], budget: StepBudget) -> None:
        self.space = space
        self.bins = bins
        self.absent = absent
        self.budget = budget
        self.left_out: float = 0.0

    def run(self, limit: int) -> bool:
        """Move until `limit` steps in all are counted; True when every part has a place."""
        budget, bins = self.budget, self.bins
        at = max([(b.free, -j) for j, b in enumerate(bins)])
        j: i64 = -at[1]
        whole = bins[j]
        spare = fsum([float(b.wide) * float(b.high) for b in bins]) - fsum(self.space.share)
        self.absent.extend(whole.items)
        bins[j] = _without_strip(whole, STRIP * spare)
        self.anneal(budget.steps + int(KEPT_BACK * float(limit - budget.steps)), HOT, WARM)
        self.set_tree(j, Bin(whole.size, whole.wide, whole.high), bins[j].root)
        self.absent.sort(key=lambda i: -self.space.area[i])
        self.absent = place(self.space, [bins[j]], self.absent, budget)
        self.anneal(limit, WARM, COLD)
        return not self.absent

    def anneal(self, limit: int, hot: float, cold: float) -> None:
        """Move until nothing is absent or `limit` steps in all are counted, `hot` at first and `cold` in the end."""
        budget = self.budget
        share = self.space.share
        part = fsum(share) / max(1, len(share))
        start = budget.steps
        self.left_out = fsum([share[i] for i in self.absent])
        while self.absent and budget.steps < limit:
            gone = float(budget.steps - start) / float(limit - start)
            self.move(part * hot * exp(log(cold / hot) * gone))

    def move(self, heat: float) -> None:
        """One move: choose a nook or two, put parts back, keep it or not."""
        bins, luck, share = self.bins, self.budget.chance, self.space.share
        self.budget.spend(MOVE)
        most: i64 = 2 + luck.below(MOST - 1)
        if luck.random() < WIDE:
            most *= 3
        pool, rest = self.offered()
        j: i64 = luck.below(len(bins))
        k: i64 = luck.below(len(bins))
        tree, other = bins[j].root, bins[k].root
        second: Nook | None = None
        fresh: list[Bin] = []
        before: float = 0.0
        if tree is not None and other is not None and luck.random() < TWO:
            second = self.nook(bins[k], most, other, k != j)
            fresh.append(Bin(bins[k].size, second.w, second.h))
            before += second.area
            pool.extend(second.items)
            if k == j:
                tree = _changed(tree, second, 0, Node(PART, second.w, second.h, NO_KIDS, STAND_IN, False))
        first: Nook | None = None
        if tree is None:
            fresh.append(Bin(bins[j].size, bins[j].wide, bins[j].high))
        else:
            first = self.nook(bins[j], most, tree, True)
            if STAND_IN in first.items:
                return
            fresh.append(Bin(bins[j].size, first.w, first.h))
            before += first.area
            pool.extend(first.items)
        left = self.put_back(fresh, pool) + rest
        after: float = 0.0
        for b in fresh:
            if b.root is not None:
                after += float(b.root.w) * float(b.root.h)
        left_out: float = 0.0
        for i in left:
            left_out += share[i]
        worse = left_out - self.left_out + CLOSE * (after - before)
        if worse > 0.0 and luck.random() >= exp(-worse / heat):
            return
        self.absent = left
        self.left_out = left_out
        new = fresh[-1].root
        if tree is not None and first is not None:
            new = _changed(tree, first, 0, new)
        if second is not None and other is not None:
            if k == j and new is not None:
                new = _in_place(new, fresh[0].root)
            elif k != j:
                self.set_tree(k, bins[k], _changed(other, second, 0, fresh[0].root))
        self.set_tree(j, bins[j], new)

    def offered(self) -> tuple[list[int], list[int]]:
        """Give some parts left out to be placed, and the others."""
        luck = self.budget.chance
        many = float(len(self.absent))
        pool: list[int] = []
        rest: list[int] = []
        for i in self.absent:
            if luck.random() * many < OFFERED:
                pool.append(i)
            else:
                rest.append(i)
        return pool, rest

    def nook(self, b: Bin, most: i64, tree: Node, free: bool) -> Nook:
        """Choose a nook of `most` parts at most, near a part drawn by chance; it may grow into the rest if `free`."""
        luck = self.budget.chance
        node = tree
        dx: i64 = b.wide - node.w if free else 0
        dy: i64 = b.high - node.h if free else 0
        path: list[int] = []
        while node.count > most:
            nth: i64 = luck.below(node.count)
            at: i64 = 0
            while nth >= node.kids[at].count:
                nth -= node.kids[at].count
                at += 1
            kid = node.kids[at]
            if kid.count < most and (kid.count <= 2 or luck.random() < 0.5):
                return Nook(path, node, self.some_kids(node, at, most), dx, dy)
            if node.axis == SIDE:
                dy += node.h - kid.h
            else:
                dx += node.w - kid.w
            path.append(at)
            node = kid
        return Nook(path, node, [], dx, dy)

    def some_kids(self, node: Node, at: i64, most: i64) -> list[int]:
        """Give a kid and others of a node, drawn by chance, with `most` parts at most."""
        luck = self.budget.chance
        chosen: list[int] = [at]
        count: i64 = node.kids[at].count
        for _ in range(8):
            k: i64 = luck.below(len(node.kids))
            if k not in chosen and count + node.kids[k].count <= most:
                chosen.append(k)
                count += node.kids[k].count
        return chosen

    def put_back(self, fresh: list[Bin], pool: list[int]) -> list[int]:
        """Fill nooks, both at once or one after another, and give the parts left."""
        budget, luck = self.budget, self.budget.chance
        budget.spend(HANDLED * len(pool))
        pool = shuffled(self.space, pool, fresh[-1].size, luck)
        scorer = SCORERS[luck.below(4)]
        if len(fresh) == 1 or luck.random() < 0.5:
            return place(self.space, fresh, pool, budget, BLINK, scorer)
        turn: i64 = luck.below(2)
        left = place(self.space, [fresh[turn]], pool, budget, BLINK, scorer)
        return place(self.space, [fresh[1 - turn]], left, budget, BLINK, scorer)

    def set_tree(self, j: i64, like: Bin, tree: Node | None) -> None:
        """Put a tree in a piece as large as another."""
        new = Bin(like.size, like.wide, like.high)
        new.root = tree
        if tree is not None:
            parts_of(tree, new.items)
        for i in new.items:
            new.free -= self.space.share[i]
        self.budget.spend(COPIED * len(new.items))
        self.bins[j] = new


def _without_strip(b: Bin, area: float) -> Bin:
    """Give an empty piece, smaller by a strip along its shorter side: of so much area, or half of it at most."""
    area = min(area, 0.5 * float(b.wide) * float(b.high))
    if b.wide >= b.high:
        return Bin(b.size, b.wide - int(area / float(b.high)), b.high)
    return Bin(b.size, b.wide, b.high - int(area / float(b.wide)))


def _changed(node: Node, nook: Nook, depth: i64, new: Node | None) -> Node | None:
    """Copy the tree with another tree in place of what stands in a nook."""
    if depth < len(nook.path):
        at = nook.path[depth]
        kids = list(node.kids)
        kid = _changed(kids.pop(at), nook, depth + 1, new)
        return _with(node.axis, kids, kid)
    if not nook.chosen:
        return new
    return _with(node.axis, [kid for k, kid in enumerate(node.kids) if k not in nook.chosen], new)


def _in_place(node: Node, new: Node | None) -> Node | None:
    """Copy the tree with another tree in place of the stand-in."""
    if node.axis == PART:
        return new if node.item == STAND_IN else node
    for at in range(len(node.kids)):
        kid = node.kids[at]
        got = _in_place(kid, new)
        if got is not kid:
            return _with(node.axis, node.kids[:at] + node.kids[at + 1 :], got)
    return node


def _with(axis: i64, kids: list[Node], kid: Node | None) -> Node | None:
    """Give the node of some kids and one more, closed up."""
    if kid is not None:
        kids = kids + kid.kids if kid.axis == axis else [*kids, kid]
    if not kids:
        return None
    return kids[0] if len(kids) == 1 else joined(axis, kids)
