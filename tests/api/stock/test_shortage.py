"""Parts that no stock can give: how many of which, and why."""

from casewright.api.stock import Demand
from casewright.sdk.model import ShortReason, StockPiece
from stock_cases import MM, part, planned, sheet


def test_short_parts_are_counted_and_their_purchase_ends_it() -> None:
    plan = planned([part("p", 1200, 1200, 5)], [sheet(copies=1)])
    (short,) = plan.short
    assert (short.part, short.quantity, short.reason) == ("p", 3, ShortReason.USED_UP)
    # two to a sheet, so three more need a whole sheet and a piece for one: 1200 x 1200
    (lacking,) = plan.lacking
    assert lacking.parts == 3
    assert [(b.stock, b.quantity, b.length, b.width) for b in lacking.buy] == [
        ("sheet", 1, 2440 * MM, 1220 * MM),
        ("", 1, 1200 * MM, 1200 * MM),
    ]
    assert plan.bounds == (), "nothing is proved of buying where parts are short"


def test_a_part_larger_than_all_stock_says_so() -> None:
    plan = planned([part("p", 1500, 800)], [sheet("s", 1000, 1000)])
    assert plan.layouts == ()
    assert plan.short[0].reason is ShortReason.TOO_LARGE
    assert [(b.length, b.width) for b in plan.lacking[0].buy] == [(1500 * MM, 800 * MM)]
    # no sheet sold is 9 m long
    assert planned([part("p", 9000, 800)], [sheet()]).lacking[0].buy == ()


def test_a_material_without_any_stock_is_short_while_others_are_cut() -> None:
    sheet = StockPiece("ply", "ply", 18 * MM, 2440 * MM, 1220 * MM)
    wanted = [
        Demand("side", "ply", 18 * MM, 700 * MM, 300 * MM, 2),
        Demand("rail", "oak", 20 * MM, 600 * MM, 40 * MM, 2, kind="board"),
    ]
    plan = planned(wanted, [sheet])
    assert {(row.part, row.reason) for row in plan.short} == {("rail", ShortReason.NOT_LISTED)}
    assert sorted(p.part for layout in plan.layouts for p in layout.placed) == ["side", "side"]
    # one board of two rails end to end with a kerf of 3 between, or side by side: 600 x 83 is 49,800, 1203 x 40 48,120
    assert [(b.length, b.width, b.thickness) for b in plan.lacking[0].buy] == [(1203 * MM, 40 * MM, 20 * MM)]
