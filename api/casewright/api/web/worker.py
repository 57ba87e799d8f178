"""gunicorn's worker and arbiter, made to answer as this service does.

A worker takes whole requests from the gateway, one at a time, and answers those that gunicorn cannot read with a
problem instead of HTML. The arbiter keeps one gateway and the workers, and drains before it stops: `/readyz` answers
503 first, and the port closes when balancers have had time to see it.
"""

import contextlib
import logging
import mmap
import re
import resource
import socket
import threading
import time
from dataclasses import replace
from http import HTTPStatus
from typing import Any

from casewright.api.web import logs
from casewright.api.web.problems import KINDS, MEDIA_TYPE, RETRY_SECONDS, TOO_LITTLE_MEMORY, problem_body
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import Problem
from casewright.sdk.memory import is_want_of_memory
from gunicorn import util  # type: ignore[import-untyped]
from gunicorn.arbiter import Arbiter  # type: ignore[import-untyped]
from gunicorn.glogging import Logger  # type: ignore[import-untyped]
from gunicorn.http import errors  # type: ignore[import-untyped]
from gunicorn.workers.sync import SyncWorker  # type: ignore[import-untyped]

log = logging.getLogger("casewright.web")
_STATUSES = {
    "LimitRequestLine": 414,
    "LimitRequestHeaders": 431,
    "ExpectationFailed": 417,
    "UnsupportedTransferCoding": 501,
}
_HOST = re.compile(r"[A-Za-z0-9._~%!$&'()*+,;=:\[\]-]*")
"""The characters of a host with its port (RFC 3986 3.2.2)."""

_RULE = "an HTTP/1.1 request (RFC 9112)"
GROWN_KIB = 192 * 1024
"""What a worker may come to have beyond what it is forked with, before it is replaced."""

AGAIN = "Send it again after the seconds of Retry-After."
_FIX = "Send a request that follows RFC 9112; a proxy or client library does it for you."


class JsonLogger(Logger):  # type: ignore[misc]
    """gunicorn's log, written as ours is."""

    def setup(self, cfg: Any) -> None:
        """Set the levels as gunicorn does, and our handler in place of its own."""
        super().setup(cfg)
        logs.configure(cfg.loglevel)


class ProblemWorker(SyncWorker):  # type: ignore[misc]
    """Handles one request at a time. Its one socket brings them from the gateway."""

    def __init__(self, age: int, ppid: int, sockets: Any, app: Any, timeout: float, cfg: Any, log: Any) -> None:
        super().__init__(age, ppid, [app.workers_end], app, timeout, cfg, log)
        self.most_kib = _peak_kib() + GROWN_KIB

    def accept(self, listener: Any) -> None:
        """Take a request from the gateway; with none left there to come, leave."""
        peer, sent, _, _ = socket.recv_fds(listener, 256, 1)
        if not sent:
            self.alive = False
            return
        host, _, port = peer.decode().rpartition(" ")
        client = socket.socket(fileno=sent[0])
        client.setblocking(True)
        self.handle(listener, client, (host, int(port)))

    def handle(self, listener: Any, client: Any, addr: Any) -> None:
        """Handle a request; leave where it left a thread behind, for no other way ends that, or took much memory.

        Python gives most memory of a large plan back to itself, not to the system: workers would keep it for good. One
        that found too little may hold what it took, in pieces too small for the next request.
        """
        super().handle(listener, client, addr)
        if threading.active_count() > 1 or _peak_kib() > self.most_kib or self.app.out_of_memory:
            self.alive = False

    def handle_request(self, listener: Any, req: Any, client: Any, addr: Any) -> None:
        """Answer a request, or refuse it where gunicorn is laxer than RFC 9112."""
        hosts = [value for name, value in req.headers if name == "HOST"]
        absent = req.version >= (1, 1) and not hosts
        if absent or len(hosts) > 1 or not all(_HOST.fullmatch(host) for host in hosts):
            raise errors.InvalidHeader("HOST")
        codings = [value.strip().lower() for name, value in req.headers if name == "TRANSFER-ENCODING"]
        if codings and codings != ["chunked"]:
            raise errors.UnsupportedTransferCoding("TRANSFER-ENCODING")
        req.version = min(req.version, (1, 1))  # it is answered in, and there is no later 1.x
        super().handle_request(listener, req, client, addr)

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Leave after the request at hand; when the whole service stops, only after those the gateway still has."""
        if not self.app.draining():
            self.alive = False

    def handle_error(self, req: Any, client: Any, addr: Any, exc: BaseException) -> None:
        """Answer what cannot be read with a problem; log the kind of error, never the bytes received.

        A worker that is being ended answers nothing: the gateway does.
        """
        if not isinstance(exc, Exception):
            return
        readable = not isinstance(exc, errors.ParseException)
        status = 500 if readable else _STATUSES.get(type(exc).__name__, 400)
        answer = (status, _RULE, type(exc).__name__, _FIX)
        if is_want_of_memory(exc):
            self.app.note_out_of_memory()
            answer = (503, *TOO_LITTLE_MEMORY, AGAIN)
        log.log(logging.ERROR if readable else logging.INFO, "%s", type(exc).__name__, exc_info=exc)
        with contextlib.suppress(OSError):
            util.write_nonblock(client, plain_problem(*answer))


def _peak_kib() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def plain_problem(status: int, rule: str, got: str, fix: str) -> bytes:
    """Return a whole answer of HTTP: a problem, after which the connection closes."""
    kind = KINDS[{413: "too-large", 500: "internal", 503: "unavailable"}.get(status, "bad-request")]
    detail = HTTPStatus(status).phrase
    content = to_bytes(problem_body(replace(kind, status=status), detail, [Problem("", rule, got, fix)]))
    retry = f"Retry-After: {RETRY_SECONDS}\r\n" if status in (408, 503) else ""
    head = (
        f"HTTP/1.1 {status} {detail}\r\nConnection: close\r\nContent-Type: {MEDIA_TYPE}\r\n{retry}"
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
    """Keeps one gateway and the workers. Drains for a while on TERM, then stops; a second TERM stops at once."""

    def __init__(self, app: Any, gateway: type, draining: Draining, seconds: float) -> None:
        self.gateway, self.draining, self.seconds = gateway, draining, seconds
        self.until: float | None = None
        super().__init__(app)

    def spawn_worker(self) -> Any:
        """Fork the gateway where there is none, or else a worker."""
        there = any(isinstance(worker, self.gateway) for worker in self.WORKERS.values())
        self.worker_class = ProblemWorker if there else self.gateway
        return super().spawn_worker()

    def handle_term(self) -> None:
        """Begin to drain, or stop where there is nothing to wait for."""
        self.draining.begin()
        if self.until is not None or self.seconds == 0:
            super().handle_term()
        self.until = time.monotonic() + self.seconds
        log.info("draining for %s s", self.seconds)

    def manage_workers(self) -> None:
        """Keep up the workers; stop when drained."""
        if self.until is not None and time.monotonic() >= self.until:
            super().handle_term()
        super().manage_workers()

    def stop(self, graceful: bool = True) -> None:
        """Stop: the gateway when it has answered what it has, and the workers after it."""
        self.app.gateway_end.close()
        super().stop(graceful)

    def not_offered(self) -> None:
        """Do nothing: these signals change how many processes there are, or what runs in them."""
        log.warning("this signal does nothing here: start the service anew")

    handle_hup = handle_ttin = handle_ttou = handle_usr2 = handle_winch = not_offered
