"""A glazed door: its pane is ordered to size, set in when the door is finished, and no step saws or bores it.

What a shop does with glass is common practice, no source; sizes are worked by hand.
"""

import pytest
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.sdk.model import Action, Operation, Setting, Stage, Workpiece
from casewright.sdk.model.operations import Machine
from casewright.sdk.units import MM

GLASS = {"pane": {"kind": "sheet", "stuff": "float-glass", "thickness": 4}}
DOORS = {"style": "cope-and-stick", "material": "frame", "panel": "pane", "panel_kind": "glass", "overlay": 10,
         "stile": 60, "rail": 60, "groove_depth": 10, "panel_clearance": 2}  # fmt: skip
STOCK = {
    "sheets": [{"id": "ply", "material": "case", "length": 2440, "width": 1220},
               {"id": "glass", "material": "pane", "length": 2000, "width": 1000}],
    "boards": [{"id": "oak", "material": "frame", "width": 200, "length": 2400}],
    "effort": 1,
}  # fmt: skip
SAWN = {Action.RIP, Action.CROSSCUT, Action.TRIM, Action.BORE, Action.GROOVE, Action.RABBET, Action.SAND, Action.FINISH}


@pytest.fixture
def glazed(planned):
    def make(**top):
        cabinet = {"count": 2, "space": {"front": "door-pair"}, "doors": DOORS}
        return planned(cabinet, {"back": None}, materials=GLASS, **top)

    return make


def of_panes(plan, action):
    return [step for step in plan.steps if step.action in action for one in step.on
            if one.part.endswith("/panel") or "pane" in (one.piece, one.keeps, one.leaves)]  # fmt: skip


@pytest.mark.parametrize("stock", [{}, {"stock": STOCK}])
def test_no_step_saws_bores_sands_or_finishes_a_pane(glazed, codes, stock):
    plan = glazed(**stock)
    assert not codes(plan, "work-not-carried-out")
    assert not [check for check in plan.checks if check.level == "stop"]
    assert not of_panes(plan, SAWN)
    if plan.stock is not None:
        assert not [one for layout in plan.stock.layouts for one in layout.placed if one.part.endswith("/panel")]
        assert {bought.material for bought in plan.stock.buy} == {"case", "frame"}
        assert not plan.stock.short


def test_panes_are_on_the_list_of_what_to_buy_with_size_and_count(glazed):
    """Between stiles of 60 with 10 of rabbet and 2 of room at each edge: the door less 120 and 16 more, both ways."""
    plan = glazed()
    lines = [line for line in plan.hardware if "float glass" in line.name]
    assert [line.quantity for line in lines] == [2, 2]  # two doors of each of two cabinets
    for door, line in zip(plan.doors, lines, strict=True):
        high, wide = ((size - 120 * MM + 16 * MM) / MM for size in (door.height, door.width))
        assert line.item == f"float-glass-{high:.10g}x{wide:.10g}"
        assert f"({high:g} × {wide:.2f} × 4)" in line.name


def test_a_pane_is_ordered_to_the_glued_frame_and_set_in_after_finish_and_boring_with_its_stops(glazed):
    plan = glazed(shop={"finish": [{"what": "oil", "minutes": 60}]})
    door = "bay/door-1"
    steps = [(step, {one.part for one in step.on}) for step in plan.steps]
    (ordered,) = [step for step, on in steps if on == {f"{door}/panel"} and step.stage is Stage.DOORS]
    glue = [step.number for step, on in steps if step.action is Action.WAIT and f"{door}/stile-left" in on]
    assert set(ordered.needs) & set(glue)
    (pane,) = [step for step, on in steps if step.action is Action.INSERT and f"{door}/panel" in on]
    cups = [step.number for step, on in steps if step.action is Action.BORE and any(door in one for one in on)]
    coats = [step.number for step, _ in steps if step.action is Action.FINISH]
    hung = [step for step, on in steps if f"{door}/panel" in on][-1]
    assert (hung.stage, hung.action) == (Stage.HARDWARE, Action.SCREW)
    stops = [step.number for step, on in steps if step.action is Action.INSERT and f"{door}/stop-left" in on]
    assert max(*cups, *coats) < pane.number < min(stops) <= max(stops) < hung.number
    assert any("Gloves" in one for one in pane.cautions)


def test_a_pane_that_is_sawn_all_the_same_is_a_fault_of_the_replay(glazed):
    """A rip that makes one more pane than is bought: the simulated shop counts them."""
    plan = glazed()
    on = (Workpiece(piece="pane", count=1, keeps="bay/door-1/panel"),)
    sawn = Operation(len(plan.steps) + 1, Stage.CUT, Machine.TABLE_SAW, Action.RIP, Setting(fence=100 * MM), on, (1,))
    faults = replay((*plan.steps, sawn), plan.parts, plan.joints, given_of(plan.job, plan.parts, plan.stock))
    assert any(fault.part == "bay/door-1/panel" for fault in faults)


def test_a_pane_in_grooves_goes_in_with_the_frame_and_is_cautioned(planned, codes):
    doors = {**DOORS, "panel_kind": "flat", "groove_depth": 10}
    plan = planned({"space": {"front": "door"}, "doors": doors}, {"back": None}, materials=GLASS)
    assert codes(plan, "pane-captured") == [("caution", "pane-captured", "bay/door-1")]
    (pane,) = [step for step in plan.steps if step.action is Action.INSERT and step.on[0].part.endswith("/panel")]
    assert pane.stage is Stage.DOORS
    assert not of_panes(plan, SAWN)


def test_a_sheet_behind_stops_is_sawn_as_ever(planned):
    """Plywood in place of glass comes from a sheet."""
    thin = {"pane": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 4}}
    plan = planned({"space": {"front": "door"}, "doors": DOORS}, {"back": None}, materials=thin)
    assert of_panes(plan, {Action.RIP})
    assert not [line for line in plan.hardware if "cut to size" in line.name]


def test_a_pane_with_too_little_room_is_ordered_by_a_reading_and_never_planed(planned, codes):
    """0.1 of room at each edge is less than a tape reads (0.25, common practice): nothing of it is cut or planed."""
    doors = {**DOORS, "panel_clearance": "0.1"}
    plan = planned({"space": {"front": "door"}, "doors": doors}, {"back": None}, materials=GLASS)
    words = [check.message for check in plan.checks if check.code == "fit-from-the-work" and "/panel" in check.subject]
    assert words
    assert all("order it by what is measured" in one and "plane" not in one for one in words)
    assert not of_panes(plan, SAWN)
    links = [link for fit in plan.fits for link in fit.links if link.part == "bay/door-1/panel"]
    assert {link.action for link in links} <= {Action.MEASURE, None}
