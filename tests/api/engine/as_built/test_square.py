"""Diagonals and thicknesses as measured.

A right triangle of 3, 4 and 5: a case 600 wide and 800 high has diagonals of 1000. With its top 6 mm to the right, by
Pythagoras: rising √(606² + 800²) = 1003.611, falling √(594² + 800²) = 996.412.
"""

import pytest
from casewright.api import cures
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import MM

CASE = {"width": 600, "height": 800}
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
    (found,) = [one for one in planned(CASE, built=rows).checks if one.code == "out-of-square"]
    assert found.level == "caution"
    assert found.value == pytest.approx(6 * MM, abs=100_000)


def test_a_gap_that_closes_beside_an_inset_door_stops_until_it_is_pulled_square(planned, document):
    plan = planned(INSET, built=[RISING, FALLING])
    (found,) = [one for one in plan.checks if one.code == "out-of-square"]
    assert (found.level, found.limit) == ("stop", 2 * MM)
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


@pytest.mark.parametrize(("thickness", "found"), [(18.05, []), (18.3, ["built-too-long"]), (17.5, ["built-too-short"])])
def test_a_piece_of_another_thickness_than_its_grooves(planned, thickness, found):
    """Sold as one sheet, measured as another: 18 mm planned; a hair thicker goes, 0.3 mm does not."""
    row = {"cabinet": "bay", "part": "top", "measure": "thickness", "value": thickness}
    plan = planned(CASE, built=[row])
    assert [one.code for one in plan.checks if one.level == "stop"] == found
    assert {part.built for part in plan.parts} == {0}
