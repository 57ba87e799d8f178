"""gunicorn's worker and arbiter, made to answer as this service does.

The worker answers requests that gunicorn cannot read with a problem instead of HTML. The arbiter drains before it
stops: `/readyz` answers 503 first, and the sockets close when balancers have had time to see it.
"""

import contextlib
import logging
import mmap
import time
from http import HTTPStatus
from typing import Any

import orjson
from casewright.api.web import logs
from casewright.api.web.problems import KINDS, MEDIA_TYPE
from casewright.sdk.errors import Problem
from gunicorn import util  # type: ignore[import-untyped]
from gunicorn.arbiter import Arbiter  # type: ignore[import-untyped]
from gunicorn.glogging import Logger  # type: ignore[import-untyped]
from gunicorn.http import errors  # type: ignore[import-untyped]
from gunicorn.workers.sync import SyncWorker  # type: ignore[import-untyped]

log = logging.getLogger("casewright.web")
_STATUSES = {"LimitRequestLine": 414, "LimitRequestHeaders": 431, "ExpectationFailed": 417}
_BODY = "Send a request that follows RFC 9112; a proxy or client library does it for you."


class JsonLogger(Logger):  # type: ignore[misc]
    """gunicorn's log, written as ours is."""

    def setup(self, cfg: Any) -> None:
        """Set the levels as gunicorn does, and our handler in place of its own."""
        super().setup(cfg)
        logs.configure(cfg.loglevel)


class ProblemWorker(SyncWorker):  # type: ignore[misc]
    """Handles one request at a time."""

    def handle_error(self, req: Any, client: Any, addr: Any, exc: BaseException) -> None:
        """Answer what cannot be read with a problem; log the kind of error, never the bytes received."""
        readable = isinstance(exc, Exception) and not isinstance(exc, errors.ParseException)
        kind = KINDS["internal" if readable or not isinstance(exc, Exception) else "bad-request"]
        status = kind.status if kind.status == 500 else _STATUSES.get(type(exc).__name__, 400)
        log.log(logging.ERROR if status == 500 else logging.INFO, "%s", type(exc).__name__, exc_info=exc)
        with contextlib.suppress(OSError):
            util.write_nonblock(client, _plain_problem(kind.type, kind.title, status, type(exc).__name__))


def _plain_problem(kind: str, title: str, status: int, name: str) -> bytes:
    problem = Problem("", "an HTTP/1.1 request (RFC 9112)", name, _BODY)
    detail = HTTPStatus(status).phrase
    body = {"type": kind, "title": title, "status": status, "detail": detail, "errors": [problem.as_dict()]}
    content = orjson.dumps(body, option=orjson.OPT_APPEND_NEWLINE)
    head = (
        f"HTTP/1.1 {status} {HTTPStatus(status).phrase}\r\nConnection: close\r\nContent-Type: {MEDIA_TYPE}\r\n"
        f"X-Content-Type-Options: nosniff\r\nContent-Length: {len(content)}\r\n\r\n"
    )
    return head.encode("ascii") + content


class Draining:
    """Whether the service is about to stop: one byte of memory that the arbiter and its workers share."""

    def __init__(self) -> None:
        self._byte = mmap.mmap(-1, 1)

    def begin(self) -> None:
        """Say that it is."""
        self._byte[0] = 1

    def __call__(self) -> bool:
        """Return whether it is."""
        return self._byte[0] == 1


class DrainingArbiter(Arbiter):  # type: ignore[misc]
    """Drains for a while on TERM, then stops; a second TERM stops at once."""

    def __init__(self, app: Any, draining: Draining, seconds: float) -> None:
        self.draining, self.seconds = draining, seconds
        self.until: float | None = None
        super().__init__(app)

    def handle_term(self) -> None:
        """Begin to drain, or stop where there is nothing to wait for."""
        if self.until is not None or self.seconds == 0:
            super().handle_term()
        self.draining.begin()
        self.until = time.monotonic() + self.seconds
        log.info("draining for %s s", self.seconds)

    def manage_workers(self) -> None:
        """Keep up the workers; stop when drained."""
        if self.until is not None and time.monotonic() >= self.until:
            super().handle_term()
        super().manage_workers()
