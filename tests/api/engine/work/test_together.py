"""Every sub-assembly of a generated job is walked through in the order given: nothing meets anything on its way."""

import sys
from pathlib import Path

from casewright.api.engine.work.together import put_together
from casewright.sdk.testing.drawing import over

sys.path.insert(0, str(Path(__file__).parent))

from assembly_walk import order_is_clear
from replay_jobs import planned, work_jobs
from solids import cells_of

JOBS, JOBS_FULL = 15, 300


def walked(job):
    plan = planned(job)
    clashing = {name for clash in plan.dry_fit.clashes for name in (clash.first, clash.second)}
    for together in put_together(plan.parts, plan.joints, plan.hardware, {}).values():
        if clashing.isdisjoint(part.id for part in together.parts):
            solids = {part.id: cells_of(part) for part in together.parts}
            assert order_is_clear(solids, together.order), together.order


def test_generated_jobs_go_together_with_nothing_in_the_way(full):
    over(JOBS_FULL if full else JOBS, "jobs", walked, job=work_jobs())
