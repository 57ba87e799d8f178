"""Parts that no stock can give, and what purchase would cure it."""

from casewright.api.stock import Demand
from casewright.sdk.model import StockPiece
from stock_cases import MM, part, planned, sheet


def test_short_parts_name_the_one_purchase_that_cures_them() -> None:
    stock = [sheet(copies=1)]
    demand = [part("p", 1200, 1200, 5)]
    plan = planned(demand, stock)
    (short,) = plan.short
    assert (short.part, short.quantity) == ("p", 3)
    assert short.cure is not None
    # two to a sheet, so three more parts need two more sheets
    assert (short.cure.stock, short.cure.quantity) == ("sheet", 2)


def test_a_part_larger_than_all_stock_is_short_with_a_common_sheet_as_cure() -> None:
    plan = planned([part("p", 1500, 800)], [sheet("s", 1000, 1000)])
    assert plan.layouts == ()
    assert plan.short[0].reason.startswith("larger than every piece")
    assert plan.short[0].cure is not None
    assert (plan.short[0].cure.length, plan.short[0].cure.width) == (96 * 25_400_000, 48 * 25_400_000)
    assert planned([part("p", 9000, 800)], [sheet()]).short[0].cure is None


def test_a_material_without_any_stock_is_short_while_others_are_cut() -> None:
    sheet = StockPiece("ply", "ply", 18 * MM, 2440 * MM, 1220 * MM)
    wanted = [
        Demand("side", "ply", 18 * MM, 700 * MM, 300 * MM, 2),
        Demand("rail", "oak", 20 * MM, 600 * MM, 40 * MM, 2, kind="board"),
    ]
    plan = planned(wanted, [sheet])
    assert {row.part for row in plan.short} == {"rail"}
    assert sorted(p.part for layout in plan.layouts for p in layout.placed) == ["side", "side"]
