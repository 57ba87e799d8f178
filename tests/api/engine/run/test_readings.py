"""Readings of level and plumb line. What is expected is hand arithmetic on straight lines between readings."""

import pytest
from casewright.sdk.errors import ProblemsError
from casewright.sdk.units import MM

WALL = {"length": 1900, "corners": "both", "cabinets_at": {"bay": [{"x": 50, "z": 0}, {"x": 850, "z": 0}]}}
BASE = {"form": "base", "count": 2, "base": {"kind": "plinth", "height": 100, "material": "case"}}
HUNG = {"mounting": {"method": "screw-strip"}}


def reading(of, at, off):
    return {"of": of, "at": at, "off": off}


def run_of(planned, cabinet, readings, **wall):
    return planned(cabinet, wall={**WALL, **wall, "readings": readings})


def test_cabinets_are_packed_up_to_the_highest_point_of_the_floor(planned):
    """The floor falls 12 mm from 250 to 1450: at 50 as at 250; at 850 by half, 6 mm; at 1650 as at 1450."""
    plan = run_of(planned, BASE, [reading("floor", 250, 5), reading("floor", 1450, -7)])
    assert plan.run.high_spot == 250 * MM
    assert [(one.standing, one.left, one.right) for one in plan.run.packing] == [
        ("bay 1", 0, 6 * MM),
        ("bay 2", 6 * MM, 12 * MM),
    ]
    words = " ".join(step.do for step in plan.steps)
    assert "the highest point of the floor, 250" in words
    assert "6.0 mm under the right end" in words
    assert "6.0 mm under the left end and 12.0 mm under the right end" in words


def test_without_readings_nothing_is_packed(planned):
    plan = run_of(planned, BASE, [])
    assert (plan.run.high_spot, plan.run.packing) == (None, ())


def test_a_filler_at_a_wall_out_of_plumb_is_scribed_to_it(planned, part_of):
    """The left wall stands 4 mm into the room at the floor and 5 mm behind plumb 1 m up.

    Cabinets from 0 to 900: at 900 the wall is 4 - 9 × 0.9 = -4.1 mm. The gap of 50 mm is 46 where it is least, and
    8.1 mm more where it is most: so much is left to scribe, and 10 where the job asks for that.
    """
    places = [{"x": 50, "z": 0, "fillers": {"left": {"material": "case", "scribe": 2}}}, {"x": 850, "z": 0}]
    leaning = [reading("left", 0, 4), reading("left", 1000, -5)]
    plan = run_of(planned, BASE, leaning, cabinets_at={"bay": places})
    assert part_of(plan, "filler-left-1").width == 46 * MM + 8_100_000
    places[0]["fillers"]["left"]["scribe"] = 10
    assert part_of(run_of(planned, BASE, leaning, cabinets_at={"bay": places}), "filler-left-1").width == 56 * MM


def test_a_wall_that_leans_into_a_cabinet_is_found(planned, codes):
    """50 mm are left beside the first cabinet; a wall 51 mm into the room meets it, as the gap's size says."""
    plan = run_of(planned, BASE, [reading("left", 0, 51)])
    assert plan.run.gaps[0].size == -1 * MM
    assert codes(plan, "wall-end-passed") == [("stop", "wall-end-passed", "/wall/cabinets_at/bay/0")]
    assert codes(run_of(planned, BASE, [reading("left", 0, 49)]), "wall-end-passed") == []


def test_what_hangs_is_packed_out_from_a_wall_out_of_plumb(planned, codes):
    """The wall goes back 9 mm from the floor to 1800: from 900 to 1800 4.5 mm, over the 1/8 in (3.175) allowed."""
    places = {"bay": [{"x": 50, "z": 900}]}
    leaning = [reading("back", 0, 0), reading("back", 1800, -9)]
    plan = run_of(planned, HUNG, leaning, cabinets_at=places)
    assert [(one.bottom, one.top) for one in plan.run.packing] == [(0, 4_500_000)]
    checks = [one for one in plan.checks if one.code == "wall-out-of-plumb"]
    assert [(one.level, one.value, one.limit) for one in checks] == [("caution", 4_500_000, 3_175_000)]


@pytest.mark.parametrize(("scribe", "wide"), [(3, 4.5), (6, 6)])
def test_a_finished_end_has_wood_to_scribe_for_a_wall_out_of_plumb(planned, part_of, scribe, wide):
    """4.5 mm from 900 to 1800, where the panel stands: as much is left at its back edge, or more where so asked."""
    leaning = [reading("back", 0, 0), reading("back", 1800, -9)]
    ends = {**HUNG, "ends": {"left": "finished", "material": "case", "scribe": scribe}}
    plan = run_of(planned, ends, leaning, cabinets_at={"bay": [{"x": 50, "z": 900}]})
    flat = run_of(
        planned, {**ends, "ends": {**ends["ends"], "scribe": 0}}, [], cabinets_at={"bay": [{"x": 50, "z": 900}]}
    )
    panel = part_of(plan, "end-left")
    assert panel.width - part_of(flat, "end-left").width == round(wide * MM)
    assert sum(term.nm for term in panel.why_width) == panel.width


@pytest.mark.parametrize(
    ("readings", "wall", "pointer"),
    [
        ([reading("floor", 10, 1), reading("floor", 10, 2)], {}, "/wall/readings/1/at"),
        ([reading("left", 0, 1)], {"corners": "right"}, "/wall/readings/0/of"),
        ([reading("floor", 10, 201)], {}, "/wall/readings/0/off"),
    ],
)
def test_readings_that_cannot_be_are_refused(planned, readings, wall, pointer):
    with pytest.raises(ProblemsError) as refused:
        run_of(planned, BASE, readings, **wall)
    assert [problem.pointer for problem in refused.value.problems] == [pointer]
