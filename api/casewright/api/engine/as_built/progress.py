"""Steps that were done by the plan with nothing built: what they made, and which steps of this plan they are."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from casewright.api.engine.as_built.findings import DONE
from casewright.sdk.model import (
    Action,
    BuiltMeasure,
    BuiltSize,
    Cabinet,
    Job,
    Mistake,
    Operation,
    Part,
    Repair,
    Stage,
    Workpiece,
)

__all__ = [
    "cut_already",
    "cut_by",
    "framed_without_panel",
    "grooved_by",
    "steps_of_cut_parts",
    "still_done",
]

_Work = tuple[str, str, str, tuple[str, ...]]


def cut_by(job: Job, parts: Sequence[Part], steps: Iterable[Operation]) -> tuple[Job, dict[str, Part]]:
    """Return a job with what its done steps have cut as built, to the size planned, where it is not measured.

    Beside it, as built and by id, the parts of no cabinet that they have cut, such as loose ones.
    """
    cut = _cut(job, steps)
    measured: Counter[tuple[str, str, BuiltMeasure]] = Counter()
    counts = {cabinet.id: cabinet.count for cabinet in job.cabinets}
    for size in job.built:
        number = size.count or (1 if size.copy is not None else counts[size.cabinet])
        measured[size.cabinet, size.part or "", size.measure] += number
    made = [
        BuiltSize(DONE, part.cabinet, measure, value, key, count=left)
        for part in parts
        if part.cabinet in counts
        for key in (part.id.partition("/")[2],)
        for measure, value in ((BuiltMeasure.LENGTH, part.length), (BuiltMeasure.WIDTH, part.width))
        if (left := min(part.quantity, cut[part.id]) - measured[part.cabinet, key, measure]) > 0
    ]
    beside = {
        part.id: replace(part, built=min(part.quantity, cut[part.id]))
        for part in parts
        if cut[part.id] and part.cabinet not in counts
    }
    return replace(job, built=(*job.built, *made)), beside


def cut_already(parts: Iterable[Part], cut: Mapping[str, Part]) -> tuple[Part, ...]:
    """Return parts of which as many are built as are `cut`, by id, to the size they still have."""
    return tuple([_as_cut(part, cut[part.id]) if part.id in cut else part for part in parts])


def _as_cut(part: Part, cut: Part) -> Part:
    alike = (part.length, part.width, part.material) == (cut.length, cut.width, cut.material)
    return replace(part, built=min(part.quantity, cut.built)) if alike else part


def _cut(job: Job, steps: Iterable[Operation]) -> Counter[str]:
    """Return how many pieces of each name done steps have made: what they keep, and what they leave."""
    done, cut = frozenset(job.done), Counter[str]()
    for piece in (piece for step in steps if step.number in done for piece in step.on):
        for name in (piece.keeps, piece.leaves):
            if name and name != piece.piece:
                cut[name] += piece.count
    return cut


def grooved_by(job: Job, steps: Iterable[Operation]) -> frozenset[str]:
    """Return the parts whose grooves or rabbets the done steps of a job have cut, if only some."""
    done, cuts = frozenset(job.done), (Action.GROOVE, Action.RABBET)
    return frozenset(piece.part for step in steps if step.number in done and step.action in cuts for piece in step.on)


def still_done(
    planned: Sequence[Operation], done: Collection[int], steps: Iterable[Operation], cabinets: Iterable[Cabinet]
) -> tuple[int, ...]:
    """Return the numbers of steps of which all that they do was done by steps of the plan with nothing built."""
    own = {cabinet.id: cabinet.planned or cabinet.id for cabinet in cabinets}
    did = {work for step in planned if step.number in done for work in _works(step, own)}
    return tuple([step.number for step in steps if all(work in did for work in _works(step, own))])


def framed_without_panel(
    repairs: Iterable[Repair], steps: Sequence[Operation], parts: Iterable[Part]
) -> frozenset[int]:
    """Return the steps that are done because a door was glued up without its panel: all that make up its frame."""
    doors = {(one.cabinet, one.part) for one in repairs if one.mistake is Mistake.PANEL_FORGOTTEN and not one.again}
    frames: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
    panels: dict[str, tuple[str, str]] = {}
    for part in parts:
        door = (part.cabinet, part.group)
        if door in doors and part.role == "door-panel":
            panels[part.id] = door
        elif door in doors:
            frames[door].add(part.id)
    own = [step for step in steps if step.stage is Stage.DOORS and step.on]
    last: dict[tuple[str, str], Operation] = {}
    for step in own:
        if step.action is Action.INSERT and step.on[0].part in panels:
            last.setdefault(panels[step.on[0].part], step)
    numbers: set[int] = set()
    for door, inserted in last.items():  # what it waits for puts the mistake right, and is still to be done
        before = [step for step in own if step.number < inserted.number and step.number not in inserted.needs]
        numbers |= {step.number for step in before if all(piece.part in frames[door] for piece in step.on)}
    return frozenset(numbers)


def _works(step: Operation, own: Mapping[str, str]) -> Iterator[_Work]:
    """Yield what a step does to each thing, by what it is called in the plan with nothing built."""
    if not step.on:
        yield step.action, step.stage, step.do, ()
    for piece in step.on:
        yield step.action, step.stage, _named(piece, own), piece.cuts


def _named(piece: Workpiece, own: Mapping[str, str]) -> str:
    cabinet, slash, key = (piece.part or piece.keeps or piece.piece).partition("/")
    return f"{own.get(cabinet, cabinet)}{slash}{key}"


def steps_of_cut_parts(
    planned: Sequence[Operation], steps: Sequence[Operation], parts: Iterable[Part], cabinets: Iterable[Cabinet]
) -> tuple[Operation, ...]:
    """Return the steps with those before them that cut what is built, so that errors can be followed through both.

    A step of the plan with nothing built that has the setting of one that is left goes by its number; the others are
    numbered after the last.
    """
    own = {cabinet.id: cabinet.planned or cabinet.id for cabinet in cabinets}
    built = {part.id for part in parts if part.built}
    names: dict[str, list[str]] = {}
    for part in sorted(built):
        cabinet, _, key = part.partition("/")
        names.setdefault(f"{own.get(cabinet, cabinet)}/{key}", []).append(part)
    numbers = {(step.action, step.machine, step.setting): step.number for step in reversed(steps)}
    before = []
    for step in planned:
        if step.action in (Action.RIP, Action.CROSSCUT, Action.TRIM, Action.THICKNESS):
            on = tuple(
                [replace(piece, keeps=name) for piece in step.on for name in names.get(piece.keeps, [piece.keeps])]
            )
            number = numbers.get((step.action, step.machine, step.setting), len(steps) + step.number)
            before.append(replace(step, number=number, on=on))
    return (*before, *steps)
