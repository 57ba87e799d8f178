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
def test_a_trim_takes_one_edge_and_one_end_first_and_the_others_fall_off_with_what_is_left(first):
    # 10 off each edge, blade included: of 100 x 50 the room of a sheet 120 x 70. A part 60 x 20 is ripped at 20 and
    # crosscut at 60. The two trims leave 110 x 60: beyond 20 and a kerf 37 are left, beyond 60 and a kerf 47.
    inner = parted(100, 50, 1, [parted(100, 20, 0, [Block(60, 20, item=0)], KERF)], KERF)
    block = trimmed(inner, 10, KERF, first)
    assert (block.dx, block.dy) == (120, 70)
    axes, rests = [], []
    while block.kids:
        axes.append(block.axis)
        rests.append(block.rest)
        (block,) = block.kids
    assert axes == [first, 1 - first, 1, 0]
    assert rests == [7, 7, 37, 47]
    assert (block.dx, block.dy) == (60, 20)
    assert trimmed(inner, 0, KERF, first) is inner


def test_a_part_as_large_as_the_room_is_cut_on_all_four_edges():
    block = trimmed(Block(100, 50, item=0), 10, KERF, 0)
    axes = []
    while block.kids:
        axes.append(block.axis)
        assert block.rest == 7
        (block,) = block.kids
    assert sorted(axes) == [0, 0, 1, 1]
    assert (block.dx, block.dy) == (100, 50)


def test_the_last_of_parts_that_fill_the_room_is_cut_too_where_the_far_trim_is_beside_it():
    # 48 + 3 + 49 fill 100: without a trim one cut parts them, with one the second is cut to its size as well.
    inner = parted(100, 50, 0, [Block(48, 50, item=0), Block(49, 50, item=1)], KERF)
    assert inner.exact
    row = trimmed(parted(100, 60, 1, [inner], KERF), 10, KERF, 0).kids[0].kids[0].kids[0]
    assert ([kid.dx for kid in row.kids], row.rest, row.exact) == ([48, 49], 7, False)


def test_a_trim_thinner_than_the_blade_leaves_nothing():
    block = trimmed(Block(100, 50, item=0), 2, KERF, 0)
    assert (block.dx, block.dy, block.rest) == (104, 54, 0)
