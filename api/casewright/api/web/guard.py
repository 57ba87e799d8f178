"""What stands before and after every request: key, request id, headers, other origins, the log line, the counts.

The order is: id, key, draining, then the route; on the way out, headers, log and counts. Nothing here reads a job.
"""

import gc
import hmac
import logging
import os
import re
import time
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from typing import Any

from casewright.api.job import limits
from casewright.api.web.budget import Budget
from casewright.api.web.jobs import lighter_requests
from casewright.api.web.logs import REQUESTS
from casewright.api.web.problems import (
    KINDS,
    RETRY_SECONDS,
    TOO_LITTLE_MEMORY,
    ProblemError,
    described,
    problem_response,
    unexpected,
)
from casewright.api.web.settings import Settings
from casewright.sdk.errors import Problem
from casewright.sdk.memory import is_want_of_memory
from flask import Flask, Response, g, request
from werkzeug.exceptions import HTTPException, InternalServerError, RequestEntityTooLarge

REQUEST_ID = "X-Request-Id"
OPEN = frozenset({"/healthz", "/readyz", "/version", "/openapi.json"})
"""Paths that ask for no key, beside `/docs` and what is under it and `/problems/`."""

_ID = re.compile(r"[A-Za-z0-9._-]{1,64}", re.ASCII)
_MOST_DISCARDED = 4 * limits.BODY_BYTES
_BEARER = re.compile(r"bearer +([!-~]{1,200})", re.IGNORECASE | re.ASCII)

_POLICY = "default-src 'none'; frame-ancestors 'none'"
_POLICIES = {
    "image/svg+xml": "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
    "application/pdf": "frame-ancestors 'none'",  # browsers show a PDF by a page of their own
}
_NOSNIFF = ("X-Content-Type-Options", "nosniff")
_OWN = (_NOSNIFF, ("Cross-Origin-Resource-Policy", "same-origin"))
_SHARED = (_NOSNIFF, ("Cross-Origin-Resource-Policy", "cross-origin"))
_ALLOWED_HEADERS = "Accept, Authorization, Content-Type, If-None-Match, X-Api-Key, X-Request-Id"
_SHOWN_HEADERS = "ETag, X-Request-Id, Retry-After, Content-Disposition, Casewright-Pages, Casewright-Stops"

_METHODS = frozenset({"GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE", "TRACE", "CONNECT"})

log = logging.getLogger(REQUESTS)


@dataclass(frozen=True, slots=True)
class Guard:
    """Guards an app as its settings say.

    `draining` says whether the service is about to stop; `count` takes a finished request: its route, method,
    status, seconds and bytes sent; `budget` bounds its time; `out_of_memory` is told of a request that had too little.
    """

    settings: Settings
    draining: Callable[[], bool] = bool
    count: Callable[[str, str, int, float, int], None] | None = None
    budget: Budget | None = None
    out_of_memory: Callable[[], object] = bool

    @property
    def always(self) -> tuple[tuple[str, str], ...]:
        """Headers of every response."""
        return _SHARED if self.settings.cors_origins else _OWN

    def published(self, document: dict[str, Any]) -> dict[str, Any]:
        """Return the OpenAPI document, which tells of keys where the service asks for them."""
        return secured(document) if self.settings.api_keys else document

    def register(self, app: Flask) -> None:
        """Stand before and after every request of an app."""
        if self.budget is not None:
            app.dispatch_request = partial(self.budget.run, app.dispatch_request)  # type: ignore[method-assign]
        app.before_request(self.before)
        app.after_request(self.after)
        app.register_error_handler(Exception, self.broken)
        app.register_error_handler(InternalServerError, self.failed)

    def before(self) -> None:
        """Let a request in. Raises `ProblemError` (400, 401, 503)."""
        g.since = time.perf_counter()
        given = request.headers.get(REQUEST_ID, "")
        g.request_id = given if _ID.fullmatch(given) else os.urandom(12).hex()
        if self.settings.api_keys and not is_open(request.path) and request.method != "OPTIONS":
            self.ask_for_key()
        if "chunked" in request.headers.get("Transfer-Encoding", "").lower():
            _read_chunks()
        elif request.content_length and request.routing_exception is None:
            _read_announced(request.content_length)
        if request.path == "/readyz" and self.draining():
            raise ProblemError("unavailable", "The service is about to stop; ask another.")

    def ask_for_key(self) -> None:
        """Raise the 401 problem unless the request carries one of the keys. Every key is compared in full."""
        bearer = _BEARER.fullmatch(request.headers.get("Authorization", "").strip())
        given = bearer[1] if bearer else request.headers.get("X-Api-Key", "")
        digest = sha256(given.encode("utf-8", "surrogateescape")).digest()
        matches = [hmac.compare_digest(digest, key) for key in self.settings.api_keys]
        if any(matches):
            return
        challenge = 'Bearer realm="casewright"' + (', error="invalid_token"' if given else "")
        got = "a key that is not known" if given else "no key"
        problem = Problem("Authorization", "a key of this service", got, "Send Authorization: Bearer and your key.")
        raise ProblemError("unauthorized", "This service asks for a key.", [problem], {"WWW-Authenticate": challenge})

    def broken(self, error: Exception) -> Response:
        """Answer an error that nobody expects, which may be a want of memory."""
        return self.short_of_memory(error) if is_want_of_memory(error) else unexpected(error)

    def short_of_memory(self, error: BaseException) -> Response:
        """Answer a request for which there was too little memory, once what it held is let go."""
        traceback.clear_frames(error.__traceback__)
        gc.collect()
        self.out_of_memory()
        log.error("out of memory")
        fix = f"Wait as long as Retry-After says; should it come again, send {', or '.join(lighter_requests())}."
        problem = Problem("", *TOO_LITTLE_MEMORY, fix)
        return problem_response(KINDS["unavailable"], "The service has too little memory for this request.", [problem])

    def failed(self, error: InternalServerError) -> Response:
        """Answer a request that failed once it was answered, or while its error was: memory may end there, too."""
        if error.original_exception is not None and is_want_of_memory(error.original_exception):
            return self.short_of_memory(error.original_exception)
        return problem_response(KINDS["internal"], KINDS["internal"].about)

    def after(self, response: Response) -> Response:
        """Send a response off: headers, the rest of a refused body, the log line, the counts."""
        headers = response.headers
        headers.extend([(REQUEST_ID, g.get("request_id", "-")), *self.always])
        if "Content-Security-Policy" not in headers:  # a page may bring its own, and its own referrer policy
            policy = _POLICIES.get(response.mimetype or "", _POLICY)
            headers.extend((("Content-Security-Policy", policy), ("Referrer-Policy", "no-referrer")))
        if self.settings.api_keys:
            headers.setdefault("Cache-Control", "private, no-cache")
        if response.status_code in (429, 503):
            headers.setdefault("Retry-After", str(RETRY_SECONDS))
        if self.settings.cors_origins:
            self.other_origins(response)
        if response.status_code >= 400:
            _discard_body(request.environ)
        if self.budget is not None and response.is_streamed:
            response.response = self.budget.lines(response.iter_encoded(), self.budget.over())
        self.record(response)
        return response

    def other_origins(self, response: Response) -> None:
        """Add what the Fetch standard's CORS protocol asks for, where the origin is one that may call."""
        origins, origin = self.settings.cors_origins, request.headers.get("Origin")
        response.vary.add("Origin")
        if origin is None or (origins != ("*",) and origin not in origins):
            return
        response.headers["Access-Control-Allow-Origin"] = "*" if origins == ("*",) else origin
        response.headers["Access-Control-Expose-Headers"] = _SHOWN_HEADERS
        if request.method == "OPTIONS" and "Access-Control-Request-Method" in request.headers:
            response.headers["Access-Control-Allow-Methods"] = response.headers.get("Allow", "OPTIONS")
            response.headers["Access-Control-Allow-Headers"] = _ALLOWED_HEADERS
            response.headers["Access-Control-Max-Age"] = "600"

    def record(self, response: Response) -> None:
        """Count, and write the log line. Its path is the route's pattern, never what was asked for."""
        logging_requests = log.isEnabledFor(logging.INFO)
        if self.count is None and not logging_requests:
            return
        rule = request.url_rule.rule if request.url_rule is not None else "-"
        seconds = time.perf_counter() - g.get("since", time.perf_counter())
        sent = response.content_length or 0
        if self.count is not None:
            self.count(rule, request.method, response.status_code, seconds, sent)
        if logging_requests:
            fields = {
                "method": request.method if request.method in _METHODS else "-",
                "path": rule,
                "status": response.status_code,
                "ms": round(seconds * 1000, 2),
                "received": request.content_length or 0,
                "sent": sent,
            }
            log.info("request", extra={"fields": fields})


def is_open(path: str) -> bool:
    """Return whether a path asks for no key."""
    return path in OPEN or path == "/docs" or path.startswith(("/docs/", "/problems/"))


def _read_announced(length: int) -> None:
    """Read a body of a length announced, refusing what was cut off: half a table of cabinets reads well, too."""
    got = len(request.get_data(cache=True))
    if got < length:
        rule, fix = f"{length} bytes, as Content-Length says", "Send the whole body: the connection broke off."
        raise ProblemError("bad-request", "The body is cut off.", [Problem("", rule, f"{got} bytes", fix)])


def _read_chunks() -> None:
    """Read a body of unknown length, refusing what is over the limit: Werkzeug would cut it short without a word."""
    request.max_content_length = limits.BODY_BYTES + 1
    try:
        body = request.get_data(cache=True)
    except HTTPException:
        raise
    except Exception as error:  # each server has errors of its own for chunks that it cannot read
        problem = Problem("", "chunks as RFC 9112 has them", type(error).__name__, "Send the body with its length.")
        raise ProblemError("bad-request", "The body cannot be read.", [problem]) from error
    if len(body) > limits.BODY_BYTES:
        raise RequestEntityTooLarge


def _discard_body(environ: Mapping[str, Any]) -> None:
    """Read what is left of a body that was refused, up to a bound, so that the client gets to read the answer."""
    stream = environ.get("wsgi.input")
    left = _MOST_DISCARDED
    if stream is None or not environ.get("wsgi.input_terminated"):
        return
    try:
        while left > 0 and (piece := stream.read(min(left, 65536))):
            left -= len(piece)
    except Exception:  # a body that cannot be read to its end has been answered already
        return


def secured(document: dict[str, Any]) -> dict[str, Any]:
    """Return the OpenAPI document of a service that asks for a key."""
    paths: dict[str, Any] = {}
    for path, operations in document["paths"].items():
        if is_open(path):
            paths[path] = {method: {**operation, "security": []} for method, operation in operations.items()}
            continue
        paths[path] = {
            method: {
                **operation,
                "responses": {"401": {"$ref": "#/components/responses/unauthorized"}, **operation["responses"]},
            }
            for method, operation in operations.items()
        }
    schemes = {
        "bearer": {"type": "http", "scheme": "bearer"},
        "key": {"type": "apiKey", "in": "header", "name": "X-Api-Key"},
    }
    responses = {**document["components"]["responses"], "unauthorized": described(KINDS["unauthorized"])}
    components = {**document["components"], "responses": responses, "securitySchemes": schemes}
    return {**document, "components": components, "security": [{"bearer": []}, {"key": []}], "paths": paths}
