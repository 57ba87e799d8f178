"""Packing behind the plates of inset doors in a face frame: pieces to cut, worked by hand.

Stiles of 38.1 mm before sides of 18 mm: 20.1 mm are packed. Plates stand 37 mm behind the door's back, which lies 1 mm
before the case; their screws are 32 mm apart.
"""

from itertools import pairwise

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import mm
from kernel import interference

INSET = {"style": "slab", "material": "case", "hang": "inset", "gap": 3, "hinges": 2}
FRAME = {"face_frame": {"material": "frame"}}
PLAIN = {"back": None}


def pieces(plan):
    return [part for part in plan.parts if part.group == "packing"]


def stops(plan):
    return [check.code for check in plan.checks if check.level == "stop"]


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_piece_fills_the_side_out_to_the_stile_behind_each_plate(planned, hand):
    plan = planned({**FRAME, "space": {"front": "door", "hinge_side": hand}, "doors": INSET}, PLAIN)
    packing = pieces(plan)
    (plates,) = [line for line in plan.hardware if line.item == "cup-35-plate"]
    assert len(packing) == len(plates.at) == 2
    for part, (x, y, z) in zip(packing, plates.at, strict=True):
        box = part.place.box(part.blank)
        # From the side's face at 18 (or 782) to the plate's, at 38.1; the case's 18 mm stuff round the plates' line;
        # 16 to each screw and 10 beyond.
        inner = (mm(18), mm("38.1")) if hand == "left" else (mm(800) - mm("38.1"), mm(782))
        assert (box.x0, box.x1) == inner
        assert x in inner
        assert (box.y0, box.y1) == (y - mm(9), y + mm(9))
        assert (box.z0, box.z1) == (z - mm(26), z + mm(26))
        assert (part.length, part.width, part.thickness) == (mm(52), mm("20.1"), mm(18))
    assert stops(plan) == []
    assert plan.dry_fit.clashes == ()
    assert all(seat.seated for seat in plan.dry_fit.seats)


def test_pieces_are_screwed_on_before_the_door_hangs(planned):
    plan = planned({"count": 2, **FRAME, "space": {"front": "door"}, "doors": INSET}, PLAIN)
    assert [part.quantity for part in pieces(plan)] == [2, 2]
    (fixed,) = [step for step in plan.steps if step.do.startswith("Glue and screw 2 × packing")]
    hung = next(step for step in plan.steps if "hang door 1" in step.do)
    assert fixed.number < hung.number
    # No. 8 × 1 1/4 in (31.75) go through 20.1 and 11.65 into 18 of side: the longest that do not come out.
    screws = [line for line in plan.hardware if line.used_for == "bay/packing"]
    assert {line.item for line in screws} == {"screw-8-1-1-4"}
    assert sum(line.quantity for line in screws) == 4
    assert "wood screw No. 8 × 1 1/4 in" in fixed.do


def test_doors_that_need_none_have_none(planned):
    overlay = {**INSET, "hang": "overlay"}
    assert pieces(planned({**FRAME, "space": {"front": "door"}, "doors": overlay}, PLAIN)) == []
    assert pieces(planned({"space": {"front": "door"}, "doors": INSET}, PLAIN)) == []
    # A stile 5 mm wider than its side: thinner than a piece is ripped; the plate's own height is for that.
    narrow = {"face_frame": {"material": "frame", "stile": 23}}
    assert pieces(planned({**narrow, "space": {"front": "door"}, "doors": INSET}, PLAIN)) == []


def test_a_loose_shelf_stands_on_pins_clear_of_the_packing(planned, part_of):
    """A shelf in the middle of the door, where its middle hinge has its piece, stands on another pair of pins."""
    doors = {**INSET, "hinges": 3}
    plan = planned({**FRAME, "space": {"front": "door", "loose_shelves": 1}, "doors": doors}, PLAIN)
    bare = planned(
        {**FRAME, "space": {"front": "door", "loose_shelves": 1}, "doors": {**doors, "hang": "overlay"}}, PLAIN
    )
    shelf, before = (
        part_of(one, "loose-shelf-1").place.box(part_of(one, "loose-shelf-1").blank) for one in (plan, bare)
    )
    boxes = [part.place.box(part.blank) for part in pieces(plan)]
    assert any(box.meets(before) for box in boxes)
    assert not any(box.meets(shelf) for box in boxes)
    assert plan.dry_fit.clashes == ()
    assert interference(plan.parts) == []
    # It lies on its pins, 5 mm thick, and each pin is in a hole that is drilled.
    (pins,) = [line for line in plan.hardware if line.used_for == "bay/loose-shelf-1"]
    assert {z for _, _, z in pins.at} == {shelf.z0 - mm("2.5")}
    side = part_of(plan, "side-left")
    holes = [side.place.cylinder(one).mouth for cut in side.features for one in cut.holes]
    assert {(y, z) for _, y, z in pins.at} <= {(y, z) for _, y, z in holes}


def test_loose_shelves_that_the_packing_leaves_no_pins_for_are_refused_and_the_fix_works(planned):
    """So many as there are rows: those behind the pieces are none, and as many as the refusal names go in."""
    job = {**FRAME, "doors": {**INSET, "hinges": 3}}
    with pytest.raises(NoGeometryError) as caught:
        planned({**job, "space": {"front": "door", "loose_shelves": 20}}, PLAIN)
    (problem,) = caught.value.problems
    assert problem.pointer == "/cabinets/0/space/loose_shelves"
    most = int(problem.fix.split()[2])
    assert 0 < most < 20
    plan = planned({**job, "space": {"front": "door", "loose_shelves": most}}, PLAIN)
    assert plan.dry_fit.clashes == ()


def test_a_loose_shelf_near_a_hinge_without_a_piece_is_noted_and_a_fixed_one_leaves_the_piece_out(planned):
    doors = {**INSET, "hinges": None}
    narrow = {"face_frame": {"material": "frame", "stile": 23}}
    free = planned({**narrow, "space": {"front": "door", "loose_shelves": 8}, "doors": doors}, PLAIN)
    near = [check for check in free.checks if check.code == "hinge-near-shelf"]
    assert {check.level for check in near} == {"caution"}
    assert "set the shelf on other pins" in near[0].message
    (door,) = free.doors
    up = (door.at[2] + door.hinges[0] - mm(18)) / 1e6  # the middle of a plate, over the bottom's upper face
    fixed = planned({**FRAME, "space": {"front": "door", "fixed_shelves": [up]}, "doors": doors}, PLAIN)
    assert fixed.dry_fit.clashes == ()
    assert len(pieces(fixed)) == len(fixed.doors[0].hinges) - 1


def test_pieces_of_hinges_close_together_share_their_wood(planned):
    """Five hinges on a door some 320 mm high: pieces 52 mm high would overlap; each begins where the last one ends.

    To a whole micrometre, less than any saw: what is left between two hinges alike makes pieces alike.
    """
    plan = planned({**FRAME, "height": 400, "space": {"front": "door"}, "doors": {**INSET, "hinges": 5}}, PLAIN)
    boxes = [part.place.box(part.blank) for part in pieces(plan)]
    assert len(boxes) == 5
    assert plan.dry_fit.clashes == ()
    assert all(0 <= upper.z0 - lower.z1 < 1000 for lower, upper in pairwise(boxes))
    assert len({part.length for part in pieces(plan)[1:]}) == 1
