"""Parts cut from known pieces by straight cuts, with and without room to spare, find their way back into them."""

from __future__ import annotations

from random import Random

import pytest
from casewright.api.stock.nooks import Nooks
from casewright.api.stock.search import Option, Space, StepBudget, new_bin
from casewright.api.stock.slicing import PART, SIDE, Node

SIZES = [(100, 60), (80, 90)]


def cut(rng: Random, w: int, h: int, parts: int) -> list[tuple[int, int]]:
    """Give the parts of a rectangle cut across its longer side again and again."""
    if parts == 1:
        return [(w, h)]
    first = parts // 2
    at = max(1, max(w, h) * first // parts + rng.randint(-3, 3))
    if w >= h:
        return cut(rng, at, h, first) + cut(rng, w - at, h, parts - first)
    return cut(rng, w, at, first) + cut(rng, w, h - at, parts - first)


def space_of(sizes: list[tuple[int, int]]) -> Space:
    """Give parts that may not be turned, on two sizes of stock."""
    lies: list[list[tuple[Option, ...]]] = [
        [((w, h, False),) if w <= wide and h <= high else () for w, h in sizes] for wide, high in SIZES
    ]
    return Space(SIZES, [1, 1], [6_000, 7_200], lies, [w * h for w, h in sizes])


def measured(node: Node, items: list[int], sizes: list[tuple[int, int]]) -> tuple[int, int]:
    """Give a tree's size from its parts alone; its parts are appended to `items`."""
    if node.axis == PART:
        items.append(node.item)
        return sizes[node.item]
    kids = [measured(kid, items, sizes) for kid in node.kids]
    long, deep = (0, 1) if node.axis == SIDE else (1, 0)
    size = sum(kid[long] for kid in kids), max(kid[deep] for kid in kids)
    return size if node.axis == SIDE else (size[1], size[0])


@pytest.mark.parametrize("seed", range(3))
def test_parts_of_two_pieces_with_a_little_to_spare_all_find_a_place(seed: int) -> None:
    rng = Random(seed)
    sizes = cut(rng, 100, 60, 16) + cut(rng, 80, 90, 20)
    # every part comes a unit shorter and narrower, so that about a tenth of all room is to spare
    sizes = [(w - 1, h - 1) for w, h in sizes]
    space = space_of(sizes)
    nooks = Nooks(space, [new_bin(space, 0), new_bin(space, 1)], [*range(len(sizes))], StepBudget(10**9, seed=seed))
    assert nooks.run(20_000_000)
    items: list[int] = []
    for b, (wide, high) in zip(nooks.bins, SIZES, strict=True):
        assert b.root is not None
        w, h = measured(b.root, items, sizes)
        assert w <= wide
        assert h <= high
        assert b.free == wide * high - sum(sizes[i][0] * sizes[i][1] for i in b.items)
    assert sorted(items) == [*range(len(sizes))]


def test_what_cannot_find_a_place_is_left_out_and_nothing_is_lost() -> None:
    rng = Random(5)
    sizes = [*cut(rng, 100, 60, 16), *cut(rng, 80, 90, 20), (30, 30)]
    space = space_of(sizes)
    bins = [new_bin(space, 0), new_bin(space, 1)]
    nooks = Nooks(space, bins, [*range(len(sizes))], StepBudget(10**9))
    assert not nooks.run(2_000_000)
    assert nooks.absent
    assert sorted([i for b in nooks.bins for i in b.items] + nooks.absent) == [*range(len(sizes))]
    placed = sum(sizes[i][0] * sizes[i][1] for b in nooks.bins for i in b.items)
    assert placed > 0.93 * (100 * 60 + 80 * 90)
