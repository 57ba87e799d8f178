"""Panels glued up of strips where no board is wide enough, worked by hand in mm; the amounts are common practice."""

from dataclasses import replace

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.panels import panels_of, to_saw
from casewright.api.engine.work.replay import replay
from casewright.api.job.document import read_job
from casewright.sdk.model import Action, Machine

MM = 1_000_000
JOB = {
    "title": "Truing bench",
    "units": "mm",
    "materials": {"oak": {"kind": "board", "stuff": "red-oak", "thickness": 19}},
    "cabinets": [],
    "loose_parts": [
        {"id": "top", "material": "oak", "length": 900, "width": 400, "quantity": 2},
        {"id": "rung", "material": "oak", "length": 500, "width": 60, "quantity": 3},
    ],
}
PLANED = {"id": "plank", "material": "oak", "length": 2400, "width": 140}


@pytest.fixture
def plan(registry):
    """Return a function that plans the bench with boards, or with the widest board to be had."""

    def make(boards=(), widest=None, **stock):
        oak = {**JOB["materials"]["oak"], **({} if widest is None else {"widest": widest})}
        given = {"stock": {"boards": list(boards), "kerf": 3, **stock}} if boards else {}
        return make_plan(read_job({**JOB, **given, "materials": {"oak": oak}}, registry), registry)

    return make


def faults(made, steps=None):
    return replay(steps or made.steps, made.parts, made.joints, given_of(made.job, made.parts, made.stock))


@pytest.mark.parametrize("given", [{"boards": [PLANED]}, {"widest": 140}])
def test_a_part_wider_than_any_board_is_glued_up_of_equal_strips(plan, given):
    """400 and 12 over are 412: 3 strips of a board 140, less 1.5 off each edge, are 411, 4 of 103 are enough."""
    made = plan(**given)
    (panel,) = panels_of(made.job, made.parts)
    assert (panel.part.id, panel.count) == ("loose/top", 4)
    assert (panel.strip.length, panel.strip.width, panel.strip.quantity) == (925 * MM, 106 * MM, 8)
    assert [part.id for part in to_saw(made.job, made.parts)] == ["loose/top, strip", "loose/rung"]
    steps = [
        step for step in made.steps if any("loose/top" in name for one in step.on for name in (one.piece, one.keeps))
    ]
    assert [step.action for step in steps[-8:]] == [
        Action.EDGE, Action.EDGE, Action.GLUE, Action.CLAMP, Action.WAIT, Action.SAND, Action.RIP, Action.CROSSCUT,
    ]  # fmt: skip
    edge, other, glue, clamp, wait, _, rip, crosscut = steps[-8:]
    assert edge.setting.depth == other.setting.depth == 1_500_000
    assert [(one.piece, one.keeps, one.count) for one in glue.on] == [
        ("loose/top, strip", "loose/top, over size", 2)
    ] * 4
    assert [one.clamps for one in clamp.on] == [6]  # 925 long, 200 apart at most: 5 rooms between 6
    assert wait.minutes == 60
    assert (rip.setting.fence, crosscut.setting.stop) == (400 * MM, 900 * MM)
    assert [c for c in made.checks if c.level == "stop"] == []
    assert faults(made) == []


def test_the_stock_is_cut_into_strips_and_nothing_is_short(plan):
    made = plan([PLANED])
    placed = [one.part for layout in made.stock.layouts for one in layout.placed]
    assert sorted(set(placed)) == ["loose/rung", "loose/top, strip"]
    assert placed.count("loose/top, strip") == 8
    assert made.stock.short == ()


def test_strips_of_rough_boards_are_milled_before_they_are_jointed(plan):
    """A board 180 yields 180 - 3 - 6 = 171 of a strip, 168 jointed: 412 takes 3."""
    rough = {"id": "plank", "material": "oak", "length": 2400, "width": 180, "thickness": 25}
    made = plan([rough], milling={"length": 25, "width": 6, "edge": 3})
    (panel,) = panels_of(made.job, made.parts)
    assert panel.count == 3
    actions = [step.action for step in made.steps]
    glue = actions.index(Action.GLUE)
    assert actions[glue - 2 : glue] == [Action.EDGE, Action.EDGE]
    assert actions.index(Action.THICKNESS) < glue
    assert faults(made) == []


def test_strips_still_to_be_bought_are_glued_to_those_that_are_cut(plan):
    """One rough board yields 4 or 5 of the 6 strips: what is to be bought stops the plan, and nothing else does."""
    rough = {"id": "plank", "material": "oak", "length": 4800, "width": 180, "thickness": 25, "copies": 1}
    made = plan([rough], milling={"length": 25, "width": 6, "edge": 3})
    placed = [one.part for layout in made.stock.layouts for one in layout.placed]
    assert 0 < placed.count("loose/top, strip") < 6
    assert {c.code for c in made.checks if c.level == "stop"} == {"no-stock"}


@pytest.mark.parametrize(
    ("board", "glued"),
    [
        ({"width": 400}, False),
        ({"width": 399}, True),
        ({"width": 402, "surfaced": "two-faces"}, True),
        ({"width": 26}, True),
        ({"width": 24}, False),
    ],
)
def test_panels_are_glued_up_where_boards_are_narrower_than_they_but_not_of_laths(plan, board, glued):
    """With rough edges 402 is 3.175 less. Strips under 25 are too narrow (common practice, no source)."""
    made = plan([{**PLANED, **board}])
    assert bool(panels_of(made.job, made.parts)) is glued


def test_the_grain_runs_along_the_strips_however_the_part_is_measured(registry):
    end = {"id": "end", "material": "oak", "length": 300, "width": 600, "grain": "along-width"}
    job = {**JOB, "loose_parts": [end], "stock": {"boards": [PLANED], "kerf": 3}}
    made = make_plan(read_job(job, registry), registry)
    (panel,) = panels_of(made.job, made.parts)
    assert (panel.strip.length, panel.along, panel.across) == (625 * MM, 600 * MM, 300 * MM)
    rip, crosscut = made.steps[-2:]
    assert (rip.setting.fence, crosscut.setting.stop) == (300 * MM, 600 * MM)
    assert faults(made) == []


def test_without_any_width_a_wide_part_is_one_piece_and_the_step_says_so(plan):
    made = plan()
    assert panels_of(made.job, made.parts) == ()
    rips = {step.setting.fence: step for step in made.steps if step.action is Action.RIP}
    assert any("glue this up of strips" in line for line in rips[400 * MM].cautions)
    assert not any("glue this up of strips" in line for line in rips[60 * MM].cautions)


def test_the_simulated_shop_finds_a_strip_missing_and_an_edge_not_straight(plan):
    made = plan([PLANED])
    at = next(place for place, step in enumerate(made.steps) if step.action is Action.GLUE)
    fewer = [*made.steps[:at], replace(made.steps[at], on=made.steps[at].on[1:]), *made.steps[at + 1 :]]
    assert {fault.part for fault in faults(made, fewer)} >= {"loose/top"}
    (second,) = [step for step in made.steps if step.action is Action.EDGE and step.on[0].run == (2, 2)]
    skipped = [replace(step, action=Action.WAIT) if step is second else step for step in made.steps]
    assert any("both edges straight" in fault.what for fault in faults(made, skipped))
    assert second.machine is Machine.JOINTER
