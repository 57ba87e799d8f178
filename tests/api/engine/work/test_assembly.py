"""The order parts go together in, on the puzzles of test_blocking, whose answers were worked out on paper."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "solid"))

from assembly_walk import order_is_clear
from casewright.api.engine.work.assembly import AssemblyOrder, Insertion, Leg, assembly_order
from test_blocking import CAPTURED, DOOR, IN_PAIRS, LOCKED, TWO_LEGS, mirrored, solid

JOINTS = [frozenset(pair) for pair in ("LT", "LB", "RT", "RB", "LK", "RK", "TK", "BK")]


def test_a_captured_back_goes_in_before_the_last_member():
    order = assembly_order(CAPTURED, JOINTS)
    inside = [order.first, *(part for insertion in order.insertions for part in insertion.parts)]
    assert sorted(inside) == sorted(CAPTURED)
    assert inside.index("K") < len(inside) - 1
    assert order_is_clear(CAPTURED, order)


def test_a_forgotten_panel_is_seen():
    """With all four members on, the panel has no way in: an order that leaves it for the end is not clear."""
    members = [Insertion((name,), (Leg(way),)) for name, way in (("T", -3), ("R", -1), ("L", 1))]
    for way in (1, -1, 2, -2, 3, -3):
        late = AssemblyOrder("B", (*members, Insertion(("K",), (Leg(way),))))
        assert not order_is_clear(CAPTURED, late)


def test_a_case_with_a_captured_back_is_put_together_round_it_lying_flat():
    """Common practice: 10 deep, 20 wide and 20 high, it lies lowest on its back, and each member is pushed on flat."""
    order = assembly_order(CAPTURED, JOINTS)
    assert order.first == "K"
    assert {abs(leg.way) for insertion in order.insertions for leg in insertion.legs} <= {1, 3}


def test_a_back_that_can_come_last_comes_last():
    """Set in a rabbet from behind, it is no base: the case is put together without it."""
    side = solid("0-2,0-10,0-20", "1-2,8-10,0-20; 1-2,0-8,2-4")
    parts = {
        "L": side, "R": mirrored(side, 20, 0), "B": solid("1-19,0-8,2-4"),
        "T": solid("2-18,0-8,18-20"), "K": solid("1-19,8-10,0-20"),
    }  # fmt: skip
    joints = [frozenset(pair) for pair in ("LT", "LB", "RT", "RB", "LK", "RK")]
    assert assembly_order(parts, joints).first != "K"


def test_a_door_is_closed_by_a_stile():
    """The last in is a stile: with both on, neither rail nor panel has a way."""
    order = assembly_order(DOOR, [frozenset(pair) for pair in ("UN", "UM", "VN", "VM")])
    assert order.insertions[-1].parts in {("U",), ("V",)}
    assert order.locked == ()
    assert order_is_clear(DOOR, order)


def test_a_move_of_two_legs_is_found():
    order = assembly_order(TWO_LEGS)
    assert order.locked == ()
    (insertion,) = order.insertions
    # Out: 2 to the right, then up (worked out on paper); in: down, then 2 to the left. Either part may be the one
    # that is moved; A moves the opposite ways.
    ways = (Leg(-3), Leg(-1, 2)) if insertion.parts == ("B",) else (Leg(3), Leg(1, 2))
    assert insertion.legs == ways
    assert order_is_clear(TWO_LEGS, order)


def test_parts_that_leave_only_in_pairs_are_put_together_in_pairs():
    order = assembly_order(IN_PAIRS)
    assert order_is_clear(IN_PAIRS, order)
    assert len(order.insertions[-1].parts) == 2


def test_locked_parts_are_named():
    assert assembly_order(LOCKED).locked == ("A", "B")


def case_with_undercut_shelf():
    """Return a case with top and bottom housed in its sides and a shelf undercut in both, stopped at the front."""
    slots = "1-2,1-10,9-11; 0-1,1-10,8-12"
    left = solid("(-2)-2,0-10,0-20", f"1-2,8-9,3-17; 1-2,0-10,16-18; 1-2,0-10,2-4; {slots}")
    return {
        "L": left,
        "R": mirrored(left, 20, 0),
        "T": solid("1-19,0-10,16-18", "1-19,8-9,16-17"),
        "B": solid("1-19,0-10,2-4", "1-19,8-9,3-4"),
        "S": solid("1-19,1-8,9-11; 0-1,1-8,8-12; 19-20,1-8,8-12"),
    }


def test_a_dovetail_behind_a_captured_back_is_impossible():
    parts = case_with_undercut_shelf()
    without = assembly_order(parts)
    assert without.locked == ()
    assert order_is_clear(parts, without)
    parts["K"] = solid("1-19,8-9,3-17")
    assert assembly_order(parts).locked == ("B", "K", "L", "R", "S", "T")
