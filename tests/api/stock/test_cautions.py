"""What to mind at the saw, cut by cut. Common practice, no source."""

from casewright.api.stock import SawCaution, ShopLimits, caution_texts, cautions_of
from casewright.sdk.model import StockPiece
from stock_cases import MM, part, planned, sheet


def found(plan, crosscut_capacity=None):
    """Return the cautions of each cut, by what it is made with and its distance in mm."""
    out = {}
    for layout in plan.layouts:
        for cut in layout.cuts:
            key = cut.tool, cut.fence / MM, cut.along
            out.setdefault(key, set()).update(cautions_of(layout, cut, crosscut_capacity))
    return out


def test_beyond_the_fence_is_a_track_cut_and_short_pieces_get_a_caution():
    limits = ShopLimits(kerf=3 * MM, edge_trim=5 * MM, rip_capacity=600 * MM)
    plan = planned([part("p", 1000, 100), part("tiny", 90, 60)], [sheet()], limits)
    by_cut = found(plan)
    assert all((SawCaution.BEYOND_RIP_CAPACITY in codes) is (tool == "track") for (tool, _, _), codes in by_cut.items())
    assert SawCaution.SMALL_PIECE in set().union(*by_cut.values())
    for layout in plan.layouts:
        assert all((cut.tool == "track") == (cut.fence > 600 * MM) for cut in layout.cuts)


def test_the_first_cut_of_a_full_sheet_and_a_cut_across_a_long_piece():
    """One part 400 × 1220 of a sheet 2440 × 1220: one cross-cut, which rides 1220 and leaves 2440 in front of it."""
    assert found(planned([part("p", 400, 1220)], [sheet()])) == {
        ("fence", 400, "width"): {SawCaution.FIRST_CUT, SawCaution.USE_SLED}
    }


def test_a_narrow_strip():
    """A rip at 49 leaves a strip under 50 between blade and fence; one of 50 is wide enough."""
    for wide, narrow in ((49, True), (50, False)):
        (codes,) = found(planned([part("p", 800, wide)], [sheet(length=800, width=300)])).values()
        assert (SawCaution.NARROW_STRIP in codes) is narrow


def test_a_rough_board_wants_a_straight_edge_and_a_saw_that_reaches_across_it():
    board = StockPiece("rough", "birch", 18 * MM, 2000 * MM, 200 * MM, kind="board")
    plan = planned([part("p", 700, 90, kind="board")], [board])
    assert found(plan, crosscut_capacity=80 * MM) == {
        ("fence", 90, "length"): {SawCaution.ROUGH_EDGE},
        ("stop", 700, "width"): {SawCaution.BEYOND_CROSSCUT_CAPACITY},
    }
    assert found(plan, crosscut_capacity=90 * MM)["stop", 700, "width"] == set()


def test_one_sentence_for_each_caution_with_its_pieces():
    pieces = [(SawCaution.NARROW_STRIP, name) for name in ("a", "b", "a", "c", "d")]
    first, last = caution_texts([*pieces, (SawCaution.FIRST_CUT, "sheet 1")])
    assert first.startswith("First cut of a full sheet")
    assert first.endswith("(sheet 1).")
    assert last.endswith("(a, b, c and 1 more).")
