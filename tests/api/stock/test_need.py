"""What cutting takes, compared material by material."""

from dataclasses import replace
from decimal import Decimal

import pytest
from casewright.api.job import limits
from casewright.api.stock import StockNeed, StockRequest, is_enough, plan_stock, stock_need
from stock_cases import NO_TRIM, part, sheet
from stock_jobs import SEED, job


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


def test_enough_is_plain_where_there_is_room_and_never_where_there_is_none() -> None:
    two = (part("p", 1200, 1200, 2),)
    assert is_enough(StockRequest(two, (sheet(copies=1),), NO_TRIM))
    assert not is_enough(StockRequest((*two, part("q", 1200, 100)), (sheet(copies=1),), NO_TRIM))
    assert not is_enough(StockRequest(two, (sheet("other", 1000, 1000),), NO_TRIM))
    assert not is_enough(StockRequest(two, (), NO_TRIM))
    assert not is_enough(StockRequest((part("p", 100, 100, limits.CUT_PARTS + 1),), (sheet(),), NO_TRIM))


@pytest.mark.parametrize("seed", range(4))
def test_what_is_plainly_enough_is_enough_to_the_plan(seed: int, full: bool) -> None:
    for number in range(SEED + seed, SEED + seed + (40 if full else 3)):
        request = job(number, 1)
        on_hand = [piece for piece in request.pieces if piece.kind != "sheet"]
        few = [replace(piece, copies=2) for piece in request.pieces if piece.kind == "sheet"]
        for pieces in (request.pieces, (*few, *on_hand)):
            changed = replace(request, pieces=tuple(pieces))
            if is_enough(changed):
                assert plan_stock(changed).short == ()
