"""Planning on from what is built: what was measured is fixed, and the rest of the job is planned round it.

The job is planned as asked, so that what was measured can be held against it. Where a part of the case came out short,
the outside of its cabinet follows, by what asks least of what is built; where it then still is too long or too short,
a stop names it. The cabinets as they come out are planned by the same construction as any.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.as_built.copies import Alike, parted, placed
from casewright.api.engine.as_built.doors import DoorsOut, door_checks, doors_out
from casewright.api.engine.as_built.findings import misfit, outside_checks
from casewright.api.engine.as_built.grooves import cut_anew
from casewright.api.engine.as_built.openings import as_measured, rooms_of
from casewright.api.engine.as_built.outcome import (
    MEASURED,
    Deviation,
    Outside,
    leading,
    least_repair,
    outside_of,
    resized,
)
from casewright.api.engine.as_built.pieces import Measured, by_copy
from casewright.api.engine.as_built.recovery import repairs_of
from casewright.api.engine.as_built.refusals import beyond, no_part, not_so, size_of
from casewright.api.engine.as_built.rooms import room_of, thickness_room
from casewright.api.engine.as_built.square import SQUARE, no_diagonal, shift_of, square_checks
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.cache import PlanCache
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.loader import Registry
from casewright.sdk.model import (
    BuiltMeasure,
    BuiltMistake,
    BuiltPart,
    BuiltSize,
    Cabinet,
    Check,
    Job,
    Part,
    Repair,
)
from casewright.sdk.writer import Writer, writer

__all__ = ["Outcome", "as_built"]


@dataclass(frozen=True, slots=True)
class Outcome:
    """A job with its cabinets as they come out, and what was found of what is built.

    `kept` are the sizes as measured of parts that go in as they are, in nm.
    """

    job: Job
    checks: tuple[Check, ...]
    repairs: tuple[Repair, ...]
    kept: Mapping[tuple[str, BuiltMeasure], int]


@dataclass(frozen=True, slots=True)
class _Copies:
    """Copies of one cabinet that come out alike, as a cabinet of their own, and what was measured of the first."""

    cabinet: Cabinet
    measured: Measured
    grown: Mapping[Outside, int]


def as_built(job: Job, registry: Registry, cache: PlanCache, grooved: frozenset[str] = frozenset()) -> Outcome:
    """Return what a job comes out as with what is built of it; `grooved` are parts whose grooves are cut.

    Raises `NoGeometryError` naming each measurement that cannot be, and what planning the job as asked raises.
    """
    plans = {one.id: one for one in cache.cabinets(job, registry)}
    _validate(job, plans)
    kinds = [kind for cabinet in job.cabinets for kind in _kinds(job, plans[cabinet.id])]
    try:
        return _outcome(job, kinds, registry, cache, grooved)
    except NoGeometryError:
        planned = {cabinet.id: cabinet for cabinet in job.cabinets}
        full_size = [_as_planned(kind, planned[kind.cabinet.planned or kind.cabinet.id]) for kind in kinds]
        return _outcome(job, full_size, registry, cache, None)


def _as_planned(kind: _Copies, planned: Cabinet) -> _Copies:
    """Return copies of the size that was planned, as a smaller case has no room for what is in it."""
    cabinet = replace(
        kind.cabinet, width=planned.width, height=planned.height, depth=planned.depth, space=planned.space
    )
    return replace(kind, cabinet=cabinet, grown={})


def _outcome(
    job: Job, kinds: Sequence[_Copies], registry: Registry, cache: PlanCache, grooved: frozenset[str] | None
) -> Outcome:
    """Return what copies come out as; `grooved` are parts whose grooves are cut, `None` for all."""
    cabinets = tuple([kind.cabinet for kind in kinds])
    out = replace(job, cabinets=cabinets, wall=placed(job.wall, cabinets))
    write, checks, fitted, repairs = writer(job.units), list[Check](), list[Cabinet](), list[Repair]()
    kept = dict[tuple[str, BuiltMeasure], int]()
    hinges = {hinge.id: hinge for hinge in registry.catalogue.hinges}
    mistakes = _by_kind(job.mistakes, kinds)
    for kind, plan in zip(kinds, cache.cabinets(out, registry), strict=True):
        doors = doors_out(_deviations(plan, kind.measured, job.shop.same))
        off, anew = doors.others, list[Deviation]()
        if grooved is not None:
            anew = [one for one in off if not one.goes and cut_anew(one, plan, kind.measured, grooved)]
            off = tuple([one for one in off if one not in anew])
        kept |= {(one.part.id, one.size.measure): one.size.nm for one in off if one.goes}
        checks += [
            *outside_checks(kind.cabinet, kind.grown, write),
            *square_checks(kind.cabinet, kind.measured, outside_of(kind.cabinet, Outside.HEIGHT, 0), write),
            *door_checks(kind.cabinet, doors, write),
            *(misfit(one, write) for one in off if not one.goes),
        ]
        put_right = list(repairs_of(mistakes.get(kind.cabinet.id, ()), plan, hinges, write))
        repairs += put_right
        cabinet = _fitted(kind.cabinet, doors, [*anew, *(one for one in off if one.goes)])
        fitted.append(_put_right(cabinet, plan, put_right))
    final = replace(out, cabinets=tuple(fitted))
    cache.cabinets(final, registry)
    return Outcome(final, tuple(checks), tuple(repairs), kept)


def _by_kind(mistakes: Iterable[BuiltMistake], kinds: Sequence[_Copies]) -> Mapping[str, list[BuiltMistake]]:
    """Return mistakes by the cabinet, as it comes out, that each was made with."""
    out: dict[str, list[BuiltMistake]] = {}
    for mistake in mistakes:
        own = [one.cabinet for one in kinds if mistake.cabinet in (one.cabinet.id, one.cabinet.planned)]
        with_it = [one for one in own if mistake.copy is None or not one.copies or mistake.copy in one.copies]
        out.setdefault(with_it[0].id, []).append(mistake)
    return out


def _put_right(cabinet: Cabinet, plan: CabinetPlan, repairs: Iterable[Repair]) -> Cabinet:
    """Return a cabinet with parts that are put right as cut; what is to be made again is not."""
    built = dict(cabinet.built)
    for repair in repairs:
        for part in () if repair.again else plan.parts:
            key = part.id.partition("/")[2]
            if repair.part in (key, part.group) and part.role not in ("door-panel", "loose"):
                made = built.get(key, BuiltPart(0))
                built[key] = replace(made, made=max(1, made.made))
    return replace(cabinet, built=built)


def _validate(job: Job, plans: Mapping[str, CabinetPlan]) -> None:
    """Raise `NoGeometryError` naming each measurement that cannot be."""
    problems = [problem for size in job.built if (problem := _problem(size, plans[size.cabinet], writer(job.units)))]
    write = writer(job.units)
    problems += [problem for one in job.mistakes if (problem := not_so(one, plans[one.cabinet], write))]
    if problems:
        raise NoGeometryError(*problems)


def _problem(size: BuiltSize, plan: CabinetPlan, write: Writer) -> Problem | None:
    cabinet = plan.construction.cabinet
    if size.measure.of_square:
        return no_diagonal(size, cabinet.case_width, outside_of(cabinet, Outside.HEIGHT, 0), write)
    if size.measure.of_case:
        return beyond(size, outside_of(cabinet, MEASURED[size.measure], _frame(plan)), write)
    rooms, parts = rooms_of(plan), _by_key(plan.parts)
    if size.measure.of_opening:
        room = rooms.get(size.part or "")
        return no_part(size, rooms) if room is None else beyond(size, room.size(size.measure), write)
    part = parts.get(size.part or "")
    return no_part(size, parts) if part is None else beyond(size, size_of(part, size.measure), write)


def _frame(plan: CabinetPlan) -> int:
    frame = plan.construction.cabinet.face_frame
    return plan.construction.material(frame.material).thickness if frame else 0


def _by_key(parts: Iterable[Part]) -> dict[str, Part]:
    return {part.id.partition("/")[2]: part for part in parts}


def _kinds(job: Job, plan: CabinetPlan) -> Iterator[_Copies]:
    """Yield the copies of a cabinet that come out alike, each kind with its outside as it comes out."""
    cabinet, same = plan.construction.cabinet, job.shop.same
    copies = by_copy(cabinet, job.built)
    if not any(copies.values()):
        yield _Copies(cabinet, {}, {})
        return
    groups: dict[tuple[object, ...], list[int]] = {}
    for copy, measured in copies.items():
        groups.setdefault(_signature(plan, measured, same), []).append(copy)
    alike = [
        Alike(tuple(numbers), _made(plan, [copies[number] for number in numbers]), not signature)
        for signature, numbers in groups.items()
    ]
    for one, kind in zip(parted(cabinet, alike), alike, strict=True):
        measured = copies[kind.copies[0]] if not kind.as_planned else _first(copies[copy] for copy in kind.copies)
        opened, more = as_measured(one, plan, measured)
        grown = {**more, **_grown(plan, measured, same)}
        shift = shift_of(measured, cabinet.case_width, cabinet.case_height)
        lean = shift if abs(shift) > SQUARE else 0
        yield _Copies(replace(resized(opened, grown), lean=lean), measured, grown)


def _first(measured: Iterable[Measured]) -> Measured:
    """Return all that was measured of copies that came out as planned."""
    out: dict[tuple[str, BuiltMeasure], BuiltSize] = {}
    for one in measured:
        out = {**one, **out}
    return out


def _signature(plan: CabinetPlan, measured: Measured, same: int) -> tuple[object, ...]:
    """Return what is not as planned of one copy."""
    parts = [(one.size.part, one.size.measure, one.off) for one in _deviations(plan, measured, same) if one.off]
    rooms = rooms_of(plan)
    parts += [
        (key, measure, size.nm - rooms[key].size(measure))
        for (key, measure), size in measured.items()
        if measure.of_opening and size.nm != rooms[key].size(measure)
    ]
    outside = [(measure, off) for measure, off in _outside(plan, measured).items() if off]
    cabinet = plan.construction.cabinet
    shift = shift_of(measured, cabinet.case_width, outside_of(cabinet, Outside.HEIGHT, 0))
    return (*sorted(map(str, parts)), *sorted(map(str, outside)), *([shift] if abs(shift) > SQUARE else []))


def _outside(plan: CabinetPlan, measured: Measured) -> dict[Outside, int]:
    """Return how far the outside of a case as measured is over what is planned."""
    cabinet, frame = plan.construction.cabinet, _frame(plan)
    return {
        MEASURED[measure]: size.nm - outside_of(cabinet, MEASURED[measure], frame)
        for (_, measure), size in measured.items()
        if measure in MEASURED
    }


def _grown(plan: CabinetPlan, measured: Measured, same: int) -> Mapping[Outside, int]:
    """Return by how much each outside size comes out larger than planned: as measured, or as its parts ask."""
    led = leading(_deviations(plan, measured, same))
    by_parts = {size: least_repair(off) for (group, size), off in led.items() if not group}
    return {size: by for size, by in {**by_parts, **_outside(plan, measured)}.items() if by}


def _made(plan: CabinetPlan, measured: Sequence[Measured]) -> dict[str, BuiltPart]:
    """Return how many of each part are cut: those measured, and all of a case that is measured glued up."""
    count: dict[str, int] = {}
    for one in measured:
        for key in {made for size in one.values() for made in _cut(plan, size)}:
            count[key] = count.get(key, 0) + 1
    return {key: BuiltPart(count[key]) for key in sorted(count)}


def _cut(plan: CabinetPlan, size: BuiltSize) -> set[str]:
    """Return the parts that are cut for something to be measured: the part, or what goes round an opening."""
    if not size.measure.of_opening and not size.measure.of_case:
        return set() if size.measure is BuiltMeasure.THICKNESS else {size.part or ""}
    room = rooms_of(plan).get(size.part or "")
    if room is not None and room.panel is not None:
        group = room.panel.group
        return {key for key, part in _by_key(plan.parts).items() if part.group == group and part.role != "door-panel"}
    joints = plan.construction.joints
    jointed = {joint.guest for joint in joints} | {joint.host for joint in joints}
    groups = ("case", "face-frame") if room is not None and room.framed else ("case",)
    return {key for key, part in _by_key(plan.parts).items() if part.group in groups and part.id in jointed}


def _deviations(plan: CabinetPlan, measured: Measured, same: int) -> Iterator[Deviation]:
    """Yield each size of a part as measured against the plan, in the order of parts and measures."""
    parts, rooms = _by_key(plan.parts), rooms_of(plan)
    for (key, measure), size in sorted(measured.items()):
        panel = rooms[key].panel if measure.of_opening else None
        if panel is not None:
            yield Deviation(size, panel, size.nm - rooms[key].size(measure), 0, 0)
        if measure in (BuiltMeasure.LENGTH, BuiltMeasure.WIDTH, BuiltMeasure.THICKNESS):
            part = parts[key]
            shop = plan.construction.job.shop
            room = (
                thickness_room(shop)
                if measure is BuiltMeasure.THICKNESS
                else room_of(part, measure, plan.construction.joints, same)
            )
            yield Deviation(size, part, size.nm - size_of(part, measure), room.over, room.under, room.seated)


def _fitted(cabinet: Cabinet, doors: DoorsOut, goes: Iterable[Deviation]) -> Cabinet:
    """Return a cabinet with doors as they came out, and parts that go in as they are although they are short, or thick.

    A piece whose thickness grooves are cut to is one that is cut.
    """
    built = {**cabinet.built, **doors.sizes}
    for one in goes:
        if one.off < 0 and one.size.measure is BuiltMeasure.LENGTH and one.seated:
            key = one.size.part or ""
            built[key] = replace(built[key], length=one.off)
        elif not one.goes:
            key = one.size.part or ""
            built[key] = replace(built.get(key, BuiltPart(cabinet.count)), thickness=one.off)
    return replace(cabinet, built=built)
