"""What cutting takes, compared material by material."""

from decimal import Decimal

from casewright.api.stock import StockNeed, StockRequest, stock_need
from stock_cases import NO_TRIM, part, sheet


def test_what_is_bought_and_what_is_short_by_hand() -> None:
    # two of 1200 x 1200 to a sheet of 2440 x 1220, so five take three at 60 each; one sheet on hand yields two
    five = (part("p", 1200, 1200, 5),)
    bought = stock_need(StockRequest(five, (sheet(cost=Decimal(60)),), NO_TRIM))
    assert bought == StockNeed((0,), (18_000,))
    on_hand = stock_need(StockRequest(five, (sheet(copies=1),), NO_TRIM))
    assert on_hand == StockNeed((3,), (0,))


def test_less_of_one_material_betters_only_where_no_other_takes_more() -> None:
    now = StockNeed((0, 1), (10, 10))
    assert StockNeed((0, 0), (10, 10)).betters(now)
    assert StockNeed((0, 1), (9, 10)).betters(now)
    # a short part that is cut is worth what is bought for it
    assert StockNeed((0, 0), (10, 30)).betters(now)
    assert not StockNeed((0, 1), (9, 11)).betters(now)
    assert not StockNeed((1, 0), (0, 0)).betters(now)
    assert not now.betters(now)
