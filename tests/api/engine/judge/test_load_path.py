"""The load's way from strip to sides in planned cabinets, each link by hand.

800 × 900 × 320 mm of 18 mm birch plywood; glue lines 53 psi (from memory) lasting 0.9 and halved: 0.16444 MPa.
"""

import pytest
from casewright.sdk.units import mm

GLUE = 53 * 4.4482216152605 / 25.4**2 * 0.9 * 0.5
WALL = {
    "studs": {"at": [300, 700], "stuff": "spruce-pine-fir"},
    "cabinets_at": {"bay": [{"x": 100, "z": 1400}]},
}
CLEAT = {"method": "bevel-cleat", "contents_kg": 20}
STRIP = {"method": "screw-strip", "contents_kg": 20}
CAPTURED = {
    "corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
}  # fmt: skip


def back(material, method, **more):
    return {"back": {"material": material, "inset": 0, "joint": {"method": method, **more}}}


def found(plan):
    wanted = ("load-path", "link-missing", "link-use", "thin-back")
    return [(check.level, check.code) for check in plan.checks if check.code in wanted]


def test_a_glued_and_screwed_cleat_on_a_captured_back_holds(planned):
    plan = planned({"mounting": CLEAT}, CAPTURED, wall=WALL)
    (check,) = [check for check in plan.checks if check.code == "load-path"]
    result = plan.mounting[0].result.result
    # The cleat, 3 in high over 764 mm between the sides, is drawn off by as much as hangs on it (45 degrees): with
    # three times the strain across as along, W (1 + 3) over the glue's 764 × 76.2 mm2.
    area = 764 * 76.2
    assert check.level == "note"
    assert check.limit == pytest.approx(area * GLUE / 4, rel=1e-6)
    assert check.value == pytest.approx(result.weight_n)
    assert found(plan) == [("note", "load-path")]


def test_the_step_says_glue_and_screws(planned):
    plan = planned({"mounting": CLEAT}, CAPTURED, wall=WALL)
    (step,) = [step for step in plan.steps if "cabinet cleat" in step.do and "pilot" in step.do]
    assert "glue and screw" in step.do


def test_a_back_that_only_brads_hold_is_a_stop(planned):
    # A board back is not glued, for it moves; brads carry nothing.
    plan = planned({"mounting": CLEAT}, back("frame", "rabbet"), wall=WALL)
    assert {code for level, code in found(plan) if level == "stop"} == {"link-missing"}
    names = [check.message for check in plan.checks if check.code == "link-missing"]
    assert any("drawn off" in message for message in names)


def test_a_thin_back_in_a_rabbet_is_named(planned):
    # AWS 1st ed. (2009) p. 281: a back of 1/2 in needs no strip of its own; 6 mm is less.
    plan = planned({"mounting": CLEAT}, back("thin", "rabbet"), wall=WALL)
    assert ("caution", "thin-back") in found(plan)
    thick = planned({"mounting": CLEAT}, CAPTURED, wall=WALL)
    assert ("caution", "thin-back") not in found(thick)


@pytest.mark.parametrize("behind", [{"back": None}, back("thin", "rabbet")])
def test_a_hanging_strip_is_glued_and_screwed_under_the_top(planned, behind):
    plan = planned({"mounting": STRIP}, behind, wall=WALL)
    assert [level for level, _ in found(plan)] == ["note"]
    (joint,) = [joint for joint in plan.joints if joint.guest == "bay/strip-top"]
    assert joint.glue_area_mm2 == pytest.approx(764 * 18)
    (screws,) = [line for line in plan.hardware if "hanging strip" in line.words]
    # Through the top, 18 mm thick, whose upper face is at 900, into the strip's upper edge.
    assert {z for _, _, z in screws.at} == {mm(900)}
    assert screws.quantity == len(screws.at) > 1
    assert [seat.seated for seat in plan.dry_fit.seats if "strip-top" in seat.joint] == [True]


def test_too_great_a_load_breaks_the_weakest_link(planned):
    # W (1 + 3) over 764 × 76.2 mm2 of glue is at its end at 2393 N; 500 kg are 4903.
    plan = planned({"mounting": {**CLEAT, "contents_kg": 500}}, CAPTURED, wall=WALL)
    assert ("stop", "link-use") in found(plan)


def test_every_strip_is_fixed_to_something(planned):
    # A thin back asks for a lower strip too (AWS p. 281); the anti-lift strip lies on the top.
    low = planned({"mounting": STRIP}, back("thin", "rabbet"), wall=WALL)
    hooked = planned({"mounting": CLEAT}, CAPTURED, wall=WALL)
    for plan in (low, hooked):
        strips = {part.id for part in plan.parts if part.role in ("strip", "cleat")}
        fixed = {joint.guest for joint in plan.joints if joint.glue_area_mm2 > 0}
        assert strips
        assert strips <= fixed
        assert all(seat.seated for seat in plan.dry_fit.seats)
