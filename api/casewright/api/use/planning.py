"""From a job document to a plan document: what the web, the command line and embedding share."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from casewright.api.engine import Progress, make_plan
from casewright.api.job.document import read_job
from casewright.api.job.strict_json import read_json
from casewright.api.use.loading import load_installed
from casewright.api.wire.made_by import fingerprint, made_by
from casewright.api.wire.plan_document import SECTIONS, plan_document
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan

__all__ = ["installed", "make", "plan_both", "plan_job"]


@lru_cache(maxsize=1)
def installed() -> Registry:
    """Return the registry of every installed plugin, loaded once."""
    return load_installed()


def make(document: Any, registry: Registry, progress: Progress | None = None) -> Plan:
    """Return the plan of a job document. Raises as `casewright.api.plan` does."""
    job = read_job(document, registry)
    return make_plan(job, registry) if progress is None else make_plan(job, registry, progress=progress)


def plan_job(
    job: Mapping[str, Any] | bytes | str,
    registry: Registry | None = None,
    sections: tuple[str, ...] = SECTIONS,
    progress: Progress | None = None,
) -> dict[str, Any]:
    """Return the plan document of a job, or the named sections of it; `progress` is told each stage."""
    return plan_both(job, registry, sections, progress)[1]


def plan_both(
    job: Mapping[str, Any] | bytes | str,
    registry: Registry | None = None,
    sections: tuple[str, ...] = SECTIONS,
    progress: Progress | None = None,
) -> tuple[Plan, dict[str, Any]]:
    """Return a job's plan, from which papers are drawn, and its document."""
    registry = installed() if registry is None else registry
    if isinstance(job, str):
        job = job.encode("utf-8", "surrogatepass")
    document = read_json(job) if isinstance(job, bytes) else dict(job)
    made = make(document, registry, progress)
    return made, plan_document(made, made_by(registry), fingerprint(document, registry), sections)
