"""A shop that lists its machines is given no work for others, and is pointed to methods it can use instead."""

from importlib.resources import files

import pytest
from casewright.api.engine.work.machines import WAYS

GROOVED = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
}
SHELF = {"space": {"fixed_shelves": 1}}
SAWS = ["table-saw", "crosscut-sled"]


def tee(planned, method, machines=()):
    case = {**GROOVED, "fixed_joint": {"method": method}}
    return planned(SHELF, case, shop={"fit": 0, "machines": list(machines)})


def stops(plan):
    return [check for check in plan.checks if check.code == "no-machine"]


def test_a_shop_that_lists_nothing_is_stopped_by_nothing(planned):
    plan = tee(planned, "biscuit")
    assert not stops(plan)
    assert "biscuit-machine" in {step.machine for step in plan.steps}


def test_biscuits_without_a_biscuit_machine_are_a_stop_that_names_it_and_what_the_shop_can_do(planned):
    lacking = stops(tee(planned, "biscuit", [*SAWS, "drill-press"]))
    assert {check.subject for check in lacking} == {"bay/shelf-1+side-left", "bay/shelf-1+side-right"}
    for check in lacking:
        assert check.level == "stop"
        assert "biscuit machine" in check.finding.message
        # A drill press bores dowels and a table saw cuts grooves; pockets ask for a hand drill.
        for method, can in (("dowel", True), ("housed-groove", True), ("loose-tenon", False), ("pocket-screw", False)):
            assert (method in check.finding.message) is can, method


def test_the_same_shop_with_the_machine_is_not_stopped(planned):
    assert not stops(tee(planned, "biscuit", [*SAWS, "biscuit-machine"]))


def test_a_groove_is_routed_where_there_is_no_table_saw(planned):
    plan = tee(planned, "housed-groove", ["track-saw", "router", "drill"])
    assert not stops(plan)
    assert {step.machine for step in plan.steps if step.action == "groove"} == {"router"}
    assert {step.machine for step in plan.steps if step.action in ("rip", "crosscut")} == {"track-saw"}


def test_a_shop_without_any_saw_cannot_cut_parts(planned):
    assert "/shop/machines" in {check.subject for check in stops(tee(planned, "housed-groove", ["router"]))}


def test_no_groove_is_set_further_from_the_fence_than_the_saw_rips(planned):
    # The shelf stands in the middle of sides 900 high, more than 300 from either end.
    plan = planned(SHELF, {**GROOVED, "fixed_joint": {"method": "housed-groove"}}, shop={"rip_capacity": 300})
    far = [step for step in plan.steps if step.action == "groove" and step.setting.fence > 300_000_000]
    assert far
    assert all(step.machine != "table-saw" for step in far)


@pytest.mark.parametrize("kind", ["tee", "frame"])
def test_methods_list_the_cuts_they_make(planned, registry, kind):
    methods = [m for m in registry.joints.values() if kind in m.does and m.id not in ("rabbet", "mitre", "shop-plugin")]
    assert len(methods) > 3
    for method in methods:
        joint = {"method": method.id}
        frame = (
            {"face_frame": {"material": "frame", "joint": joint, "stile": 90, "rail": 90}} if kind == "frame" else SHELF
        )
        plan = planned(frame, {**GROOVED, "fixed_joint": joint} if kind == "tee" else GROOVED)
        ours = {joint.id for joint in plan.joints if joint.method == method.id and joint.kind == kind}
        made = {feature.kind for part in plan.parts for feature in part.features if feature.joint in ours}
        assert made == method.cuts, method.id


def test_the_page_on_joints_lists_what_makes_each_kind_of_cut():
    """The page and the table say the same: an author chooses a cut's kind by its machines."""
    page = files("casewright.sdk").joinpath("pages", "plugin-joint.md").read_text("utf-8")
    rows = [[cell.strip() for cell in line.split("|")[1:4]] for line in page.splitlines() if line.startswith("| `")]
    listed = {kind.strip("`"): made.replace("-", " ") for kind, _, made in rows}
    assert listed == {kind: ", ".join(one.value.replace("-", " ") for one in row) for kind, row in WAYS.items()}


def test_a_groove_narrower_than_every_cutter_is_sawn_by_the_blade_in_passes(planned):
    """18 thick takes a groove of 18; a listed cutter of 20 is too wide, a blade of 3 takes it in six passes."""
    plan = planned(SHELF, GROOVED, shop={"fit": 0, "groove_cutters": [20]}, stock={"kerf": 3})
    grooves = [step for step in plan.steps if step.action == "groove"]
    assert {step.setting.cutter for step in grooves} == {3_000_000}
    assert {piece.run[1] for step in grooves for piece in step.on} == {6}
