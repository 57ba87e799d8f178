"""The sliding dovetail in planned cases, worked by hand, and what it answers and refuses.

A third of the host deep, flanks 8 degrees from square, room of 1/64 in under the tail: common practice, no source.
"""

from dataclasses import replace
from math import radians, tan

import pytest
from assembly_walk import order_is_clear
from casewright.api.engine import make_plan
from casewright.api.engine.solid.blocking import blocking
from casewright.api.engine.work.assembly import assembly_order
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.cut import Measured
from casewright.api.engine.work.machining import cuts_of
from casewright.api.engine.work.replay import replay
from casewright.api.job.document import read_job
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.loader import load
from casewright.sdk.methods import CannotError
from casewright.sdk.model.operations import Action, Machine
from casewright.sdk.testing import JointContract, assert_dry_fit, assert_sums
from casewright.sdk.units import INCH, MM
from solids import cells_of

REGISTRY = load(discover="built-in")
HOUSED = {"method": "housed-groove", "depth": "6 mm"}


class TestContract(JointContract):
    method = "sliding-dovetail"
    jobs = 12  # `--full` plans 200 of every method


def plan(width="764 mm", space=None, back=None, units="mm", fit: str | int = 0, **options):
    """Plan a case of 18 mm boards, 600 mm high and 300 mm deep, dovetailed inside."""
    case = {
        "material": "case", "corner": HOUSED, "top_inset": "20 mm", "bottom_inset": "20 mm", "back": back,
        "fixed_joint": {"method": "sliding-dovetail", **options},
    }  # fmt: skip
    cabinet = {"id": "tools", "width": width, "height": "600 mm", "depth": "300 mm", "case": case,
               "space": space or {"fixed_shelves": 1}}  # fmt: skip
    boards = {"kind": "board", "stuff": "red-oak", "thickness": "18 mm"}
    job = {"units": units, "materials": {"case": boards}, "cabinets": [cabinet], "shop": {"fit": fit}}
    return make_plan(read_job(job, REGISTRY), REGISTRY)


def part(made, key):
    (one,) = [p for p in made.parts if p.id == f"tools/{key}"]
    return one


def feature(made, key, label):
    (one,) = [f.carried(part(made, key).place) for f in part(made, key).features if f.label == label]
    return one


def test_a_shelf_worked_by_hand():
    # 764 - 2 x 18 = 728 clear; the slot 18 / 3 = 6 deep, the tail 1/64 in shorter at each end. Its root is 18 less
    # 2 x 18 / 6 = 12 thick. Flanks lean 6 tan 8° = 0.843 245 mm over the slot.
    made = plan()
    long = 6 * MM - INCH // 64
    assert part(made, "shelf-1").length == 728 * MM + 2 * long
    slot = feature(made, "side-left", "dovetail slot for shelf 1")
    (mouth,) = slot.boxes
    assert (mouth.x0, mouth.x1, mouth.y0, mouth.y1) == (12 * MM, 18 * MM, 0, 300 * MM)
    assert mouth.z1 - mouth.z0 == 12 * MM
    lean = round(6 * MM * tan(radians(8)))
    assert lean == 843_245
    assert [w.box.z1 - w.box.z0 for w in slot.wedges] == [lean, lean]
    tail = feature(made, "shelf-1", "tail into left side")
    assert [w.box.x1 - w.box.x0 for w in tail.wedges] == [long, long]
    assert [w.box.z1 - w.box.z0 for w in tail.wedges] == [lean * long // (6 * MM)] * 2


def test_the_shop_s_fit_is_beside_the_flanks():
    mouth = feature(plan(fit="0.2 mm"), "side-left", "dovetail slot for shelf 1").boxes[0]
    assert mouth.z1 - mouth.z0 == 12 * MM + 200_000


def test_a_stopped_slot_leaves_the_front_whole():
    made = plan(stop="25 mm", fit="0.2 mm")
    assert feature(made, "side-left", "dovetail slot for shelf 1").boxes[0].y0 == 25 * MM
    notch = feature(made, "shelf-1", "notch at the stopped slot in left side").boxes[0]
    assert (notch.y0, notch.y1) == (0, 25 * MM + 200_000)
    assert_dry_fit(made)


@pytest.mark.parametrize("bays", [2, 3])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_shelves_between_dividers_sit_whatever_the_division_leaves_over(bays, units, full):
    """64 widths one step of the tape apart: what is left over of a division is never a clash or a loose seat.

    The default run takes every fifth.
    """
    odd = 0
    for step in range(0, 64, 1 if full else 5):
        width = 900 + step / 10 + 0.000_001 if units == "mm" else 36 + step / 64
        made = plan(width, {"bays": [{"fixed_shelves": 1}] * bays}, units=units, stop="12 mm" if step % 2 else 0)
        assert_dry_fit(made)
        assert_sums(made)
        assert [check for check in made.checks if check.level == "stop"] == []
        assert len({p.length for p in made.parts if p.role == "shelf"}) == 1
        odd += any(joint.clearance for joint in made.joints if joint.method == "sliding-dovetail")
    assert odd >= (16 if full else 3)


def test_tiers_and_bays_of_tiers_sit():
    inner = {"tiers": [{}, {}, {"fixed_shelves": 1}]}
    made = plan("1001.3 mm", {"bays": [inner, {"share": 2}, inner]})
    assert_dry_fit(made)
    assert [check for check in made.checks if check.level == "stop"] == []


@pytest.mark.parametrize("method", ["sliding-dovetail", "housed-groove"])
def test_shelves_at_one_height_leave_wood_between_them_in_a_divider(method):
    """9 mm from both sides of 17.1 mm would overlap: refused, and the depth offered leaves a third, as none given."""

    def made(**options):
        case = {"material": "case", "corner": HOUSED, "top_inset": "20 mm", "bottom_inset": "20 mm", "back": None,
                "fixed_joint": {"method": method, **options}}  # fmt: skip
        cabinet = {"id": "tools", "width": "1000 mm", "height": "400 mm", "depth": "260 mm", "case": case,
                   "space": {"bays": [{"fixed_shelves": 1}] * 2}}  # fmt: skip
        boards = {"kind": "board", "stuff": "red-oak", "thickness": "17.1 mm"}
        return make_plan(
            read_job({"units": "mm", "materials": {"case": boards}, "cabinets": [cabinet]}, REGISTRY), REGISTRY
        )

    with pytest.raises(NoGeometryError) as caught:
        made(depth="9 mm")
    assert caught.value.problems[0].pointer == "/cabinets/0/case/fixed_joint/depth"
    assert "5.7 mm" in caught.value.problems[0].fix  # 17.1 / 3
    for options in ({"depth": "5.7 mm"}, {}):
        plan = made(**options)
        assert_dry_fit(plan)
        assert [check for check in plan.checks if check.level == "stop" or check.code == "web"] == []


def solids(made):
    """Return the parts of a plan as disjoint cells in the cabinet's frame."""
    return {one.id: cells_of(one) for one in made.parts}


@pytest.mark.parametrize(("stop", "ways"), [(0, {2, -2}), ("25 mm", {2})])
def test_a_shelf_leaves_along_its_slots_only(stop, ways):
    # y runs from front to back: out of a slot that is stopped at the front the shelf leaves to the back only.
    made = solids(plan(stop=stop))
    pair = {key: made[f"tools/{key}"] for key in ("side-left", "shelf-1")}
    leaves = blocking(pair).free(frozenset(pair))
    assert {leave.way for leave in leaves if leave.parts == {"shelf-1"}} == ways


def test_a_stopped_shelf_behind_a_captured_back_is_locked():
    """Its slots open to the back only, where the back stands, and the back is grooved into all four round it."""
    back = {"material": "case", "inset": "20 mm", "joint": HOUSED}
    stopped = assembly_order(solids(plan(back=back, stop="25 mm")))
    assert {"tools/back", "tools/shelf-1", "tools/side-left", "tools/side-right"} <= set(stopped.locked)
    made = solids(plan(back=back))
    through = assembly_order(made)
    assert through.locked == ()
    assert order_is_clear(made, through)
    open_behind = solids(plan(stop="25 mm"))
    order = assembly_order(open_behind)
    assert order.locked == ()
    assert order_is_clear(open_behind, order)


@pytest.mark.parametrize("stop", [0, "25 mm"])
def test_slabs_and_slants_make_it_exactly(stop):
    made = plan("1001.3 mm", {"bays": [{"fixed_shelves": 1}] * 3}, stop=stop, fit="0.1 mm")
    given = given_of(made.job, made.parts, None)
    assert replay(made.steps, made.parts, made.joints, given) == []
    slanting = [step for step in made.steps if step.action is Action.DOVETAIL]
    # One pass for a slot and two beside a tail, at both ends of each shelf and divider.
    joints = 2 * sum(part.quantity for part in made.parts if part.role in ("shelf", "divider"))
    assert sum(piece.count for step in slanting for piece in step.on) == 3 * joints
    # Tails of one thickness are all made at one setting, whichever part has them.
    tails = [step for step in slanting if step.setting.fence == 0]
    assert [step.machine for step in tails] == [Machine.ROUTER_TABLE]
    assert {piece.down.axis for piece in tails[0].on} == {1}
    assert "dovetail cutter of 8°" in tails[0].do
    assert any("scrap on the fence" in caution for caution in tails[0].cautions)
    for step in slanting:
        steeper = replace(step, setting=replace(step.setting, tilt_deg=9.0))
        harmed = [steeper if one is step else one for one in made.steps]
        faults = {fault.part for fault in replay(harmed, made.parts, made.joints, given)}
        assert {piece.part for piece in step.on} <= faults


def test_a_slot_with_one_flank_is_no_dovetail_cutter_s():
    side = part(plan(), "side-left")
    (slot,) = [f for f in side.features if f.kind == "dovetail"]
    assert [cut.setting.tilts for cut in cuts_of(Measured(side), [slot])] == [None]
    half = replace(slot, wedges=slot.wedges[:1])
    slab, slant = cuts_of(Measured(side), [half])
    assert slab.setting.tilt_deg is None
    assert slant.setting.tilts is not None


def answer(options, **changes):
    return TestContract.answer(TestContract.a_meeting("tee", **changes), options)


@pytest.mark.parametrize(
    ("options", "changes", "field", "mended"),
    [
        ({"depth": "18 mm"}, {}, "depth", {"depth": "6 mm"}),
        ({"clearance": "6 mm"}, {}, "clearance", {"depth": "6 mm"}),
        ({"depth": "15 mm", "angle_deg": 20}, {"guest_thickness": 10 * MM}, "depth",
         {"depth": "6.87 mm", "angle_deg": 20}),
        ({"shoulder": "0.5 mm"}, {}, "shoulder", {"shoulder": "4.92 mm"}),
        ({"shoulder": "9 mm"}, {}, "shoulder", {"shoulder": "4.92 mm"}),
        ({"stop": "300 mm"}, {}, "stop", {"stop": "37.5 mm"}),
    ],
)  # fmt: skip
def test_what_a_refusal_advises_will_do(options, changes, field, mended):
    # 10 / 4 / tan 20° = 6.87; midway from 6 tan 8° = 0.84 to 18 / 2: 4.92; 300 / 8 = 37.5.
    with pytest.raises(CannotError) as caught:
        answer(options, **changes)
    assert caught.value.field == field
    assert all(text in caught.value.fix for text in mended.values() if isinstance(text, str))
    assert answer(mended, **changes).growth > 0


def test_a_slot_at_the_end_of_its_host_is_refused():
    with pytest.raises(CannotError):
        answer({}, host_before=0, host_after=0, guest_thickness=18 * MM, fit=8 * MM)


def codes(fit):
    return {finding.code: finding.level for finding in fit.findings}


def test_what_it_warns_of():
    assert codes(answer({}))["dovetail-in-sheet"] == "caution"
    assert codes(answer({"depth": "13 mm"}))["deep-groove"] == "caution"
    assert codes(answer({"shoulder": "7 mm"}))["narrow-tails"] == "caution"
    assert codes(answer({}, host_before=MM))["thin-wood-outside-groove"] == "caution"
    assert codes(answer({"shoulder": "1 mm"}, host_before=0))["thin-wood-outside-groove"] == "stop"
