"""Which stock serves parts, what room is on it, and what buying is measured by."""

import copy

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.model import StockPiece
from stock_cases import MM
from stock_checker import check_plan
from worked import SHELF


@pytest.mark.parametrize(("cost", "measure", "least"), [({"cost": 61.5}, "cost", 6150), ({}, "area", 2440 * 1220)])
def test_buying_counts_by_cost_where_every_size_has_one_else_by_area(registry, cost, measure, least):
    # All parts of the shelf go on one sheet of 2440 × 1220 mm, and less than one cannot be bought: 6150
    # cents, or its area in square millimetres.
    job = copy.deepcopy(SHELF)
    sheet = job["stock"]["sheets"][0]
    sheet.pop("cost", None)
    sheet |= cost
    plan = make_plan(read_job(job, registry), registry)
    assert plan.stock is not None
    (bound,) = plan.stock.bounds
    assert (bound.measure, bound.least, bound.bought) == (measure, least, least)


def rails(**more: object) -> Demand:
    return Demand("rail", "oak", 19 * MM, 400 * MM, 60 * MM, 2, kind="board", **more)  # type: ignore[arg-type]


def board(name: str, width: int = 60, **more: object) -> StockPiece:
    return StockPiece(name, "oak", 25 * MM, 1000 * MM, width * MM, 1, kind="board", **more)  # type: ignore[arg-type]


def test_parts_that_are_seen_are_cut_of_boards_with_a_good_face_and_others_of_the_rest_first() -> None:
    boards = (board("plain", grade="hidden"), board("good"))
    limits = ShopLimits(kerf=3 * MM)
    for seen, expected in ((True, "good"), (False, "plain")):
        request = StockRequest((rails(seen=seen),), boards, limits)
        plan = plan_stock(request)
        check_plan(plan, request)
        assert [layout.stock for layout in plan.layouts] == [expected]
    assert plan_stock(StockRequest((rails(seen=True),), boards[:1], limits)).short


@pytest.mark.parametrize(("cup", "twist", "yields"), [(0, 0, True), (1, 0, True), (1, 1, False), (0, 2, False)])
def test_what_is_cupped_and_twisted_is_lost_in_thickness(cup: int, twist: int, yields: bool) -> None:
    # 25 rough less 19 and 5 for milling leaves 1
    crooked = board("crooked", cup=cup * MM, twist=twist * MM)
    plan = plan_stock(StockRequest((rails(),), (crooked,), ShopLimits(kerf=3 * MM, mill_thickness=5 * MM)))
    assert bool(plan.short) != yields


@pytest.mark.parametrize(("width", "yields"), [(70, True), (69, False)])
def test_a_taper_is_ripped_off_before_parts_are(width: int, yields: bool) -> None:
    # 60 wide, and 10 less at one end: 70 at the wide one are needed
    request = StockRequest((rails(),), (board("tapered", width, taper=10 * MM),), ShopLimits(kerf=3 * MM))
    plan = plan_stock(request)
    assert bool(plan.short) != yields
    check_plan(plan, request)
