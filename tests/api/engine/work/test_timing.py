"""Minutes of the steps by the shop's rates: together what the costs come to, and each where it is done."""

import sys
from fractions import Fraction
from pathlib import Path

from casewright.sdk.model import Action
from casewright.sdk.model.rates import TIMED_WORK
from casewright.sdk.testing.drawing import over

sys.path.insert(0, str(Path(__file__).parent))

from replay_jobs import planned as planned_job
from replay_jobs import work_jobs

JOBS, JOBS_FULL = 15, 300
HOUSED = {"corner": {"method": "housed-groove", "depth": 6}, "top_inset": 20, "bottom_inset": 20}


def by_action(plan, action):
    return [step.minutes for step in plan.steps if step.action is action]


def test_without_times_only_waits_have_minutes(planned):
    plan = planned({}, HOUSED)
    assert {step.action for step in plan.steps if step.minutes is not None} == {Action.WAIT}


def test_a_groove_in_two_passes_is_one_groove_over_two_steps(planned):
    # Two sides, each grooved for the top and for the bottom: 4 grooves of 6 min in 2 passes, 12 min a pass. 18.2 mm
    # needs two passes of a 12 mm cutter.
    cutters = {"groove_cutters": [12], "fit": 0.2}
    plan = planned({}, {**HOUSED, "back": None}, rates={"minutes": {"groove": 6}}, shop=cutters)
    assert by_action(plan, Action.GROOVE) == [12, 12]
    assert plan.costs.hours * 60 == 24


def test_joints_are_fitted_dry_and_glued_up_where_it_is_done(planned):
    # Four joints of 2 min; one case of 9 min; three copies of each.
    plan = planned({"count": 3}, {**HOUSED, "back": None}, rates={"minutes": {"joint": 2, "glue-up": 9}})
    assert by_action(plan, Action.FIT) == [24]
    assert by_action(plan, Action.GLUE) == [27]


def test_hanging_is_shared_by_the_cabinets_that_are_hung(planned):
    wall = {"studs": {"at": [100, 500, 900, 1300, 1700], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}}
    places = {"bay": [{"x": 0, "z": 1400}, {"x": 900, "z": 1400}]}
    mounting = {"count": 2, "mounting": {"method": "bevel-cleat", "contents_kg": 5}}
    plan = planned(
        mounting, {"back": {"inset": 19}}, rates={"minutes": {"hang": 25}}, wall={**wall, "cabinets_at": places}
    )
    assert by_action(plan, Action.HANG) == [25, 25]


def test_minutes_of_all_steps_are_the_hours_of_the_costs(full):
    rates = {"minutes": {kind: number for number, kind in enumerate(TIMED_WORK, start=1)}}

    def check(job):
        plan = planned_job({**job, "rates": rates})
        work = {line.item: Fraction(line.quantity) for line in plan.costs.lines if line.kind == "work"}
        total = sum((quantity * rates["minutes"][kind] for kind, quantity in work.items()), Fraction(0))
        steps = sum(Fraction(step.minutes or 0) for step in plan.steps if step.action is not Action.WAIT)
        assert steps == total, work

    over(JOBS_FULL if full else JOBS, "jobs", check, job=work_jobs())
