"""How far doors open: by trigonometry, and against a door turned bit by bit as a polygon."""

from math import asin, atan, cos, degrees, hypot, radians, sin

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.run.doors import first_contact
from casewright.api.job.document import read_job
from hypothesis import assume, given
from hypothesis import strategies as st

MM = 1_000_000
WIDTH, THICK = 400 * MM, 20 * MM
RADIUS = round(hypot(WIDTH, THICK)) + 1
FAR = 10**12


def test_a_wall_at_the_hinge_side_stops_the_door_past_square():
    # The far corner's circle of radius √(400² + 20²) mm meets a wall 100 mm behind the hinge edge at 90° + asin(100/r).
    met = first_contact((-FAR, -FAR, -100 * MM, FAR), RADIUS, THICK)
    assert met == pytest.approx(90 + degrees(asin(100 / hypot(400, 20))), abs=1e-4)


def test_a_wall_at_the_hinge_edge_itself_stops_the_door_at_square():
    assert first_contact((-FAR, -FAR, 0, FAR), RADIUS, THICK) == pytest.approx(90, abs=1e-9)


def test_a_wall_at_the_free_side_is_met_only_inside_the_circle():
    assert first_contact((RADIUS, -FAR, FAR, FAR), RADIUS, THICK) is None
    assert first_contact((RADIUS - MM, -FAR, FAR, FAR), RADIUS, THICK) is not None


def test_a_post_before_the_door_is_met_at_its_own_angle():
    # A post whose nearest corner stands 200 mm out and 200 mm along is met at 45 degrees or, by its side, before.
    met = first_contact((200 * MM, -210 * MM, 210 * MM, -200 * MM), RADIUS, THICK)
    assert met == pytest.approx(degrees(asin(200 / hypot(200, 210))), abs=1e-6)


def test_what_stands_behind_the_door_is_never_met():
    assert first_contact((-FAR, THICK, FAR, FAR), RADIUS, THICK) is None


def test_a_closed_door_beside_the_hinge_in_the_same_plane_is_not_met():
    assert first_contact((-300 * MM, 0, -3 * MM, THICK), RADIUS, THICK) == pytest.approx(180, abs=1e-6)


def turned(width, thick, angle):
    """Return the door's corners opened by an angle about its front hinge corner, free end toward the viewer."""
    c, s = cos(radians(angle)), sin(radians(angle))
    return [(x * c + y * s, -x * s + y * c) for x, y in ((0, 0), (width, 0), (width, thick), (0, thick))]


def apart(first, second):
    """Whether two convex polygons leave a line between them (separating axis theorem)."""
    for shape in (first, second):
        for (ax, ay), (bx, by) in zip(shape, shape[1:] + shape[:1], strict=True):
            nx, ny = by - ay, ax - bx
            a = [x * nx + y * ny for x, y in first]
            b = [x * nx + y * ny for x, y in second]
            if max(a) <= min(b) or max(b) <= min(a):
                return True
    return False


@given(
    st.integers(200, 700), st.integers(12, 30), st.integers(-900, 900), st.integers(-900, 40),
    st.integers(1, 500), st.integers(1, 500),
)  # fmt: skip
def test_a_door_turned_bit_by_bit_meets_nothing_before_the_angle_given(width, thick, x, y, dx, dy):
    post = [(x, y), (x + dx, y), (x + dx, y + dy), (x, y + dy)]
    assume(apart(post, [(0, 0), (width, 0), (width, thick), (0, thick)]))
    radius = round(hypot(width, thick) * MM) + 1
    contact = first_contact((x * MM, y * MM, (x + dx) * MM, (y + dy) * MM), radius, thick * MM)
    front = [(px, min(py, thick)) for px, py in post]
    for step in range(241):
        angle = step / 2
        if contact is not None and angle >= contact:
            break
        if y < thick:
            assert apart(front, turned(width, thick, angle)), (angle, contact)


def door(side="left"):
    return {
        "width": 400,
        "space": {"front": "door", "hinge_side": side},
        "doors": {"style": "slab", "material": "case", "overlay": 9},
    }


def wall(x, **more):
    return {"wall": {"cabinets_at": {"bay": [{"x": x, "z": 1400}]}, "lining": 12, **more}}


def test_a_door_hinged_at_the_corner_wall_needs_a_filler(planned, codes):
    # Opening 364 wide, door 382 wide, its hinge edge 9 mm inside the case's side; wall 0 mm from that side.
    made = planned(door(), **wall(0, corners="left"))
    (swing,) = made.run.swings
    assert swing.meets == "the wall at the left corner"
    assert swing.opens_deg == pytest.approx(90 + degrees(asin(9 / hypot(382, 18))), abs=0.06)
    (check,) = [c for c in made.checks if c.code == "door-swing"]
    assert (check.level, check.subject, check.limit) == ("caution", "/wall/cabinets_at/bay/0", 110.0)


def test_a_pull_meets_the_corner_wall_before_the_door_does(planned):
    pulled = door()
    pulled["doors"]["pull"] = {"item": "knob-1"}
    bare = planned(door(), **wall(0, corners="left")).run.swings[0].opens_deg
    made = planned(pulled, **wall(0, corners="left"))
    assert made.run.swings[0].opens_deg < min(bare, 90)
    assert [c.level for c in made.checks if c.code == "door-swing"] == ["stop"]


def test_a_door_hinged_away_from_the_wall_opens_freely(planned, codes):
    made = planned(door("right"), **wall(40, corners="left"))
    assert made.run.swings[0].meets == ""
    assert codes(made, "door-swing") == []


def test_a_pipe_that_stands_out_stops_a_door(planned):
    # The pipe's near corner: 9 + 50 mm left of the hinge edge, 600 - 320 - 18 = 262 mm out past the door's front.
    pipe = {"id": "riser", "kind": "pipe", "x": 400, "z": 1400, "width": 50, "height": 900, "out": 600}
    made = planned(door(), **wall(500, obstacles=[pipe]))
    (swing,) = made.run.swings
    assert swing.meets == "pipe riser"
    assert swing.opens_deg == pytest.approx(90 + degrees(atan(59 / 262)), abs=0.06)


def test_a_bar_across_before_the_hinge_is_met_where_the_door_first_reaches_it():
    # 200 mm out, from 100 left of the hinge to 300 along: its near corner (300, 200) lies at atan(200/300), inside
    # the circle of √(400² + 20²).
    met = first_contact((-100 * MM, -210 * MM, 300 * MM, -200 * MM), RADIUS, THICK)
    assert met == pytest.approx(degrees(atan(200 / 300)), abs=1e-6)


def test_what_stands_on_the_hinge_line_holds_the_door_shut():
    assert first_contact((-100 * MM, -50 * MM, 100 * MM, 0), RADIUS, THICK) == 0.0


def test_two_doors_hinged_side_by_side_are_named_with_the_gap_between_them(document, registry):
    # Cabinets 400 wide at 0 and 410; each door is 382 wide, its hinge edge 9 inside its case: 9 + 10 + 9 = 28 apart.
    job = document(door("right"))
    job["cabinets"].append({**job["cabinets"][0], **door("left"), "id": "next"})
    job["wall"] = {"cabinets_at": {"bay": [{"x": 0, "z": 1400}], "next": [{"x": 410, "z": 1400}]}}
    (check,) = [c for c in make_plan(read_job(job, registry), registry).checks if c.code == "doors-meet-open"]
    assert (check.level, check.value) == ("caution", 28 * MM)
    assert "hinges side by side" in check.message


@pytest.mark.parametrize(("apart", "meets"), [(230, True), (250, False)])
def test_doors_swing_past_square_only_as_far_as_their_hinges_open(document, registry, apart, meets):
    # Hinges open to 110 degrees: 20 past square a door of 382 × 18 reaches √(382² + 18²) × 20 π/180 = 133.5 at the most
    # behind its hinge edge (sin a < a). Two of them meet within 267; their edges stand 18 further apart than the cases.
    job = document(door("right"))
    job["cabinets"].append({**job["cabinets"][0], **door("left"), "id": "next"})
    job["wall"] = {"cabinets_at": {"bay": [{"x": 0, "z": 1400}], "next": [{"x": 400 + apart, "z": 1400}]}}
    checks = [c for c in make_plan(read_job(job, registry), registry).checks if c.code == "doors-meet-open"]
    assert bool(checks) is meets
