"""What waits for a measurement on the work: generated jobs of a rough shop, and what a faulty list of them reports.

`pytest --full` plans 200 jobs. Every action is off by 1/32 in, so that most of what is fitted waits.
"""

import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.sdk.model import Action, Verdict
from casewright.sdk.model.fits import HALF_WIDTHS
from casewright.sdk.testing.drawing import over
from needs import before
from replay_jobs import planned, work_jobs

JOBS, JOBS_FULL = 15, 200
ROUGH = dict.fromkeys([*HALF_WIDTHS, "sheet"], "1/32 in")


def rough(job):
    return planned({**job, "shop": {**job.get("shop", {}), "accuracy": ROUGH}})


def test_what_waits_is_cut_after_it_is_measured_for(full):
    seen = Counter()

    def check(job):
        plan = rough(job)
        assert not [check for check in plan.checks if check.code == "work-not-carried-out"]
        for fit in plan.fits:
            if fit.measuring is None:
                assert fit.verdict is not Verdict.TAKE_FROM_WORK
                continue
            if fit.measuring.step is None:
                assert plan.stock is not None
                assert plan.stock.short
                continue
            seen[fit.kind] += 1
            measures = plan.steps[fit.measuring.step - 1]
            assert (measures.action, measures.measurement) == (Action.MEASURE, fit.measuring.measurement)
            assert all(copy in measures.do for copy in measures.measurement.copies)
        waits = before(plan.steps)
        for step in plan.steps:
            if step.cut_to is not None:
                assert step.cut_to.step in waits[step.number]

    over(JOBS_FULL if full else JOBS, "jobs", check, job=work_jobs())
    print(f"\n{seen}")
    assert len(seen) >= (6 if full else 4)


INSET = {
    "space": {"front": "door-pair", "loose_shelves": 1},
    "doors": {"style": "slab", "material": "case", "hang": "inset", "gap": 2, "meeting_gap": 2},
}
SHEETS = {"sheets": [{"id": "full", "material": "case", "length": 2440, "width": 1220}], "kerf": 3}


@pytest.fixture
def pair(planned):
    """Return a function that plans a case with a pair of slab doors in a shop that is off by so much, with stock."""
    return lambda off, **top: planned(
        INSET, {"corner": {"method": "screwed-butt"}, "back": None}, shop={"accuracy": dict.fromkeys(ROUGH, off)}, **top
    )


def test_each_door_of_a_pair_takes_half(pair):
    """800 less two sides of 18 is 764; three gaps of 2 leave 758 for two doors of 379: (measured - 6) / 2.

    What is left then: the reading 1.5, both doors at one fence 3, the cups of each 1.5: 1.5 x sqrt(15.75) = 5.953, more
    than hinges reach, so each door is left half of it on, 3.0 on the tape.
    """
    plan = pair(1.5)
    (one,) = [fit for fit in plan.fits if fit.id == "bay/door-1 across"]
    assert [(size.planned, size.less, size.among) for size in one.measuring.sizes] == [(379_000_000, 6_000_000, 2)] * 2
    (cut,) = [step for step in plan.steps if step.cut_to and step.cut_to.among == 2]
    assert cut.cut_to.step == one.measuring.step
    assert "fence at (what step" in cut.do
    assert "measured − 6.0 mm) ÷ 2 + 3.0 mm to plane off (as planned 379.0 mm)" in cut.do


def test_what_waits_comes_from_its_sheet_over_size(pair):
    """Doors 379 wide are cut 12 wider, to be ripped when they are measured for; what holds is cut to its size."""
    plan = pair(1.5, stock=SHEETS)
    placed = {piece.part: (piece.dx, piece.dy) for layout in plan.stock.layouts for piece in layout.placed}
    door = next(part for part in plan.parts if part.id == "bay/door-1/slab")
    assert sorted(placed["bay/door-1/slab"]) == sorted((door.length + 12_000_000, door.width + 12_000_000))
    side = next(part for part in plan.parts if part.id == "bay/side-left")
    assert sorted(placed["bay/side-left"]) == sorted((side.length, side.width))
    assert not [check for check in plan.checks if check.level == "stop"]


def test_where_the_pile_leaves_nothing_over_it_is_cut_to_the_plan(pair):
    """An offcut just as long as the shelf yields it, and none is longer: its fit says that it is tried by hand."""
    shelf = next(part for part in pair(0).parts if part.id == "bay/loose-shelf-1")
    case = [part for part in pair(0).parts if part.material == "case" and part is not shelf]
    size = {"length": shelf.length / 1e6, "width": shelf.width / 1e6 + 9}
    rest = [
        {"id": f"piece-{number}", "material": "case", "length": part.length / 1e6 + 9, "width": part.width / 1e6 + 9}
        for number, part in enumerate(case)
    ]
    plan = pair(1.5, stock={"offcuts": [{"id": "shelf", "material": "case", **size}, *rest], "kerf": 3})
    assert not [check for check in plan.checks if check.level == "stop"]
    (one,) = [fit for fit in plan.fits if fit.id == "bay/loose-shelf-1 across"]
    assert one.verdict is Verdict.TAKE_FROM_WORK
    assert one.measuring.step is None
    (note,) = [one for one in plan.checks if (one.subject, one.code) == ("bay/loose-shelf-1", "fit-from-the-work")]
    assert note.message.endswith("to fit.")


@pytest.mark.parametrize("harm", ["step", "less", "among", "needs", "planned"])
def test_a_list_that_cuts_to_another_reading_is_reported(pair, harm):
    plan = pair(1.5)
    (number,) = [step.number for step in plan.steps if step.cut_to and step.cut_to.among == 2]
    cut, steps = plan.steps[number - 1], list(plan.steps)
    to = cut.cut_to
    match harm:
        case "step":
            steps[number - 1] = replace(cut, cut_to=replace(to, step=1))
        case "less":
            steps[number - 1] = replace(cut, cut_to=replace(to, less=to.less + 1))
        case "among":
            steps[number - 1] = replace(cut, cut_to=replace(to, among=1))
        case "needs":
            steps[number - 1] = replace(cut, needs=(1,))
        case "planned":
            reading = steps[to.step - 1]
            other = replace(reading.measurement, planned=reading.measurement.planned + 1)
            steps[to.step - 1] = replace(reading, measurement=other)
    faults = replay(steps, plan.parts, plan.joints, given_of(plan.job, plan.parts, None))
    assert number in {fault.operation for fault in faults}


def test_a_reading_before_the_case_stands_is_reported(pair):
    plan = pair(1.5)
    (number,) = [step.cut_to.step for step in plan.steps if step.cut_to and step.cut_to.among == 2]
    steps = list(plan.steps)
    steps[number - 1] = replace(steps[number - 1], needs=(1,))
    faults = replay(steps, plan.parts, plan.joints, given_of(plan.job, plan.parts, None))
    assert (number, "it measures what does not stand yet") in {(one.operation, one.what) for one in faults}
