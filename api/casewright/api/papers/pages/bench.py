"""The booklet's bench pages: all that is done by hand, step by step, and when it can be done."""

from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.schedule import ranges, time_text
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import BOX, CELL, HEAD, SMALL, TICKED, gap, para, table
from casewright.sdk.model import Operation, Stage
from reportlab.platypus import Flowable

__all__ = ["AT_MACHINES", "bench", "box", "how_long"]

AT_MACHINES = frozenset({Stage.CUT, Stage.MILL, Stage.JOINTS})
"""Stages that have pages of their own."""


def box(facts: Facts, step: Operation) -> str:
    """Return the box of a step: ticked where the job marks it as done."""
    return TICKED if step.number in facts.done else BOX


def bench(facts: Facts) -> list[Flowable]:
    """Return the steps that are not at the machines' pages, each with a box to tick and when it can be begun."""
    story: list[Flowable] = [para("At the bench and at the wall, step by step", HEAD), para(how_long(facts), SMALL)]
    rows = [
        [
            box(facts, step),
            step.number,
            [para(line, CELL) for line in _lines(facts, step)],
            "; ".join(piece_words(step, facts.parts, facts.sides, facts.tape)),
            _when(facts, step),
        ]
        for step in facts.plan.steps
        if step.stage not in AT_MACHINES
    ]
    return [*story, table(("", "Step", "What", "Pieces", "Earliest"), rows, (4, 6, 46, 32, 12)), gap()]


def how_long(facts: Facts) -> str:
    """Return how long what is left takes one person, and what is not known of it."""
    schedule = facts.plan.schedule
    text = f"{len(schedule.steps)} steps to do; the earliest finish for one person is {time_text(schedule.finish)} from"
    text += f" the start, {time_text(schedule.hands_on)} of it work by hand." if schedule.hands_on else " the start."
    if schedule.untimed:
        text += f" {schedule.untimed} steps have no time by the shop's rates and count as nothing."
    return text


def _lines(facts: Facts, step: Operation) -> list[str]:
    meanwhile = next((one.steps for one in facts.plan.schedule.meanwhile if one.wait == step.number), ())
    check = [f"Check: {step.check}"] if step.check else []
    return [step.do, *check, *([f"Meanwhile {ranges(meanwhile)} can be done."] if meanwhile else []), *step.cautions]


def _when(facts: Facts, step: Operation) -> str:
    time = facts.times.get(step.number)
    if time is None:
        return "done"
    start = f"{time_text(time.start)} on" if time.start else ""
    lasts = "" if step.minutes is None else f"for {time_text(step.minutes)}"
    return ", ".join(word for word in (start, lasts) if word)
