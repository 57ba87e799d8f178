"""Words for the wall: where cleats and their screws go, worked out by hand for the demo job and for studs in mm."""

import re
from fractions import Fraction

import pytest
from casewright.sdk.units import MM, tape_text

WALL = {"studs": {"at": [100, 500, 900], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}}
CLEAT = {"mounting": {"method": "bevel-cleat", "contents_kg": 5, "fastener": "lag-1-4-3", "per_stud": 2}}


@pytest.fixture
def plan(planned):
    wall = {**WALL, "cabinets_at": {"bay": [{"x": 50, "z": 1400}]}}
    return planned(CLEAT, {"back": {"inset": 19}}, wall=wall)


def do_of(plan, stage, action, what=""):
    (words,) = [one.do for one in plan.steps if one.stage == stage and one.action == action and what in one.do]
    return words


def test_a_cleat_lies_where_it_stands_in_its_cabinet_and_is_screwed_to_the_studs(plan, part_of):
    do = do_of(plan, "mounting", "screw", "Screw the wall cleat")
    box = part_of(plan, "wall-cleat").place.box(part_of(plan, "wall-cleat").blank)
    assert f"bottom edge {1400 + box.z0 / 1e6:.1f} mm over the floor" in do
    assert f"left end {tape_text(50 * MM + box.x0, 'mm', Fraction(1, 10))} from the wall's left end" in do
    # 800 mm from 50: the studs at 100 and 500 stand behind it, two screws in each; 900 does not.
    assert do.count("mm from the wall's left end") == 2
    assert "4 × lag screw 1/4 × 3 in with washer at 100.0 mm and 500.0 mm" in do
    # A 6.35 mm lag: a hole of that through the cleat; in spruce-pine-fir 40 to 70 % of it (NDS 2018 12.1.4), the
    # middle of which is 3.5 mm.
    assert "mm through the strip and one of 3.5 mm into the stud" in do
    assert "a hole of 6.4 mm" in do or "a hole of 6.3 mm" in do


BASE = {"form": "base", "base": {"kind": "plinth", "height": 100}, "mounting": {"method": "screw-strip"}}


@pytest.mark.parametrize(
    ("change", "inset", "z", "strip"),
    [(CLEAT, 19, 1400, "wall-cleat"), (CLEAT, 5, 1400, "wall-cleat"), (BASE, 19, 0, "strip-top")],
    ids=["behind an inset back", "standing off the wall", "on a base"],
)
def test_the_height_of_a_strip_over_the_floor_is_that_of_its_part(planned, part_of, change, inset, z, strip):
    """Whatever the statics count heights from, who screws the strip on the wall counts from the floor."""
    wall = {**WALL, "cabinets_at": {"bay": [{"x": 50, "z": z}]}}
    plan = planned(change, {"back": {"inset": inset}}, wall=wall)
    box = part_of(plan, strip).place.box(part_of(plan, strip).blank)
    assert plan.mounting[0].result.case.strip_over_floor_mm == pytest.approx(z + box.z0 / 1e6)


def test_hanging_says_how_high_to_lift_and_what_stops_it_lifting_off(plan):
    do = do_of(plan, "hang", "hang")
    lift = plan.mounting[0].lift / 1e6
    assert f"lift it {lift:.1f} mm past its place" in do
    assert re.search(r"before it is loaded, against lifting off, \d × wood screw .* into the wall cleat", do)


def test_a_strip_on_the_top_is_screwed_to_one_stud_against_lifting_off(planned):
    wall = {**WALL, "cabinets_at": {"bay": [{"x": 50, "z": 1400}]}}
    case = {"back": {"inset": 19}, "corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20}
    plan = planned(CLEAT, case, wall=wall)
    # The middle of 800 from 50 is 450: the stud at 500 stands nearer to it than the one at 100.
    at = "through the anti-lift strip on the top into the stud at 500.0 mm from the wall's left end"
    assert re.search(rf"off, 1 × lag screw .* {at}", do_of(plan, "hang", "hang"))
    (lag,) = [line for line in plan.hardware if "against lifting" in line.words]
    assert [x for x, _, _ in lag.at] == [450 * MM]


def test_a_strip_screwed_through_names_its_screws_where_it_is_hung(planned):
    wall = {**WALL, "cabinets_at": {"bay": [{"x": 50, "z": 1400}]}}
    plan = planned({"mounting": {"method": "screw-strip", "contents_kg": 5}}, {"back": {"inset": 19}}, wall=wall)
    do = do_of(plan, "hang", "hang")
    assert "through the hanging strip and the back" in do
    assert "at 100.0 mm and 500.0 mm from the wall's left end" in do
    assert "a pilot hole of" in do or "into the stud" in do


def test_without_a_wall_the_marks_are_what_there_is(planned):
    plan = planned(CLEAT, {"back": {"inset": 19}})
    assert do_of(plan, "mounting", "screw", "Screw the wall cleat").endswith("into the studs, at the marked points")
