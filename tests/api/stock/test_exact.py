"""Cutting without waste: jobs made by cutting sheets up, so that a layout without waste is known to be there."""

from dataclasses import replace
from decimal import Decimal
from random import Random

from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.api.stock.exact import fill_exactly, may_be_exact
from casewright.api.stock.search import Space, StepBudget
from casewright.sdk.model import StockPiece
from stock_checker import check_plan

MM = 1_000_000
KERF = 3 * MM


def cut_up(rng: Random, length: int, width: int, pieces: int) -> list[tuple[int, int]]:
    """Saw a sheet into so many pieces, always the largest next, each cut a kerf wide."""
    parts = [(length, width)]
    while len(parts) < pieces:
        parts.sort(key=lambda r: -r[0] * r[1])
        a, b = parts.pop(0)
        along = a >= b
        long = max(a, b)
        first = round(long * rng.uniform(0.25, 0.7) / MM) * MM
        rest = long - first - KERF
        other = min(a, b)
        parts += [(first, other), (rest, other)] if along else [(other, first), (other, rest)]
    return parts


def job(seed: int, turn: bool) -> StockRequest:
    rng = Random(seed)
    sizes = [(2440 * MM, 1220 * MM), (1525 * MM, 1525 * MM)]
    parts = [part for size in sizes for part in cut_up(rng, *size, 9)]
    grain = "free" if turn else "along-length"
    demands = [Demand(f"p{k}", "ply", 18 * MM, a, b, 1, grain) for k, (a, b) in enumerate(parts)]
    stock = [
        StockPiece(f"s{k}", "ply", 18 * MM, a, b, 3, Decimal(a * b // MM**2) / 100) for k, (a, b) in enumerate(sizes)
    ]
    return StockRequest(tuple(demands), tuple(stock), ShopLimits(kerf=KERF), 3)


def test_sheets_cut_up_are_put_together_again_kerf_by_kerf():
    for turn in (False, True):
        for seed in range(4):
            request = job(seed, turn)
            plan = plan_stock(request)
            check_plan(plan, request)
            assert not plan.short
            used = sum(layout.length * layout.width for layout in plan.layouts)
            assert used == sum(s.length * s.width for s in request.pieces), (seed, turn)


def test_a_hundred_equal_parts_tile_sheets_of_two_sizes():
    # 1200 x 800 takes 16 of 300 x 200, 900 x 600 takes 9: four of each take 100, with nothing left
    sizes = [(1200 * MM, 800 * MM), (900 * MM, 600 * MM)]
    demands = (Demand("p", "ply", 18 * MM, 300 * MM, 200 * MM, 100, "along-length"),)
    stock = tuple(StockPiece(f"s{k}", "ply", 18 * MM, a, b, 4, Decimal(k + 1)) for k, (a, b) in enumerate(sizes))
    for pieces in (stock, tuple(replace(s, copies=9, cost=None) for s in stock)):
        request = StockRequest(demands, pieces, ShopLimits(kerf=0), 3)
        plan = plan_stock(request)
        check_plan(plan, request)
        assert not plan.short
        assert sum(layout.length * layout.width for layout in plan.layouts) == 100 * 300 * 200 * MM**2


def test_it_is_tried_only_where_areas_agree():
    one = [((4, 3, False),), ((4, 5, False),)]
    fits = Space([(4, 8)], [2], [1], [one], [12, 20])
    assert may_be_exact(fits)
    assert not may_be_exact(Space([(4, 9)], [2], [1], [one], [12, 20]))
    bins = fill_exactly(fits, StepBudget(10**6), 10**6)
    assert bins is not None
    assert [sorted(b.items) for b in bins] == [[0, 1]]


def test_areas_that_agree_without_a_layout_give_none():
    # a 4 x 8 sheet has the area of 8 x 2 and 4 x 4 parts, but no way of laying them unturned
    parts = [((8, 2, False),), ((4, 4, False),)]
    assert fill_exactly(Space([(4, 8)], [1], [1], [parts], [16, 16]), StepBudget(10**6), 10**6) is None


def test_turned_parts_are_joined_by_their_equal_sides():
    ways = [((8, 2, False), (2, 8, True)), ((8, 2, False), (2, 8, True))]
    bins = fill_exactly(Space([(4, 8)], [1], [1], [ways], [16, 16]), StepBudget(10**6), 10**6)
    assert bins is not None
    assert (bins[0].root.w, bins[0].root.h) == (4, 8)
    assert sorted(bins[0].items) == [0, 1]


def test_stock_whose_grain_runs_otherwise_is_left_to_moving_parts():
    # both sheets would be needed, and on the other one no part may lie as on the first
    along = [((4, 3, False),), ((4, 5, False),)] * 2
    across = [((3, 4, True),), ((5, 4, True),)] * 2
    sheets = Space([(4, 8), (4, 8)], [1, 1], [1, 1], [along, across], [12, 20] * 2)
    assert may_be_exact(sheets)
    assert fill_exactly(sheets, StepBudget(10**6), 10**6) is None
