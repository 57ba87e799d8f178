"""The booklet's page of what is taken from the work: what is measured when, with blanks, and what is cut to it."""

from collections.abc import Sequence

from casewright.api.engine.work.cautions import always
from casewright.api.engine.work.from_work import formula, measured_words
from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.naming import summed_up
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.numbers import StepNumbers
from casewright.api.papers.pages.setting import CELL, FINE, SMALL, head, para, table
from casewright.api.papers.pages.settings import box, drawing_words, late_steps
from casewright.api.papers.views.drilling import drawings_of
from casewright.sdk.model import Measurement, Operation, Stage
from reportlab.platypus import Flowable

__all__ = ["from_work", "late_joints"]

BLANK = "_______"


def from_work(facts: Facts) -> list[Flowable]:
    """Return what is measured on the work with the cuts that are set by it, then all other sizes to write down."""
    story: list[Flowable] = [head("Take from the work")]
    late = late_steps(facts.plan.steps)
    if late:
        words = (
            "These parts stay over size until then. Measure at three places; what is cut follows from each reading. "
        )
        words += "The steps behind “then” cut the joints: see the appendix."
        story.append(para(words, SMALL))
        rows = [_row(facts, step, late) for step in late if step.measurement is not None]
        story.append(table(("", "Step", "Measure", "Write it here", "Then cut"), rows, (3, 6, 37, 13, 41)))
    return [*story, _sizes(facts)]


def late_joints(facts: Facts) -> list[Flowable]:
    """Return how the joints are cut of parts that are cut when they are measured for."""
    late = [step for step in late_steps(facts.plan.steps) if step.stage is Stage.JOINTS]
    if not late:
        return []
    drawn = drawings_of(facts)
    rows = [
        [box(facts, step), StepNumbers([step.number]), para(_joint(facts, step, drawn.get(step.number, ())), FINE)]
        for step in late
    ]
    return [
        head("Appendix: joints of what is taken from the work"),
        table(("", "Step", "Set and cut"), rows, (3, 6, 91)),
    ]


def _joint(facts: Facts, step: Operation, drawings: Sequence[int]) -> str:
    own = [line for line in step.cautions if line not in always(step.machine)]
    lying = piece_words(step, facts.named, facts.sides, facts.writes)
    if drawings:
        lying = [drawing_words(drawings)]
    return " ".join([f"{step.do}: {'; '.join(lying)}.", *own])


def _row(facts: Facts, step: Operation, late: Sequence[Operation]) -> list[object]:
    """Return a measurement with a blank for each copy, and the cuts that are set by it with blanks for their sizes."""
    measurement = step.measurement
    assert measurement is not None
    set_by_it = [one for one in late if one.cut_to is not None and one.cut_to.step == step.number]
    cuts = [one for one in set_by_it if one.stage is not Stage.JOINTS]
    readings = " ".join(f"{copy} {BLANK}" for copy in measurement.copies)
    words = f"{measured_words(measurement, facts.parts, several=False)}: planned {facts.text(measurement.planned)}"
    return [
        box(facts, step),
        StepNumbers([step.number], [one.number for one in cuts]),
        para(words, CELL),
        para(readings, CELL),
        [para(_cut(facts, one, measurement, late), CELL) for one in cuts],
    ]


def _cut(facts: Facts, step: Operation, measurement: Measurement, late: Sequence[Operation]) -> str:
    names = list(dict.fromkeys(piece.split(", ")[0] for piece in (one.keeps or one.leaves for one in step.on)))
    parts = summed_up([facts.parts[name] for name in names], facts.named.every)
    at = step.setting.distance
    blanks = " ".join(BLANK for _ in measurement.copies)
    assert step.cut_to is not None
    joints = [str(one.number) for one in late if one.stage is Stage.JOINTS and {on.part for on in one.on} & set(names)]
    then = f"; then {', '.join(joints)}" if joints else ""
    size = formula(step.cut_to, facts.bare, measured="measured")
    return f"{box(facts, step)} {step.number} {parts}: {size} = {blanks} ({facts.text(at or 0)}){then}"


def _sizes(facts: Facts) -> Flowable:
    """Return a table of what else is worth measuring, with blanks."""
    materials = facts.job.materials.items()
    thick = "; ".join(f"{name} {facts.bare(material.thickness)} {BLANK}" for name, material in materials)
    rows: list[list[object]] = [["thickness", para(thick, CELL)]]
    for cabinet in facts.cabinets.values():
        outside = " × ".join(f"{facts.bare(nm)} {BLANK}" for nm in (cabinet.width, cabinet.height, cabinet.depth))
        rows += [
            [cabinet.copy_name(copy), para(f"{outside}; diagonals alike {BLANK} {BLANK}", CELL)]
            for copy in range(cabinet.count)
        ]
    doors = "; ".join(
        f"{leaf.id} {facts.bare(leaf.width)} {BLANK} × {facts.bare(leaf.height)} {BLANK}" for leaf in facts.plan.doors
    )
    if doors:
        rows.append(["doors", para(doors, CELL)])
    words = "Planned and measured: width × height × depth. What differs goes into the job before more is cut."
    return table(("What", words), rows, (12, 88))
