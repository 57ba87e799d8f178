"""The cheapest set of pieces, by hand."""

from casewright.api.job import limits
from casewright.api.stock.bounds import _CheapestSet


def test_the_cheapest_set_of_a_few() -> None:
    # 7 of room: 5 + 2 costs 9 + 4 = 13; 5 + 5 costs 18; 2 four times costs 16; 3 copies of 2 leave 1.
    search = _CheapestSet([(9, 5, 2), (4, 2, 3)])
    assert search.run(7)
    assert search.best == 13


def test_as_many_kinds_as_stock_may_list() -> None:
    search = _CheapestSet([(2, 1, 1)] * limits.STOCK_ROWS)
    assert search.run(limits.STOCK_ROWS)  # each is needed
    assert search.best == 2 * limits.STOCK_ROWS
