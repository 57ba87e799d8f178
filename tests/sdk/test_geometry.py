"""Boxes, turns and cuts: frames turn back exactly, stay right-handed, and carry every kind of cut.

The reference for turns is an explicit 3 × 3 rotation matrix (linear algebra), applied corner by corner.
"""

from itertools import permutations, product

import pytest
from casewright.sdk.geometry import Box, Cylinder, Place, Wedge, cross, opposite, seated
from hypothesis import given
from hypothesis import strategies as st

small = st.integers(-10_000, 10_000)
points = st.tuples(small, small, small)
turns = st.sampled_from(
    [
        tuple(s * a for s, a in zip(signs, axes, strict=True))
        for axes in permutations((1, 2, 3))
        for signs in product((1, -1), repeat=3)
    ]
)
places = st.builds(lambda at, t: Place(at, *t), points, turns)


def between(corner, other):
    return Box(*map(min, corner, other), *map(max, corner, other))


boxes = st.builds(between, points, points)


def unit(axis):
    out = [0, 0, 0]
    out[abs(axis) - 1] = 1 if axis > 0 else -1
    return out


def matrix(place):
    columns = [unit(place.x), unit(place.y), unit(place.z)]
    return [[columns[j][i] for j in range(3)] for i in range(3)]


def determinant(m):
    return (
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    )


def turned(place, p):
    m = matrix(place)
    return tuple(place.at[i] + sum(m[i][j] * p[j] for j in range(3)) for i in range(3))


@given(places, points)
def test_a_place_is_its_matrix(place, p):
    assert place.point(p) == turned(place, p)


@given(places, points)
def test_inverse_turns_back(place, p):
    home = place.inverse()
    assert home.point(place.point(p)) == p
    assert place.point(home.point(p)) == p
    assert home.inverse() == place


@given(places, boxes)
def test_boxes_come_back_and_keep_their_volume(place, box):
    assert place.inverse().box(place.box(box)) == box
    assert place.box(box).volume == box.volume


@given(places, st.sampled_from([1, 2, 3, -1, -2, -3]))
def test_axes_are_carried_as_directions(place, axis):
    there = turned(place, unit(axis))
    assert unit(place.axis(axis)) == [there[i] - place.at[i] for i in range(3)]
    assert place.axis(opposite(axis)) == opposite(place.axis(axis))


@pytest.mark.parametrize(("a", "b"), [(a, b) for a in (1, 2, 3, -1, -2, -3) for b in (1, 2, 3, -1, -2, -3)])
def test_cross_is_the_vector_product(a, b):
    if abs(a) == abs(b):
        with pytest.raises(ValueError, match="one line"):
            cross(a, b)
        return
    u, v = unit(a), unit(b)
    product_ = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
    assert unit(cross(a, b)) == product_


@given(
    boxes, st.sampled_from([(a, b) for a in (1, 2, 3, -1, -2, -3) for b in (1, 2, 3, -1, -2, -3) if abs(a) != abs(b)])
)
def test_a_seated_part_fills_its_box_in_a_right_handed_frame(box, ways):
    place = seated(box, *ways)
    assert determinant(matrix(place)) == 1
    size = tuple(box.size[abs(axis) - 1] for axis in (place.x, place.y, place.z))
    assert place.box(Box(0, 0, 0, *size)) == box


@given(places, points, st.sampled_from([1, 2, 3, -1, -2, -3]), st.integers(1, 99), st.integers(1, 99))
def test_a_hole_is_carried_with_its_envelope(place, mouth, into, diameter, depth):
    hole = Cylinder(mouth, into, diameter, depth)
    assert place.cylinder(hole).envelope == place.box(hole.envelope)
    assert place.inverse().cylinder(place.cylinder(hole)) == hole


def test_a_hole_lies_beyond_its_mouth():
    assert Cylinder((10, 20, 30), 3, 5, 12).envelope == Box(7, 17, 30, 13, 23, 42)
    assert Cylinder((10, 20, 30), -1, 4, 6).envelope == Box(4, 18, 28, 10, 22, 32)


@pytest.mark.parametrize(
    ("other", "meet"),
    [
        (Cylinder((30, 0, 0), 3, 40, 10), True),  # axes 30 apart, radii 15 and 20
        (Cylinder((21, 28, 0), 3, 40, 10), False),  # axes 35 apart (3:4:5): they touch, though their boxes overlap
        (Cylinder((0, 0, 25), -3, 40, 10), False),  # on one axis, from the far side: 10 and 10 deep in 25
        (Cylinder((0, 0, 19), -3, 40, 10), True),
        (Cylinder((30, 0, 5), -1, 4, 16), True),  # across: its end at 14, within the 15 of the radius
    ],
)
def test_holes_meet_where_they_share_room(other, meet):
    hole = Cylinder((0, 0, 0), 3, 30, 10)
    assert hole.meets(other) is meet
    assert other.meets(hole) is meet


def wedge_corners(wedge):
    """Return the right-angled edge of the waste and the two ends of its slope, at the low end along its axis."""
    signs = {abs(c): c > 0 for c in wedge.corner}
    u, v = sorted(signs)
    along = abs(wedge.along)
    out = []
    for far_u, far_v in ((False, False), (True, False), (False, True)):
        p = [0, 0, 0]
        p[along - 1] = wedge.box.low(along)
        p[u - 1] = wedge.box.high(u) if signs[u] != far_u else wedge.box.low(u)
        p[v - 1] = wedge.box.high(v) if signs[v] != far_v else wedge.box.low(v)
        out.append(tuple(p))
    return out


@given(places, boxes, st.sampled_from([1, 2, 3]), st.booleans(), st.booleans())
def test_a_wedge_is_carried_corner_by_corner(place, box, along, first, second):
    u, v = [a for a in (1, 2, 3) if a != along]
    wedge = Wedge(box, along, (u if first else -u, v if second else -v))
    carried = place.wedge(wedge)
    assert carried.along > 0
    flat = {abs(carried.along)}

    def across(points):
        return {tuple(c for i, c in enumerate(p, start=1) if i not in flat) for p in points}

    assert across(place.point(p) for p in wedge_corners(wedge)) == across(wedge_corners(carried))
    back = place.inverse().wedge(carried)
    assert (back.box, back.along, set(back.corner)) == (wedge.box, wedge.along, set(wedge.corner))


@given(boxes, boxes)
def test_boxes_meet_where_their_common_box_has_volume(a, b):
    if a.volume and b.volume:
        assert a.meets(b) == (a.cut(b).volume > 0) == b.meets(a)
    assert a.around(b).holds(a)
    assert a.around(b).holds(b)


def test_boxes_that_share_a_face_do_not_meet():
    assert not Box(0, 0, 0, 1, 1, 1).meets(Box(1, 0, 0, 2, 1, 1))
    assert Box(0, 0, 0, 1, 1, 1).cut(Box(1, 0, 0, 2, 1, 1)).volume == 0


@given(boxes, st.sampled_from([1, 2, 3, -1, -2, -3]), st.integers(-50, 50))
def test_growing_moves_one_face(box, axis, by):
    grown = box.grown(axis, by)
    sizes = [g - b for g, b in zip(grown.size, box.size, strict=True)]
    assert sizes[abs(axis) - 1] == by
    assert sum(map(abs, sizes)) == abs(by)
    assert (grown.low(axis) == box.low(axis)) if axis > 0 else (grown.high(axis) == box.high(axis))


def test_the_union_of_boxes_reaches_just_as_far_as_they_do():
    """Worked by hand: each bound is set by another box."""
    boxes = [Box(0, 0, 5, 1, 9, 6), Box(-3, 2, 1, 0, 3, 8), Box(4, -1, 2, 7, 0, 3)]
    assert Box.union(boxes) == Box(-3, -1, 1, 7, 9, 8)
    assert Box.union(boxes[:1]) == boxes[0]


def test_boxes_share_the_volume_of_what_is_in_both() -> None:
    """By hand: 4 × 3 × 2 less what sticks out; boxes that only touch share nothing."""
    assert Box(0, 0, 0, 4, 3, 2).shared(Box(1, -5, 1, 9, 2, 7)) == 3 * 2 * 1
    assert Box(0, 0, 0, 4, 3, 2).shared(Box(4, 0, 0, 8, 3, 2)) == 0
    assert Box(0, 0, 0, 4, 3, 2).shared(Box(-9, -9, -9, -1, -1, 9)) == 0
