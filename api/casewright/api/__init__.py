"""The service: engine, stock planner, documents and web.

For use inside another program, without HTTP: `from casewright.api import plan`.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from casewright.sdk.loader import Registry

__all__ = ["plan"]


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
