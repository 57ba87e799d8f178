"""The service: engine, stock planner, documents and web.

For use inside another program, without HTTP: `from casewright.api import plan`. What `plan` takes and gives is typed
(`JobDocument`, `PlanDocument`); `JobBuilder` builds a job call by call. `casewright` alone installs what this needs;
drawings and the service need `casewright[papers]` and `casewright[web]`.
"""

from collections.abc import Mapping
from importlib import import_module
from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from casewright.api.builder import JobBuilder
    from casewright.api.documents import (
        BuiltDocument,
        CuresDocument,
        FitsDocument,
        FromStockDocument,
        JobDocument,
        PartsDocument,
        PlanDocument,
        StepsDocument,
    )
    from casewright.sdk.errors import (
        BadDocumentError,
        NoGeometryError,
        PluginFaultError,
        ProblemsError,
        UnusableJobError,
    )
    from casewright.sdk.loader import Registry

    GivenJob: TypeAlias = JobDocument | Mapping[str, Any] | bytes | str

__all__ = [
    "BadDocumentError",
    "BuiltDocument",
    "CuresDocument",
    "FitsDocument",
    "FromStockDocument",
    "JobBuilder",
    "JobDocument",
    "NoGeometryError",
    "PartsDocument",
    "PlanDocument",
    "PluginFaultError",
    "ProblemsError",
    "StepsDocument",
    "UnusableJobError",
    "built",
    "cures",
    "fits",
    "from_stock",
    "parts",
    "plan",
    "steps",
]

_HOME = {
    "JobBuilder": "casewright.api.builder",
    **dict.fromkeys((name for name in __all__ if name.endswith("Document")), "casewright.api.documents"),
    **dict.fromkeys(
        ("BadDocumentError", "NoGeometryError", "PluginFaultError", "ProblemsError", "UnusableJobError"),
        "casewright.sdk.errors",
    ),
}


def __getattr__(name: str) -> Any:
    """Return what is exported from elsewhere, imported when it is asked for."""
    if name in _HOME:
        return getattr(import_module(_HOME[name]), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def plan(job: "GivenJob", registry: "Registry | None" = None) -> "PlanDocument":
    """Return the plan document of a job document (JSON values, or JSON text as bytes or str).

    The same answer as `POST /v1/plan`. Numbers may be of numpy's kinds, `Decimal` or `Fraction`. `registry` defaults to
    every installed plugin. Raises `BadDocumentError` (the document does not match the schema), `UnusableJobError` or
    `NoGeometryError` (it does, but cannot be made), `PluginFaultError` (a plugin failed); the first three carry
    `problems`, and all are exported here.
    """
    from casewright.api.wire.plan_document import SECTIONS

    document: PlanDocument = _view(job, registry, SECTIONS)
    return document


def parts(job: "GivenJob", registry: "Registry | None" = None) -> "PartsDocument":
    """Return the cut list of a job with reasons, as `POST /v1/parts`; arguments and errors are those of `plan`."""
    document: PartsDocument = _view(job, registry, ("parts",))
    return document


def steps(job: "GivenJob", registry: "Registry | None" = None) -> "StepsDocument":
    """Return the order of work of a job, as `POST /v1/steps`; arguments and errors are those of `plan`."""
    document: StepsDocument = _view(job, registry, ("steps", "schedule"))
    return document


def fits(job: "GivenJob", registry: "Registry | None" = None) -> "FitsDocument":
    """Return the fits of a job's plan: how far each may come out wrong, by which cuts, and what follows.

    The same answer as `POST /v1/fits`; arguments and errors are those of `plan`.
    """
    document: FitsDocument = _view(job, registry, ("fits", "fits_not_proved"))
    return document


def built(job: "GivenJob", registry: "Registry | None" = None) -> "BuiltDocument":
    """Return what comes out otherwise by what is built of a job, and the checks, which name what no longer fits.

    The same answer as `POST /v1/built`; arguments and errors are those of `plan`.
    """
    document: BuiltDocument = _view(job, registry, ("summary", "built", "checks"))
    return document


def cures(job: "GivenJob", registry: "Registry | None" = None) -> "CuresDocument":
    """Return, for each stop of a job's plan, the changes of the job that were planned and clear it.

    The same answer as `POST /v1/cures`; arguments and errors are those of `plan`.
    """
    from casewright.api.use.cures import cures_of_job

    document: CuresDocument = _plain(cures_of_job(job, registry))
    return document


def from_stock(
    job: Mapping[str, Any], aim: str = "largest", answers: int = 3, registry: "Registry | None" = None
) -> "FromStockDocument":
    """Return the best few jobs, of ranges of sizes, that the stock on hand yields.

    The same answer as `POST /v1/from-stock`; errors are those of `plan`, places named under `/job`.
    """
    from casewright.api.use.from_stock import from_stock_of_job

    document: FromStockDocument = _plain(from_stock_of_job(job, aim, answers, registry))
    return document


def _view(job: "GivenJob", registry: "Registry | None", sections: tuple[str, ...]) -> Any:
    from casewright.api.use.planning import plan_job

    return _plain(plan_job(job, registry, sections))


def _plain(document: Any) -> Any:
    """Return a document as JSON values, as HTTP gives it."""
    from casewright.api.wire.plan_document import to_bytes
    from orjson import loads

    return loads(to_bytes(document))
