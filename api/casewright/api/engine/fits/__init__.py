"""Fits that matter: each a chain of cuts between two faces, how far it may come out wrong, and what follows."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.fits.doors import door_fits
from casewright.api.engine.fits.following import Followed, following
from casewright.api.engine.fits.inside import inside_fits
from casewright.api.engine.fits.judged import Question, Unanswered, judged
from casewright.api.engine.fits.laid import Laid, laid_out
from casewright.api.engine.fits.measuring import Rule, measuring
from casewright.api.engine.fits.outside import frame_fits, links_across, run_fits
from casewright.api.engine.fits.set_ups import SetUps
from casewright.sdk.findings import LENGTH, Check, Finding
from casewright.sdk.materials import Hinge
from casewright.sdk.model import (
    Action,
    Cabinet,
    DoorLeaf,
    Fit,
    FitKind,
    FitLink,
    Job,
    Joint,
    Measuring,
    Operation,
    Part,
    Run,
    UnprovedFit,
    Verdict,
)
from casewright.sdk.writer import Writer

__all__ = ["Answers", "Subject", "answers_of", "fit_checks", "fits_of", "ordered_parts", "unproved_fits"]


_OfCabinet = tuple[str, Question | Unanswered]
"""A cabinet, and a fit of it."""


@dataclass(frozen=True, slots=True)
class Subject:
    """What fits are judged of: a job with its parts and joints, its doors and the hinges they may hang on, its run."""

    job: Job
    parts: Sequence[Part]
    joints: Sequence[Joint]
    doors: Sequence[DoorLeaf]
    hinges: Sequence[Hinge]
    run: Run | None = None


@dataclass(frozen=True, slots=True)
class Answers:
    """The fits of what is made by some steps, and those that cannot be judged."""

    fits: tuple[Fit, ...]
    unproved: tuple[UnprovedFit, ...]


def fits_of(subject: Subject, steps: Iterable[Operation], taken: Collection[str] = ()) -> tuple[Fit, ...]:
    """Return the fits of what is made by some steps, cabinet by cabinet, then along the wall.

    Those whose ids are in `taken` are taken from the work, whatever their figures are.
    """
    return answers_of(subject, steps, taken).fits


def ordered_parts(job: Job, parts: Iterable[Part]) -> frozenset[str]:
    """Return the ids of parts that come at their size, as panes do."""
    return frozenset([part.id for part in parts if job.materials[part.material].to_size])


def _set_ups(subject: Subject, steps: Iterable[Operation]) -> SetUps:
    return SetUps.of(steps, ordered_parts(subject.job, subject.parts))


def unproved_fits(subject: Subject, steps: Iterable[Operation]) -> tuple[UnprovedFit, ...]:
    """Return the fits that matter and cannot be judged of what is made by some steps, with why."""
    return _unproved(_questions(subject, _set_ups(subject, steps)))


def answers_of(subject: Subject, steps: Iterable[Operation], taken: Collection[str] = ()) -> Answers:
    """Return both the fits of what is made by some steps, as `fits_of` does, and those that cannot be judged."""
    steps = tuple(steps)
    questions = list(_questions(subject, _set_ups(subject, steps)))
    return Answers(_judged(subject, questions, steps, taken), _unproved(questions))


def _judged(
    subject: Subject, questions: Sequence[_OfCabinet], steps: Sequence[Operation], taken: Collection[str]
) -> tuple[Fit, ...]:
    measures = {step.measurement: step.number for step in steps if step.measurement is not None}
    provable = [(name, one) for name, one in questions if isinstance(one, Question)]
    known, out = frozenset(taken), list[Fit]()
    measured, wanted = _measured(subject), dict[str, Measuring]()
    half = subject.job.shop.accuracy.of(Action.MEASURE)
    before: dict[str, tuple[Question, Fit]] = {}
    while True:
        new = known - wanted.keys()
        wanted |= {one.id: measured(name, one) for name, one in provable if one.id in new}
        followed: defaultdict[str, list[Followed]] = defaultdict(list)
        for _, one in provable:
            for size in wanted[one.id].sizes if one.id in known else ():
                followed[size.part].append(Followed(size, one))
        out = []
        for name, one in provable:
            whole, (was, fit) = following(one, followed, half), before.get(one.id, (None, None))
            if fit is None or was is not whole:
                fit = judged(whole, name, known)
            elif one.id in new:
                fit = replace(fit, verdict=Verdict.TAKE_FROM_WORK)
            before[one.id] = whole, fit
            out.append(fit)
        more = frozenset(fit.id for fit in out if fit.verdict is Verdict.TAKE_FROM_WORK)
        if more <= known:
            break
        known |= more
    return tuple(
        [
            replace(fit, measuring=replace(wanted[fit.id], step=measures.get(wanted[fit.id].measurement)))
            if fit.id in known
            else fit
            for fit in out
        ]
    )


def _unproved(questions: Iterable[_OfCabinet]) -> tuple[UnprovedFit, ...]:
    return tuple(
        [
            UnprovedFit(one.id, one.kind, cabinet, one.axis, one.why)
            for cabinet, one in questions
            if isinstance(one, Unanswered)
        ]
    )


def _questions(subject: Subject, set_ups: SetUps) -> Iterator[_OfCabinet]:
    """Yield every fit to be judged, with its cabinet."""
    hinges = {hinge.id: hinge for hinge in subject.hinges}
    run, widths = subject.run, dict[str, tuple[FitLink, ...] | None]()
    standing = frozenset([one.cabinet for one in run.standings]) if run is not None else frozenset[str]()
    for one in _laid(subject, set_ups):
        cabinet, doors = one.cabinet.id, one.cabinet.doors
        if doors is not None and doors.hinge in hinges:
            yield from ((cabinet, question) for question in door_fits(one, hinges[doors.hinge]))
        yield from ((cabinet, question) for question in inside_fits(one))
        yield from ((cabinet, question) for question in frame_fits(one))
        if cabinet in standing:
            widths[cabinet] = links_across(one)
    if run is not None:
        yield from run_fits(run, widths, subject.job.shop.accuracy, subject.job.shop.wall_allowance)


def _measured(subject: Subject) -> Callable[[str, Question], Measuring]:
    """Return what says what is measured for a fit of a cabinet, or for the one gap of a run."""
    every = {part.id: part for part in subject.parts}
    parts: defaultdict[str, dict[str, Part]] = defaultdict(dict)
    for part in subject.parts:
        parts[part.cabinet][part.id] = part
    copies = {one.id: _copies(one) for one in subject.job.cabinets} | _on_wall(subject.run)
    rule = Rule.of(subject.job)

    def measured(cabinet: str, question: Question) -> Measuring:
        if question.kind is FitKind.RUN_GAP:
            return measuring(question, every, (" to ".join(question.between),), rule)
        return measuring(question, parts[cabinet], copies[cabinet], rule)

    return measured


def _copies(cabinet: Cabinet) -> tuple[str, ...]:
    """Return what the copies of a cabinet that stands nowhere are called."""
    if cabinet.count == 1:
        return (cabinet.id,)
    return tuple([f"{cabinet.id} {number}" for number in range(1, cabinet.count + 1)])


def _on_wall(run: Run | None) -> dict[str, tuple[str, ...]]:
    """Return what the copies of each cabinet on the wall are called there."""
    names: defaultdict[str, list[str]] = defaultdict(list)
    for standing in run.standings if run is not None else ():
        names[standing.cabinet].append(standing.name)
    return {cabinet: tuple(some) for cabinet, some in names.items()}


def _laid(subject: Subject, set_ups: SetUps) -> Iterator[Laid]:
    """Yield every cabinet laid out, one by one: the faces of one are many, and no other needs them."""
    parts: defaultdict[str, list[Part]] = defaultdict(list)
    joints: defaultdict[str, list[Joint]] = defaultdict(list)
    doors: defaultdict[str, list[DoorLeaf]] = defaultdict(list)
    for part in subject.parts:
        parts[part.cabinet].append(part)
    for joint in subject.joints:
        joints[joint.cabinet].append(joint)
    for leaf in subject.doors:
        doors[leaf.cabinet].append(leaf)
    work = set_ups, subject.job.shop.accuracy
    for one in subject.job.cabinets:
        yield laid_out(one, parts[one.id], joints[one.id], doors[one.id], work)


def fit_checks(fits: Iterable[Fit], write: Writer, ordered: Collection[str] = ()) -> tuple[Check, ...]:
    """Return a note for each fit that is to be taken from the work; `ordered` are the parts that come to size."""
    return tuple(
        [
            Check(
                fit.id.split(" ")[0],
                Finding(
                    "fit-from-the-work",
                    "note",
                    _pane_words(fit.measuring, write)
                    if _is_of(fit.measuring, ordered)
                    else _words(fit.measuring, write),
                    round(fit.stack.cautious),
                    _room(fit),
                    LENGTH,
                    "stack-up",
                ),
            )
            for fit in fits
            if fit.measuring is not None
        ]
    )


def _is_of(measuring: Measuring, ordered: Collection[str]) -> bool:
    return bool(measuring.sizes) and all(size.part in ordered for size in measuring.sizes)


def _pane_words(measuring: Measuring, write: Writer) -> str:
    """Return what is done about the room round a pane, which nobody can trim."""
    less = write.length(max(size.less for size in measuring.sizes))
    return (
        "The shop's accuracy does not carry the room round this pane, which cannot be trimmed: order it by what is "
        f"measured of the glued rabbets, {less} less, or give it more room (panel_clearance)."
    )


def _words(measuring: Measuring, write: Writer) -> str:
    """Return what is done about a fit that the shop's accuracy does not carry."""
    if measuring.step is None:
        return (
            "The shop's accuracy does not carry this fit, and nothing on hand leaves its parts over size: cut them to "
            "the plan, try them, and plane or shim them to fit."
        )
    words = "The shop's accuracy does not carry this fit: its parts stay over size until step"
    words = f"{words} {measuring.step} has measured."
    if measuring.good:
        return words
    off = write.length(round(measuring.stack.cautious))
    full = write.length(max(size.full for size in measuring.sizes))
    return f"{words} Cut to the reading it may still be {off} off: they are left {full} full, and planed to fit."


def _room(fit: Fit) -> int:
    """Return how far a fit may be off either way before it is no longer good, in nm."""
    rooms = (fit.nominal - fit.least if fit.least is not None else None, fit.most - fit.nominal if fit.most else None)
    return min((room for room in rooms if room is not None), default=0)
