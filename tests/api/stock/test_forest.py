"""Blocks parted by a saw, worked by hand in whole units: what is left over, and what a trim leaves."""

import pytest
from casewright.api.stock.forest import Block, leftovers_of, parted, trimmed

KERF = 3


def test_a_block_loses_one_kerf_a_cut():
    # 100 along: kids of 30 and 40 take 30 + 3 + 40 + 3, 24 are left.
    block = parted(100, 50, 0, [Block(30, 50, item=0), Block(40, 50, item=1)], KERF)
    assert (block.rest, block.exact) == (24, False)
    # 73 = 30 + 3 + 40 exactly: the last kid needs no cut.
    assert (parted(73, 50, 0, block.kids, KERF).rest, parted(73, 50, 0, block.kids, KERF).exact) == (0, True)
    # 75: the last cut eats what is left.
    assert (parted(75, 50, 0, block.kids, KERF).rest, parted(75, 50, 0, block.kids, KERF).exact) == (0, False)


def test_kids_must_fit():
    with pytest.raises(AssertionError, match="do not fit"):
        parted(72, 50, 0, [Block(30, 50, item=0), Block(40, 50, item=1)], KERF)


def test_leftovers_of_every_depth_are_named():
    # A strip 100 × 20 with a part of 60 leaves 37 × 20; over it, of 50, 50 − 20 − 3 = 27 are left across 100.
    strip = parted(100, 20, 0, [Block(60, 20, item=0)], KERF)
    sheet = parted(100, 50, 1, [strip], KERF)
    assert leftovers_of(sheet, []) == [(100, 27), (37, 20)]


@pytest.mark.parametrize("first", [0, 1])
def test_a_trim_takes_all_four_edges(first):
    # 10 off each edge, blade included: 7 of wood falls off at each cut. The first axis is cut first: outermost.
    block = trimmed(Block(100, 50, item=0), 10, KERF, first)
    assert (block.dx, block.dy) == (120, 70)
    axes, rests = [], []
    while block.kids:
        axes.append(block.axis)
        rests.append(block.rest)
        (block,) = block.kids
    assert axes == [first, first, 1 - first, 1 - first]
    assert rests == [7] * 4
    assert trimmed(block, 0, KERF, first) is block


def test_a_trim_thinner_than_the_blade_leaves_nothing():
    block = trimmed(Block(100, 50, item=0), 2, KERF, 0)
    assert (block.dx, block.dy, block.rest) == (104, 54, 0)
