"""Doors from openings, worked by hand. Bare case opening: 764 × 864 mm."""

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import inches, mm

SLAB = {"style": "slab", "material": "case"}
PLAIN = {"back": None}


def door(plan, number):
    return plan.doors[number - 1]


def test_an_overlay_door(planned):
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "overlay": 10, "stand_off": 2}}, PLAIN)
    (leaf,) = plan.doors
    assert (leaf.width, leaf.height) == (mm(784), mm(884))
    assert leaf.at == (mm(8), -mm(20), mm(8))


def test_an_inset_door(planned):
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "hang": "inset", "gap": 3}}, PLAIN)
    (leaf,) = plan.doors
    assert (leaf.width, leaf.height) == (mm(758), mm(858))
    assert leaf.at == (mm(21), 0, mm(21))


def test_a_pair_shares_the_opening_and_its_odd_nanometre_goes_to_the_gap(planned):
    doors = {**SLAB, "overlay": 10, "meeting_gap": "3.000001"}
    plan = planned({"space": {"front": "door-pair"}, "doors": doors}, PLAIN)
    left, right = plan.doors
    assert left.width == right.width == (mm(784) - 3_000_001) // 2
    assert right.at[0] - (left.at[0] + left.width) == 3_000_002
    assert right.at[0] + right.width == mm(792)
    assert (left.hinge_side, right.hinge_side) == ("left", "right")


def test_an_inset_door_in_a_frame_lies_flush_with_it(planned):
    cabinet = {
        "space": {"front": "door"},
        "face_frame": {"material": "frame"},
        "doors": {**SLAB, "hang": "inset", "gap": 3},
    }
    plan = planned(cabinet, PLAIN)
    (leaf,) = plan.doors
    assert leaf.at[1] == -mm(19)
    assert leaf.width == mm(800) - 2 * mm("38.1") - mm(6)


def test_doors_of_equal_openings_are_alike(planned):
    plan = planned({"width": 1000, "space": {"bays": [{"front": "door"}] * 3}, "doors": {**SLAB, "overlay": 5}}, PLAIN)
    assert len({(d.width, d.height) for d in plan.doors}) == 1


def test_each_open_side_is_hung_as_asked(planned):
    space = {"bays": [{"front": "door", "hinge_side": "right"}, {"front": "open"}, {"front": "door"}]}
    plan = planned({"width": 1200, "space": space, "doors": {**SLAB, "overlay": 5}}, PLAIN)
    assert [d.hinge_side for d in plan.doors] == ["right", "left"]


@pytest.mark.parametrize(
    ("space", "doors", "pointer"),
    [
        ({"front": "door-pair"}, {"hang": "inset", "gap": 1, "meeting_gap": 762}, "/doors/meeting_gap"),
        ({"front": "door"}, {"hang": "inset", "gap": 400}, "/doors"),
    ],
)
def test_a_door_without_size_is_refused(planned, space, doors, pointer):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": space, "doors": {**SLAB, **doors}}, PLAIN)
    assert caught.value.problems[0].pointer == f"/cabinets/0{pointer}"


def test_an_overlay_pair_over_a_face_frame(planned):
    # Frame 1 3/4 in all round a 28 × 33 in case: the opening is 28 − 3 1/2 = 24 1/2 by 33 − 3 1/2 = 29 1/2. Overlay
    # 1/2 and a gap of 1/8: each door is (24 1/2 + 1 − 1/8) / 2 = 12 11/16 by 29 1/2 + 1 = 30 1/2; the left one
    # starts at 1 3/4 − 1/2 = 1 1/4, the right one ends at 28 − 1 1/4 = 26 3/4.
    cabinet = {
        "width": "28 in", "height": "33 in", "space": {"front": "door-pair"},
        "face_frame": {"material": "frame", "stile": "1 3/4 in", "rail": "1 3/4 in"},
        "doors": {**SLAB, "overlay": "1/2 in", "meeting_gap": "1/8 in"},
    }  # fmt: skip
    left, right = planned(cabinet, PLAIN).doors
    assert {(d.width, d.height) for d in (left, right)} == {(inches("12 11/16"), inches("30 1/2"))}
    assert left.at[0] == inches("1 1/4")
    assert right.at[0] - left.at[0] - left.width == inches("1/8")
    assert right.at[0] + right.width == inches("26 3/4")
