"""What to mind at the saw."""

from casewright.api.stock import ShopLimits
from stock_cases import MM, part, planned, sheet


def test_beyond_the_fence_is_a_track_cut_and_short_pieces_get_a_caution() -> None:
    limits = ShopLimits(kerf=3 * MM, edge_trim=5 * MM, rip_capacity=600 * MM)
    plan = planned([part("p", 1000, 100), part("tiny", 90, 60)], [sheet()], limits)
    codes = {c.code for c in plan.cautions}
    assert {"guard-on", "beyond-rip-capacity", "small-piece"} <= codes
    for layout in plan.layouts:
        assert all((cut.tool == "track") == (cut.fence > 600 * MM) for cut in layout.cuts)
