"""The one path from a job handed in to its plan and the plan's document: for HTTP, the command line and embedding."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from casewright.api.engine import Draft, PlanCache, Progress, make_draft, make_plan
from casewright.api.stock import no_progress
from casewright.api.use.job_input import JobInput
from casewright.api.use.kept import KeptPlans
from casewright.api.use.loading import installed
from casewright.api.wire.made_by import made_by
from casewright.api.wire.plan_document import SECTIONS, plan_document
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan

OF_PARTS = frozenset({"summary", "parts", "joints", "doors", "hardware", "dry_fit", "weights", "workshop"})
"""Sections that are the same whether it is planned how to cut the parts or not, as long as that adds no stop."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan, from which papers are drawn, and its document."""

    plan: Plan
    document: dict[str, Any]


class Planner:
    """Plans jobs with one registry, and keeps the last few plans (`keep`, none by default)."""

    def __init__(self, registry: Registry, keep: int = 0) -> None:
        self.registry = registry
        self.kept = KeptPlans(keep) if keep else None

    @cached_property
    def made_by(self) -> Mapping[str, Any]:
        """What plans are made by: the software, its version and the plugins."""
        return made_by(self.registry)

    def plan(
        self,
        job: JobInput,
        *,
        with_stock: bool = True,
        progress: Progress | None = None,
        cache: PlanCache | None = None,
    ) -> Plan:
        """Return the plan of a job, with its cutting from stock or without.

        A plan that is kept is not made again, unless `progress` asks for each stage or a `cache` carries what
        it has worked out from plan to plan. Raises as `casewright.api.plan` does; problems of a table name its cells.
        """
        keeping = self.kept if cache is None else None
        if keeping is not None and progress is None:
            kept = keeping.find((job.fingerprint, with_stock))
            if kept is not None:
                return kept
        with job.in_cells():
            plan = make_plan(
                job.read(), self.registry, with_stock=with_stock, cache=cache, progress=progress or no_progress
            )
        if keeping is not None:
            keeping.keep((job.fingerprint, with_stock), plan)
        return plan

    def draft(self, job: JobInput, cache: PlanCache) -> Draft:
        """Return a job planned as far as comparing many needs, without stock. Raises as `plan` does."""
        with job.in_cells():
            return make_draft(job.read(), self.registry, with_stock=False, cache=cache)

    def both(self, job: JobInput, *, progress: Progress | None = None) -> Planned:
        """Return a job's whole plan and its document."""
        plan = self.plan(job, progress=progress)
        return Planned(plan, self.write(plan, job.fingerprint))

    def document(
        self, job: JobInput, sections: Iterable[str] = SECTIONS, *, progress: Progress | None = None
    ) -> dict[str, Any]:
        """Return the named sections of a job's plan, as JSON values; each says where stock is short.

        How to cut from stock is not planned for sections that show nothing of it, where that plainly adds no stop.
        """
        names = tuple(sections)
        plan = self.plan(job, with_stock=not OF_PARTS.issuperset(names), progress=progress)
        return self.write(plan, job.fingerprint, names)

    def write(self, plan: Plan, fingerprint: str, sections: Iterable[str] = SECTIONS) -> dict[str, Any]:
        """Return the named sections of a plan that is made, as JSON values."""
        return plan_document(plan, self.made_by, fingerprint, sections)


def make(document: Any, registry: Registry) -> Plan:
    """Return the plan of a job document: what the SDK's tests of plugins ask of the service."""
    return Planner(registry).plan(JobInput(document, registry))


def plan_job(
    job: Mapping[str, Any] | bytes | str, registry: Registry | None = None, sections: Iterable[str] = SECTIONS
) -> dict[str, Any]:
    """Return the plan document of a job given as JSON values or text, or the named sections of it."""
    planner = Planner(installed() if registry is None else registry)
    return planner.document(JobInput.given(job, planner.registry), sections)
