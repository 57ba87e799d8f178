"""Diagonals and thicknesses as measured.

A right triangle of 3, 4 and 5: a case 600 wide and 800 high has diagonals of 1000. With its top 6 mm to the right, by
Pythagoras: rising √(606² + 800²) = 1003.611, falling √(594² + 800²) = 996.412.
"""

from math import hypot

import pytest
from casewright.api import cures
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.model import FitKind, Verdict
from casewright.sdk.units import MM

CASE = {"width": 600, "height": 800}
FINE = {"accuracy": dict.fromkeys(("rip", "crosscut", "groove", "bore", "mark", "sheet", "measure"), 0.01)}
RISING = {"cabinet": "bay", "measure": "diagonal-rising", "value": 1003.611}
FALLING = {"cabinet": "bay", "measure": "diagonal-falling", "value": 996.412}
INSET = {
    **CASE,
    "space": {"front": "door"},
    "doors": {"style": "slab", "material": "case", "hang": "inset", "gap": 2},
}


@pytest.mark.parametrize("rows", [[RISING, FALLING], [RISING], [FALLING]])
def test_how_far_the_top_stands_to_the_side(planned, rows):
    """From both diagonals, or from one by the parallelogram law, which leaves out what the height loses (0.03 mm)."""
    (check,) = [one for one in planned(CASE, built=rows).checks if one.code == "out-of-square"]
    assert check.level == "caution"
    assert check.value == pytest.approx(6 * MM, abs=100_000)


def test_a_door_that_would_taper_so_that_it_is_seen_stops_until_the_case_is_pulled_square(planned, document):
    """6 mm are more than 1/8 in (3.175 mm; common practice, no source)."""
    plan = planned(INSET, built=[RISING, FALLING])
    (check,) = [one for one in plan.checks if one.code == "out-of-square"]
    assert (check.level, check.limit) == ("stop", 3_175_000)
    (stop,) = cures(document(INSET, built=[RISING, FALLING]))["cures"]
    assert "pulled square" in stop["cures"][0]["words"]
    assert [one["value"] for one in stop["cures"][0]["patch"]] == [1000, 1000]


def test_diagonals_alike_say_nothing(planned, codes):
    plan = planned(CASE, built=[{**RISING, "value": 1000}, {**FALLING, "value": 1000.2}])
    assert codes(plan, "out-of-square") == []


@pytest.mark.parametrize("value", [200, 1400])
def test_a_diagonal_closes_a_triangle_with_the_sides(planned, value):
    with pytest.raises(NoGeometryError) as refused:
        planned(CASE, built=[{**RISING, "value": value}])
    (problem,) = refused.value.problems
    assert (problem.pointer, "1000 mm" in problem.fix) == ("/built/0/value", True)


@pytest.mark.parametrize(("thickness", "codes"), [(18.05, []), (18.3, ["built-too-long"]), (17.5, ["built-too-short"])])
def test_a_piece_of_another_thickness_than_its_grooves(planned, thickness, codes):
    """Sold as one sheet, measured as another: 18 mm planned; a hair thicker goes, 0.3 mm does not."""
    row = {"cabinet": "bay", "part": "top", "measure": "thickness", "value": thickness}
    plan = planned(CASE, built=[row])
    assert [one.code for one in plan.checks if one.level == "stop"] == codes
    assert {part.built for part in plan.parts} == {0}


def leaning(top):
    """Return both diagonals of the case with its top so far to the right, by Pythagoras, to 0.001 mm."""
    sizes = {"diagonal-rising": hypot(600 + top, 800), "diagonal-falling": hypot(600 - top, 800)}
    return [{"cabinet": "bay", "measure": name, "value": round(value, 3)} for name, value in sizes.items()]


def planing(plan):
    return [step for step in plan.steps if step.stage == "doors" and "line of the opening" in step.do]


def test_a_little_out_of_square_the_door_hangs_square_and_shares_its_gap(planned):
    """Of 1 mm over 800 the door takes 764 / 800: gaps of 2 become 1.5 and 2.5 at the ends, within the half allowed."""
    plan = planned(INSET, {"corner": {"method": "screwed-butt"}}, built=leaning(1), shop=FINE)
    assert [one.level for one in plan.checks if one.code == "out-of-square"] == ["caution"]
    assert planing(plan) == []
    (fit,) = [one for one in plan.fits if one.kind is FitKind.DOOR_GAP and one.axis == 1]
    assert fit.verdict is Verdict.HOLDS


@pytest.mark.parametrize(("top", "first", "second"), [(3, "left", "right"), (-3, "right", "left")])
def test_farther_out_it_is_left_wide_and_planed_to_its_opening(planned, top, first, second):
    """3 mm over 800 are 3 x 760 / 800 = 2.85 over a door of 764 - 4: half of that is more than gaps of 2 carry."""
    plan = planned(INSET, {"corner": {"method": "screwed-butt"}}, built=leaning(top), shop=FINE)
    assert not [one for one in plan.checks if one.level == "stop"]
    (fit,) = [one for one in plan.fits if one.kind is FitKind.DOOR_GAP and one.axis == 1]
    assert fit.verdict is Verdict.TAKE_FROM_WORK
    (size,) = fit.measuring.sizes
    assert size.full == pytest.approx(2_850_000, abs=100_000)
    (planes,) = planing(plan)
    assert f"the {first} edge from nothing off at the bottom to 2." in planes.do
    assert f"the {second} edge from 2." in planes.do
    (cut,) = [step for step in plan.steps if step.cut_to is not None]
    (bored,) = [step for step in plan.steps if step.action == "bore" and step.setting.cutter == 35 * MM]
    assert cut.number < planes.number < bored.number
    assert cut.cut_to.full == size.full


def test_a_frame_keeps_the_square_of_its_own_openings(planned):
    framed = {**INSET, "face_frame": {"material": "frame"}}
    plan = planned(framed, built=leaning(3), shop=FINE)
    assert [one.level for one in plan.checks if one.code == "out-of-square"] == ["caution"]
    assert planing(plan) == []


def test_a_case_that_is_racked_stops_whatever_hangs_on_it(planned):
    """8 mm are more than 1/4 in (6.35 mm), on which no frame lies flush (common practice, no source)."""
    plan = planned(CASE, built=leaning(8))
    assert [one.level for one in plan.checks if one.code == "out-of-square"] == ["stop"]
