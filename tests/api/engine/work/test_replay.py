"""The work as listed, carried out by a simulated shop that knows its data only, makes the parts as planned.

The default run takes a recorded smaller count; `pytest --full` 1,000 jobs.
"""

import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.sdk.testing.drawing import over
from replay_jobs import KINDS, planned, work_jobs

JOBS, JOBS_FULL = 64, 1000
MOVED = 5
"""Every so many jobs, what is set in is followed on its way, too: that takes longer than the rest."""


def test_the_work_as_listed_makes_the_parts_as_planned(full):
    drawn = Counter()

    def check(job):
        plan = planned(job)
        given = given_of(plan.job, plan.parts, plan.stock)
        assert replay(plan.steps, plan.parts, plan.joints, given, moves=drawn["jobs"] % MOVED == 0) == []
        assert [c for c in plan.checks if c.code == "work-not-carried-out"] == []
        drawn.update(["jobs", plan.job.units, plan.job.cabinets[0].form, f"stock: {plan.stock is not None}"])
        drawn.update({joint.method for joint in plan.joints})

    eighth = (JOBS_FULL if full else JOBS) // sum(KINDS.values())
    for kind, share in KINDS.items():
        over(share * eighth, kind, check, job=work_jobs(kind))
    print(dict(drawn))
    assert {"mm", "in", "wall", "base", "tall", "stock: True", "stock: False", "shop-plugin"} <= drawn.keys()
