"""Exact room against an independent solid kernel: manifold3d (general-purpose library), in mm."""

import numpy as np
import pytest
from casewright.api.engine.solid.solids import (
    Solid,
    common_volume,
    disjoint,
    left_over,
    moment_centre,
    share_when_moved,
)
from casewright.sdk.geometry import Box, Cylinder, Wedge
from hypothesis import given
from hypothesis import strategies as st
from kernel import _box, _wedge

MM = 1_000_000
grid = st.integers(0, 12).map(lambda n: n * MM)


def between(corner, other):
    return Box(*map(min, corner, other), *map(max, corner, other))


boxes = st.builds(between, st.tuples(grid, grid, grid), st.tuples(grid, grid, grid)).filter(lambda b: b.volume > 0)


def corner(along, first, second):
    u, v = [a for a in (1, 2, 3) if a != along]
    return (u if first else -u, v if second else -v)


wedges = st.builds(
    lambda box, along, first, second: Wedge(box, along, corner(along, first, second)),
    boxes,
    st.sampled_from([1, 2, 3]),
    st.booleans(),
    st.booleans(),
)


def kernel(wood, waste, slants):
    from manifold3d import Manifold

    solid = Manifold()
    for box in wood:
        solid = solid + _box(box)
    for box in waste:
        solid = solid - _box(box)
    for wedge in slants:
        solid = solid - _wedge(wedge)
    return solid


@given(boxes, st.lists(boxes, max_size=6))
def test_boxes_less_boxes(box, waste):
    assert float(left_over(box, waste, [])) / 1e18 == pytest.approx(
        kernel([box], waste, []).volume(), rel=1e-9, abs=1e-6
    )


@given(boxes, st.lists(boxes, max_size=3), st.sampled_from([1, 2, 3]), st.data())
def test_boxes_less_boxes_and_slants_along_one_axis(box, waste, along, data):
    slants = data.draw(
        st.lists(
            st.builds(lambda b, p, q: Wedge(b, along, corner(along, p, q)), boxes, st.booleans(), st.booleans()),
            max_size=2,
        )
    )
    got = float(left_over(box, waste, slants)) / 1e18
    assert got == pytest.approx(kernel([box], waste, slants).volume(), rel=1e-6, abs=1e-4)


@given(boxes, st.lists(boxes, max_size=2), st.lists(wedges, max_size=3))
def test_slants_along_several_axes(box, waste, slants):
    got = float(left_over(box, waste, slants)) / 1e18
    assert got == pytest.approx(kernel([box], waste, slants).volume(), rel=1e-6, abs=1e-4)


def test_two_slants_that_cross_by_hand():
    # A cube of side 6 less the half under x + z < 6 and the half under y + z < 6 (right angles at the low ends)
    # keeps where z > 6 − min(x, y): ∫∫ min(x, y) dx dy over 6 × 6 = 6³ / 3 = 72.
    cube = Box(0, 0, 0, 6, 6, 6)
    assert left_over(cube, [], [Wedge(cube, 2, (-1, -3)), Wedge(cube, 1, (-2, -3))]) == 72


@given(boxes, st.lists(boxes, max_size=3), boxes, st.lists(boxes, max_size=3))
def test_common_room_of_two_parts(a, a_waste, b, b_waste):
    first = Solid("a", (a,), tuple(a_waste), (), ())
    second = Solid("b", (b,), tuple(b_waste), (), ())
    wanted = (kernel([a], a_waste, []) ^ kernel([b], b_waste, [])).volume()
    assert float(common_volume(first, second)) / 1e18 == pytest.approx(wanted, rel=1e-9, abs=1e-6)
    assert common_volume(first, second) == common_volume(second, first)


parts = st.builds(
    lambda box, waste, slants: Solid("p", (box,), tuple(waste), tuple(slants), ()),
    boxes,
    st.lists(boxes, max_size=3),
    st.lists(wedges, max_size=1),
)


@given(parts, parts, st.sampled_from([1, 2, 3, -1, -2, -3]), st.integers(0, 6))
def test_parts_share_room_when_moved_where_the_kernel_finds_some(first, second, axis, steps):
    step = [0, 0, 0]
    step[abs(axis) - 1] = steps if axis > 0 else -steps
    moved = kernel(second.wood, second.waste, second.wedges).translate(step)
    wanted = (kernel(first.wood, first.waste, first.wedges) ^ moved).volume()
    assert share_when_moved(first, second, axis, steps * MM) == (wanted > 1e-6)


@given(st.lists(boxes, max_size=7))
def test_disjoint_boxes_fill_the_same_room(these):
    made = disjoint(these)
    assert not any(a.meets(b) for i, a in enumerate(made) for b in made[i + 1 :])
    cells = {
        (x, y, z)
        for b in these
        for x in range(b.x0, b.x1, MM)
        for y in range(b.y0, b.y1, MM)
        for z in range(b.z0, b.z1, MM)
    }
    assert sum(b.volume for b in made) == len(cells) * MM**3


def test_a_touch_is_no_clash_and_a_nanometre_is():
    host = Solid("h", (Box(0, 0, 0, 10, 10, 10),), (), (), ())
    guest = Solid("g", (Box(10, 0, 0, 20, 10, 10),), (), (), ())
    assert common_volume(host, guest) == 0
    assert not share_when_moved(host, guest, -1, 0)
    assert share_when_moved(host, guest, -1, 1)
    assert common_volume(host, Solid("g", (Box(9, 0, 0, 19, 10, 10),), (), (), ())) == 100


def test_a_groove_of_the_check_list():
    # 600 × 300 × 18 less 18 × 300 × 6: 3 207 600 mm³ (manifold3d's own figure)
    groove = Box(100 * MM, 0, 12 * MM, 118 * MM, 300 * MM, 18 * MM)
    assert moment_centre(Box(0, 0, 0, 600 * MM, 300 * MM, 18 * MM), [groove])[0] == 3_207_600.0


def test_a_hole_is_a_cylinder():
    # 35 mm by 12.5 mm: π × 17.5² × 12.5 = 12 026.409 mm³
    block = Box(0, 0, 0, 100 * MM, 100 * MM, 20 * MM)
    bore = Cylinder((50 * MM, 50 * MM, 0), 3, 35 * MM, 12_500_000)
    assert moment_centre(block, holes=[bore])[0] == pytest.approx(200_000 - 12_026.41, abs=0.01)


@given(boxes, st.lists(boxes, max_size=4))
def test_the_centroid_is_the_kernels(box, waste):
    volume, centre = moment_centre(box, waste)
    solid = kernel([box], waste, [])
    assert volume == pytest.approx(solid.volume(), rel=1e-9, abs=1e-6)
    if volume < 1e-6:
        return
    mesh = solid.to_mesh()
    corners = mesh.vert_properties[:, :3].astype(float)[mesh.tri_verts]
    six = np.linalg.det(corners)  # six times the volume of each tetrahedron from the origin to a face
    wanted = (six[:, None] * corners.sum(axis=1)).sum(axis=0) / 24 / solid.volume()
    assert centre == pytest.approx(tuple(wanted), abs=1e-4)
