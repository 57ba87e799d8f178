"""Blocks parted the way that fewest cuts are across: ripped before they are crosscut, where both ways give the same.

A cut is across where the piece is longer beside the fence than along it: it lies on a sled, or a track is laid over it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from casewright.api.stock.forest import Block, parted

Keeps = Callable[[Block], int]


def cuts_across(block: Block) -> int:
    """Count the cuts under a block that are shorter than the piece is across."""
    short = block.size(1 - block.axis) < block.size(block.axis)
    return short * (len(block.kids) - block.exact) + sum(cuts_across(kid) for kid in block.kids)


def ripped_first(block: Block, kerf: int, keeps: Keeps) -> Block:
    """Give a block whose cuts first go the other way wherever that saves cuts across and keeps as much leftover.

    It can where every kid is then parted once, at one distance: one cut for all of them comes before theirs.
    """
    if not block.kids:
        return block
    kids = [ripped_first(kid, kerf, keeps) for kid in block.kids]
    if any(new is not old for new, old in zip(kids, block.kids, strict=True)):
        block = replace(block, kids=kids)
    other = _turned(block, kerf)
    if other is None or cuts_across(other) >= cuts_across(block) or keeps(other) < keeps(block):
        return block
    return other


def _turned(block: Block, kerf: int) -> Block | None:
    axis, other = block.axis, 1 - block.axis
    if any(len(kid.kids) != 1 or kid.axis != other for kid in block.kids):
        return None
    inner = [kid.kids[0] for kid in block.kids]
    if len({one.size(other) for one in inner}) != 1:
        return None
    dx, dy = (block.dx, inner[0].dy) if axis == 0 else (inner[0].dx, block.dy)
    return parted(block.dx, block.dy, other, [parted(dx, dy, axis, inner, kerf)], kerf)
