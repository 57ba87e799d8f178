"""Of many sets of stock of one price, the one that holds all parts."""

from __future__ import annotations

from itertools import product

from casewright.api.stock.heats import begun, best_of
from casewright.api.stock.search import Option, Space, StepBudget, new_bin, place

SIZES = [(10, 10), (5, 20), (4, 25)]
"""All of area 100."""


def space(parts: int) -> Space:
    """Give parts of 10 by 5 that may not be turned: only pieces of the first size are wide enough."""
    lies: list[tuple[Option, ...]] = [((10, 5, False),)] * parts
    return Space(SIZES, [4, 4, 4], [1, 1, 1], [lies, [()] * parts, [()] * parts], [50] * parts)


def test_only_one_set_of_many_holds_all() -> None:
    # eight parts of 50 fill four pieces of 100; of the fifteen sets of four pieces only (4, 0, 0) is wide enough
    sets = [c for c in product(range(5), repeat=3) if sum(c) == 4]
    assert len(sets) == 15
    all_parts = space(8)
    bins = []
    for first in (0, 2, 4, 6):
        b = new_bin(all_parts, 0)
        assert not place(all_parts, [b], [first, first + 1], StepBudget(1_000))
        bins.append(b)
    filled = best_of(all_parts, bins, [c for c in sets if c != (4, 0, 0)], StepBudget(1_000_000))
    assert filled is None
    filled = best_of(all_parts, bins, sets, StepBudget(10_000_000))
    assert filled is not None
    assert sorted(i for b in filled for i in b.items) == [*range(8)]
    assert {b.size for b in filled if b.items} == {0}


def test_a_set_begins_with_the_pieces_it_shares() -> None:
    parts = space(3)
    full, half = new_bin(parts, 0), new_bin(parts, 0)
    assert not place(parts, [full], [0, 1], StepBudget(1_000))
    assert not place(parts, [half], [2], StepBudget(1_000))
    bins, absent = begun(parts, [half, full], (1, 1, 0))
    assert [b.size for b in bins] == [0, 1]
    assert bins[0].items == [0, 1]
    assert absent == [2]
