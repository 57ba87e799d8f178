"""Cuts alike are one operation at one machine, in an order in which each can be made."""

from dataclasses import replace
from itertools import pairwise

from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.naming import NamedParts
from casewright.api.engine.work.sides import sides_by_part
from casewright.sdk.geometry import Box, Place
from casewright.sdk.model import Part, Sides
from casewright.sdk.model.parts import groove
from casewright.sdk.units import MM, mm

SIDES = Sides("left end", "right end", "front edge", "back edge", "bottom face", "top face")
MADE = Made((), {"bay/one": SIDES, "bay/two": SIDES}, {})
GROOVED = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
}


def shelved(planned, **joint):
    return planned({"space": {"fixed_shelves": 2}}, {**GROOVED, "fixed_joint": joint})


def numbers(plan, action, *cuts):
    return [
        step.number
        for step in plan.steps
        if step.action == action and any(cut in label for piece in step.on for label in piece.cuts for cut in cuts)
    ]


def test_a_mirrored_pair_is_grooved_at_one_setting_from_the_same_named_side(planned):
    plan = shelved(planned, method="housed-groove", depth=5)
    for guest in ("shelf 1", "shelf 2"):
        (one,) = [s for s in plan.steps if s.action == "groove" and any(f"groove for {guest}" in p.cuts for p in s.on)]
        its = [piece for piece in one.on if f"groove for {guest}" in piece.cuts]
        assert {piece.part for piece in its} == {"bay/side-left", "bay/side-right"}
        assert len({piece.against for piece in its}) == 1


def test_two_shelves_set_from_one_end_never_land_on_each_other(planned):
    # 900 high, 2 shelves: each is nearest to its own end, so the two stand at one distance from opposite named ends.
    plan = shelved(planned, method="housed-groove", depth=5)
    found = {}
    for step in plan.steps:
        for piece in step.on:
            if step.action == "groove" and piece.part == "bay/side-left" and "shelf" in piece.cuts[0]:
                found[piece.cuts[0]] = (piece.against, step.setting.fence)
    assert len(found) == len(set(found.values())) == 2


def test_a_spline_slot_is_cut_after_the_mitre_it_lies_in(planned):
    plan = planned({}, {"corner": {"method": "mitre-spline"}, "top_inset": 0, "bottom_inset": 0})
    mitres, slots = numbers(plan, "bevel", "mitre"), numbers(plan, "groove", "spline")
    assert mitres
    assert slots
    assert max(mitres) < min(slots)


def test_biscuit_slots_are_one_operation_a_machine_of_their_own(planned):
    plan = shelved(planned, method="biscuit")
    (one,) = [step for step in plan.steps if step.action == "mortise"]
    assert one.machine == "biscuit-machine"
    assert {piece.part for piece in one.on} == {"bay/side-left", "bay/side-right", "bay/shelf-1", "bay/shelf-2"}


def test_a_stopped_groove_is_routed_and_its_end_is_told(planned):
    plan = shelved(planned, method="housed-groove", depth=5, stop_start=20)
    # 320 deep less the 20 that it is stopped short by.
    grooves = [s for s in plan.steps if s.action == "groove" and "shelf" in s.on[0].cuts[0]]
    assert grooves
    for step in grooves:
        assert step.machine == "router"
        assert step.do.endswith("stopped 300.0 mm in from the back edge, 20.0 mm short of the front edge")


def test_box_fingers_of_drawers_of_any_height_are_one_setting_for_ends_and_one_for_sides(planned):
    drawers = {"material": "case", "bottom": "thin", "front": "case", "corner": {"method": "box-joint"}}
    space = {"front": "drawer", "drawers": 3, "drawer_rule": "graduated"}
    base = {"form": "base", "depth": 600, "space": space, "drawers": drawers}
    plan = planned(base, {"bottom_inset": 0}, shop={"fit": 0.2})
    cut = [step for step in plan.steps if step.action == "tenon"]
    # A socket at an end is wider by what is left of the box's height: passes of one cutter beside each other.
    assert len(cut) == 2
    heights = {part.width for part in plan.parts if part.role == "box-side"}
    assert len(heights) == 3
    for step in cut:
        for piece in step.on:
            fences = sorted(fence for fence, _ in piece.at)
            assert all(a < b for a, b in pairwise(fences))
        # Both ends of a part have the same marks: they are listed once a drawer.
        lines = piece_words(step, NamedParts.of(plan.parts), plan.sides, (str, str))
        assert len(lines) == 3
        assert all(" end down in turn, " in line for line in lines)
    assert not [check for check in plan.checks if check.code == "work-not-carried-out"]


def test_a_spline_slot_is_one_pass_square_to_the_mitre_for_both_parts_of_every_corner(planned):
    """18 thick: the middle of the slot lies 6 up, a third, and so 12 from the tip; it is 35 % of 18 deep."""
    plan = planned({}, {"corner": {"method": "mitre-spline"}, "top_inset": 0, "bottom_inset": 0})
    (slot,) = [step for step in plan.steps if step.action == "groove" and step.setting.tilt_deg == 45.0]
    assert (slot.setting.fence, slot.setting.depth, slot.setting.height) == (12_000_000, 6_000_000, 6_300_000)
    assert slot.setting.cutter == 3_175_000  # 1/8 in
    assert len(slot.on) == 8
    assert {piece.part for piece in slot.on} == {"bay/side-left", "bay/side-right", "bay/top", "bay/bottom"}
    assert not [check for check in plan.checks if check.code == "work-not-carried-out"]


def test_half_blind_dovetails_are_cut_by_a_template_tails_by_their_gaps_and_sockets_at_once(planned):
    drawers = {"material": "case", "bottom": "thin", "front": "case", "corner": {"method": "half-blind-dovetail"}}
    base = {"form": "base", "depth": 600, "space": {"front": "drawer", "drawers": 1}, "drawers": drawers}
    plan = planned(base, {"bottom_inset": 0})
    cut = [step for step in plan.steps if step.action == "dovetail"]
    # The gaps between tails, the half gaps at both edges, and all sockets: no slab of them is set alone.
    assert len(cut) == 3
    assert all("dovetail template" in step.do for step in cut)
    assert len({plan_side(plan, piece) for step in cut for piece in step.on}) == 1  # tails and sockets from one edge
    assert not [check for check in plan.checks if check.code == "work-not-carried-out"]


def plan_side(plan, piece):
    return sides_by_part(plan.parts)[piece.part][piece.against]


def board(key, at):
    """Return a board 600 × 300 × 18 with a groove 18.2 wide and 6 deep along it, `at` mm from its low edge."""
    slot = groove("groove", Box(0, at * MM, 12 * MM, 600 * MM, at * MM + mm("18.2"), 18 * MM), entry=3, run=1)
    return Part(f"bay/{key}", "bay", "shelf", key, 1, "case", 600 * MM, 300 * MM, 18 * MM, "along-length", (), (),
                Place((0, 0, 0), 1, 2, 3), (slot,))  # fmt: skip


def test_the_second_pass_follows_the_first_though_another_groove_begins_between_them():
    # With a cutter of 12 the passes begin at 100 and 106.2, and at 103 and 109.2: by distance they would alternate.
    cut = joint_operations([board("one", 100), board("two", 103)], Tools(cutters=(12 * MM,)), MADE)
    assert [step.setting.fence for step in cut] == [mm("100"), mm("106.2"), mm("103"), mm("109.2")]


def test_a_second_pass_waits_for_all_that_share_it():
    # Both are 100 from the edge; the wider one's second pass begins further on.
    wide = board("two", 100)
    box = wide.features[0].boxes[0]
    wide = replace(wide, features=(groove("groove", replace_high(box, mm("119")), entry=3, run=1),))
    first, *later = joint_operations([board("one", 100), wide], Tools(cutters=(12 * MM,)), MADE)
    assert len(first.on) == 2
    assert [step.setting.fence for step in later] == [mm("106.2"), mm("107")]


def replace_high(box, far):
    return Box(box.x0, box.y0, box.z0, box.x1, far, box.z1)
