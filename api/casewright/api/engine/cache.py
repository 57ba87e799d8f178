"""Cabinets and cuttings planned before, found again by all that they hang on: handed on from plan to plan.

A cabinet is found by its `Context`: the cabinet and what planning it may read of its job (`CabinetJob` has nothing
else), value for value and written alike, so that neither 1 and 1.0 nor 0.0 and -0.0 are taken for one another; and by
the registry itself. Nothing but the time a plan takes hangs on what is kept. What is kept is frozen and is replaced,
never changed, and cuts are added or all dropped, so threads that share a cache need no lock: at worst one plans
anew what another has just planned.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.cabinet import CabinetPlan, plan_cabinet
from casewright.api.engine.construction.context import Context, job_of
from casewright.api.engine.construction.equal import MOST_ROUNDS, LaidOut, made_equal
from casewright.api.engine.work.cutting import NOTHING_OVER, Question, cutting_of, question_of
from casewright.api.engine.work.machining import KnownCuts
from casewright.api.engine.work.together import Assemblies, Known, Together, put_together
from casewright.api.engine.work.waiting import Over
from casewright.api.stock import Progress, no_progress
from casewright.sdk.loader import Registry
from casewright.sdk.model import Job, Part, StockPlan

MOST_PARTS = 5_000
"""Parts that the cabinets kept may have in all; those of the last plan are kept before older ones."""

MOST_CUTTINGS = 8
"""Cuttings kept, the last first."""


@dataclass(frozen=True, slots=True)
class _Row:
    context: Context
    plan: CabinetPlan
    assemblies: Assemblies | None = None


@dataclass(frozen=True, slots=True)
class _Whole:
    """What all cabinets of a job are planned with, and the wall of those that hang, written out once for all keys."""

    shared: str
    wall: str

    @classmethod
    def of(cls, job: Job) -> "_Whole":
        """Write out what cabinets share."""
        wall = "" if job.wall is None else repr(replace(job.wall, cabinets_at={}))
        return cls(repr((job.units, job.materials, job.shop, job.climate)), wall)

    def key(self, context: Context) -> str:
        """Return all that planning a cabinet hangs on, as text."""
        wall = context.job.wall
        places = "" if wall is None else f"{self.wall}{wall.cabinets_at!r}"
        return f"{self.shared}{places}{context.job.equal!r}{context.cabinet!r}"


class PlanCache:
    """What plans made with it have worked out, for the plans made with it next."""

    __slots__ = ("_cabinets", "_cuttings", "_most", "cuts")

    def __init__(self, most_parts: int = MOST_PARTS) -> None:
        self._most = most_parts
        self._cabinets: Mapping[str, _Row] = {}
        self._cuttings: tuple[tuple[Question, StockPlan], ...] = ()
        self.cuts = KnownCuts()

    def __len__(self) -> int:
        return len(self._cabinets)

    def cabinets(self, job: Job, registry: Registry, progress: Progress = no_progress) -> tuple[CabinetPlan, ...]:
        """Return every cabinet of a job planned; settings that are nearly one are made one over all of them.

        `progress` is told how many are planned. Raises what `plan_cabinet` raises.
        """
        count = len(job.cabinets)
        known, whole = self._cabinets, _Whole.of(job)
        contexts = [Context(job_of(job, cabinet), cabinet, registry) for cabinet in job.cabinets]
        rows: dict[str, _Row] = {}
        plans: list[CabinetPlan] = []
        for number, context in enumerate(contexts):
            progress("cabinets", number, count)
            plans.append(_planned(context, whole.key(context), known, rows))
        progress("cabinets", count, count)
        for _ in range(MOST_ROUNDS):
            again = _equalled(contexts, plans, job.shop.same)
            if again == contexts:
                break
            contexts = again
            plans = [_planned(context, whole.key(context), known, rows) for context in contexts]
        self._cabinets = self._within({**rows, **{key: row for key, row in known.items() if key not in rows}})
        return tuple(plans)

    def assemblies(self, cabinets: Sequence[CabinetPlan]) -> Assemblies:
        """Return how the sub-assemblies of cabinets go together, by cabinet and group: each worked out once."""
        rows = dict(self._cabinets)
        keys = {id(row.plan): key for key, row in rows.items()}
        known: Known = {}
        out: dict[tuple[str, str], Together] = {}
        for plan in cabinets:
            key = keys.get(id(plan))
            own = None if key is None else rows[key].assemblies
            if own is None:
                own = put_together(plan.parts, plan.construction.joints, plan.construction.hardware, known)
                if key is not None:
                    rows[key] = replace(rows[key], assemblies=own)
            out.update(own)
        self._cabinets = rows
        return out

    def _within(self, rows: Mapping[str, _Row]) -> Mapping[str, _Row]:
        """Return as many rows as the limit allows, from the first."""
        kept: dict[str, _Row] = {}
        room = self._most
        for key, row in rows.items():
            room -= len(row.plan.parts)
            if room < 0:
                break
            kept[key] = row
        return kept

    def cutting(
        self, job: Job, parts: tuple[Part, ...], progress: Progress = no_progress, over: Over = NOTHING_OVER
    ) -> StockPlan | None:
        """Return how to cut the parts from the job's stock, those over size in `over`, or `None` without stock.

        `progress` is told each stage of it. Raises `NoGeometryError` naming the limit when there is more than the
        stock planner takes.
        """
        if job.stock is None:
            return None
        question = question_of(job, job.stock, parts, over)
        known = self._cuttings
        plan = next((plan for before, plan in known if before == question), None)
        if plan is None:
            plan = cutting_of(question, progress)
        others = tuple([row for row in known if row[0] != question])
        self._cuttings = ((question, plan), *others)[:MOST_CUTTINGS]
        return plan


def _planned(context: Context, key: str, known: Mapping[str, _Row], rows: dict[str, _Row]) -> CabinetPlan:
    """Return a cabinet planned, from what is known by its key where it is, and add it to `rows`."""
    row = rows.get(key) or known.get(key)
    if row is None or row.context.registry is not context.registry or row.context != context:
        row = _Row(context, plan_cabinet(context))
    rows[key] = row
    return row.plan


def _equalled(contexts: Sequence[Context], plans: Sequence[CabinetPlan], same: int) -> list[Context]:
    """Return the contexts of cabinets with what each asks for that is to be equal to what others of the job do."""
    laid_out = [plan.construction.laid_out for plan in plans]
    equal = made_equal(frozenset[LaidOut]().union(*laid_out), same)
    return [
        replace(context, job=replace(context.job, equal={one: equal[one] for one in sorted(own & equal.keys())}))
        for context, own in zip(contexts, laid_out, strict=True)
    ]
