"""Cuts alike are one operation at one machine, in an order in which each can be made."""

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
        (one,) = [s for s in plan.steps if s.action == "groove" and f"groove for {guest}" in s.on[0].cuts]
        assert {piece.part for piece in one.on} == {"bay/side-left", "bay/side-right"}
        assert len({piece.against for piece in one.on}) == 1


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


def test_box_fingers_are_one_setting_a_part_and_width(planned):
    drawers = {"material": "case", "bottom": "thin", "front": "case", "corner": {"method": "box-joint"}}
    base = {"form": "base", "depth": 600, "space": {"front": "drawer", "drawers": 1}, "drawers": drawers}
    plan = planned(base, {"bottom_inset": 0})
    cut = [step for step in plan.steps if step.action == "tenon"]
    # Fingers of the ends, and in the sides the first, the middle and the last: no more settings than those.
    assert 2 <= len(cut) <= 4
    assert all(len(piece.at) >= 1 for step in cut for piece in step.on)
