"""The service: engine, stock planner, documents and web.

For use inside another program, without HTTP: `from casewright.api import cures, fits, plan`.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from casewright.sdk.loader import Registry

__all__ = ["cures", "fits", "plan"]


def plan(job: Mapping[str, Any] | bytes | str, registry: "Registry | None" = None) -> dict[str, Any]:
    """Return the plan document of a job document (JSON values, or JSON text as bytes or str).

    The same answer as `POST /v1/plan`. `registry` defaults to every installed plugin. Raises
    `BadDocumentError` (the document does not match the schema), `UnusableJobError` or `NoGeometryError` (it does,
    but cannot be made), `PluginFaultError` (a plugin failed); the first three carry `problems`.
    """
    import orjson
    from casewright.api.use.planning import plan_job
    from casewright.api.wire.plan_document import to_bytes

    document: dict[str, Any] = orjson.loads(to_bytes(plan_job(job, registry)))
    return document


def cures(job: Mapping[str, Any] | bytes | str, registry: "Registry | None" = None) -> dict[str, Any]:
    """Return, for each stop of a job's plan, the changes of the job that were planned and clear it.

    The same answer as `POST /v1/cures`; arguments and errors are those of `plan`.
    """
    import orjson
    from casewright.api.use.cures import cures_of_job
    from casewright.api.wire.plan_document import to_bytes

    document: dict[str, Any] = orjson.loads(to_bytes(cures_of_job(job, registry)))
    return document


def fits(job: Mapping[str, Any] | bytes | str, registry: "Registry | None" = None) -> dict[str, Any]:
    """Return the fits of a job's plan: how far each may come out wrong, by which cuts, and what follows.

    The same answer as `POST /v1/fits`; arguments and errors are those of `plan`.
    """
    import orjson
    from casewright.api.use.planning import plan_job
    from casewright.api.wire.plan_document import to_bytes

    document: dict[str, Any] = orjson.loads(to_bytes(plan_job(job, registry, ("fits", "fits_not_proved"))))
    return document
