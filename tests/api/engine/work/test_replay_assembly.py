"""What a simulated bench reports when steps are altered as a hand could alter them: one thing a test, drawn by a seed.

What is expected follows from what the bench is for; each alteration is one that a person would stumble over.
"""

import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.sdk.model import Action, Machine, Way
from casewright.sdk.testing.drawing import over
from replay_jobs import planned, work_jobs

SEED = 20261126
JOBS, JOBS_FULL, EACH = 6, 100, 4
BENCH = (Action.INSERT, Action.GLUE, Action.CLAMP, Action.WAIT)


def numbered(steps):
    """Return steps numbered by their places, with needs of those that are still there and before them."""
    places = {step.number: place for place, step in reversed(list(enumerate(steps, start=1)))}
    return [
        replace(
            step, number=place, needs=tuple(sorted({places[n] for n in step.needs if places.get(n, place) < place}))
        )
        for place, step in enumerate(steps, start=1)
    ]


def without(steps, step):
    return numbered([one for one in steps if one is not step])


def again(steps, step):
    return numbered([one for step_ in steps for one in ([step_, step_] if step_ is step else [step_])])


def at_the_end(steps, step):
    return numbered([*[one for one in steps if one is not step], step])


def laid_over(**changes):
    def alter(steps, step):
        return [replace(step, **changes) if one is step else one for one in steps]

    return alter


def first_piece(**changes):
    def alter(steps, step):
        return laid_over(on=(replace(step.on[0], **changes), *step.on[1:]))(steps, step)

    return alter


def glued_over(steps, step):
    return first_piece(glue=(step.on[0].glue[0].across, *step.on[0].glue[1:]))(steps, step)


def in_clamps(step):
    """Return whether a wait is that of a glue-up in its clamps, for the hour that is left for by default."""
    return step.action is Action.WAIT and step.minutes == 60


ALTERED = {
    "a part is not set in": (without, lambda s: s.action is Action.INSERT),
    "a part is set in twice": (again, lambda s: s.action is Action.INSERT),
    "a part is set in after all is done": (at_the_end, lambda s: s.action is Action.INSERT),
    "a part is set into nothing": (first_piece(into=()), lambda s: s.action is Action.INSERT),
    "one copy less is set in": (first_piece(count=0), lambda s: s.action is Action.INSERT),
    "glue is put on the far side": (glued_over, lambda s: s.action is Action.INSERT and bool(s.on[0].glue)),
    "no glue is made ready": (without, lambda s: s.action is Action.GLUE),
    "nothing is clamped": (without, lambda s: s.action is Action.CLAMP),
    "a clamp is left off": (first_piece(clamps=0), lambda s: s.action is Action.CLAMP),
    "a panel is not clamped": (without, lambda s: s.action is Action.CLAMP and s.on[0].piece),
    "a panel is cut before its glue has set": (without, lambda s: in_clamps(s) and s.on[0].piece),
    "glue is not left": (without, in_clamps),
    "glue is left too short": (
        laid_over(minutes=1),
        in_clamps,
    ),
    "an edge is not banded": (without, lambda s: s.action is Action.BAND),
    "nothing is measured": (without, lambda s: s.action is Action.MEASURE),
    "a part is grooved after it is glued": (at_the_end, lambda s: s.action in (Action.GROOVE, Action.RABBET)),
    "a groove is cut twice": (again, lambda s: s.action is Action.GROOVE and s.on[0].run == (1, 1)),
    "holes are bored twice": (again, lambda s: s.action is Action.BORE),
    "a jointer cuts": (
        laid_over(machine=Machine.JOINTER),
        lambda s: s.action not in (Action.FACE, Action.EDGE),  # these are what a jointer does
    ),
    "a groove is called a rabbet": (
        laid_over(action=Action.RABBET),
        lambda s: s.action is Action.GROOVE and s.on[0].run == (1, 1) and s.setting.tilt_deg is None,
    ),
    "it waits for nothing": (laid_over(needs=()), lambda s: s.action in (*BENCH, Action.BORE, Action.GROOVE) and s.on),
    "it waits for itself": (lambda steps, s: laid_over(needs=(s.number,))(steps, s), lambda s: True),
}


@pytest.fixture(scope="module")
def plans(full):
    """Return plans of generated jobs."""
    found = []

    def keep(job):
        found.append(planned(job))

    over(JOBS_FULL if full else JOBS, "jobs", keep, job=work_jobs())
    return found


@pytest.mark.parametrize("what", ALTERED)
def test_what_is_altered_by_hand_is_reported(plans, what):
    alter, fit = ALTERED[what]
    draw, counts = Random(SEED), Counter()
    for plan in plans:
        given = given_of(plan.job, plan.parts, plan.stock)
        steps = [step for step in plan.steps if fit(step)]
        for step in draw.sample(steps, min(EACH, len(steps))):
            work = alter(list(plan.steps), step)
            faults = replay(work, plan.parts, plan.joints, given)
            assert faults, f"{what} is not reported: {step.do}"
            counts[what] += 1
    print(f"\n{what}: {counts[what]} altered and reported")
    assert counts[what]


WAYS = {Way.RIGHT: 1, Way.LEFT: -1, Way.BACK: 2, Way.FRONT: -2, Way.UP: 3, Way.DOWN: -3}


def test_a_part_that_would_go_through_another_is_reported(plans):
    """What is pressed home the way it is moved would come from within the other part, were it moved the other way."""
    against = {WAYS[way]: way for way in WAYS}
    count = 0
    for plan in plans:
        given = given_of(plan.job, plan.parts, plan.stock)
        for step in plan.steps:
            if step.action is not Action.INSERT or len(step.on) > 1 or len(step.moves) > 1:
                continue
            name, way = step.on[0].part, WAYS[step.moves[0].towards]
            joints = [j for j in plan.joints if name in (j.guest, j.host) and {j.guest, j.host} & set(step.on[0].into)]
            presses = {j.press if j.guest == name else -j.press for j in joints}
            if presses != {way} or count > 40:
                continue
            moves = (replace(step.moves[0], towards=against[-way]),)
            work = laid_over(moves=moves)(list(plan.steps), step)
            assert [f.operation for f in replay(work, plan.parts, plan.joints, given, moves=True)] == [step.number]
            count += 1
    print(f"\n{count} reversed and reported")
    assert count
