"""What must be done before what, in generated jobs: nothing is sanded, cut or banded once it can no longer be."""

import sys
from itertools import pairwise
from pathlib import Path

from casewright.sdk.model import Action, Stage
from casewright.sdk.testing.drawing import over

sys.path.insert(0, str(Path(__file__).parent))

from replay_jobs import planned, work_jobs

JOBS, JOBS_FULL = 25, 300
AT_MACHINES = frozenset({Stage.CUT, Stage.MILL, Stage.JOINTS})
COATS = [{"what": "oil", "minutes": 600}, {"what": "wax", "minutes": 30}]


def on(step):
    return {one.part for one in step.on if one.part}


class Work:
    """The steps of a plan, by number, with all that each waits for."""

    def __init__(self, plan):
        self.plan, self.steps = plan, plan.steps
        self.waits = {}
        for step in plan.steps:
            self.waits[step.number] = set(step.needs).union(*(self.waits[need] for need in step.needs))

    def of(self, action, stage=None):
        return [step for step in self.steps if step.action is action and stage in (None, step.stage)]

    def follows(self, later, earlier):
        assert earlier.number in self.waits[later.number], (earlier.do, later.do)


def cuts_come_first(work):
    """Assert that a part is set in after every cut of it at the machines."""
    for insert in work.of(Action.INSERT):
        for cut in work.steps:
            if cut.stage in AT_MACHINES and on(cut) & on(insert):
                work.follows(insert, cut)


def sanding_comes_before_closing(work):
    """Assert that a case is sanded inside before it is closed, and nothing once it hangs."""
    for glue in work.of(Action.GLUE, Stage.GLUE):
        assert any(on(glue) <= on(sand) for sand in work.of(Action.SAND) if sand.number in work.waits[glue.number])
    for number, step in enumerate(work.steps):
        if step.action is Action.SAND:
            later = [other for other in work.steps[:number] if other.action is Action.HANG]
            assert not [other for other in later if on(other) & on(step)]


def bands_come_before_the_dry_fit(work):
    for fit in work.of(Action.FIT, Stage.DRY_FIT):
        for band in work.of(Action.BAND):
            if on(fit) & on(band):
                work.follows(fit, band)


def glue_is_left_before_the_next_work(work):
    """Assert that after a glue-up every later step on its parts waits for clamps to come off."""
    for glue in (step for step in work.of(Action.GLUE) if step.stage not in AT_MACHINES):
        wait = next(step for step in work.steps[glue.number :] if step.action is Action.WAIT and on(step) & on(glue))
        work.follows(wait, glue)
        for step in work.steps[wait.number :]:
            if on(step) & on(glue) & on(wait):
                work.follows(step, wait)


def coats_dry_in_their_order(work):
    for cabinet in work.plan.job.cabinets:
        mine = [step for step in work.steps if step.stage is Stage.FINISH and step.action is not Action.SAND]
        mine = [step for step in mine if any(part.startswith(f"{cabinet.id}/") for part in on(step))]
        assert [(step.action, step.minutes) for step in mine] == [
            (Action.FINISH, None), (Action.WAIT, 600), (Action.FINISH, None), (Action.WAIT, 30),
        ]  # fmt: skip
        for earlier, later in pairwise(mine):
            work.follows(later, earlier)


def the_wall_is_ready_before_a_cabinet_comes(work):
    parts = {part.id: part for part in work.plan.parts}
    for hang in work.of(Action.HANG):
        cabinet = parts[hang.on[0].part].cabinet
        for step in work.steps:
            cleat = step.stage is Stage.MOUNTING and any(parts[one].role == "wall-cleat" for one in on(step))
            base = step.stage is Stage.BASE
            if (cleat or base) and any(parts[one].cabinet == cabinet for one in on(step)):
                work.follows(hang, step)
        glued = [
            one for one in work.of(Action.WAIT) if one.stage is Stage.HARDWARE and one.number in work.waits[hang.number]
        ]
        assert glued or not any(parts[part].cabinet == cabinet for glue in work.of(Action.GLUE) for part in on(glue))


def test_generated_jobs_are_made_in_an_order_that_can_be_kept(full):
    def check(job):
        work = Work(planned({**job, "shop": {**job.get("shop", {}), "finish": COATS}}))
        cuts_come_first(work)
        sanding_comes_before_closing(work)
        bands_come_before_the_dry_fit(work)
        glue_is_left_before_the_next_work(work)
        coats_dry_in_their_order(work)
        the_wall_is_ready_before_a_cabinet_comes(work)

    over(JOBS_FULL if full else JOBS, "jobs", check, job=work_jobs())
