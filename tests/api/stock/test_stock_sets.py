"""Sets of stock, counted by hand."""

from __future__ import annotations

from casewright.api.stock.search import Space
from casewright.api.stock.stock_sets import cheaper_sets, every_set, price_of, room_of

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
