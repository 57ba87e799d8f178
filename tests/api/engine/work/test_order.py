"""The order of work is a graph that can be walked in number order, and no setting is visited twice."""

import pytest
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.naming import NamedParts
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.wording import Words
from casewright.sdk.model import Action, Machine, Operation, Setting, Stage
from needs import before

BAY = {
    "width": 1000,
    "count": 2,
    "space": {
        "bays": [
            {"tiers": [{"front": "door", "fixed_shelves": 1}, {"front": "open"}]},
            {"front": "door-pair", "loose_shelves": 1},
        ]
    },
    "face_frame": {"material": "frame"},
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin", "pull": {"item": "bar-96"}},
    "mounting": {"method": "bevel-cleat", "contents_kg": 20},
}
CASE = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
    "fixed_joint": {"method": "housed-groove", "depth": 5},
    "shelf_band": "edging",
}


@pytest.fixture
def plan(planned):
    return planned(BAY, CASE)


def test_parts_built_without_a_step_done_ask_for_what_is_left_of_the_stock(planned):
    sheet = {"id": "sheet", "material": "case", "length": 2440, "width": 1220, "copies": None}
    side = {"cabinet": "bay", "part": "side-left", "measure": "length", "value": 900}
    for more, listed in (({}, False), ({"built": [side]}, True)):
        first = planned({}, stock={"sheets": [sheet]}, **more).steps[0].do
        assert ("list what is left" in first) is listed


def test_steps_are_numbered_and_need_only_earlier_ones(plan):
    assert [s.number for s in plan.steps] == list(range(1, len(plan.steps) + 1))
    for step in plan.steps:
        assert all(n < step.number for n in step.needs)
        assert step.do
        assert len(set(step.parts)) == len(step.parts)


def test_no_need_is_named_that_another_need_waits_for(plan):
    earlier = before(plan.steps)
    for step in plan.steps:
        assert not any(need in earlier[other] for need in step.needs for other in step.needs), step.number


def test_needs_left_out_are_waited_for_all_the_same(plan):
    # 3 needs 1 and 2, and 2 needs 1: that 3 needs 1 says no more.
    job = plan.job
    steps = Steps(job, Words(job, NamedParts.of(()), {}, {}), Tools.of(job.shop, job.stock), Made((), {}, {}))
    for after in ((), (1,), (1, 2), (1, 3), (2,)):
        steps.put(Operation(0, Stage.CUT, Machine.BY_HAND, Action.FIT, Setting(), ()), after)
    assert [one.needs for one in steps.steps] == [(), (1,), (2,), (3,), (2,)]


def test_every_part_is_ripped_and_cross_cut_once_before_any_joint(plan):
    earlier = before(plan.steps)
    cut = [(s, piece) for s in plan.steps if s.stage == "cut" for piece in s.on]
    for part in plan.parts:
        ((stop, last),) = [(s, piece) for s, piece in cut if piece.keeps == part.id]
        ((fence, _),) = [(s, piece) for s, piece in cut if piece.keeps == last.piece]
        assert (fence.action, fence.setting.distance) == ("rip", part.width)
        assert (stop.action, stop.setting.distance) == ("crosscut", part.length)
        for step in plan.steps:
            if part.id in step.parts and step.stage != "cut":
                assert {fence.number, stop.number} <= earlier[step.number]


def test_each_setting_is_visited_once(plan):
    for stage in ("cut", "joints"):
        settings = [(s.do, s.setting) for s in plan.steps if s.stage == stage]
        assert len(set(settings)) == len(settings)


def test_every_cut_of_a_part_is_made_before_it_is_glued(plan):
    earlier = before(plan.steps)
    glue = next(s for s in plan.steps if s.stage == "glue")
    joints = {s.number for s in plan.steps if s.stage == "joints" and set(s.parts) & set(glue.parts)}
    assert joints
    assert joints <= earlier[glue.number]


def test_dry_fit_comes_before_glue(plan):
    earlier = before(plan.steps)
    dry = next(s for s in plan.steps if s.stage == "dry-fit")
    glue = next(s for s in plan.steps if s.stage == "glue")
    assert dry.number in earlier[glue.number]
    assert set(dry.parts) == set(glue.parts) == {p.id for p in plan.parts if p.group == "case"}


def test_panels_are_cut_and_fitted_before_a_door_is_glued(plan):
    earlier = before(plan.steps)
    glued = [s for s in plan.steps if s.stage == "doors" and s.do.startswith("Glue")]
    assert len(glued) == 3
    for step in glued:
        panel = next(p.id for p in plan.parts if p.role == "door-panel" and p.id in step.parts)
        fitted = [s for s in plan.steps if s.action == "fit" and panel in s.parts]
        cut = [s for s in plan.steps if s.stage == "cut" and panel in s.parts]
        assert {s.number for s in [*fitted, *cut]} <= earlier[step.number]
        assert len(fitted) == 1


def test_doors_are_bored_after_glue_and_hung_on_a_finished_case(plan):
    earlier = before(plan.steps)
    frame_on = next(s for s in plan.steps if s.action == "glue" and {"bay/frame-rail-top", "bay/top"} <= set(s.parts))
    for hang in (s for s in plan.steps if s.stage == "hardware" and s.parts and "door" in s.parts[0]):
        door = set(hang.parts)
        bored = next(s for s in plan.steps if s.do.startswith("Bore") and set(s.parts) & door)
        glued = next(s for s in plan.steps if s.do.startswith("Glue door") and set(s.parts) == door)
        assert glued.number in earlier[bored.number]
        assert {bored.number, frame_on.number} <= earlier[hang.number]


def test_hanging_is_last_and_needs_everything_of_its_cabinet(plan):
    last = plan.steps[-1]
    assert last.stage == "hang"
    done = before(plan.steps)[last.number]
    for step in plan.steps[:-1]:
        if step.stage in ("dry-fit", "glue", "face-frame", "mounting"):
            assert step.number in done, step.do


def test_every_feature_has_a_step(plan):
    worked = {p for s in plan.steps if s.stage in ("joints", "doors") for p in s.parts}
    assert {p.id for p in plan.parts if p.features} <= worked


def test_the_order_is_the_same_each_time(planned, plan):
    assert planned(BAY, CASE).steps == plan.steps
