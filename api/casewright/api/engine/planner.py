"""Planning a whole job: its cabinets, then what takes all of them at once."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from casewright.api.engine.as_built import as_built
from casewright.api.engine.as_built.at_hand import at_hand
from casewright.api.engine.as_built.changes import changes
from casewright.api.engine.as_built.findings import from_stock, repair_checks
from casewright.api.engine.as_built.progress import cut_by, framed_without_panel, grooved_by, still_done
from casewright.api.engine.cache import PlanCache
from casewright.api.engine.drafts import Draft, Work, drafted, settled, subject_of
from casewright.api.engine.fits import fit_checks, ordered_parts, unproved_fits
from casewright.api.engine.judge.cutters import cutter_checks
from casewright.api.engine.judge.hanging import shared_cleats
from casewright.api.engine.run.readings import scribed
from casewright.api.engine.work.carried_out import given_of, work_checks
from casewright.api.engine.work.costs import cost_of
from casewright.api.engine.work.cutting import question_of
from casewright.api.engine.work.done import done_checks, validate_done
from casewright.api.engine.work.driving import driving_checks
from casewright.api.engine.work.lacking import machine_checks
from casewright.api.engine.work.quoting import quoting
from casewright.api.engine.work.schedule import schedule_of
from casewright.api.engine.work.tilting import shelf_checks
from casewright.api.engine.work.timing import timed
from casewright.api.engine.work.together import left_apart, locked_parts
from casewright.api.stock import Progress, is_enough, no_progress
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Hinge, Slide
from casewright.sdk.model import (
    AsBuilt,
    Check,
    Fit,
    FitLink,
    HardwareLine,
    Job,
    Operation,
    Plan,
)
from casewright.sdk.writer import writer


def make_plan(
    job: Job,
    registry: Registry,
    *,
    with_stock: bool = True,
    cache: PlanCache | None = None,
    progress: Progress = no_progress,
) -> Plan:
    """Plan a whole job, with how to cut it from stock where the job gives stock and `with_stock` asks for it.

    A `cache` handed on from plan to plan plans no cabinet and no cutting anew that is as it was. `progress` is told
    how far each stage is (`cabinets`, `cutting`, `settings`). Neither ever changes the plan. How to cut is planned
    where the job marks steps as done, asked for or not: the numbers of the steps hang on it; and so it is unless it is
    plain that it adds no stop, so that every plan says whether to cut.

    Raises `NoGeometryError` for a job that cannot be built at all and `PluginFaultError` for a faulty method.
    A job that can be built but should not be is a plan with `stop` checks.
    """
    cache = PlanCache() if cache is None else cache
    draft = make_draft(job, registry, with_stock=with_stock, cache=cache, progress=progress)
    if draft.stock is None and not _adds_no_stop(draft):
        draft = make_draft(job, registry, with_stock=True, cache=cache, progress=progress)
    return finished(draft, registry, cache)


def _adds_no_stop(draft: Draft) -> bool:
    """Return whether planning how to cut surely stops nothing: the stock is plainly enough, and any saw may be used."""
    job = draft.job
    if job.stock is None:
        return True
    return not job.shop.machines and is_enough(question_of(job, job.stock, draft.parts).request)


def make_draft(
    job: Job,
    registry: Registry,
    *,
    with_stock: bool = True,
    cache: PlanCache,
    progress: Progress = no_progress,
) -> Draft:
    """Plan a job as far as a search needs it that compares many; arguments and errors are those of `make_plan`."""
    job = scribed(job)
    if not (job.built or job.mistakes):
        return drafted(job, registry, with_stock=with_stock, cache=cache, progress=progress)
    planned = drafted(job, registry, with_stock=with_stock, cache=cache, progress=no_progress)
    cut, grooved, left, beside = job, frozenset[str](), None, None
    if job.done:
        planned, work = settled(planned, registry, cache)
        cut, beside = cut_by(job, planned.parts, work.steps)
        grooved = grooved_by(job, work.steps)
        left = at_hand(job, planned.parts, planned.stock, work.steps) if planned.stock else None
    outcome = as_built(cut, registry, cache, grooved)
    draft = drafted(
        outcome.job, registry, with_stock=with_stock, cache=cache, progress=progress, left=left, beside=beside
    )
    built = AsBuilt(job.cabinets, changes(planned.parts, draft.parts, outcome), outcome.repairs)
    return replace(draft, judged=(*draft.judged, *outcome.checks), built=built, planned=planned)


def finished(draft: Draft, registry: Registry, cache: PlanCache) -> Plan:
    """Return the plan of a draft: with how it goes together, the order of work, its replay and what it costs.

    `cache` is the one that the draft was made with, or any other.
    """
    before = () if draft.planned is None else settled(draft.planned, registry, cache)[1].steps
    draft, work = settled(draft, registry, cache, before)
    parts, joints, cabinets, stock = draft.parts, draft.joints, draft.cabinets, draft.stock
    steps = work.steps
    made_by = steps if draft.planned is None else before
    validate_done(draft.job if draft.planned is None else draft.planned.job, made_by)
    built = None if draft.built is None else replace(draft.built, repairs=from_stock(draft.built.repairs, stock))
    job = draft.job
    if draft.planned is not None:
        job = replace(job, done=_done(draft, built, made_by, steps))
    plan = Plan(
        job=job,
        parts=parts,
        joints=joints,
        doors=draft.doors,
        hardware=draft.hardware,
        mounting=draft.mounting,
        dry_fit=draft.fit,
        checks=(
            *_checks_of_work(job, draft, work, registry),
            *done_checks(draft.job, made_by),
            *repair_checks(built.repairs if built else ()),
        ),
        steps=steps,
        sides=draft.sides,
        weights=tuple([one.weight for one in cabinets]),
        workshop=tuple([one.workshop for one in cabinets]),
        stock=quoting(stock, work.breakdown, steps) if stock else None,
        shared_cleats=shared_cleats(job, [hung for one in cabinets for hung in one.hung]),
        run=draft.run,
        built=built,
        sources=registry.catalogue.sources,
        fittings=_fittings(draft.hardware, registry),
    )
    timed_steps = timed(plan, registry)
    fits = _of_steps(work.answers.fits, len(steps)) if draft.built is not None else work.answers.fits
    subject = subject_of(draft, registry)
    return replace(
        plan,
        checks=(*plan.checks, *fit_checks(fits, writer(job.units), ordered_parts(job, parts))),
        fits=fits,
        unproved=unproved_fits(subject, steps) if draft.built is not None else work.answers.unproved,
        steps=timed_steps,
        costs=cost_of(plan, registry),
        schedule=schedule_of(timed_steps, frozenset(job.done)),
    )


def _fittings(hardware: Iterable[HardwareLine], registry: Registry) -> tuple[Hinge | Slide, ...]:
    """Return the hinges and slides of the catalogue that are among the hardware."""
    items = frozenset(line.item for line in hardware)
    hinges = [one for one in registry.catalogue.hinges if one.id in items]
    slides = [one for one in registry.catalogue.slides if one.id in items]
    return (*hinges, *slides)


def _done(
    draft: Draft, built: AsBuilt | None, before: Sequence[Operation], steps: Sequence[Operation]
) -> tuple[int, ...]:
    """Return which steps are done of a job planned on: those done `before`, and what they and the repairs imply."""
    implied = frozenset[int]() if built is None else framed_without_panel(built.repairs, steps, draft.parts)
    return tuple(sorted({*still_done(before, draft.job.done, steps, draft.job.cabinets), *implied}))


def _checks_of_work(job: Job, draft: Draft, work: Work, registry: Registry) -> Iterator[Check]:
    """Yield the checks of a draft, then those of how it goes together and of its steps."""
    write, parts = writer(job.units), draft.parts
    clashing = frozenset(part for one in draft.fit.clashes for part in (one.first, one.second))
    yield from draft.checks
    yield from locked_parts(work.assemblies, clashing)
    yield from driving_checks(work.assemblies, registry.catalogue.screws, job.shop.driver, write)
    yield from shelf_checks(parts, write)
    yield from machine_checks(job, registry, parts, draft.joints, work.steps)
    yield from cutter_checks(job, work.steps)
    given = given_of(job, parts, draft.stock, draft.blanks)
    yield from work_checks(job, parts, draft.joints, work.steps, given, left_apart(work.assemblies))


def _of_steps(fits: tuple[Fit, ...], steps: int) -> tuple[Fit, ...]:
    """Return fits whose links name none but so many steps: what is cut already was cut by those of another plan."""
    return tuple([replace(fit, links=tuple([_of(link, steps) for link in fit.links])) for fit in fits])


def _of(link: FitLink, steps: int) -> FitLink:
    """Return a link without its step where that is none of so many steps."""
    return replace(link, step=None) if link.step is not None and link.step > steps else link
