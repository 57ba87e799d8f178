"""Steps read as the person at the machine needs them. Words by common practice, no source; sizes by hand."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from casewright.api.engine.work.lying import piece_words, shortened
from casewright.api.engine.work.naming import NamedParts, summed_up, totals
from casewright.api.engine.work.sides import sides_by_part
from casewright.api.engine.work.wording import Words
from casewright.sdk.geometry import Place
from casewright.sdk.model import Machine, Part
from casewright.sdk.units import inches, mm, tape_text
from casewright.sdk.writer import MILLIMETRES

GROOVED = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
    "fixed_joint": {"method": "housed-groove", "depth": 5},
}
FULL = {
    "width": 1000,
    "space": {"bays": [{"front": "door", "fixed_shelves": 1}, {"front": "door", "loose_shelves": 1}]},
    "face_frame": {"material": "frame"},
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin", "pull": {"item": "bar-96"}},
    "mounting": {"method": "bevel-cleat", "contents_kg": 20},
}


@pytest.fixture
def plan(planned):
    return planned(FULL, GROOVED)


def steps(plan, action):
    chosen = [step for step in plan.steps if step.action == action]
    assert chosen, action
    return chosen


def words(plan):
    return Words(plan.job, NamedParts.of(plan.parts), sides_by_part(plan.parts))


def lines(plan, step):
    named, sides = NamedParts.of(plan.parts), sides_by_part(plan.parts)
    return piece_words(step, named, sides, (lambda nm: tape_text(nm, "mm", plan.job.tape), MILLIMETRES.sold))


def test_a_length_on_the_tape_stands_alone(planned):
    speak = words(planned())
    assert speak.exact(mm("12.5")) == "12.5 mm"


def test_a_length_off_the_tape_has_its_number_beside_it(planned):
    plan = planned()
    speak = replace(words(plan), job=replace(plan.job, units="in", tape=Fraction(1, 64)))
    assert speak.exact(inches("3/4")) == "3/4 in"
    assert speak.exact(inches("0.7461")) == "3/4 in (0.7461)"


def part(key, role, name, cabinet="tools", group="case"):
    return Part(f"{cabinet}/{key}", cabinet, role, name, 2, "case", 1, 1, 1, "free", (), (),
                Place((0, 0, 0), 1, 2, 3), group=group)  # fmt: skip


def test_parts_are_summed_up_by_cabinet_and_kind():
    parts = [
        part(key, role, name, cabinet)
        for cabinet in ("tools", "spares")
        for key, role, name in (
            ("side-left", "side", "left side"), ("side-right", "side", "right side"), ("top", "top", "top"),
            *((f"shelf-{n}", "shelf", f"shelf {n}") for n in (1, 2, 3)),
        )
    ]  # fmt: skip
    every = totals(parts)
    cases = [one for one in parts if one.role != "shelf"]
    assert summed_up(cases, every) == "both sides and top of tools and spares"
    assert summed_up([one for one in parts if one.cabinet == "tools"], every) == (
        "both sides, top and all 3 shelves of tools"
    )
    assert summed_up([parts[0], parts[3]], every) == "left side and shelf 1 of tools"


def test_a_door_s_part_is_named_by_its_door():
    stile = part("door-1/stile-left", "door-stile", "door 1 left stile", group="door-1")
    other = part("door-1/stile-right", "door-stile", "door 1 right stile", group="door-1")
    assert summed_up([stile], totals([stile, other])) == "left stile of door 1 of tools"


def test_a_groove_names_side_down_side_at_the_fence_distance_and_depth(plan):
    # The shelf's groove: sides 900 high, its lower face in the middle of what is left between the top and bottom.
    (one,) = [step for step in steps(plan, "groove") if one_for(step, "shelf 1") and "side-left" in step.parts[0]]
    assert "inside face down" in one.do
    assert "to the fence, fence at " in one.do
    assert "5.0 mm high" in one.do
    assert "on the table saw" in one.do


def one_for(step, guest):
    return all(f"for {guest}" in label for piece in step.on for label in piece.cuts)


def test_after_its_last_pass_a_scrap_of_the_guest_slides_into_a_groove(planned):
    plan = planned({"space": {"fixed_shelves": 1}}, GROOVED, shop={"groove_cutters": [12]})
    first, last = [step for step in steps(plan, "groove") if one_for(step, "shelf 1")]
    assert "pass 1 of 2" in first.do
    assert "slides in" not in first.check
    assert "pass 2 of 2" in last.do
    assert last.check.endswith("after pass 2, a scrap of case (18.0 mm) slides in by hand")


def test_a_side_is_named_once_or_on_every_line(plan):
    for step in plan.steps:
        if step.stage != "joints" or step.action == "bore":
            continue
        for line in lines(plan, step):
            each = "as its line says" in step.do or "each line names" in step.do
            assert (" down" in line or "into the" in line) is each, (step.do, line)


def test_holes_go_where_the_tape_can_be_read(plan):
    # Pins 32 apart: every place is a length of the tape, from two named sides.
    (pins,) = [step for step in steps(plan, "bore") if any("shelf pins" in one.cuts[0] for one in step.on)]
    for line in lines(plan, pins):
        assert " from the " in line
        assert " places 32 mm apart, the first " in line  # a row is stepped off, or bored with a jig of that pitch
        assert "e-" not in line
        assert max(len(word.partition(".")[2]) for word in line.split() if word.replace(".", "").isdigit()) == 1


def test_no_words_are_empty_and_a_bevel_says_its_tilt_and_where(plan):
    for step in steps(plan, "bevel"):
        assert "blade tilted 45°" in step.do
        assert "at the table to" in step.do
    for step in plan.steps:
        assert not step.do.rstrip().endswith(":"), step.do
        assert ", ," not in step.do


def test_a_mitred_frame_is_cut_lying_flat_on_a_turned_saw(planned):
    doors = {"style": "mitred-frame", "material": "frame", "panel": "case", "groove_width": 18, "stile": 60}
    oak = {"frame": {"kind": "board", "stuff": "red-oak", "thickness": 30}}
    plan = planned({"space": {"front": "door"}, "doors": doors}, materials=oak)
    (leaf,) = plan.doors
    found = {
        step.on[0].part.rsplit("/", 1)[1].split("-")[0]: step
        for step in steps(plan, "bevel")
        if "/door" in str(step.on)
    }
    # At 45 degrees a member 60 wide is 60 longer along its outer edge, where it is as long as the door.
    for member, long in (("stile", leaf.height), ("rail", leaf.width)):
        step = found[member]
        assert step.machine == "mitre-saw"
        assert step.do.startswith("Mitre both door ")
        assert "back face down, to the stop the side each line names, saw turned 45°, " in step.do
        inner, outer = ((long - by * 10**6) / 10**6 for by in (60, 0))
        assert step.do.endswith(f"{inner:.1f} mm from the stop at the saw's fence and {outer:.1f} mm at the far edge")
        assert all("inner edge to the saw's fence" in line for line in lines(plan, step))


def test_a_saw_with_a_stop_has_no_fence_and_a_saw_with_a_fence_no_stop(plan):
    straight = [*steps(plan, "rip"), *steps(plan, "crosscut")]
    assert straight
    for step in straight:
        stopped = step.machine in ("crosscut-sled", "mitre-saw")
        assert (step.setting.stop is not None, step.setting.fence is not None) == (stopped, not stopped), step.do


def test_every_step_at_a_machine_has_its_cautions_and_something_to_check(plan):
    at_machines = [step for step in plan.steps if step.machine is not Machine.BY_HAND]
    assert at_machines
    for step in at_machines:
        assert step.cautions, step.do
        assert step.check, step.do


def test_rips_keep_the_knife_and_grooves_that_no_guard_covers_a_featherboard(plan):
    # HSE WIS 16 and Cal. Title 8 s. 4296(a), as sources of the cautions name them.
    assert all(any("Riving knife" in text for text in step.cautions) for step in steps(plan, "rip"))
    grooves = [step for step in steps(plan, "groove") if step.machine == "table-saw"]
    assert all(any("featherboard" in text for text in step.cautions) for step in grooves)


def test_a_toe_notch_is_a_notch_by_its_two_sizes(planned):
    base = {"form": "base", "base": {"kind": "toe-recess", "height": 100, "setback": 60}}
    plan = planned(base, {"bottom_inset": 0})
    (one,) = steps(plan, "notch")
    assert one.machine == "jigsaw"
    assert one.do.startswith("Notch both sides of bay (toe recess) with the jigsaw: into the front edge")
    assert "100.0 mm" in one.do
    assert "60.0 mm" in one.do
    assert "abbet" not in one.do


def test_pockets_are_bored_with_the_drill_at_marked_places(planned):
    plan = planned({"space": {"fixed_shelves": 1}}, {**GROOVED, "fixed_joint": {"method": "pocket-screw"}})
    (step,) = steps(plan, "pocket")
    assert step.machine == "drill"
    # A pocket slants 15° and is as wide as its bit of 9.5; its shoulder stands three quarters of 18 from the end.
    assert step.do == (
        "Bore screw pockets in shelf 1 of bay with the drill and a pocket jig: into the top face, 9.5 mm stepped bit "
        "slanting 15° to that side, the shoulder and the middle of each pocket at the places listed"
    )
    assert step.check == "on a scrap, with its screw"
    (line,) = lines(plan, step)
    assert line.startswith("shelf 1 of bay: 13.5 mm from the left end and 13.5 mm from the right end, at ")
    assert middles(line) == fixed_at(plan, "screw-8")


def middles(line):
    """Return the places from the front edge that a line gives, in mm."""
    return [float(at) for at in re.findall(r"([0-9.]+) mm", line.split(", at ")[1].split(" from the front edge")[0])]


def fixed_at(plan, item):
    """Return how far behind the case's front the pieces of an item stand in the shelf's left end, in mm to a tenth."""
    lines = [one for one in plan.hardware if one.item.startswith(item) and one.used_for == "bay/shelf-1+side-left"]
    return [pytest.approx(y / 1e6, abs=0.05) for _, y, _ in lines[0].at]


@pytest.mark.parametrize(
    ("method", "item", "opens"), [("biscuit", "biscuit", "Slot "), ("loose-tenon", "tenon", "Mortise ")]
)
def test_machines_set_to_the_middle_of_a_cut_are_given_its_middle(planned, method, item, opens):
    plan = planned({"space": {"fixed_shelves": 1}}, {**GROOVED, "fixed_joint": {"method": method}})
    step = next(one for one in steps(plan, "mortise") if any("shelf-1" in on.part for on in one.on))
    assert step.do.startswith(opens)
    assert step.do.endswith("the middle of each at the places listed")
    # The middle of a shelf 18 thick is 9 from its lower face; hardware stands at the middle of its slot or mortise.
    line = next(line for line in lines(plan, step) if line.startswith("shelf 1 of bay: into the left end"))
    assert "9.0 mm from the bottom face, at " in line
    assert middles(line) == fixed_at(plan, item)


def test_a_sliding_dovetail_is_routed_and_named(planned):
    plan = planned({"space": {"fixed_shelves": 1}}, {**GROOVED, "fixed_joint": {"method": "sliding-dovetail"}})
    cut = steps(plan, "dovetail")
    # The slot with the router, the tail past the cutter of the router table.
    assert {step.machine for step in cut} == {"router", "router-table"}
    assert all(step.do.startswith("Cut the dovetails of") for step in cut)


def test_labels_say_once_how_they_begin():
    assert shortened(["mortises for top rail", "mortises for bottom rail"]) == ["mortises for top rail and bottom rail"]
    assert shortened(["shelf pins, front row", "shelf pins, back row"]) == ["shelf pins, front row and back row"]
    assert shortened(["groove for back", "hook"]) == ["groove for back", "hook"]
    assert shortened(["groove", "groove for back"]) == ["groove", "groove for back"]
    assert shortened(["hook"]) == ["hook"]


def test_frame_members_are_named_as_the_trade_does(plan):
    names = {part.name for part in plan.parts if part.group == "face-frame"}
    assert {"top frame rail", "bottom frame rail", "left frame stile", "middle frame stile"} <= names


def test_nothing_is_set_at_no_distance(plan):
    for step in plan.steps:
        if step.stage == "joints":
            assert " 0.0 mm" not in step.do, step.do
            assert " in in " not in step.do + step.check


def test_an_end_that_rides_the_fence_of_a_longer_piece_has_its_caution(plan):
    # Sides 900 × 320: their end, 320 long, rides the fence for the shelf's groove; for the back's the long edge does.
    for step in steps(plan, "groove"):
        if step.machine != "table-saw":
            continue
        ends = any("end to the fence" in text for text in [step.do, *lines(plan, step)])
        assert any("mitre gauge" in text for text in step.cautions) is ends, step.do


def test_a_groove_far_from_the_end_is_not_set_at_a_router_table(planned):
    joint = {**GROOVED, "fixed_joint": {"method": "housed-groove"}}
    plan = planned({"space": {"fixed_shelves": 1}}, joint, shop={"machines": ["track-saw", "router-table", "router"]})
    # The shelf's groove begins more than 300 from either end of sides 900 high.
    far = [step for step in steps(plan, "groove") if (step.setting.fence or 0) > 300_000_000]
    assert far
    assert {step.machine for step in far} == {"router"}


def test_no_scrap_is_tried_in_a_socket_before_the_last_pass(planned):
    doors = {"style": "cope-and-stick", "material": "frame", "panel": "thin"}
    plan = planned({"space": {"front": "door"}, "doors": doors}, shop={"groove_cutters": [4]})
    cut = steps(plan, "tenon")
    assert {step.on[0].run[0] for step in cut} > {1}
    for step in cut:
        run, runs = step.on[0].run
        assert ("goes into its socket" in step.check) is (run == runs)


def test_both_holes_of_a_pull_stand_in_one_line(planned):
    # A bar pull's two holes are 96 mm apart, one over the other, as far from the door's edge as one another.
    doors = {"style": "slab", "material": "case", "pull": {"item": "bar-96"}}
    plan = planned({"space": {"front": "door"}, "doors": doors})
    (step,) = [step for step in steps(plan, "bore") if step.on[0].cuts == ("pull",)]
    (line,) = lines(plan, step)
    low, high = (float(word) for word in line.split(" at ")[1].split() if word.replace(".", "").isdigit())
    assert high - low == pytest.approx(96)
