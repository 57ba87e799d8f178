"""Doors that swing: a fixed axis by Pythagoras, whole triangles where they come out whole."""

from math import hypot

import pytest
from casewright.api.engine.judge.swing import overreach
from casewright.sdk.units import mm
from hypothesis import given
from hypothesis import strategies as st

SLAB = {"style": "slab", "material": "case"}


@pytest.mark.parametrize(("w", "t", "past"), [(4, 3, 1), (12, 5, 1), (15, 8, 2), (24, 7, 1), (84, 13, 1)])
def test_whole_triangles(w, t, past):
    assert overreach(w, t) == past
    assert overreach(mm(w), mm(t)) == mm(past)


@given(st.integers(1, mm(2000)), st.integers(1, mm(60)))
def test_the_corner_runs_on_its_circle_rounded_outward(w, t):
    past = overreach(w, t)
    assert (w + past) ** 2 >= w * w + t * t > (w + past - 1) ** 2
    assert past == pytest.approx(hypot(w, t) - w, abs=2)


def pair(planned, gap, width=800):
    doors = {**SLAB, "overlay": 10, "meeting_gap": gap}
    plan = planned({"width": width, "space": {"front": "door-pair"}, "doors": doors}, {"back": None})
    (check,) = [c for c in plan.checks if c.code == "pair-gap"]
    return check


def test_a_pair_is_judged_by_its_gap_and_the_reserve(planned):
    # Doors about 391 × 18: each passes its place by 18² / (2 × 391) ≈ 0.414 mm, so the pair needs 0.83.
    # Side adjustment of 2 mm at each door is the reserve.
    assert pair(planned, 1).level == "note"
    assert pair(planned, "0.9").level == "note"
    assert pair(planned, "0.7").level == "caution"
    assert pair(planned, "0.1").level == "caution"
    assert pair(planned, 0).level == "stop"
    needed = pair(planned, 1).limit
    w = (mm(784) - mm(1)) // 2
    assert needed == pytest.approx(2 * (hypot(w, mm(18)) - w), abs=3)


def test_the_reserve_has_an_end(planned):
    # 45 mm stock in doors 91 wide: each passes by √(91² + 45²) − 91 ≈ 10.5 mm; 21 is more than 0.5 + 4.
    doors = {"style": "slab", "material": "frame", "overlay": 10, "meeting_gap": 5}
    materials = {"frame": {"kind": "board", "stuff": "red-oak", "thickness": 45}}
    plan = planned({"width": 203, "space": {"front": "door-pair"}, "doors": doors}, {"back": None}, materials=materials)
    assert [c.level for c in plan.checks if c.code == "pair-gap"] == ["stop"]


@pytest.mark.parametrize(
    ("gap", "level"), [(0, "stop"), ("0.5", "caution"), ("0.9", "caution"), (1, None), (3, None)]
)  # hinge data: at least 1 mm beside a door up to 22 mm thick (hinge-planning-pages)
def test_an_inset_door_needs_its_gap(planned, codes, gap, level):
    doors = {**SLAB, "hang": "inset", "gap": gap}
    plan = planned({"space": {"front": "door"}, "doors": doors}, {"back": None})
    assert [found for found, *_ in codes(plan, "inset-gap")] == ([level] if level else [])


def neighbours(planned, codes, hands, overlay):
    space = {"bays": [{"front": "door", "hinge_side": hand} for hand in hands]}
    plan = planned({"space": space, "doors": {**SLAB, "overlay": overlay}}, {"back": None})
    return [found for found, *_ in codes(plan, "doors-too-close")]


def test_neighbours_over_one_divider_need_a_gap(planned, codes):
    # An 18 mm divider less twice the overlay is the gap.
    assert neighbours(planned, codes, ("right", "left"), "8.5") == []  # 1 mm, hinge to hinge
    assert neighbours(planned, codes, ("right", "left"), "8.6") == ["caution"]
    assert neighbours(planned, codes, ("right", "left"), 9) == ["stop"]
    assert neighbours(planned, codes, ("left", "right"), "8.5") == []  # free edges: 2 × 0.42 needed
    assert neighbours(planned, codes, ("left", "right"), "8.7") == ["caution"]  # 0.6
    assert neighbours(planned, codes, ("left", "left"), "8.5") == ["caution"]  # 1 and 0.42
    assert neighbours(planned, codes, ("left", "left"), 8) == []


def test_doors_over_one_another_must_not_meet(planned, codes):
    space = {"tiers": [{"front": "door"}, {"front": "door"}]}
    for overlay, levels in ((8, []), (9, ["stop"]), (10, ["stop"])):
        plan = planned({"space": space, "doors": {**SLAB, "overlay": overlay}}, {"back": None})
        assert [found for found, *_ in codes(plan, "doors-too-close")] == levels


def test_a_door_past_the_cabinet_is_told(planned, codes):
    for overlay, named in ((18, False), (19, True)):
        plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "overlay": overlay}}, {"back": None})
        assert bool(codes(plan, "door-past-cabinet")) is named
