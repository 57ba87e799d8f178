"""A job as far as it is needed to compare it with another, and how its parts are then cut and put together."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from casewright.api.engine.as_built.at_hand import AtHand, blanks_for
from casewright.api.engine.as_built.progress import cut_already, steps_of_cut_parts
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.cache import PlanCache
from casewright.api.engine.fits import Answers, Subject, answers_of, fits_of
from casewright.api.engine.judge.dry_fit import EXACT, ROUND
from casewright.api.engine.judge.extra import extra_checks
from casewright.api.engine.judge.hanging import unmounted_checks
from casewright.api.engine.judge.panes import pane_checks
from casewright.api.engine.judge.sheets import thickness_checks
from casewright.api.engine.judge.unused import unused_checks
from casewright.api.engine.run import plan_run
from casewright.api.engine.run.joining import joined
from casewright.api.engine.run.through_cleats import joined_cleats
from casewright.api.engine.work.advice import advice_of
from casewright.api.engine.work.breakdown import Breakdown, breakdown_of
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.matching import match_checks
from casewright.api.engine.work.order import order_of_work
from casewright.api.engine.work.panes import pane_lines
from casewright.api.engine.work.plain_sizes import plain_steps
from casewright.api.engine.work.replay_records import Blank
from casewright.api.engine.work.short_stock import stock_checks
from casewright.api.engine.work.sides import sides_by_part
from casewright.api.engine.work.together import Assemblies
from casewright.api.engine.work.waiting import Over, Waiting, waiting_of
from casewright.api.stock import Progress
from casewright.sdk.geometry import Place
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Design
from casewright.sdk.model import (
    AsBuilt,
    Check,
    DoorLeaf,
    DryFit,
    Fit,
    HardwareLine,
    Job,
    Joint,
    LoosePart,
    Mounted,
    Operation,
    Part,
    Run,
    Sides,
    StockPlan,
    Term,
)

__all__ = ["Draft", "Work", "drafted", "settled", "subject_of"]


@dataclass(frozen=True, slots=True)
class Draft:
    """A job as far as it is needed to compare it with another: what is made, bought and cut, and what checks say of it.

    How it is put together and whether its steps make it are left to the plan that is made of it. `taken` are the
    ids of fits that are taken from the work, `waiting` what is cut only when it is measured for. `blanks` of parts are
    those at hand over size, `sides` names the sides of each part; both by its id.
    """

    job: Job
    cabinets: tuple[CabinetPlan, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    hardware: tuple[HardwareLine, ...]
    fit: DryFit
    judged: tuple[Check, ...]
    stock: StockPlan | None = None
    run: Run | None = None
    built: AsBuilt | None = None
    planned: "Draft | None" = None
    taken: frozenset[str] = frozenset()
    waiting: Waiting = field(default_factory=Waiting)
    blanks: Mapping[str, Blank] = field(default_factory=dict)
    sides: Mapping[str, Sides] = field(default_factory=dict)

    @property
    def sawn(self) -> tuple[Part, ...]:
        """The parts that are cut from stock: all that have no blank of their own at hand."""
        return tuple([part for part in self.parts if part.id not in self.blanks]) if self.blanks else self.parts

    @property
    def doors(self) -> tuple[DoorLeaf, ...]:
        """The doors of every cabinet."""
        return tuple([door for one in self.cabinets for door in one.doors])

    @property
    def mounting(self) -> tuple[Mounted, ...]:
        """The mountings of every cabinet."""
        return tuple([mounted for one in self.cabinets for mounted in one.mounted])

    @property
    def checks(self) -> tuple[Check, ...]:
        """What checks say of it: of what is made, of what stock yields, and of rows that are cut of one piece."""
        stock = stock_checks(self.job, self.stock)
        return (*self.judged, *stock, *match_checks(self.job, self.parts, self.stock))


@dataclass(frozen=True, slots=True)
class Work:
    """How the parts of a draft are cut and put together, all steps of it, and its fits as these steps make them.

    What is built already was made by other steps, those of the plan with nothing built, as far as they are given.
    """

    breakdown: Breakdown
    assemblies: Assemblies
    steps: tuple[Operation, ...]
    answers: Answers


def drafted(
    job: Job,
    registry: Registry,
    *,
    with_stock: bool,
    cache: PlanCache,
    progress: Progress,
    left: AtHand | None = None,
    beside: Mapping[str, Part] | None = None,
) -> Draft:
    """Plan a job with its cabinets as they are given.

    `left` is what steps that are done have left to be cut from, `beside` what they have cut that is of no cabinet.
    """
    cabinets = joined_cleats(cache.cabinets(job, registry, progress))
    walled = plan_run(job, cabinets, registry)
    parts = (
        *(part for one in cabinets for part in one.parts),
        *(walled.parts if walled else ()),
        *(_loose(job, row) for row in job.loose_parts),
    )
    if beside:
        parts = cut_already(parts, beside)
    run = joined(job, walled.run, parts, registry) if walled else None
    hardware = tuple([line for one in cabinets for line in (*one.construction.hardware, *one.on_wall)])
    if run is not None:
        hardware += tuple([gap.screws for gap in run.gaps if gap.screws is not None])
    hardware += pane_lines(job, parts, registry)
    checks = (check for one in cabinets for check in (*one.checks, *one.stays))
    design = _design(job, registry, cabinets, parts, hardware)
    draft = Draft(
        job=job,
        cabinets=cabinets,
        parts=parts,
        joints=design.joints,
        hardware=hardware,
        fit=_dry_fit(cabinets),
        judged=(
            *checks,
            *unmounted_checks(job),
            *thickness_checks(job, registry),
            *unused_checks(job, parts),
            *pane_checks(job, parts, registry),
            *(walled.checks if walled else ()),
            *extra_checks(registry, design),
        ),
        run=run,
        sides=sides_by_part(parts),
    )
    if left is not None:
        draft = replace(draft, job=replace(job, stock=left.stock), blanks=blanks_for(parts, job.cabinets, left.blanks))
    fits = fits_of(subject_of(draft, registry), plain_steps(job, parts, draft.sides, cache.cuts))

    def cut(over: Over) -> StockPlan | None:
        return cache.cutting(draft.job, draft.sawn, progress, over) if with_stock or job.done else None

    return _cut(draft, fits, cut)


def _design(
    job: Job,
    registry: Registry,
    cabinets: tuple[CabinetPlan, ...],
    parts: tuple[Part, ...],
    hardware: tuple[HardwareLine, ...],
) -> Design:
    """Return a job and its cabinets as checks of plugins are given them."""
    return Design(
        job,
        parts,
        joints=tuple([joint for one in cabinets for joint in one.construction.joints]),
        doors=tuple([door for one in cabinets for door in one.doors]),
        hardware=hardware,
        mounting=tuple([mounted for one in cabinets for mounted in one.mounted]),
        weights=tuple([one.weight for one in cabinets]),
        catalogue=registry.catalogue,
    )


def _cut(draft: Draft, fits: Sequence[Fit], cut: Callable[[Over], StockPlan | None]) -> Draft:
    """Return a draft cut from stock, with what is taken from the work left over size where stock yields it so."""
    waiting = waiting_of(draft.job, draft.parts, fits)
    stock = cut(waiting.over)
    if stock is not None and stock.short and waiting.over:
        waiting = waiting.without_over()
        stock = cut(waiting.over)
    return replace(draft, stock=stock, waiting=waiting, taken=frozenset(fit.id for fit in fits if fit.measuring))


def subject_of(draft: Draft, registry: Registry) -> Subject:
    """Return what the fits of a draft are judged of."""
    return Subject(draft.job, draft.parts, draft.joints, draft.doors, registry.catalogue.hinges, draft.run)


ROUNDS = 4
"""Times that steps are made anew, at most, where how they share settings leaves more to be taken from the work."""


def settled(draft: Draft, registry: Registry, cache: PlanCache, before: Sequence[Operation] = ()) -> tuple[Draft, Work]:
    """Return a draft with all that its own steps leave to be taken from the work, and these steps.

    Steps of the plan with nothing built, `before`, have made what is built.
    """
    job, sawn, with_stock = draft.job, draft.sawn, draft.stock is not None

    def cut(over: Over) -> StockPlan | None:
        return cache.cutting(job, sawn, over=over) if with_stock else None

    work = work_of(draft, registry, cache, before)
    for _ in range(ROUNDS):
        if all(fit.id in draft.taken for fit in work.answers.fits if fit.measuring is not None):
            break
        draft = _cut(draft, work.answers.fits, cut)
        work = work_of(draft, registry, cache, before)
    return draft, work


def _gravities(job: Job, registry: Registry) -> dict[str, float]:
    """Return the oven-dry gravity of each material that has one on record, by its key."""
    stuffs = {key: registry.catalogue.stuff(one.stuff) for key, one in job.materials.items()}
    return {key: stuff.g_oven_dry for key, stuff in stuffs.items() if stuff.g_oven_dry is not None}


def work_of(draft: Draft, registry: Registry, cache: PlanCache, before: Sequence[Operation] = ()) -> Work:
    """Return how the parts of a draft are cut and put together; `before` are the steps that made what is built."""
    job, parts, cabinets = draft.job, draft.parts, draft.cabinets
    assemblies = cache.assemblies(cabinets)
    breakdown = breakdown_of(job, {part.id: part for part in parts}, draft.stock, draft.waiting, draft.blanks)
    made = Made(
        parts,
        draft.sides,
        assemblies,
        draft.hardware,
        draft.doors,
        draft.mounting,
        draft.run,
        advice_of(job, registry, draft.joints),
        {screw.id: screw for screw in registry.catalogue.screws},
        draft.waiting,
        _gravities(job, registry),
        {hinge.id: hinge for hinge in registry.catalogue.hinges},
        {slide.id: slide for slide in registry.catalogue.slides},
        cache.cuts,
        draft.built.repairs if draft.built else (),
        tuple([one.weight for one in cabinets]),
        draft.joints,
    )
    steps = order_of_work(job, made, cutting=breakdown.operations, late=breakdown.late)
    made_by = steps_of_cut_parts(before, steps, parts, job.cabinets) if draft.built else steps
    return Work(breakdown, assemblies, steps, answers_of(subject_of(draft, registry), made_by, draft.taken))


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
