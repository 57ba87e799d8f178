"""Every error as RFC 9457 `application/problem+json`: one table of kinds, and handlers that use it."""

import logging
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from casewright.api.job import limits
from casewright.api.job.problems import shown
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import BadDocumentError, NoGeometryError, PluginFaultError, Problem, ProblemsError
from casewright.sdk.spelling import nearest_word
from flask import Flask, Response, current_app, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed, NotFound

MEDIA_TYPE = "application/problem+json"
RETRY_SECONDS = 5
"""What Retry-After says."""

TOO_LITTLE_MEMORY = ("memory for the whole of the request", "too little left")
"""Rule and what was got, where a request could not be answered for want of memory."""

log = logging.getLogger("casewright.web")


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of problem: `name` ends its `type`, a relative reference that stays the same."""

    name: str
    status: int
    title: str
    about: str

    @property
    def type(self) -> str:
        """The problem's `type`."""
        return f"/problems/{self.name}"


_KINDS = (
    Kind("bad-document", 400, "The document does not match the schema", "Each entry of `errors` names a place."),
    Kind("bad-query", 400, "The query cannot be read", "A parameter is unknown or has no such value."),
    Kind("bad-request", 400, "The request cannot be read", "The HTTP request itself is malformed."),
    Kind("unauthorized", 401, "This service asks for a key", "Send Authorization: Bearer and a key of the service."),
    Kind("not-found", 404, "Nothing is here", "openapi.json lists what there is."),
    Kind("method-not-allowed", 405, "This method is not for this path", "`Allow` lists the methods that are."),
    Kind("not-acceptable", 406, "None of the types asked for is made here", "Ask for one of those listed."),
    Kind(
        "already-have-plan",
        412,
        "You already have this plan",
        "If-None-Match holds the ETag of the answer to this job: the same job always gives the same bytes.",
    ),
    Kind("too-large", 413, "The body is too large", "GET /v1/limits lists every limit."),
    Kind("unsupported-media-type", 415, "The body is of a type not read here", "Send application/json or text/csv."),
    Kind(
        "unusable-job",
        422,
        "The job reads well but cannot be used",
        "It breaks a rule that a schema cannot state: a material that is not listed, or numbers that disagree.",
    ),
    Kind("no-geometry", 422, "The job cannot be built", "Some part would have no size, or a method cannot do it."),
    Kind("nothing-to-draw", 422, "There is no such drawing", "The plan holds no such subject, page or kind of thing."),
    Kind(
        "over-budget",
        422,
        "The job takes longer than a request may",
        "Send fewer cabinets or parts at a time, or, with stock, a lower effort. GET /v1/limits lists every limit.",
    ),
    Kind(
        "plugin-fault",
        422,
        "A plugin cannot answer this job",
        "The method named failed or answered something unusable. Another method may do; tell the plugin's author.",
    ),
    Kind("too-many-requests", 429, "Too many requests", "Wait as long as Retry-After says."),
    Kind("internal", 500, "The service failed", "The fault is logged here; the job is not."),
    Kind("unavailable", 503, "The service is not ready", "Wait as long as Retry-After says."),
)
KINDS: Mapping[str, Kind] = {kind.name: kind for kind in _KINDS}
_BY_STATUS = {kind.status: kind.name for kind in _KINDS if kind.status != 422}
"""The kind of an error of HTTP itself: the last listed of its status. 422 is of jobs alone."""
_ENTRIES: Mapping[str, Problem] = {
    "bad-document": Problem("/units", "needed", "nothing", 'Add "units" here.'),
    "bad-query": Problem("?page", "a whole number from 1", "'first'", "Write for example ?page=1."),
    "unusable-job": Problem("/loose_parts/0/material", "a key of `materials`", '"ply"', "Use one of: mdf."),
}
"""What kinds that name places show as an example."""


def explained(kind: Kind) -> dict[str, Any]:
    """Return a kind of problem as JSON values."""
    return {"type": kind.type, "status": kind.status, "title": kind.title, "about": kind.about}


def described(kind: Kind) -> dict[str, Any]:
    """Return a kind of problem as a response of the OpenAPI document."""
    entries = [_ENTRIES[kind.name].as_dict()] if kind.name in _ENTRIES else []
    body = {"type": kind.type, "title": kind.title, "status": kind.status, "detail": kind.about, "errors": entries}
    content = {"schema": {"$ref": "#/components/schemas/Problem"}, "example": body}
    return {"description": kind.title, "content": {MEDIA_TYPE: content}}


class ProblemError(Exception):
    """Raised by a route to answer with a problem."""

    def __init__(
        self,
        kind: str,
        detail: str,
        errors: Iterable[Problem] = (),
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(detail)
        self.kind, self.detail, self.errors, self.headers = KINDS[kind], detail, tuple(errors), dict(headers or {})


def bad_query(name: str, rule: str, got: str, fix: str) -> ProblemError:
    """Return the problem of a parameter that has no such value."""
    return ProblemError("bad-query", f"`{name}` is {rule}.", [Problem(f"?{name}", rule, repr(got[:60]), fix)])


def problem_body(kind: Kind, detail: str, errors: Iterable[Problem] = (), **extra: Any) -> dict[str, Any]:
    """Return a problem as JSON values (RFC 9457)."""
    body = {"type": kind.type, "title": kind.title, "status": kind.status, "detail": detail, **extra}
    return {**body, "errors": [problem.as_dict() for problem in errors]}


def problem_response(
    kind: Kind,
    detail: str,
    errors: Iterable[Problem] = (),
    headers: Mapping[str, str] | None = None,
    **extra: Any,
) -> Response:
    """Return a problem as a response."""
    body = problem_body(kind, detail, errors, **extra)
    if request.script_root:  # the app is mounted under a prefix, and so are its problems
        body["type"] = request.script_root + kind.type
    response = Response(to_bytes(body), status=kind.status, mimetype=MEDIA_TYPE)
    response.headers.update(headers or {})
    return response


def register(app: Flask) -> None:
    """Answer every error of an app with a problem."""
    app.register_error_handler(ProblemError, _raised)
    app.register_error_handler(ProblemsError, _problems)
    app.register_error_handler(PluginFaultError, _plugin_fault)
    app.register_error_handler(HTTPException, _http)


def _raised(error: ProblemError) -> Response:
    return problem_response(error.kind, error.detail, error.errors, error.headers)


def _problems(error: ProblemsError) -> Response:
    name = "bad-document" if isinstance(error, BadDocumentError) else "unusable-job"
    if isinstance(error, NoGeometryError):
        name = "no-geometry"
    return problem_response(KINDS[name], count_of(error.problems), error.problems)


def count_of(problems: Sequence[Problem]) -> str:
    """Return the `detail` that says how many problems there are."""
    return "One thing is wrong." if len(problems) == 1 else f"{len(problems)} things are wrong."


def _plugin_fault(error: PluginFaultError) -> Response:
    log.error("plugin fault", extra={"fields": {"plugin": error.plugin, "method": error.method}})
    detail = f"Method {error.method} of plugin {error.plugin}: {error.fault}."
    return problem_response(KINDS["plugin-fault"], detail, plugin=error.plugin, method=error.method)


def _http(error: HTTPException) -> Response:
    status = error.code or 500
    kind = KINDS[_BY_STATUS.get(status, "bad-request" if status < 500 else "internal")]
    if kind.status != status:
        kind = Kind(kind.name, status, kind.title, kind.about)
    if status == 413:
        return problem_response(kind, kind.about, [_too_large()])
    keep = {k: v for k, v in error.get_headers() if k not in ("Content-Type", "Content-Length")}
    errors = [_no_path()] if isinstance(error, NotFound) else []
    if isinstance(error, MethodNotAllowed):
        methods = sorted({*(error.valid_methods or ())} - {"HEAD", "OPTIONS"})
        errors = [Problem("", f"for this path {' or '.join(methods)}", request.method, f"Send {' or '.join(methods)}.")]
    return problem_response(kind, kind.about, errors, headers=keep)


def _no_path() -> Problem:
    """Return the problem of a path that is none, with the nearest that is one."""
    near = nearest_word(request.path, [rule.rule for rule in current_app.url_map.iter_rules() if not rule.arguments])
    fix = (
        f"Ask for {request.script_root}{near}."
        if near
        else f"Ask for a path that {request.script_root}/openapi.json lists."
    )
    return Problem("", "a path of this service", shown(request.path), fix)


def _too_large() -> Problem:
    got = "more" if request.content_length is None else f"{request.content_length} bytes"
    rule = f"at most {limits.BODY_BYTES} bytes (body_bytes)"
    return Problem("", rule, got, "Send a smaller document: fewer cabinets or parts at a time.")


def unexpected(error: Exception) -> Response:
    """Log an error that nobody expects by its kind and place, and answer 500."""
    log.error("unexpected %s", type(error).__name__, exc_info=error)
    kind = KINDS["internal"]
    return problem_response(kind, kind.about)
