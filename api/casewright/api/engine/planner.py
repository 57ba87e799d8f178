"""Planning a whole job: its cabinets, then what takes all of them at once."""

from dataclasses import dataclass, replace

from casewright.api.engine.as_built import as_built
from casewright.api.engine.as_built.changes import changes
from casewright.api.engine.as_built.progress import cut_by, steps_of_cut_parts, still_done
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.cache import PlanCache
from casewright.api.engine.fits import fit_checks, fits_of
from casewright.api.engine.judge.cutters import cutter_checks
from casewright.api.engine.judge.dry_fit import EXACT, ROUND
from casewright.api.engine.judge.extra import extra_checks
from casewright.api.engine.judge.hanging import shared_cleats, unmounted_checks
from casewright.api.engine.judge.sheets import thickness_checks
from casewright.api.engine.run import plan_run
from casewright.api.engine.run.joining import joined
from casewright.api.engine.run.through_cleats import joined_cleats
from casewright.api.engine.work.advice import advice_of
from casewright.api.engine.work.breakdown import Breakdown, breakdown_of
from casewright.api.engine.work.carried_out import work_checks
from casewright.api.engine.work.costs import cost_of
from casewright.api.engine.work.done import done_checks, validate_done
from casewright.api.engine.work.driving import driving_checks
from casewright.api.engine.work.lacking import machine_checks
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.order import order_of_work
from casewright.api.engine.work.quoting import quoting
from casewright.api.engine.work.schedule import schedule_of
from casewright.api.engine.work.short_stock import stock_checks
from casewright.api.engine.work.sides import sides_by_part
from casewright.api.engine.work.tilting import shelf_checks
from casewright.api.engine.work.timing import timed
from casewright.api.engine.work.together import Assemblies, locked_parts
from casewright.api.stock import Progress, no_progress
from casewright.sdk.geometry import Place
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Design
from casewright.sdk.model import (
    AsBuilt,
    Check,
    DryFit,
    Fit,
    FitLink,
    HardwareLine,
    Job,
    Joint,
    LoosePart,
    Operation,
    Part,
    Plan,
    Run,
    StockPlan,
    Term,
)
from casewright.sdk.writer import writer


@dataclass(frozen=True, slots=True)
class Draft:
    """A job as far as it is needed to compare it with another: what is made, bought and cut, and what checks say of it.

    How it is put together and whether its steps make it are left to the plan that is made of it.
    """

    job: Job
    cabinets: tuple[CabinetPlan, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    hardware: tuple[HardwareLine, ...]
    fit: DryFit
    checks: tuple[Check, ...]
    stock: StockPlan | None = None
    run: Run | None = None
    built: AsBuilt | None = None
    asked: "Draft | None" = None


@dataclass(frozen=True, slots=True)
class _Work:
    """How the parts of a draft are cut and put together, and all steps of it."""

    breakdown: Breakdown
    assemblies: Assemblies
    steps: tuple[Operation, ...]


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
    where the job marks steps as done, asked for or not: the numbers of the steps hang on it.

    Raises `NoGeometryError` for a job that cannot be built at all and `PluginFaultError` for a faulty method.
    A job that can be built but should not be is a plan with `stop` checks.
    """
    cache = PlanCache() if cache is None else cache
    draft = make_draft(job, registry, with_stock=with_stock, cache=cache, progress=progress)
    return finished(draft, registry, cache)


def make_draft(
    job: Job,
    registry: Registry,
    *,
    with_stock: bool = True,
    cache: PlanCache,
    progress: Progress = no_progress,
) -> Draft:
    """Plan a job as far as a search needs it that compares many; arguments and errors are those of `make_plan`."""
    if not job.built:
        return _draft(job, registry, with_stock=with_stock, cache=cache, progress=progress)
    asked = _draft(job, registry, with_stock=with_stock, cache=cache, progress=no_progress)
    cut = cut_by(job, asked.parts, _work(asked, registry, cache).steps) if job.done else job
    outcome = as_built(cut, registry, cache)
    draft = _draft(outcome.job, registry, with_stock=with_stock, cache=cache, progress=progress)
    built = AsBuilt(job.cabinets, changes(asked.parts, draft.parts, outcome.job.cabinets))
    return replace(draft, checks=(*draft.checks, *outcome.checks), built=built, asked=asked)


def _draft(job: Job, registry: Registry, *, with_stock: bool, cache: PlanCache, progress: Progress) -> Draft:
    """Plan a job with its cabinets as they are given."""
    cabinets = joined_cleats(cache.cabinets(job, registry, progress))
    walled = plan_run(job, cabinets, registry)
    parts = (
        *(part for one in cabinets for part in one.parts),
        *(walled.parts if walled else ()),
        *(_loose(job, row) for row in job.loose_parts),
    )
    run = joined(job, walled.run, parts, registry) if walled else None
    hardware = tuple([line for one in cabinets for line in (*one.construction.hardware, *one.on_wall)])
    if run is not None:
        hardware += tuple([gap.screws for gap in run.gaps if gap.screws is not None])
    checks = (check for one in cabinets for check in (*one.checks, *one.stays))
    stock = cache.cutting(job, parts, progress) if with_stock or job.done else None
    joints = tuple([joint for one in cabinets for joint in one.construction.joints])
    design = Design(
        job,
        parts,
        joints,
        doors=tuple([door for one in cabinets for door in one.doors]),
        hardware=hardware,
        mounting=tuple([mounted for one in cabinets for mounted in one.mounted]),
        weights=tuple([one.weight for one in cabinets]),
        catalogue=registry.catalogue,
    )
    return Draft(
        job=job,
        cabinets=cabinets,
        parts=parts,
        joints=joints,
        hardware=hardware,
        fit=_dry_fit(cabinets),
        checks=(
            *checks,
            *unmounted_checks(job),
            *thickness_checks(job, registry),
            *(walled.checks if walled else ()),
            *extra_checks(registry, design),
            *stock_checks(job, stock),
        ),
        stock=stock,
        run=run,
    )


def finished(draft: Draft, registry: Registry, cache: PlanCache) -> Plan:
    """Return the plan of a draft: with how it goes together, the order of work, its replay and what it costs.

    `cache` is the one that the draft was made with, or any other.
    """
    parts, joints, cabinets, stock = draft.parts, draft.joints, draft.cabinets, draft.stock
    work = _work(draft, registry, cache)
    assemblies, steps = work.assemblies, work.steps
    asked = steps if draft.asked is None else _work(draft.asked, registry, cache).steps
    validate_done(draft.job if draft.asked is None else draft.asked.job, asked)
    job = draft.job
    if draft.asked is not None:
        job = replace(job, done=still_done(asked, job.done, steps, job.cabinets))
    plan = Plan(
        job=job,
        parts=parts,
        joints=joints,
        doors=tuple([door for one in cabinets for door in one.doors]),
        hardware=draft.hardware,
        mounting=tuple([mounted for one in cabinets for mounted in one.mounted]),
        dry_fit=draft.fit,
        checks=(
            *draft.checks,
            *locked_parts(assemblies, frozenset(part for one in draft.fit.clashes for part in (one.first, one.second))),
            *driving_checks(assemblies, registry.catalogue.screws, job.shop.driver, writer(job.units)),
            *shelf_checks(parts, writer(job.units)),
            *machine_checks(job, registry, parts, joints, steps),
            *cutter_checks(job, steps),
            *work_checks(job, parts, joints, steps, stock),
            *done_checks(draft.job, asked),
        ),
        steps=steps,
        sides=sides_by_part(parts),
        weights=tuple([one.weight for one in cabinets]),
        workshop=tuple([one.workshop for one in cabinets]),
        stock=quoting(stock, work.breakdown, steps) if stock else None,
        shared_cleats=shared_cleats(job, [hung for one in cabinets for hung in one.hung]),
        run=draft.run,
        built=draft.built,
        sources=registry.catalogue.sources,
    )
    timed_steps = timed(plan, registry)
    fits = _fits(plan, asked, registry)
    return replace(
        plan,
        checks=(*plan.checks, *fit_checks(fits)),
        fits=fits,
        steps=timed_steps,
        costs=cost_of(plan, registry),
        schedule=schedule_of(timed_steps, frozenset(job.done)),
    )


def _work(draft: Draft, registry: Registry, cache: PlanCache) -> _Work:
    """Return how the parts of a draft are cut and put together, and all steps of it."""
    job, parts, cabinets = draft.job, draft.parts, draft.cabinets
    assemblies = cache.assemblies(cabinets)
    breakdown = breakdown_of(job, {part.id: part for part in parts}, draft.stock)
    made = Made(
        parts,
        sides_by_part(parts),
        assemblies,
        draft.hardware,
        tuple([door for one in cabinets for door in one.doors]),
        tuple([mounted for one in cabinets for mounted in one.mounted]),
        draft.run,
        advice_of(job, registry, draft.joints),
        {screw.id: screw for screw in registry.catalogue.screws},
    )
    return _Work(breakdown, assemblies, order_of_work(job, made, cutting=breakdown.operations))


def _fits(plan: Plan, asked: tuple[Operation, ...], registry: Registry) -> tuple[Fit, ...]:
    """Return the fits of a plan; what is cut already has the errors of the steps that were planned to cut it."""
    if plan.built is None:
        return fits_of(plan, registry.catalogue.hinges)
    steps = steps_of_cut_parts(asked, plan.steps, plan.parts, plan.job.cabinets)
    fits = fits_of(replace(plan, steps=steps), registry.catalogue.hinges)
    return tuple([replace(fit, links=tuple([_of(link, len(plan.steps)) for link in fit.links])) for fit in fits])


def _of(link: FitLink, steps: int) -> FitLink:
    """Return a link without its step where that is none of so many steps."""
    return replace(link, step=None) if link.step is not None and link.step > steps else link


def _dry_fit(cabinets: tuple[CabinetPlan, ...]) -> DryFit:
    return DryFit(
        pairs_checked=sum(one.fit.pairs for one in cabinets),
        seats=tuple([seat for one in cabinets for seat in one.fit.seats]),
        clashes=tuple([clash for one in cabinets for clash in one.fit.clashes]),
        outside=tuple([(one.id, one.fit.outside[:3], one.fit.outside[3:]) for one in cabinets]),
        approximations=(EXACT, ROUND),
    )


def _loose(job: Job, row: LoosePart) -> Part:
    """Return a part that is only cut, as the job gives it."""
    return Part(
        id=f"loose/{row.id}",
        cabinet="",
        role="loose",
        name=row.id,
        quantity=row.quantity,
        material=row.material,
        length=row.length,
        width=row.width,
        thickness=job.materials[row.material].thickness,
        grain=row.grain,
        why_length=(Term("given in the job", row.length),),
        why_width=(Term("given in the job", row.width),),
        place=Place((0, 0, 0), 1, 2, 3),
        group="loose-parts",
    )
