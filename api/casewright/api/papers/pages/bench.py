"""The booklet's pages of all other work by hand: hardware, mounting, setting out, hanging, finish."""

from casewright.api.engine.work.schedule import ranges, time_text
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cards import ASSEMBLED
from casewright.api.papers.pages.numbers import StepNumbers
from casewright.api.papers.pages.setting import CELL, head, para, table
from casewright.api.papers.pages.settings import at_machine, box
from casewright.sdk.model import Operation
from reportlab.platypus import Flowable

__all__ = ["bench"]


def bench(facts: Facts) -> list[Flowable]:
    """Return the steps by hand that no card holds, each with a box to tick and when it can be begun."""
    steps = [
        step
        for step in facts.plan.steps
        if not at_machine(step) and step.stage not in ASSEMBLED and step.measurement is None
    ]
    if not steps:
        return []
    story: list[Flowable] = [head("At the bench and at the wall")]
    rows = [
        [box(facts, step), StepNumbers([step.number], (), facts.cabinets_of(step)), _lines(facts, step),
         _when(facts, step)]
        for step in steps
    ]  # fmt: skip
    story.append(table(("", "Step", "What", "Earliest"), rows, (3, 6, 80, 11)))
    return story


def _lines(facts: Facts, step: Operation) -> list[Flowable]:
    meanwhile = next((one.steps for one in facts.plan.schedule.meanwhile if one.wait == step.number), ())
    check = [f"Check: {step.check}"] if step.check else []
    wait = [f"Meanwhile {ranges(meanwhile)} can be done."] if meanwhile else []
    return [para(line, CELL) for line in (step.do, *check, *wait, *step.cautions)]


def _when(facts: Facts, step: Operation) -> str:
    time = facts.times.get(step.number)
    if time is None:
        return "done"
    start = f"{time_text(time.start)} on" if time.start else ""
    lasts = "" if step.minutes is None else f"for {time_text(step.minutes)}"
    return ", ".join(word for word in (start, lasts) if word)
