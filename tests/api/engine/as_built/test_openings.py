"""Openings and door frames as measured. What is expected is hand arithmetic on the sizes in the documents."""

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import MM

BAYS = {
    "face_frame": {"material": "frame", "stile": 50, "rail": 50, "mid_stile": 40},
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin", "hang": "inset", "gap": 2},
    "space": {"bays": [{"front": "door", "loose_shelves": 1}, {"front": "door"}]},
}
BARE = {**BAYS, "face_frame": None}


def opening(part, measure, value, **more):
    return {"cabinet": "bay", "part": part, "measure": measure, "value": value, **more}


def door(plan, key):
    (leaf,) = [one for one in plan.doors if one.id == f"bay/{key}"]
    return leaf


def test_a_door_goes_by_its_opening_as_measured(planned, part_of):
    """Two openings of (800 - 2 × 50 - 40) / 2 = 330 planned, one measured 328.4: its inset door is 4 mm less."""
    first = planned(BAYS)
    plan = planned(BAYS, built=[opening("door-1", "opening-width", 328.4)])
    assert door(first, "door-1").width == 326 * MM
    assert door(plan, "door-1").width == 324_400_000
    assert door(plan, "door-2").width == 326 * MM
    for key in ("door-1/rail-top", "door-1/rail-bottom"):
        assert part_of(plan, key).length == part_of(first, key).length - 1_600_000
    assert part_of(plan, "door-1/panel").width == part_of(first, "door-1/panel").width - 1_600_000
    assert not plan.dry_fit.clashes
    assert all(seat.seated for seat in plan.dry_fit.seats)


def test_the_least_of_three_measurements_counts(planned):
    rows = [opening("door-1", "opening-width", value, at=at)
            for at, value in (("top", 329), ("middle", 328.5), ("bottom", 329.2))]  # fmt: skip
    assert door(planned(BAYS, built=rows), "door-1").width == 324_500_000


def test_what_stands_round_a_measured_opening_is_built(planned):
    """Frame and case are; doors, loose shelves and the mounting are still to be made."""
    plan = planned(BAYS, built=[opening("door-1", "opening-width", 328.4)])
    groups = {(part.group, part.built) for part in plan.parts if part.group in ("case", "face-frame", "door-1")}
    assert groups == {("case", 1), ("face-frame", 1), ("door-1", 0)}


def test_an_opening_in_a_bare_case_gives_its_bay_its_size(planned, part_of):
    """Bays of (800 - 3 × 18) / 2 = 373: the first is measured 372, so the second has 374, and the shelf 1 mm less."""
    first, plan = planned(BARE), planned(BARE, built=[opening("loose-shelf-1", "opening-width", 372)])
    assert part_of(plan, "loose-shelf-1").length == part_of(first, "loose-shelf-1").length - 1 * MM
    assert [door(plan, key).width for key in ("door-1", "door-2")] == [368 * MM, 370 * MM]
    assert plan.job.cabinets[0].width == 800 * MM


def test_where_all_bays_are_measured_the_outside_follows(planned):
    rows = [opening("door-1", "opening-width", 372), opening("door-2", "opening-width", 373.5)]
    plan = planned(BARE, built=rows)
    assert plan.job.cabinets[0].width == 799_500_000
    assert [door(plan, key).width for key in ("door-1", "door-2")] == [368 * MM, 369_500_000]


def test_a_panel_goes_by_its_door_s_frame_as_it_came_out(planned, part_of):
    """One rail 1 mm short: so is the other to be, the door is 1 mm narrower and its panel too."""
    first = planned(BAYS)
    rail = part_of(first, "door-1/rail-top").length
    plan = planned(BAYS, built=[opening("door-1/rail-top", "length", rail / MM - 1)])
    assert part_of(plan, "door-1/rail-bottom").length == rail - 1 * MM
    assert part_of(plan, "door-1/panel").width == part_of(first, "door-1/panel").width - 1 * MM
    assert not [one for one in plan.checks if one.level == "stop"]


@pytest.mark.parametrize(("by", "codes"), [(2, []), (2.1, ["built-too-long"]), (-2.1, ["built-too-short"])])
def test_a_door_is_held_against_the_opening_it_closes(planned, part_of, by, codes):
    """Gaps of 2 mm on both sides may come out from 1 to 3 mm: a door may be 2 mm off."""
    rail = part_of(planned(BAYS), "door-1/rail-top").length
    rows = [opening(f"door-1/rail-{end}", "length", rail / MM + by) for end in ("top", "bottom")]
    stops = [one for one in planned(BAYS, built=rows).checks if one.level == "stop"]
    assert [one.code for one in stops] == codes


def test_the_room_for_a_panel_as_measured_between_groove_floors(planned, part_of):
    """Play is kept: where the room is 0.8 mm less than planned, so is the panel."""
    first = planned(BAYS)
    panel = part_of(first, "door-1/panel")
    play = sum(joint.clearance for joint in first.joints if joint.guest == panel.id and abs(joint.press) == 1)
    room = (panel.width + play) / MM - 0.8
    plan = planned(BAYS, built=[opening("door-1/panel", "opening-width", room)])
    assert part_of(plan, "door-1/panel").width == panel.width - 800_000
    assert part_of(plan, "door-1/rail-top").built == 1


def test_an_opening_that_is_not_there_is_refused(planned):
    with pytest.raises(NoGeometryError) as refused:
        planned(BAYS, built=[opening("side-left", "opening-width", 300)])
    (problem,) = refused.value.problems
    assert problem.pointer == "/built/0/part"
    assert "door-1" in problem.fix
