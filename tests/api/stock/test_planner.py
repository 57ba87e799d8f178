"""What a plan says about buying, leftovers, grain, boards and limits, on cases worked by hand."""

from decimal import Decimal

import pytest
from casewright.api.job import limits
from casewright.api.stock import Demand, ShopLimits, StockLimitError, StockRequest, plan_stock
from casewright.sdk.model import StockPiece
from stock_cases import INCH, MM, NO_TRIM, PLY, part, planned, sheet


def test_parts_that_fill_a_sheet_exactly_but_for_the_kerf() -> None:
    # 2 x 998.5 + 3 kerf = 2000, 2 x 498.5 + 3 = 1000: four parts from one sheet; with a wider kerf no two fit on one
    four = [Demand("p", *PLY, 998_500_000, 498_500_000, 4)]
    stock = [sheet("s", 2000, 1000)]
    assert len(planned(four, stock).layouts) == 1
    wider = ShopLimits(kerf=3_100_000)
    plan = planned(four, stock, wider)
    assert len(plan.layouts) == 4


def test_leftovers_are_used_before_a_sheet_is_bought() -> None:
    stock = [sheet(), sheet("offcut", 800, 400, copies=1, kind="offcut")]
    plan = planned([part("shelf", 780, 380)], stock)
    assert [layout.stock for layout in plan.layouts] == ["offcut"]
    assert plan.buy == ()
    assert plan.bounds[0].least == plan.bounds[0].bought == 0


def test_the_cheaper_sheet_is_bought_and_proved_least() -> None:
    stock = [sheet("large", 2440, 1220, cost=Decimal(60)), sheet("small", 1220, 1220, cost=Decimal(35))]
    plan = planned([part("p", 1200, 1200)], stock)
    assert [(p.stock, p.quantity, p.cost) for p in plan.buy] == [("small", 1, 3500)]
    assert plan.bounds[0].least == plan.bounds[0].bought == 3500


def test_grain_is_kept_unless_part_or_sheet_is_free() -> None:
    strip = [sheet("s", 2000, 300)]
    assert planned([part("p", 250, 1000)], strip).short
    assert not planned([part("p", 250, 1000, grain="free")], strip).short
    assert not planned([part("p", 250, 1000, grain="along-width")], strip).short
    assert not planned([part("p", 250, 1000)], [sheet("s", 2000, 300, grain="free")]).short


def test_more_than_the_limit_is_refused_by_name() -> None:
    with pytest.raises(StockLimitError) as caught:
        planned([part("p", 100, 100, limits.CUT_PARTS + 1)], [sheet()])
    assert (caught.value.name, caught.value.value, caught.value.got) == (
        "cut_parts",
        limits.CUT_PARTS,
        limits.CUT_PARTS + 1,
    )
    assert not planned([], [sheet()]).layouts


def test_boards_are_ripped_then_cross_cut_to_stops_and_milled() -> None:
    inch = 25_400_000
    rails = [Demand("rail", "oak", 19 * MM, 24 * inch, 2 * inch, 6, kind="board")]
    boards = [StockPiece("rough", "oak", 27 * MM, 96 * inch, 7 * inch, kind="board")]
    limits = ShopLimits(kerf=inch // 8, mill_length=inch, mill_width=inch // 4, mill_thickness=5 * MM)
    plan = planned(rails, boards, limits)
    # blanks are 25 x 2-1/4 in: three to a length, three across 7 in, so one board
    assert len(plan.boards) == 1
    assert set(plan.boards[0].rips) == {2 * inch + inch // 4, 2 * inch}
    assert set(plan.boards[0].crosscuts) == {25 * inch, 24 * inch}
    assert planned(rails, [StockPiece("thin", "oak", 20 * MM, 96 * inch, 7 * inch, kind="board")], limits).short


def test_a_boards_measure_and_yield_worked_by_hand() -> None:
    """NHLA: surface measure 7 x 8 / 12 = 4.67, so 5, times 27 / 25.4 in; a part is 19 / 25.4 x 2 x 24 / 144."""
    rails = [Demand("rail", "oak", 19 * MM, 24 * INCH, 2 * INCH, 6, kind="board")]
    board = StockPiece("rough", "oak", 27 * MM, 96 * INCH, 7 * INCH, cost=Decimal("18.255"), kind="board")
    plan = planned(rails, [board], ShopLimits(kerf=INCH // 8, mill_length=INCH, mill_width=INCH // 4))
    (measured,) = plan.boards
    assert measured.board_feet == pytest.approx(5.31496, abs=1e-5)
    assert measured.part_board_feet == pytest.approx(6 * 0.249344, abs=1e-5)
    assert measured.use == pytest.approx(0.28148, abs=1e-5)
    # one board at 18.255 is 1826 hundredths, halves upward
    assert [(bought.stock, bought.quantity, bought.cost) for bought in plan.buy] == [("rough", 1, 1826)]


def test_settings_of_many_cuts_are_chosen_in_fewer_turns_than_those_of_few() -> None:
    """A turn of more cuts takes longer; all of them together are to take no longer than those of a hundred."""

    def turns(count: int) -> int:
        reports: list[tuple[str, int, int]] = []
        parts = tuple(part(f"p{n}", 200 + 7 * n, 150 + 3 * (n * 37 % 50)) for n in range(count))
        request = StockRequest(parts, (sheet(),), NO_TRIM, effort=2)
        plan_stock(request, lambda stage, done, of: reports.append((stage, done, of)))
        return max(of for stage, _, of in reports if stage == "settings")

    few = turns(40)
    assert few > 1
    assert turns(120) * 120 <= few * 100
