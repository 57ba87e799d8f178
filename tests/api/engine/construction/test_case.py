"""The case: every size worked by hand from the outside in. Thickness 18 mm unless said."""

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import mm


def size(part):
    return part.length, part.width, part.thickness


def test_a_rabbeted_case(planned, part_of):
    # Sides 900 × 320. Top: 800 − 2 × 18 + 2 × 9 (half the side) = 782.
    plan = planned(case={"corner": {"method": "rabbet"}, "back": None})
    assert size(part_of(plan, "side-left")) == (mm(900), mm(320), mm(18))
    assert size(part_of(plan, "top")) == (mm(782), mm(320), mm(18))
    assert size(part_of(plan, "bottom")) == size(part_of(plan, "top"))


def test_a_dowelled_case(planned, part_of):
    # Butted between the sides: 800 − 36 = 764.
    plan = planned(case={"corner": {"method": "dowel"}, "back": None})
    assert size(part_of(plan, "top")) == (mm(764), mm(320), mm(18))


def test_a_housed_case_with_insets(planned, part_of):
    # Grooves 6 deep: 764 + 12 = 776. The top's upper face lies 20 under the sides' ends: z from 862 to 880.
    plan = planned(
        case={"corner": {"method": "housed-groove", "depth": 6}, "top_inset": 20, "bottom_inset": 30, "back": None}
    )
    top, bottom = part_of(plan, "top"), part_of(plan, "bottom")
    assert size(top) == (mm(776), mm(320), mm(18))
    assert (top.place.box(top.blank).z0, top.place.box(top.blank).z1) == (mm(862), mm(880))
    assert (bottom.place.box(bottom.blank).z0, bottom.place.box(bottom.blank).z1) == (mm(30), mm(48))


def test_the_bottom_may_have_a_joint_of_its_own(planned, part_of):
    plan = planned(case={"corner": {"method": "rabbet"}, "bottom_corner": {"method": "dowel"}, "back": None})
    assert part_of(plan, "top").length == mm(782)
    assert part_of(plan, "bottom").length == mm(764)


def test_a_captured_back(planned, part_of):
    # Inset 19, back 6 thick: it stands from 295 to 301. Grooves 9 deep, 1/32 in (0.793 75 mm) of room each:
    # width 764 + 2 × (9 − 0.793 75) = 780.4125; height 900 − 2 × 18 + the same = 880.4125.
    plan = planned(case={"back": {"material": "thin", "inset": 19, "joint": {"method": "housed-groove"}}})
    back = part_of(plan, "back")
    assert size(back) == (mm("880.4125"), mm("780.4125"), mm(6))
    box = back.place.box(back.blank)
    assert (box.y0, box.y1) == (mm(295), mm(301))


def test_an_applied_back_covers_the_case(planned, part_of):
    plan = planned(case={"back": {"material": "thin", "inset": 0, "joint": {"method": "applied"}}})
    assert size(part_of(plan, "back")) == (mm(900), mm(800), mm(6))
    assert part_of(plan, "side-left").width == mm(314)
    assert part_of(plan, "top").width == mm(314)


def test_a_rabbeted_back(planned, part_of):
    # Rabbets 9 deep with 1/32 in of room, flush with the back.
    plan = planned(case={"back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}})
    back = part_of(plan, "back")
    assert size(back) == (mm("880.4125"), mm("780.4125"), mm(6))
    assert back.place.box(back.blank).y1 == mm(320)
    assert part_of(plan, "side-left").width == mm(320)


def test_a_band_comes_off_the_part(planned, part_of):
    plan = planned(case={"case_band": "edging", "back": None})
    for key in ("side-left", "top"):
        part = part_of(plan, key)
        assert part.width == mm(319)
        (band,) = part.bands
        assert part.place.box(band.box).y0 == 0
        assert part.place.box(band.box).y1 == mm(1)
    assert {t.label: t.nm for t in part.why_width}["band on the front edge"] == -mm(1)


def test_a_face_frame_comes_off_depth_and_its_overhang_off_width(planned, part_of):
    plan = planned({"face_frame": {"material": "frame", "overhang": 5}}, {"back": None})
    side, top = part_of(plan, "side-left"), part_of(plan, "top")
    assert side.width == mm(301)
    assert top.length == mm(800 - 10 - 36 + 18)


@pytest.mark.parametrize(
    ("cabinet", "case", "pointer"),
    [
        ({"width": 60}, {"corner": {"method": "dowel"}}, "/case/corner"),
        ({"height": 100}, {"top_inset": 40, "bottom_inset": 30, "corner": {"method": "housed-groove"}}, "/height"),
        ({"depth": 60}, {"back": {"inset": 50, "joint": {"method": "housed-groove"}}}, "/depth"),
        ({}, {"back": {"inset": 5, "joint": {"method": "applied"}}}, "/case/back/inset"),
        ({"face_frame": {"material": "frame"}}, {"case_band": "edging"}, "/case/case_band"),
        ({}, {"corner": {"method": "housed-groove"}}, "/case/corner"),
        ({}, {"corner": {"method": "rabbet"}, "top_inset": 10}, "/case/corner"),
        ({}, {"back": {"inset": 0, "joint": {"method": "housed-groove"}}}, "/case/back/joint"),
        ({}, {"back": {"inset": 5, "joint": {"method": "rabbet"}}}, "/case/back/joint"),
    ],
)
def test_what_has_no_geometry_is_refused_at_its_place(planned, cabinet, case, pointer):
    with pytest.raises(NoGeometryError) as caught:
        planned(cabinet, case)
    problem = caught.value.problems[0]
    assert problem.pointer.endswith(pointer)
    assert problem.fix
