"""The booklet's assembly cards: one for each assembly, like ones once, in the order its pieces go in."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.naming import joined
from casewright.api.papers.drawing.pdf import POINTS
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cut_list import likes
from casewright.api.papers.pages.numbers import StepNumbers, pages_of
from casewright.api.papers.pages.picture import Picture, beside
from casewright.api.papers.pages.setting import BOX, CELL, TALLEST, UNDER, head, para, table
from casewright.api.papers.pages.settings import at_machine, box
from casewright.api.papers.views.assembly import assembly, assembly_views
from casewright.sdk.model import Action, Operation, Stage
from reportlab.platypus import Flowable, KeepTogether

ASSEMBLED = frozenset({Stage.DRY_FIT, Stage.GLUE, Stage.FACE_FRAME, Stage.DOORS, Stage.DRAWERS, Stage.BASE, Stage.ENDS})
"""Stages in which parts become assemblies."""

BOXES = (
    "every part of it at hand, its joints fitted dry",
    "clamps set to width, cauls waxed",
    "a square, a wet rag and a helper where the piece is large",
    "the open time read from the glue's label",
)
"""What is ticked before glue is opened; common practice, no source."""


HEADS = ("Step", "", "What")
ALONE, ALIKE = (8, 4, 88), (13, 5, 82)
"""Widths of a card's columns: of an assembly alone, and of like ones, whose steps have a number each."""

WIDTH, HIGH, PAGE, SHARE = 56.0, 50.0, 184.0, 32
"""Width of a card's pictures and height of the upper one, mm; width of the words of a page, mm; their share of it."""


@dataclass(frozen=True, slots=True)
class Card:
    """The steps of one assembly in their order, and the same steps of each assembly that is like it."""

    steps: tuple[Operation, ...]
    again: tuple[tuple[Operation, ...], ...] = ()


def cards(facts: Facts) -> list[Card]:
    """Return the assemblies: steps of one stage on parts of one group of one cabinet; those alike in one card.

    Alike are those whose steps are the same action on parts cut alike, brought home by the same moves.
    """
    groups: dict[tuple[object, ...], list[Operation]] = {}
    for step in facts.plan.steps:
        if step.stage in ASSEMBLED and not at_machine(step):
            groups.setdefault(_assembly(facts, step), []).append(step)
    row = {part.id: like.number for like in likes(facts) for part in like.parts}
    alike: dict[tuple[object, ...], list[tuple[Operation, ...]]] = {}
    for steps in groups.values():
        key = tuple((step.action, step.moves, tuple(row[part] for part in step.parts)) for step in steps)
        alike.setdefault(key, []).append(tuple(steps))
    return [Card(first, tuple(more)) for first, *more in alike.values()]


def _assembly(facts: Facts, step: Operation) -> tuple[object, ...]:
    parts = [facts.parts[part] for part in step.parts]
    own = {(part.cabinet, part.group) for part in parts}
    stage = Stage.GLUE if step.stage is Stage.DRY_FIT else step.stage
    if len(own) == 1:
        return (stage, *own)
    return (stage, tuple(dict.fromkeys(part.cabinet for part in parts)))


def assembly_cards(facts: Facts) -> list[Flowable]:
    """Return a card an assembly."""
    story: list[Flowable] = [head("Dry fit and glue-up")]
    every = cards(facts)
    if not any(step.action is Action.GLUE for card in every for step in card.steps):
        story.append(para("Nothing is glued."))
    if not every:
        return story
    boxes = "; ".join(f"{BOX} {line}" for line in BOXES)
    dry = "Dry first: by hand or with light taps, no gap at a shoulder, both diagonals alike. Before glue is opened:"
    story.append(para(f"{dry} {boxes}.", CELL))
    story += pages_of([(_title(facts, card), card.steps[0].number) for card in every])
    first, *more = (_card(facts, card) for card in every)
    return [KeepTogether([*story, *first]), *(KeepTogether(made) for made in more)]


def _card(facts: Facts, card: Card) -> list[Flowable]:
    """Return a card: its steps, and beside them what goes in from where and where it is clamped."""
    heading, rows = _heading(facts, card), list(_rows(facts, card))
    made = assembly(facts, card.steps)
    if made is None:
        return [heading, table(HEADS, rows, (10, 4, 86))]
    views, high = assembly_views(made, WIDTH, HIGH)
    key = ", ".join(f"{i} {part.name}" for i, part in enumerate(made.parts, start=1))
    pictures = [Picture(views, WIDTH, high), para(f"In this order: {key}.", CELL)]
    widths = ALIKE if card.again else ALONE
    _, tall = table(HEADS, rows, widths).wrap((100 - SHARE) / 100 * PAGE * POINTS, 10_000)
    if tall > TALLEST:
        return [heading, *pictures, table(HEADS, rows, (10, 4, 86))]
    return beside(heading, table(HEADS, rows, widths), pictures, (100 - SHARE, SHARE))


def _heading(facts: Facts, card: Card) -> Flowable:
    return para(_title(facts, card), UNDER)


def _title(facts: Facts, card: Card) -> str:
    return "; ".join(_name(facts, steps) for steps in (card.steps, *card.again))


def _name(facts: Facts, steps: Sequence[Operation]) -> str:
    parts = [facts.parts[part] for step in steps for part in step.parts]
    groups = dict.fromkeys(part.group.replace("-", " ") for part in parts)
    cabinets = dict.fromkeys(part.cabinet for part in parts)
    return f"{joined(list(groups))} of {joined(list(cabinets))}"


def _rows(facts: Facts, card: Card) -> Iterator[list[object]]:
    for number, step in enumerate(card.steps):
        same = [step, *(steps[number] for steps in card.again)]
        check = [f"Check: {step.check}"] if step.check else []
        lines = [step.do, *check, *step.cautions]
        marks = "".join(box(facts, one) for one in same)
        about = [cabinet for one in same for cabinet in facts.cabinets_of(one)]
        yield [StepNumbers([one.number for one in same], (), about), marks, [para(line, CELL) for line in lines]]
