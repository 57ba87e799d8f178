"""The smallest purchase that ends a shortage, and turning that does: on cases worked by hand, and always followed."""

from dataclasses import replace

import pytest
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.model import StockPiece, StockPlan
from stock_cases import MM, NO_TRIM, part, planned, sheet
from stock_checker import check_plan
from stock_jobs import SEED, job


def with_purchase(request: StockRequest, plan: StockPlan) -> StockRequest:
    """Return the request with all that its plan proposes to buy on hand."""
    bought = []
    for lacking in plan.lacking:
        kind = "board" if lacking.kind == "board" else "offcut"
        for k, one in enumerate(lacking.buy):
            size = (one.material, one.thickness, one.length, one.width, one.quantity)
            bought.append(StockPiece(f"bought-{one.material}-{k}", *size, grain=one.grain, kind=kind))  # type: ignore[arg-type]
    return replace(request, pieces=(*request.pieces, *bought))


def sizes(plan: StockPlan) -> list[tuple[int, int, int]]:
    return [(b.quantity, b.length // MM, b.width // MM) for b in plan.lacking[0].buy]


@pytest.mark.parametrize(
    ("demands", "expected"),
    [
        # one part: the part itself
        ([part("p", 600, 300)], [(1, 600, 300)]),
        # end to end: 600 + 3 + 500 by 300 is smaller than any other two-part rectangle with the grain kept
        ([part("p", 600, 300), part("q", 500, 300)], [(1, 1103, 300)]),
        # 500 wide the other way: grain along the width lies 300 across, 500 along
        ([part("p", 300, 500, grain="along-width")], [(1, 500, 300)]),
    ],
)
def test_a_strip_comes_before_a_sheet(demands: list[Demand], expected: list[tuple[int, int, int]]) -> None:
    small = sheet("scrap", 200, 100, copies=1)
    assert sizes(planned(demands, [small])) == expected


def test_an_offcut_too_small_for_what_is_left_may_be_helped_by_a_smaller_piece() -> None:
    # The scrap takes the large part or the small one; a piece for the small one (200 x 100) ends it.
    scrap = sheet("scrap", 610, 310, copies=1, kind="offcut")
    plan = planned([part("large", 600, 300), part("small", 200, 100)], [scrap])
    assert sizes(plan) == [(1, 200, 100)]


def test_turning_ends_it_only_where_the_job_leaves_it_open() -> None:
    strip = [sheet("s", 2000, 300)]
    assert planned([part("p", 250, 1000)], strip).lacking[0].turn == ()
    assert planned([part("p", 250, 1000, may_turn=True)], strip).lacking[0].turn == ("p",)


def test_a_boards_purchase_carries_what_milling_takes() -> None:
    rail = Demand("rail", "oak", 19 * MM, 900 * MM, 50 * MM, 1, kind="board")
    limits = ShopLimits(kerf=3 * MM, mill_length=25 * MM, mill_width=6 * MM, mill_thickness=5 * MM)
    scrap = StockPiece("scrap", "oak", 25 * MM, 300 * MM, 60 * MM, 1, kind="board")
    (bought,) = plan_stock(StockRequest((rail,), (scrap,), limits)).lacking[0].buy
    # 25 more than 900 and 6 more than 50 for milling; no rough board listed: planed, of the part's own size
    assert (bought.length, bought.width, bought.thickness) == (925 * MM, 56 * MM, 24 * MM)
    (planed,) = plan_stock(StockRequest((rail,), (), limits)).lacking[0].buy
    assert (planed.length, planed.width, planed.thickness) == (900 * MM, 50 * MM, 19 * MM)


def test_every_purchase_that_is_proposed_ends_the_shortage(full: bool) -> None:
    proposed = 0
    for i in range(60 if full else 15):
        request = job(SEED + i)
        request = replace(request, pieces=tuple(replace(piece, copies=1) for piece in request.pieces))
        plan = plan_stock(request)
        if not plan.short:
            continue
        assert all(one.buy for one in plan.lacking)
        after = with_purchase(request, plan)
        cured = plan_stock(after)
        check_plan(cured, after)
        assert not cured.short
        proposed += 1
    assert proposed >= 5


def test_a_smaller_piece_than_the_one_for_a_single_missing_part_cannot_do() -> None:
    # by hand: 1 mm less either way and the part is not in it
    for length, width in ((599, 300), (600, 299)):
        pieces = [sheet("less", length, width, copies=1, kind="offcut")]
        assert planned([part("p", 600, 300)], pieces, NO_TRIM).short
