"""Routes about the service itself: health, readiness, version, problems explained, the OpenAPI document."""

from typing import Any

from casewright.api.web.etag import fixed_json
from casewright.api.web.jobs import planner
from casewright.api.web.negotiation import JSON, TYPES, answer_format
from casewright.api.web.problems import KINDS, ProblemError, explained
from casewright.api.wire.plan_document import to_bytes
from flask import Blueprint, Response, request


def blueprint(openapi: dict[str, Any]) -> Blueprint:
    """Return the routes. Mounted under a prefix, the OpenAPI document names that as its server."""
    routes = Blueprint("service", __name__)
    as_published = fixed_json(openapi)

    @routes.get("/openapi.json")
    def openapi_document() -> Response:
        if not request.script_root:
            return as_published()
        return fixed_json({**openapi, "servers": [{"url": request.script_root}]})()

    @routes.get("/healthz")
    def healthz() -> Response:
        return _json({"status": "alive"})

    @routes.get("/readyz")
    def readyz() -> Response:
        failed = [p.name for p in planner().registry.plugins if p.status == "failed"]
        return _json({"status": "ready", "failed_plugins": failed})

    @routes.get("/version")
    def version() -> Response:
        return _json(planner().made_by)

    @routes.get("/problems/<name>")
    def problem(name: str) -> Response:
        if name not in KINDS:
            raise ProblemError("not-found", KINDS["not-found"].about)
        return _json(explained(KINDS[name]))

    return routes


def _json(document: Any) -> Response:
    answer_format(request, (JSON,))
    return Response(to_bytes(document), mimetype=TYPES[JSON])
