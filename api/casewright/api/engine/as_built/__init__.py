"""Planning on from what is built: what was measured is fixed, and the rest of the job is planned round it.

The job is planned as asked, so that what was measured can be held against it. Where a part of the case came out short,
the outside of its cabinet follows, by what asks least of what is built; where it then still is too long or too short,
a stop names it. The cabinets as they come out are planned by the same construction as any.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.as_built.copies import Alike, parted, placed
from casewright.api.engine.as_built.findings import misfit, outside_checks
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
from casewright.api.engine.as_built.refusals import beyond, no_part, size_of
from casewright.api.engine.as_built.rooms import room_of
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.cache import PlanCache
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.loader import Registry
from casewright.sdk.model import BuiltMeasure, BuiltPart, BuiltSize, Cabinet, Check, Job, Part
from casewright.sdk.writer import Writer, writer

__all__ = ["Outcome", "as_built"]


@dataclass(frozen=True, slots=True)
class Outcome:
    """A job with its cabinets as they come out, and what was found of what is built."""

    job: Job
    checks: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class _Copies:
    """Copies of one cabinet that come out alike, as a cabinet of their own, and what was measured of the first."""

    cabinet: Cabinet
    measured: Measured
    grown: Mapping[Outside, int]


def as_built(job: Job, registry: Registry, cache: PlanCache) -> Outcome:
    """Return what a job comes out as with what is built of it.

    Raises `NoGeometryError` naming each measurement that cannot be, and what planning the job as asked raises.
    """
    plans = {one.id: one for one in cache.cabinets(job, registry)}
    _validate(job, plans)
    kinds = [kind for cabinet in job.cabinets for kind in _kinds(job, plans[cabinet.id])]
    try:
        return _outcome(job, kinds, registry, cache)
    except NoGeometryError:
        asked = {cabinet.id: cabinet for cabinet in job.cabinets}
        return _outcome(
            job, [_as_asked(kind, asked[kind.cabinet.asked or kind.cabinet.id]) for kind in kinds], registry, cache
        )


def _as_asked(kind: _Copies, asked: Cabinet) -> _Copies:
    """Return copies of the size that was asked for, as a smaller case has no room for what is in it."""
    cabinet = replace(kind.cabinet, width=asked.width, height=asked.height, depth=asked.depth, space=asked.space)
    return replace(kind, cabinet=cabinet, grown={})


def _outcome(job: Job, kinds: Sequence[_Copies], registry: Registry, cache: PlanCache) -> Outcome:
    cabinets = tuple([kind.cabinet for kind in kinds])
    out = replace(job, cabinets=cabinets, wall=placed(job.wall, cabinets))
    write, checks, fitted = writer(job.units), list[Check](), list[Cabinet]()
    for kind, plan in zip(kinds, cache.cabinets(out, registry), strict=True):
        off = list(_deviations(plan, kind.measured, job.shop.same))
        checks += [
            *outside_checks(kind.cabinet, kind.grown, write),
            *(misfit(one, write) for one in off if not one.goes),
        ]
        fitted.append(_fitted(kind.cabinet, [one for one in off if one.goes]))
    final = replace(out, cabinets=tuple(fitted))
    cache.cabinets(final, registry)
    return Outcome(final, tuple(checks))


def _validate(job: Job, plans: Mapping[str, CabinetPlan]) -> None:
    """Raise `NoGeometryError` naming each measurement that cannot be."""
    problems = [problem for size in job.built if (problem := _problem(size, plans[size.cabinet], writer(job.units)))]
    if problems:
        raise NoGeometryError(*problems)


def _problem(size: BuiltSize, plan: CabinetPlan, write: Writer) -> Problem | None:
    cabinet = plan.construction.cabinet
    if not size.measure.of_part:
        return beyond(size, outside_of(cabinet, MEASURED[size.measure], _frame(plan)), write)
    parts = _by_key(plan.parts)
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
    for one, kind in zip(parted(cabinet, alike, [c.id for c in job.cabinets]), alike, strict=True):
        measured = copies[kind.copies[0]] if not kind.as_planned else _first(copies[copy] for copy in kind.copies)
        grown = _grown(plan, measured, same)
        yield _Copies(resized(one, grown), measured, grown)


def _first(measured: Iterable[Measured]) -> Measured:
    """Return all that was measured of copies that came out as planned."""
    out: dict[tuple[str, BuiltMeasure], BuiltSize] = {}
    for one in measured:
        out = {**one, **out}
    return out


def _signature(plan: CabinetPlan, measured: Measured, same: int) -> tuple[object, ...]:
    """Return what is not as planned of one copy."""
    parts = [(one.size.part, one.size.measure, one.off) for one in _deviations(plan, measured, same) if one.off]
    outside = [(measure, off) for measure, off in _outside(plan, measured).items() if off]
    return (*sorted(map(str, parts)), *sorted(map(str, outside)))


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
    by_parts = {size: least_repair(off) for size, off in leading(_deviations(plan, measured, same)).items()}
    return {size: by for size, by in {**by_parts, **_outside(plan, measured)}.items() if by}


def _made(plan: CabinetPlan, measured: Sequence[Measured]) -> dict[str, BuiltPart]:
    """Return how many of each part are cut: those measured, and all of a case that is measured glued up."""
    count: dict[str, int] = {}
    jointed = {joint.guest for joint in plan.construction.joints} | {joint.host for joint in plan.construction.joints}
    case = {part.id.partition("/")[2] for part in plan.parts if part.group == "case" and part.id in jointed}
    for one in measured:
        cut = {part for part, measure in one if measure in (BuiltMeasure.LENGTH, BuiltMeasure.WIDTH)}
        glued = any(measure in MEASURED for _, measure in one)
        for key in cut | (case if glued else set()):
            count[key] = count.get(key, 0) + 1
    return {key: BuiltPart(count[key]) for key in sorted(count)}


def _deviations(plan: CabinetPlan, measured: Measured, same: int) -> Iterator[Deviation]:
    """Yield each size of a part as measured against the plan, in the order of parts and measures."""
    parts = _by_key(plan.parts)
    for (key, measure), size in sorted(measured.items()):
        if measure in (BuiltMeasure.LENGTH, BuiltMeasure.WIDTH):
            part = parts[key]
            room = room_of(part, measure, plan.construction.joints, same)
            yield Deviation(size, part, size.nm - size_of(part, measure), room.over, room.under, room.seated)


def _fitted(cabinet: Cabinet, goes: Iterable[Deviation]) -> Cabinet:
    """Return a cabinet with the parts that go in although they are short, as short as they are."""
    built = dict(cabinet.built)
    for one in goes:
        if one.off < 0 and one.leads is None and one.size.measure is BuiltMeasure.LENGTH and one.seated:
            key = one.size.part or ""
            built[key] = replace(built[key], length=one.off)
    return replace(cabinet, built=built)
