"""From a slicing tree to the pieces a saw makes: blocks of exact size, parted again and again.

A `Block` is a rectangle in nanometres. Its kids are cut off along one axis, each at a fence (or stop, or track)
distance equal to its own size, in any order; what remains after the last is `rest` (less the last kerf). A block with
rest 0 and no room for a kerf is `exact`: whichever kid is left last needs no cut of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from casewright.api.stock.slicing import PART, Node

Keeper = Callable[[Node], tuple[int, bool]]


@dataclass(slots=True)
class Block:
    """A rectangle dx by dy: a part when `item` >= 0, else parted along `axis` (0: kerfs run along y) into kids.

    Kids `in_order` lie as they are listed, whichever is cut off first. What is over of a block that is `milled` before
    it is parted has no more the sizes of its stock, and is not kept.
    """

    dx: int
    dy: int
    item: int = -1
    turned: bool = False
    axis: int = 0
    kids: list[Block] = field(default_factory=list)
    rest: int = 0
    exact: bool = False
    in_order: bool = False
    milled: bool = False

    def size(self, axis: int) -> int:
        """Give the size along x (0) or y (1)."""
        return self.dx if axis == 0 else self.dy


def parted(dx: int, dy: int, axis: int, kids: list[Block], kerf: int) -> Block:
    """Give a block with its rest worked out from its kids."""
    whole = dx if axis == 0 else dy
    over = whole - sum(kid.size(axis) for kid in kids) - kerf * (len(kids) - 1)
    assert over >= 0, "kids do not fit the block"
    return Block(dx, dy, axis=axis, kids=kids, rest=max(0, over - kerf), exact=over == 0)


def in_sequence(kids: list[Block], dx: int, dy: int, axis: int, kerf: int) -> Block:
    """Give a block that its kids fill along an axis, in this order: only what lies at an end of it is ever cut off."""
    if len(kids) == 1:
        return kids[0]
    if len({kid.size(axis) for kid in kids}) > 1:
        first = kids[0]
        rest = (dx - first.dx - kerf, dy) if axis == 0 else (dx, dy - first.dy - kerf)
        kids = [first, in_sequence(kids[1:], *rest, axis, kerf)]
    row = parted(dx, dy, axis, kids, kerf)
    row.in_order = True
    return row


def never(node: Node) -> tuple[int, bool]:
    """No kid keeps the rest."""
    return -1, False


@dataclass(frozen=True, slots=True)
class Sawing:
    """How trees become blocks: their sizes are in `unit` nm and carry one kerf.

    `keeper` names a kid that is cut oversize (-1: none), so that the parts in it come to size later: by all of the rest
    beside it, or only by two kerfs.
    """

    unit: int
    kerf: int
    keeper: Keeper = never

    def size(self, node: Node) -> tuple[int, int]:
        """Give the size of a tree's rectangle along x and y, nm."""
        return node.w * self.unit - self.kerf, node.h * self.unit - self.kerf


def block_of(node: Node, dx: int, dy: int, sawing: Sawing) -> Block:
    """Give the block of size dx by dy that holds a slicing tree."""
    w, h = sawing.size(node)
    kerf, keeper = sawing.kerf, sawing.keeper
    if node.axis == PART:
        part = Block(w, h, item=node.item, turned=node.turned)
        if dx == w and dy == h:
            return part
        if dx == w:
            return parted(dx, dy, 1, [part], kerf)
        if dy == h:
            return parted(dx, dy, 0, [part], kerf)
        across = (dx - w) * dy >= (dy - h) * dx
        if (keeper(node)[0] >= 0) != across:
            return parted(dx, dy, 0, [parted(w, dy, 1, [part], kerf)], kerf)
        return parted(dx, dy, 1, [parted(dx, h, 0, [part], kerf)], kerf)
    axis = node.axis
    keeps, little = keeper(node)
    over = dx - w if axis == 0 else dy - h
    if little and over > 4 * kerf:
        over = 2 * kerf
    kids = []
    for i, kid in enumerate(node.kids):
        size = sawing.size(kid)[axis] + (over if i == keeps and kid.axis != PART else 0)
        kids.append(block_of(kid, size, dy, sawing) if axis == 0 else block_of(kid, dx, size, sawing))
    return parted(dx, dy, axis, kids, kerf)


def sheet_blocks(node: Node, dx: int, dy: int, sawing: Sawing) -> list[Block]:
    """Give the ways to start: straight into the tree, or first taking off what is over across it as one leftover."""
    ways = [block_of(node, dx, dy, sawing)]
    w, h = sawing.size(node)
    kerf = sawing.kerf
    if node.axis == 0 and h < dy:
        ways.append(parted(dx, dy, 1, [block_of(node, dx, h, sawing)], kerf))
    elif node.axis == 1 and w < dx:
        ways.append(parted(dx, dy, 0, [block_of(node, w, dy, sawing)], kerf))
    elif node.axis == PART and w < dx and h < dy:
        part = Block(w, h, item=node.item, turned=node.turned)
        first = ways[0].axis
        if first == 0:
            ways.append(parted(dx, dy, 1, [parted(dx, h, 0, [part], kerf)], kerf))
        else:
            ways.append(parted(dx, dy, 0, [parted(w, dy, 1, [part], kerf)], kerf))
    return ways


def trimmed(inner: Block, trim: int, kerf: int, first: int) -> Block:
    """Give the whole sheet round its inner block: one cut an axis, `first` axis first, blade included in `trim`.

    One long edge and one end are trimmed, from which all else is measured. The trim of the edges opposite falls off
    with what is left over; where nothing is, what reaches there is cut to its size. A trim thinner than the kerf is a
    cut with the blade partly off the edge.
    """
    if trim <= 0:
        return inner
    block = _grown(inner, (trim, trim), kerf)
    dx, dy = block.dx, block.dy
    for axis in (1 - first, first):
        if axis == 0:
            dx += trim
        else:
            dy += trim
        block = Block(dx, dy, axis=axis, kids=[block], rest=max(0, trim - kerf))
    return block


def _grown(block: Block, more: tuple[int, int], kerf: int) -> Block:
    """Give a block that reaches so much further along x and y, with all that is cut from it as large as it was."""
    dx, dy = block.dx + more[0], block.dy + more[1]
    if more == (0, 0):
        return block
    if block.item >= 0 or block.in_order:
        axis = next(axis for axis in ((1, 0) if dx >= dy else (0, 1)) if more[axis])
        inner = _grown(block, (0, more[1]) if axis == 0 else (more[0], 0), kerf)
        return parted(dx, dy, axis, [inner], kerf)
    beside = (0, more[1]) if block.axis == 0 else (more[0], 0)
    return parted(dx, dy, block.axis, [_grown(kid, beside, kerf) for kid in block.kids], kerf)


def leftovers_of(block: Block, out: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Sizes of all rests under a block that may be kept."""
    if block.rest > 0 and not block.milled:
        out.append((block.rest, block.dy) if block.axis == 0 else (block.dx, block.rest))
    for kid in block.kids:
        leftovers_of(kid, out)
    return out
