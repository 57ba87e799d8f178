"""The list of fasteners into the wall is just those of the answer, each in the middle of its stud. Worked by hand."""

import pytest
from casewright.sdk.units import MM, mm

STRIP = {"method": "screw-strip", "contents_kg": 10, "per_stud": 1}
BACK = {"back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}}
DEEP_BACK = {
    "corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
}  # fmt: skip
CLEATS = {"method": "bevel-cleat", "contents_kg": 10}
STUDS = {"at": [300, 700, 1100, 1500, 1900], "stuff": "spruce-pine-fir"}


def wall(*places, **more):
    return {"studs": STUDS, "cabinets_at": {"bay": [{"x": x, "z": 1400} for x in places]}, **more}


def into_the_wall(plan):
    return [line for line in plan.hardware if "studs" in line.words or "stud " in line.words or "anchor" in line.words]


def test_each_place_lists_its_own_studs(planned):
    # 800 wide, 18 mm sides: strips from 118 to 882 and from 1018 to 1782: studs 300 and 700; 1100 and 1500.
    plan = planned({"count": 2, "mounting": STRIP}, BACK, wall=wall(100, 1000))
    lines = into_the_wall(plan)
    assert [(line.quantity, len(line.at), line.used_for) for line in lines] == [
        (2, 2, "bay/mounting, place 1"),
        (2, 2, "bay/mounting, place 2"),
    ]
    assert [[x for x, _, _ in line.at] for line in lines] == [[mm(200), mm(600)], [mm(100), mm(500)]]
    # The strip is 3 in high under the top at 882: its screw stands in its middle, its head on the strip's front.
    assert {z for line in lines for _, _, z in line.at} == {mm(882) - mm("38.1")}
    (strip,) = [part for part in plan.parts if part.id == "bay/strip-top"]
    assert {y for line in lines for _, y, _ in line.at} == {strip.place.box(strip.blank).y0}
    answers = [fastener for mounted in plan.mounting for fastener in mounted.result.fasteners]
    assert sum(line.quantity for line in lines) == len(answers)


def test_without_studs_there_is_nothing_to_buy_for_them(planned):
    assert into_the_wall(planned({"mounting": STRIP}, BACK)) == []


def test_the_anti_lift_lag_stands_at_a_stud(planned):
    plan = planned({"mounting": CLEATS}, DEEP_BACK, wall=wall(100))
    (lag,) = [line for line in into_the_wall(plan) if "lifting" in line.words]
    # Studs at 300 and 700: the centre of gravity stands at 100 + 400, so either; the left one, 200 from the case.
    assert (lag.quantity, lag.at[0][0]) == (1, mm(200))
    # The strip lies on the top, from 880 up, 18 mm thick: the lag in its middle.
    assert lag.at[0][2] == mm(889)


@pytest.mark.parametrize("at", [(460, 0), (505, 1)])
def test_a_stud_behind_a_divider_is_not_listed(planned, at):
    # Two bays of 373: the divider stands from 391 to 409, 491 to 509 on the wall; a No. 10 screw keeps 5 D = 24.13
    # from the strip's end, so that a stud at 460 is caught and one at 505, behind it, is not.
    stud, lost = at
    space = {"bays": [{}, {}]}
    given = {"studs": {**STUDS, "at": [300, stud, 700]}, "cabinets_at": {"bay": [{"x": 100, "z": 1400}]}}
    plan = planned({"space": space, "mounting": STRIP}, {"back": None}, wall=given)
    (line,) = into_the_wall(plan)
    assert line.quantity == 3 - lost


def test_masonry_lists_anchors_and_no_wood_screws(planned):
    stone = {"masonry": {"tension_n": 2000, "shear_n": 3000, "approval": "approval 12"}, "lining": 0}
    given = {**stone, "cabinets_at": {"bay": [{"x": 100, "z": 1400}]}}
    plan = planned({"mounting": STRIP}, {"back": None}, wall=given)
    (line,) = into_the_wall(plan)
    assert (line.item, line.quantity, line.name) == ("wall-anchor", 2, "masonry anchor, approval 12")
    assert not [other for other in plan.hardware if "studs" in other.name]


def test_a_cleat_of_fibreboard_on_masonry_is_a_stop(planned, codes):
    board = {"kind": "sheet", "stuff": "mdf", "thickness": 18}
    stone = {"masonry": {"tension_n": 2000, "shear_n": 3000, "approval": "approval 12"}, "lining": 0}
    given = {**stone, "cabinets_at": {"bay": [{"x": 100, "z": 1400}]}}
    plan = planned({"mounting": STRIP}, {"back": None}, wall=given, materials={"case": board})
    assert ("stop", "fastener-wood", "/wall/cabinets_at/bay/0") in codes(plan)


def test_a_longer_cleat_stays_between_the_sides_and_off_a_window(planned):
    given = {"studs": {**STUDS, "at": [300, 950]}, "cabinets_at": {"bay": [{"x": 100, "z": 1400}]}}
    plan = planned({"mounting": CLEATS}, DEEP_BACK, wall=given)
    result = plan.mounting[0].result.result
    assert result.caught_studs_mm == (300.0,)
    assert result.extension is None  # the stud at 950 is past the right side, which ends at 900
    # A cleat before a back that is flush stands behind the sides: it may reach the case's own ends, 100 to 900.
    flush = {"back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}}
    given["studs"]["at"] = [300, 862]
    plan = planned({"mounting": {**CLEATS, "side_play": 40}}, flush, wall=given)
    assert plan.mounting[0].result.result.extension.stud_at_mm == 862.0
    window = {"id": "light", "kind": "window", "x": 870, "z": 2000, "width": 600, "height": 300}
    plan = planned({"mounting": {**CLEATS, "side_play": 40}}, flush, wall={**given, "obstacles": [window]})
    assert plan.mounting[0].result.result.extension is None


def test_contents_lie_where_the_job_says(planned, codes):
    def centre(**more):
        plan = planned({"mounting": {**STRIP, "contents_kg": 100, **more}}, BACK, wall=wall(100))
        return plan.mounting[0].result.case, codes(plan, "contents-centred"), plan.weights[0]

    case, message, weight = centre()
    assert [level for level, *_ in message] == ["note"]
    # In the middle: 400 across; from the front to the back at 320 − 6.
    mass = weight.mass_kg + 100
    assert case.centre_x_mm == pytest.approx(100 + (weight.mass_kg * weight.centre[0] / MM + 100 * 400) / mass)
    moved, message, _ = centre(contents_from_left=200, contents_from_front=50)
    assert message == []
    assert moved.centre_x_mm == pytest.approx(100 + (weight.mass_kg * weight.centre[0] / MM + 100 * 200) / mass)
    assert moved.centre_out_mm == pytest.approx(320 - (weight.mass_kg * weight.centre[1] / MM + 100 * 50) / mass)


def test_contents_that_stay_briefly_carry_their_own_duration(planned):
    # NDS 2018 Table 2.3.2: two months 1.15. The cabinet by itself lasts, at 0.9.
    for duration, factor in (("permanent", 0.9), ("two-months", 1.15)):
        given = {**STRIP, "contents_kg": 40, "contents_duration": duration}
        plan = planned({"mounting": given}, BACK, wall=wall(100))
        assert plan.mounting[0].result.case.duration == factor


def test_a_great_load_on_shelves_is_no_fault_of_the_service(planned):
    # 209 psf without contents once left the range of an equation; 20 kPa on 764 × 302 mm and its strip's room.
    for pressure in (10_000, 20_000):
        plan = planned({"mounting": {"method": "screw-strip"}, "loading": {"shelf_pa": pressure}}, BACK, wall=wall(100))
        (bottom,) = [part for part in plan.parts if part.role == "bottom"]
        box = bottom.place.box(bottom.blank)
        area = (box.x1 - box.x0) * (box.y1 - box.y0) / MM**2 * 1e-6
        assert plan.mounting[0].result.case.contents_kg == pytest.approx(pressure * area / 9.80665)


def test_a_wall_cabinet_that_nothing_holds_is_a_stop(planned, codes):
    assert codes(planned(wall=wall(100)), "mounting-missing") == [("stop", "mounting-missing", "/cabinets/0")]
    assert codes(planned(), "mounting-missing") == []
