"""Settings: what must be the same for two cuts to be made without moving fence, stop or bit."""

from fractions import Fraction

import pytest
from casewright.api.engine.work.settings import cut_key, describe, shared_keys, waits_for_door
from casewright.sdk.geometry import Box, Cylinder, Place
from casewright.sdk.model import Feature, Part, Purpose, Stage, Term, groove, hole, mortise, rabbet
from casewright.sdk.units import mm, tape_text


def board(length=600, width=300, thickness=18):
    return Part(
        "bay/board", "bay", "shelf", "board", 1, "case", mm(length), mm(width), mm(thickness), "along-length",
        (Term("x", mm(length)),), (Term("x", mm(width)),), Place((0, 0, 0), 1, 2, 3),
    )  # fmt: skip


def across(at, wide=18, deep=6, label="groove for shelf"):
    return groove(label, Box(mm(at), 0, mm(18 - deep), mm(at + wide), mm(300), mm(18)), 3, 2)


def test_cuts_as_far_from_either_end_share_a_setting():
    # 600 long: from 100 to 118, and from 482 to 500, are both 100 from the nearer end.
    assert cut_key(board(), across(100)) == cut_key(board(), across(482, label="groove for another"))
    assert cut_key(board(), across(100)) != cut_key(board(), across(481))


@pytest.mark.parametrize("other", [across(100, wide=17), across(100, deep=7), across(101)])
def test_another_width_depth_or_place_is_another_setting(other):
    assert cut_key(board(), across(100)) != cut_key(board(), other)


def test_parts_of_another_length_share_a_stop():
    assert cut_key(board(), across(100)) == cut_key(board(length=900), across(100))


def test_a_remainder_of_an_equal_division_makes_no_second_setting():
    def cut(nm):
        return cut_key(board(), groove("g", Box(nm, 0, mm(12), nm + mm(18), mm(300), mm(18)), 3, 2))

    one, near, other = cut(mm(100)), cut(mm(100) + 2), cut(mm(100) + 1000)
    shared = shared_keys([near, one, other])
    assert shared[one] == shared[near] == one
    assert shared[other] == other


def test_a_rabbet_is_not_a_groove():
    box = Box(0, 0, mm(12), mm(18), mm(300), mm(18))
    assert cut_key(board(), rabbet("r", box, 3, 2)) != cut_key(board(), groove("g", box, 3, 2))


def test_holes_share_bit_and_depth_whatever_their_neighbour():
    def drilled(label, depth=10, diameter=8):
        return hole(label, Cylinder((0, 0, mm(18)), -3, mm(diameter), mm(depth)))

    first = cut_key(board(), drilled("dowel holes, side to top"))
    assert first == cut_key(board(), drilled("dowel holes, side to bottom"))
    assert first != cut_key(board(), drilled("dowel holes, side to top", depth=11))
    assert first != cut_key(board(), drilled("dowel holes, side to top", diameter=6))
    assert first != cut_key(board(), drilled("shelf pins, front row"))


def test_mortises_share_a_fence_from_the_nearer_face():
    def cut(z0, x=100, label="mortise for rail"):
        return mortise(label, Box(mm(x), mm(280), mm(z0), mm(x + 20), mm(300), mm(z0 + 6)), 2)

    assert cut_key(board(), cut(6)) == cut_key(board(), cut(6, x=300, label="mortise for another"))
    assert cut_key(board(), cut(4)) == cut_key(board(), cut(8))
    assert cut_key(board(), cut(4)) != cut_key(board(), cut(5))


@pytest.mark.parametrize("label", ["pull", "hinge cups", "as our shop calls it"])
def test_a_bores_purpose_says_that_it_waits_for_the_glued_door_whatever_its_label(label):
    waits = {Purpose.HINGE_CUP, Purpose.PULL}
    for purpose in Purpose:
        cut = hole(label, Cylinder((0, 0, 0), 3, mm(5), mm(10)), purpose=purpose)
        assert cut_key(board(), cut).stage == (Stage.DOORS if purpose in waits else Stage.JOINTS)
        assert waits_for_door(cut) == (purpose in waits)


def test_settings_are_told_in_bench_words():
    def text(nm):
        return tape_text(nm, "mm", Fraction(1, 10))

    do, setting = describe(cut_key(board(), across(482)), text)
    assert do == "Cut grooves 18.0 mm wide and 6.0 mm deep"
    assert setting == "fence 100.0 mm from the nearer end, cutter height 6.0 mm"
    bevel = Feature("bevel", "hook", 3, boxes=(Box(0, 0, 0, 1, 1, 1),), run=1, angle_deg=45.0)
    assert describe(cut_key(board(), bevel), text)[1] == "blade at 45 degrees"
