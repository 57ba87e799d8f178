"""Grooves: equal ones at one setting, wide ones in passes."""

from casewright.api.stock import Machining, ShopLimits
from stock_cases import MM, part, planned, sheet


def test_equal_grooves_are_cut_at_one_setting_and_wide_ones_in_passes() -> None:
    groove = Machining("groove", 10 * MM, 6 * MM, 18 * MM, "bottom")
    demands = [part("a", 700, 300, 2, machining=(groove,)), part("b", 500, 300, 3, machining=(groove,))]
    limits = ShopLimits(kerf=3 * MM, groove_cutters=(6 * MM, 12 * MM))
    plan = planned(demands, [sheet()], limits)
    grooves = [s for s in plan.settings if s.tool == "groove"]
    # 18 wide with a 12 cutter: passes at 10 and at 10 + 18 - 12 = 16
    assert [(s.cutter, s.distance) for s in grooves] == [(12 * MM, 10 * MM), (12 * MM, 16 * MM)]
    assert [(p.part, p.count) for p in grooves[0].passes] == [("a", 2), ("b", 3)]
    narrow = ShopLimits(kerf=3 * MM, groove_cutters=(20 * MM,))
    assert any(c.code == "no-cutter" and c.level == "stop" for c in planned(demands, [sheet()], narrow).cautions)
