"""Doors from openings, worked by hand. Bare case opening: 764 × 864 mm."""

import pytest
from casewright.api.engine.work.naming import short_title
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


def test_each_edge_laps_as_its_space_says(planned):
    # Two bays of 373 beside a divider of 18: outer edges lap 15 of 18, those at the divider 7.5, so that 3 are left
    # between the doors; above and below as all doors, 10. Each is 15 + 373 + 7.5 wide and 10 + 864 + 10 high.
    bays = [{"front": "door", "overlays": {"left": 15, "right": 7.5}},
            {"front": "door", "hinge_side": "right", "overlays": {"left": 7.5, "right": 15}}]  # fmt: skip
    plan = planned({"space": {"bays": bays}, "doors": {**SLAB, "overlay": 10}}, PLAIN)
    left, right = plan.doors
    assert {(one.width, one.height) for one in plan.doors} == {(mm("395.5"), mm(884))}
    assert (left.at[0], left.at[2]) == (mm(3), mm(8))
    assert right.at[0] - left.at[0] - left.width == mm(3)
    assert right.at[0] + right.width == mm(797)
    slab = next(part for part in plan.parts if part.id == "bay/door-1/slab")
    assert (slab.name, short_title(slab)) == ("door 1", "door 1")
    assert {term.label: term.nm for term in slab.why_width if "overlay" in term.label} == {
        "overlay left": mm(15), "overlay right": mm("7.5"),
    }  # fmt: skip
    # A full lap of 15 wants the straight arm, 14 + 5 less a plate of 3 and 1 by its own adjustment.
    assert all("straight arm" in line.name for line in plan.hardware if line.item == "cup-35")


def test_half_laps_take_the_cranked_arm(planned):
    # Hinged at the divider: 7.5 is the half-cranked arm's 4.5 + 5 less a plate of 3 and 1 by its adjustment.
    bays = [{"front": "door", "hinge_side": "right", "overlays": {"right": "7.5 mm", "left": 15}}, {}]
    plan = planned({"space": {"bays": bays}, "doors": {**SLAB, "overlay": 10}}, PLAIN)
    (line,) = [line for line in plan.hardware if line.item == "cup-35"]
    assert "half-cranked arm" in line.name


@pytest.mark.parametrize("edge", ["top", "bottom"])
def test_an_edge_above_or_below_laps_by_itself(planned, edge):
    space = {"front": "door", "overlays": {edge: 18}}
    (leaf,) = planned({"space": space, "doors": {**SLAB, "overlay": 10}}, PLAIN).doors
    assert (leaf.width, leaf.height) == (mm(784), mm(864 + 10 + 18))
    assert leaf.at[2] == mm(0 if edge == "bottom" else 8)


def test_inset_doors_have_no_overlays(planned):
    space = {"front": "door", "overlays": {"left": 5}}
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": space, "doors": {**SLAB, "hang": "inset"}}, PLAIN)
    assert caught.value.problems[0].pointer == "/cabinets/0/space/overlays"
