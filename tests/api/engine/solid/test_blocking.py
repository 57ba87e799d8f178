"""Which parts can leave: puzzles whose free sets were found by searching all subsets by hand, and a theorem on boxes.

Puzzles P1 to P5 and the property of boxes: worked out on paper (own derivation), sizes in whole units.
"""

import random

from casewright.api.engine.solid.blocking import blocking
from casewright.api.engine.solid.cells import cells
from casewright.sdk.geometry import Box, Wedge

NAMES = {1: "+x", -1: "-x", 2: "+y", -2: "-y", 3: "+z", -3: "-z"}


def box(text):
    """Read `x0-x1,y0-y1,z0-z1`; a number below zero stands in brackets."""
    sides = []
    for span in text.split(","):
        low, _, high = span.replace("(-", "m").replace(")", "").rpartition("-")
        sides.append((int(low.replace("m", "-")), int(high)))
    (x0, x1), (y0, y1), (z0, z1) = sides
    return Box(x0, y0, z0, x1, y1, z1)


def solid(wood, waste=""):
    """Read boxes of wood less boxes of waste, each list parted by `;`."""
    return cells([box(b) for b in wood.split("; ")], [box(b) for b in waste.split("; ") if b])


def mirrored(parts, about, axis):
    out = []
    for cell in parts:
        low, high = list(cell.box[:3]), list(cell.box[3:])
        low[axis], high[axis] = about - high[axis], about - low[axis]
        out.append(type(cell)(Box(*low, *high)))
    return tuple(out)


def ways(parts, *staying):
    """Return the free sets as text: the parts' names joined, and every way each set can go."""
    found = {}
    for leave in blocking(parts).free(staying or parts):
        found.setdefault("".join(sorted(leave.parts)), set()).add(NAMES[leave.way])
    return found


LEFT = solid("0-2,0-10,0-20", "1-2,8-9,0-20")
CAPTURED = {
    "L": LEFT,
    "R": mirrored(LEFT, 20, 0),
    "T": solid("2-18,0-10,18-20", "2-18,8-9,18-19"),
    "B": mirrored(solid("2-18,0-10,18-20", "2-18,8-9,18-19"), 20, 2),
    "K": solid("1-19,8-9,1-19"),
}
RING = solid("0-9,0-9,3-6", "3-6,3-6,3-6")
LOCKED = {"A": RING, "B": solid("3-6,3-6,3-6; 2-7,2-7,0-3; 2-7,2-7,6-9")}
_WALLS = "0-6,(-1)-0,0-7; 0-6,3-4,0-7"
TWO_LEGS = {
    "A": solid(f"0-6,0-3,0-1; 0-1,0-3,1-5; 1-3,0-3,4-5; 5-6,0-3,1-3; {_WALLS}"),
    "B": solid("1-3,0-3,1-3"),
}
_SLOTS, _HIGH = "0-12,5-6,2-3; 0-12,4-5,1-4", "0-12,5-6,10-11; 0-12,4-5,9-12"
IN_PAIRS = {
    "C": solid("0-12,0-6,0-8", f"{_SLOTS}; 4-8,1-3,6-8"),
    "D": solid(f"0-12,6-12,0-8; {_SLOTS}", "4-8,8-10,6-8"),
    "P": solid("0-12,0-6,8-14; 4-8,1-3,6-8", _HIGH),
    "Q": solid(f"0-12,6-12,8-14; {_HIGH}; 4-8,8-10,6-8"),
}


def test_a_back_captured_in_four_grooves_goes_in_before_the_last_member():
    assert ways(CAPTURED) == {"L": {"-x", "+z", "-z"}, "R": {"+x", "+z", "-z"}, "T": {"+z"}, "B": {"-z"}}
    for gone, way in (("L", "-x"), ("R", "+x"), ("T", "+z"), ("B", "-z")):
        assert ways(CAPTURED, *sorted(set(CAPTURED) - {gone}))["K"] == {way}


def test_a_shelf_in_a_through_dado_slides_in_from_the_front():
    left = solid("0-2,0-10,0-20", "1-2,8-9,0-20; 1-2,0-8,9-11")
    parts = {"L": left, "R": mirrored(left, 20, 0), "K": solid("1-19,8-9,0-20"), "S": solid("1-19,0-8,9-11")}
    assert ways(parts)["S"] == {"-y"}


def test_a_shelf_in_stopped_dados_waits_for_a_side():
    left = solid("0-2,0-10,0-20", "1-2,8-9,0-20; 1-2,1-8,9-11")
    shelf = solid("1-19,1-8,9-11; 2-18,0-1,9-11")
    parts = {"L": left, "R": mirrored(left, 20, 0), "K": solid("1-19,8-9,0-20"), "S": shelf}
    assert "S" not in ways(parts)
    assert "S" not in ways(parts, "L", "R", "S")
    assert ways(parts, "R", "K", "S")["S"] == {"-x"}
    assert ways(parts, "L", "K", "S")["S"] == {"+x"}


STILE = solid("0-4,0-3,0-30", "3-4,1-2,2-28")
RAIL = solid("4-16,0-3,26-30; 3-4,1-2,27-28; 16-17,1-2,27-28", "4-16,1-2,26-27")
DOOR = {
    "U": STILE,
    "V": mirrored(STILE, 20, 0),
    "N": RAIL,
    "M": mirrored(RAIL, 30, 2),
    "W": solid("3-17,1-2,4-26; 4-16,1-2,26-27; 4-16,1-2,3-4"),
}


def test_the_panel_of_a_door_goes_in_before_the_last_stile():
    assert ways(DOOR) == {"U": {"-x"}, "V": {"+x"}}
    after = ways(DOOR, "V", "N", "M", "W")
    assert {name: after[name] for name in "MNWV"} == {"M": {"-x"}, "N": {"-x"}, "W": {"-x"}, "V": {"+x"}}


def test_parts_locked_in_one_another_are_found_locked():
    assert ways(LOCKED) == {}


def test_no_single_way_where_two_legs_are_needed():
    assert ways(TWO_LEGS) == {}


def test_parts_that_leave_only_in_pairs():
    assert ways(IN_PAIRS) == {"PQ": {"+z"}, "CD": {"-z"}, "CP": {"+x", "-x"}, "DQ": {"+x", "-x"}}


def dissected(draw, whole, depth):
    """Return the boxes that random straight cuts make of one."""
    axis = draw.choice((1, 2, 3))
    if depth == 0 or whole.high(axis) - whole.low(axis) < 2:
        return [whole]
    at = draw.randint(whole.low(axis) + 1, whole.high(axis) - 1)
    low, high = whole.grown(axis, at - whole.high(axis)), whole.grown(-axis, whole.low(axis) - at)
    return dissected(draw, low, depth - 1) + dissected(draw, high, depth - 1)


def test_boxes_that_do_not_overlap_come_off_one_by_one_every_way(full):
    """A cycle along z would need z1 > z2 > ... > z1 (own derivation)."""
    draw = random.Random(20261125)
    for _ in range(300 if full else 60):
        boxes = dissected(draw, Box(0, 0, 0, 30, 30, 30), 4)
        parts = {str(i): cells([b], []) for i, b in enumerate(boxes)}
        graph = blocking(parts)
        for way in (1, -1, 2, -2, 3, -3):
            staying = set(parts)
            while len(staying) > 1:
                singles = [leave.parts for leave in graph.free(staying) if leave.way == way and len(leave.parts) == 1]
                assert singles
                staying -= singles[0]


def test_a_dovetail_leaves_along_its_slot_only():
    """A tail 10 wide at its root and 14 at its end, 4 deep, in a slot that runs along y (trade geometry)."""
    flanks = [Wedge(Box(3, 0, 0, 5, 20, 4), 2, (-1, -3)), Wedge(Box(15, 0, 0, 17, 20, 4), 2, (1, -3))]
    tail = cells([Box(3, 0, -10, 17, 20, 4)], [Box(3, 0, -10, 5, 20, 0), Box(15, 0, -10, 17, 20, 0)], flanks)
    left, right = Wedge(Box(3, 0, 0, 5, 20, 4), 2, (1, 3)), Wedge(Box(15, 0, 0, 17, 20, 4), 2, (-1, 3))
    host = cells([Box(0, 0, 0, 20, 20, 9)], [Box(5, 0, 0, 15, 20, 4)], [left, right])
    assert ways({"tail": tail, "host": host}) == {"tail": {"+y", "-y"}, "host": {"+y", "-y"}}
    plain = cells([Box(5, 0, -10, 15, 20, 4)], [])
    assert "-z" in ways({"tail": plain, "host": host})["tail"]
