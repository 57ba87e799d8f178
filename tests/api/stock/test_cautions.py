"""What to mind at the saw, cut by cut. Common practice, no source."""

import pytest
from casewright.api.stock import SawCaution, caution_texts, cautions_of
from casewright.sdk.model import Machine
from stock_cases import MM, part, planned, sheet


def found(plan, saw):
    """Return the cautions of each cut with a saw, by its distance in mm and which way it runs."""
    out = {}
    for layout in plan.layouts:
        for cut in layout.cuts:
            out.setdefault((cut.fence / MM, cut.along), set()).update(cautions_of(layout, cut, saw))
    return out


@pytest.mark.parametrize(("saw", "codes"), [(Machine.TABLE_SAW, {SawCaution.FIRST_CUT}), (Machine.TRACK_SAW, set())])
def test_a_full_sheet_on_the_table_saw_takes_a_helper(saw, codes):
    """One part 400 × 1220 of a sheet 2440 × 1220: one cut across it."""
    assert found(planned([part("p", 400, 1220)], [sheet()]), saw) == {(400, "width"): codes}


def test_a_piece_too_short_to_hold_by_hand_is_clamped():
    """A part 90 × 60 of an offcut 140 × 60: nothing of it is 150 long."""
    (codes,) = found(planned([part("tiny", 90, 60)], [sheet(length=140, width=60)]), Machine.CROSSCUT_SLED).values()
    assert codes == {SawCaution.SMALL_PIECE}


def test_a_narrow_strip():
    """A rip at 49 leaves a strip under 50 between blade and fence; one of 50 is wide enough."""
    for wide, narrow in ((49, True), (50, False)):
        (codes,) = found(planned([part("p", 800, wide)], [sheet(length=800, width=300)]), Machine.TABLE_SAW).values()
        assert (SawCaution.NARROW_STRIP in codes) is narrow


def test_one_sentence_for_each_caution_with_its_pieces():
    pieces = [(SawCaution.NARROW_STRIP, name) for name in ("a", "b", "a", "c", "d")]
    first, last = caution_texts([*pieces, (SawCaution.FIRST_CUT, "sheet 1")])
    assert first.startswith("Large: a helper")
    assert first.endswith("(sheet 1).")
    assert last.endswith("(a, b, c and 1 more).")
