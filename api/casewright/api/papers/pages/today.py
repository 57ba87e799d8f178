"""The booklet's first page: go or stop, what comes next, who and what it takes, what to mind."""

from collections.abc import Iterator, Mapping, Sequence

from casewright.api.engine.work.naming import first_of
from casewright.api.engine.work.schedule import time_text
from casewright.api.papers import text as metrics
from casewright.api.papers.facts import Facts, counted
from casewright.api.papers.pages.cards import ASSEMBLED
from casewright.api.papers.pages.numbers import PageOf
from casewright.api.papers.pages.setting import BIG, SMALL, UNDER, Contents, gap, para, table
from casewright.api.papers.pages.settings import at_machine
from casewright.api.papers.pages.stops import stops
from casewright.sdk.engineering import weights
from casewright.sdk.model import Action, Cabinet
from casewright.sdk.model.cures import StopCures
from reportlab.platypus import Flowable

NEXT = 4
"""Steps named as what to do next."""

CAUTIONS = 5
"""Cautions on the first page."""

PAGES = ("Drawn", "Glued", "Put up")
"""Heads of the columns that say on which pages a cabinet is."""

SUBJECTS = 4
"""What a caution is about that is named before it says how much more there is."""

AT_SAWS = (
    "Guards, riving knife and push sticks at every saw; eyes, ears and lungs covered. The machine's manual comes first."
)
OVERHEAD = (
    "What hangs overhead can kill: local code and a licensed person's word come before these figures, and as "
    "many people lift as its cabinet asks for."
)


def today(facts: Facts, cures: Sequence[StopCures] = ()) -> list[Flowable]:
    """Return the first page."""
    story: list[Flowable] = [para(facts.title, BIG), *_verdict(facts, cures)]
    ahead = [step for step in facts.plan.steps if step.number not in facts.done][:NEXT]
    if ahead:
        story.append(para("Next", UNDER))
        rows = [[step.number, f"{step.do}.", PageOf(step.number)] for step in ahead]
        story.append(table(("Step", "What", "Page"), rows, (6, 86, 8)))
    first = _first_steps(facts)
    made = [_cabinet(facts, cabinet, first) for cabinet in facts.cabinets.values()]
    if made:
        story.append(para("Cabinets, and the pages they are on", UNDER))
        heads = ("Cabinet", "To make", "Width × height × depth", "Weight, empty", "Hands to lift", *PAGES)
        story.append(table(heads, made, (22, 9, 22, 13, 12, 7, 8, 7)))
    if facts.job.loose_parts:
        also = "and " if made else ""
        story.append(para(f"{also}{counted(len(facts.job.loose_parts), 'kind')} of loose parts that are only cut."))
    story += [para("Time and cost", UNDER), para(how_long(facts))]
    story += [para(line) for line in _cost(facts)]
    story.append(para("Mind", UNDER))
    story += [para(f"• {line}") for line in _cautions(facts)]
    story += [para("Where it stands", UNDER), Contents(), gap()]
    story.append(para(f"Lengths are in {facts.unit_name}. A length on the tape is written as the tape shows it; "
                      "any other in decimals, for callipers. Sizes are of the wood, without edge band.",
                      SMALL))  # fmt: skip
    if any(metrics.cannot_draw(t) for t in (facts.title, *(c.title for c in facts.cabinets.values()))):
        words = "A □ stands for a character that the fonts of this booklet cannot draw; the plan's data has it."
        story.append(para(words, SMALL))
    return story


def how_long(facts: Facts) -> str:
    """Return how long what is left takes one person, and what is not known of it."""
    schedule = facts.plan.schedule
    finish, left = time_text(schedule.finish), counted(len(schedule.steps), "step")
    text = f"{left} to do; the earliest finish for one person is {finish} from"
    text += f" the start, {time_text(schedule.hands_on)} of it work by hand." if schedule.hands_on else " the start."
    if schedule.untimed:
        have, count = ("step has", "counts") if schedule.untimed == 1 else ("steps have", "count")
        text += f" {schedule.untimed} {have} no time by the shop's rates and {count} as nothing."
    return text


def _verdict(facts: Facts, cures: Sequence[StopCures]) -> list[Flowable]:
    go = para("Go: no check stops this work. Measure the stock first; where it differs, change the job.")
    return stops(facts, cures) or [go]


def _first_steps(facts: Facts) -> Mapping[tuple[str, bool], int]:
    """Return the first step of each cabinet that glues it up, or that puts it up (`True`), by number."""
    out: dict[tuple[str, bool], int] = {}
    for step in facts.plan.steps:
        if step.action is Action.HANG or (step.stage in ASSEMBLED and not at_machine(step)):
            for cabinet in facts.worked_on(step):
                out.setdefault((cabinet, step.action is Action.HANG), step.number)
    return out


def _cabinet(facts: Facts, cabinet: Cabinet, first: Mapping[tuple[str, bool], int]) -> list[object]:
    weight = next((w.mass_kg for w in facts.plan.weights if w.cabinet == cabinet.id), None)
    size = " × ".join(facts.bare(n) for n in (cabinet.width, cabinet.height, cabinet.depth))
    return [
        f"{cabinet.id}: {cabinet.title}" if cabinet.title else cabinet.id,
        cabinet.count,
        size,
        "" if weight is None else facts.writer.mass_kg(weight),
        "" if weight is None else hands(weight),
        PageOf(cabinet.id),
        *(PageOf(first[cabinet.id, put_up]) if (cabinet.id, put_up) in first else "" for put_up in (False, True)),
    ]


def hands(kg: float) -> str:
    """Return in words how many people should lift a mass overhead."""
    return {1: "one person", 2: "two people"}.get(weights.hands(kg), "three people or a lift")


def _cost(facts: Facts) -> Iterator[str]:
    costs = facts.plan.costs
    if costs.total is None:
        yield "Nothing here has a price: the job gives no rates, and its stock no cost."
        return
    places, whole = costs.decimals, "for what has a price" if costs.missing else "in all"
    text = " ".join(filter(None, (f"{costs.total:.{places}f}", costs.currency, whole)))
    shares = [] if costs.materials is None else [f"{costs.materials:.{places}f} for what is bought"]
    if costs.work:
        shares.append(f"{costs.work:.{places}f} for {costs.hours.normalize():f} h of work")
    yield f"{text}: {', '.join(shares)}."
    if costs.missing:
        yield f"{counted(costs.missing, 'line')} of the costs without a price, which the total does not hold."


def _cautions(facts: Facts) -> list[str]:
    usual = [AT_SAWS, *([OVERHEAD] if facts.plan.mounting else [])]
    alike: dict[str, dict[str, None]] = {}
    for check in facts.plan.checks:
        if check.level == "caution":
            alike.setdefault(check.message, {})[facts.about(check)] = None
    own = [f"{first_of(list(subjects), SUBJECTS)}: {message}" for message, subjects in alike.items()]
    return [*usual, *own][:CAUTIONS]
