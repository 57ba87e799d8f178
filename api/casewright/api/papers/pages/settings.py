"""The booklet's order of work at the machines: one table a stage, one row a setting, every piece of a row in one go."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from casewright.api.engine.work.cautions import always
from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.machine_words import is_to_width, stopped_by
from casewright.api.engine.work.naming import joined, pieces_summed_up
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.lying import lying
from casewright.api.papers.pages.numbers import StepNumbers, pages_of
from casewright.api.papers.pages.setting import BOX, CELL, FINE, SMALL, TICKED, UNDER, head, para, table
from casewright.api.papers.views.cuts import letters
from casewright.api.papers.views.drilling import drawings_of
from casewright.sdk.model import Action, Machine, Operation, Returns, Stage, Workpiece
from reportlab.platypus import Flowable

__all__ = ["at_machine", "box", "drawing_words", "late_steps", "order_words", "places", "settings"]

SAWN = frozenset({Stage.CUT, Stage.MILL})
"""Stages in which pieces become parts."""

WHOLE = frozenset({*SAWN, Stage.JOINTS})
"""Stages whose every step belongs to the machines, the waits between them too."""

SET = frozenset({Action.RIP, Action.CROSSCUT})
"""Cuts that one distance sets."""

MANY = 6
"""Places of mortises of a row from which on they stand in the appendix."""


def box(facts: Facts, step: Operation) -> str:
    """Return the box of a step: ticked where the job marks it as done."""
    return TICKED if step.number in facts.done else BOX


def at_machine(step: Operation) -> bool:
    """Return whether a step stands among the settings."""
    return step.stage in WHOLE or step.machine is not Machine.BY_HAND


def late_steps(steps: Sequence[Operation]) -> list[Operation]:
    """Return the steps that measure on the work, and the sawing and the joints that come after the first of them."""
    first = next((step.number for step in steps if step.measurement is not None), None)
    if first is None:
        return []
    return [one for one in steps if one.number >= first and (one.measurement is not None or one.stage in WHOLE)]


def settings(facts: Facts) -> list[Flowable]:
    """Return the steps at machines, a table a stage."""
    story: list[Flowable] = [head("Settings and the order of work")]
    late = frozenset(step.number for step in late_steps(facts.plan.steps))
    steps = [step for step in facts.plan.steps if at_machine(step) and step.number not in late]
    if not steps:
        return [*story, para("Nothing is cut.")]
    words = "Set once, try it on a scrap, make every cut of the row, tick, go on. The numbers are those of the layouts."
    story.append(para(words, SMALL))
    if facts.plan.stock is not None:
        story.append(para(order_words(facts.plan.stock.returns), SMALL))
    machines = dict.fromkeys(step.machine for step in steps if always(step.machine))
    story.append(para(" ".join(f"At the {one.replace('-', ' ')}: {' '.join(always(one))}" for one in machines), SMALL))
    drawn = drawings_of(facts)
    stages = [(title, list(group)) for title, group in groupby(steps, key=_title)]
    story += pages_of([*{title: (title, group[0].number) for title, group in reversed(stages)}.values()][::-1])
    for title, group in stages:
        story += _stage(facts, title, group, drawn)
    if not any(step.stage is Stage.JOINTS for step in steps):
        story.append(para("No joints are cut."))
    return story


def order_words(returns: Returns) -> str:
    """Return how often saws are set, how often by another order, and how many pieces lie about."""
    often = f"{returns.settings + returns.count} settings of the saws"
    if returns.count > returns.by_setting:
        often += f", {returns.settings + returns.by_setting} if all of the stock were cut setting by setting"
    wait = "loose piece waits for its" if returns.at_hand == 1 else "loose pieces wait for their"
    return f"{often}; at most {returns.at_hand} {wait} next cut."


def _title(step: Operation) -> str:
    """Return what a step's table is called: sawing and milling take turns, so they share one."""
    return "Cut and mill" if step.stage in SAWN else step.stage.replace("-", " ").capitalize()


def _stage(
    facts: Facts, title: str, steps: Sequence[Operation], drawn: Mapping[int, Sequence[int]]
) -> Iterator[Flowable]:
    """Yield a stage's table, and over it what several of its rows need minded, each with a letter."""
    yield para(title, UNDER)
    own = {step.number: [line for line in step.cautions if line not in always(step.machine)] for step in steps}
    counts = Counter(line for lines in own.values() for line in lines)
    marks = {line: letters(i) for i, line in enumerate(line for line, count in counts.items() if count > 1)}
    for line, mark in marks.items():
        yield para(f"! {mark}: {line}", SMALL)
    rows, before = [], steps[0]
    for step in steps:
        shared = [f"! {marks[line]}" for line in own[step.number] if line in marks]
        cells = _cells(facts, step, shared, [f"! {line}" for line in own[step.number] if line not in marks])
        if step is not before and step.action not in SET and len(step.on) > 1 and _same_pieces(step, before):
            cells[-1] = f"the same pieces as step {before.number}"
        elif step.number in drawn:
            cells[-1] = drawing_words(drawn[step.number])
        elif step.stage is Stage.JOINTS and (seen := lying(step, facts.sides)) is not None:
            cells[-1] = [para(cells[-1], CELL), seen]
        rows.append([box(facts, step), StepNumbers([step.number]), *cells])
        before = before if step is not before and _same_pieces(step, before) else step
    if steps[0].stage in SAWN:
        yield table(("", "Step", "Machine", "Set", "Makes"), rows, (3, 6, 12, 33, 46))
    else:
        drawings = all(step.number in drawn for step in steps)
        yield table(("", "Step", "Set and cut", "Pieces"), rows, (3, 6, 77, 14) if drawings else (3, 6, 46, 45))


def _same_pieces(step: Operation, other: Operation) -> bool:
    """Return whether a step is done to just the pieces of another, lying alike."""
    return [(one.part, one.keeps, one.piece, one.down, one.against, one.at) for one in step.on] == [
        (one.part, one.keeps, one.piece, one.down, one.against, one.at) for one in other.on
    ]


def _cells(facts: Facts, step: Operation, shared: Sequence[str], own: Sequence[str]) -> list[object]:
    """Return a row's cells; letters of cautions that rows share stand behind what is done, the row's own under it."""
    if step.stage not in SAWN:
        words = [" ".join([step.do, *shared]), *own]
        pieces = piece_words(step, facts.named, facts.sides, facts.writes)
        if _is_placed(step):
            pieces = [*_names(facts, step.on), "places: see the appendix"]
        return [[para(line, CELL) for line in words], "; ".join(pieces)]
    machine = "" if step.machine is Machine.BY_HAND else step.machine.replace("-", " ")
    if step.action not in SET:
        return [machine, [para(line, CELL) for line in (" ".join([step.do, *shared]), *own)], _made(facts, step)]
    verb = "cut to width" if is_to_width(step) else step.action
    how = f"{verb}, {stopped_by(step)} {facts.both(step.setting.distance or 0)}"
    return [machine, [para(line, CELL) for line in (" ".join([how, *shared]), *own)], _made(facts, step)]


def _is_placed(step: Operation) -> bool:
    return step.action is Action.MORTISE and sum(len(one.at) for one in step.on) > MANY


def _made(facts: Facts, step: Operation) -> str:
    return "; ".join(_names(facts, step.on))


def _names(facts: Facts, on: Sequence[Workpiece]) -> Iterator[str]:
    """Yield what a row is done to or makes: parts by name, pieces on their way by what is pencilled on them.

    Pieces of one sheet or board stand together; what it is called is written once.
    """
    names = [one.part or one.keeps or one.piece for one in on]
    parts, others = pieces_summed_up(names, facts.named)
    yield from parts
    by_stock: dict[str, list[str]] = {}
    for name in others:
        stock, colon, piece = name.partition(": ")
        by_stock.setdefault(stock, []).extend([piece] if colon else [])
    for stock, pieces in by_stock.items():
        yield f"{stock}: {', '.join(pieces)}" if pieces else stock


def drawing_words(numbers: Sequence[int]) -> str:
    """Return which drawings of drilling show the places of a row."""
    return f"drawing{'s' if len(numbers) > 1 else ''} {joined([str(number) for number in numbers])}"


def places(facts: Facts) -> list[Flowable]:
    """Return for the appendix how each piece lies in the rows that are made at many places, and the places."""
    rows = [
        [step.number, para("; ".join(piece_words(step, facts.named, facts.sides, facts.writes)), FINE)]
        for step in facts.plan.steps
        if at_machine(step) and step.stage not in SAWN and _is_placed(step)
    ]
    return [head("Appendix: places of mortises"), table(("Step", "Pieces"), rows, (7, 93))] if rows else []
