"""Sets of stock, counted by hand."""

from __future__ import annotations

from casewright.api.stock.search import Option, Space
from casewright.api.stock.stock_sets import cheaper_sets, every_set, least_room, price_of, room_of

SPACE = Space([(10, 10), (10, 20)], [3, 2], [5, 7], [[], []], [])


def test_every_set_with_room_enough() -> None:
    # areas 100 and 200, three and two of them: 250 takes three small ones, a small and a large, or more
    expected = {(3, 0), (1, 1), (2, 1), (3, 1), (0, 2), (1, 2), (2, 2), (3, 2)}
    assert set(every_set(SPACE, (0, 0), 250) or []) == expected


def test_price_and_room() -> None:
    assert (price_of(SPACE, (2, 1)), room_of(SPACE, (2, 1))) == (2 * 5 + 7, 2 * 100 + 200)


def test_cheaper_sets_cost_less_and_keep_to_the_copies() -> None:
    # two small ones and a large one cost 17; of sets two out and up to three in, these cost 12, 15, 10 and 14
    near = cheaper_sets(SPACE, (2, 1), 17)
    assert {(1, 1), (3, 0), (2, 0), (0, 2)} <= {*near}
    assert all(5 * small + 7 * large < 17 and small <= 3 and large <= 2 for small, large in near)


def strips(unlike: int, sizes: list[tuple[int, int]]) -> Space:
    """Give 80 strips 10 wide, of so many lengths about 100, on some sizes of stock."""
    lengths = [100 + i % unlike for i in range(80)]
    lies: list[tuple[Option, ...]] = [((length, 10, False),) for length in lengths]
    return Space(sizes, [99] * len(sizes), [1] * len(sizes), [lies] * len(sizes), [10 * length for length in lengths])


def test_many_unlike_parts_need_room_to_spare() -> None:
    # half a hundredth of 200,000 is 1,000: that many are to spare where the parts have 199,000, one fewer are not
    large = [(200, 300), (200, 400)]
    assert least_room(strips(80, large), 199_000) == 200_000
    assert least_room(strips(80, large), 199_001) > 200_000
    # like parts may tile stock, few parts a piece may be matched, and one size leaves no choice
    assert least_room(strips(75, large), 199_000) == 199_000
    assert least_room(strips(80, [(130, 70), (130, 80)]), 199_000) == 199_000
    assert least_room(strips(80, large[:1]), 199_000) == 199_000
