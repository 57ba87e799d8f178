"""Panels on finished ends, worked by hand."""

import pytest
from casewright.sdk.errors import UnusableJobError
from casewright.sdk.model import total

MM = 1_000_000


def test_a_panel_covers_the_side_outside_the_cabinets_width(planned, part_of):
    made = planned({"ends": {"right": "finished", "material": "case", "scribe": 6}})
    panel = part_of(made, "end-right")
    assert (panel.role, panel.length, panel.width, panel.thickness) == ("end-panel", 900 * MM, 326 * MM, 18 * MM)
    assert [(t.label, t.nm) for t in panel.why_width] == [("cabinet depth", 320 * MM), ("scribe to the wall", 6 * MM)]
    assert total(panel.why_length) == panel.length
    assert panel.place.box(panel.blank) == (800 * MM, 0, 0, 818 * MM, 326 * MM, 900 * MM)
    assert made.dry_fit.outside[0][2][0] == 800 * MM
    assert made.dry_fit.clashes == ()
    assert all(seat.seated for seat in made.dry_fit.seats)


def test_behind_a_face_frame_the_panel_is_as_deep_as_the_case(planned, part_of, codes):
    frame = {"material": "frame", "overhang": 18}
    made = planned({"ends": {"left": "finished", "material": "case"}, "face_frame": frame})
    panel = part_of(made, "end-left")
    assert panel.width == (320 - 19) * MM
    assert panel.place.box(panel.blank)[0] == -18 * MM
    assert codes(made, "end-panel-proud") == []
    proud = planned({"ends": {"left": "finished", "material": "case"}, "face_frame": {**frame, "overhang": 10}})
    (check,) = [c for c in proud.checks if c.code == "end-panel-proud"]
    assert check.value == 8 * MM


def test_screws_from_inside_stop_short_of_the_seen_face(planned, codes):
    # Side 18 and panel 18, 3 mm kept: at most 33 mm, so the No. 8 screw of 1 1/4 in (31.75 mm); 900 mm high asks for
    # 4 rows of two.
    made = planned({"count": 3, "ends": {"left": "finished", "material": "case"}})
    (line,) = [h for h in made.hardware if "end-left" in h.used_for]
    assert (line.item, line.quantity) == ("screw-8-1-1-4", 3 * 8)
    # Side 18 and panel 6: between 18 and 21 mm, so the screw of 3/4 in (19.05 mm).
    thin = planned({"ends": {"left": "finished", "material": "thin"}})
    assert [h.item for h in thin.hardware if "end-left" in h.used_for] == ["screw-8-3-4"]
    assert codes(thin, "end-panel-screws") == []


def test_no_screw_that_fits_is_a_caution(planned, codes):
    # Side 6 and panel 6: at most 9 mm; the catalogue's shortest No. 8 is longer.
    made = planned({"ends": {"left": "finished", "material": "thin"}}, {"material": "thin", "back": None})
    assert codes(made, "end-panel-screws") == [("caution", "end-panel-screws", "bay/end-left")]


def test_the_panel_is_weighed_with_the_cabinet(planned):
    # 900 x 320 x 18 mm of birch plywood at the density its table gives for this thickness.
    bare = planned().weights[0].mass_kg
    panelled = planned({"ends": {"left": "finished", "material": "case"}}).weights[0].mass_kg
    assert panelled - bare == pytest.approx(0.9 * 0.32 * 0.018 * 685, rel=1e-6)


def test_a_finished_end_without_a_material_is_refused_at_its_place(planned):
    with pytest.raises(UnusableJobError) as caught:
        planned({"ends": {"left": "finished"}})
    assert [p.pointer for p in caught.value.problems] == ["/cabinets/0/ends/material"]


def test_open_and_hidden_ends_make_no_parts(planned):
    made = planned({"ends": {"left": "open", "right": "hidden"}})
    assert [p for p in made.parts if p.role == "end-panel"] == []
