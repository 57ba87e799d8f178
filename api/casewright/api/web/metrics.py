"""Metrics of all workers, counted in memory they share, shown in Prometheus' text format on a port of its own.

The board is anonymous shared memory made before the workers are forked: no file, no lock between processes. Each
worker counts in a slot of its own; a slot outlives its worker, so what a replaced worker counted stays counted. The
port is served by a process of its own, so that it answers while every worker is busy. Labels are routes, methods and
statuses: nothing of any job.
"""

import gc
import mmap
import os
import signal
import socket
import threading
import time
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from casewright.api.web.classes import WorkClass
from casewright.api.web.line import Figures

BUCKETS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 30.0)
"""Upper ends of the buckets of a request's time, in seconds."""

METHODS = ("GET", "HEAD", "POST", "OPTIONS", "other")
STATUSES = (200, 204, 304, 400, 401, 404, 405, 406, 412, 413, 415, 422, 429, 500, 503, 0)
"""Statuses counted by number; any other is counted under 0, shown as `other`."""

LINE_CLASSES = (WorkClass.SMALL, WorkClass.HEAVY)
_LINE = (
    ("waiting", "gauge", "Requests that wait for a worker."),
    ("running", "gauge", "Requests that workers have."),
    ("admitted", "counter", "Requests given to workers."),
    ("refused", "counter", "Requests refused for want of room, or after waiting too long."),
    ("waited_seconds", "counter", "Seconds that requests waited."),
)
"""Figures of the line by class of work, as `Figures` names them."""

MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"
_METHOD = {name: i for i, name in enumerate(METHODS)}
_STATUS = {number: i for i, number in enumerate(STATUSES)}
_OTHER_METHOD, _OTHER_STATUS = len(METHODS) - 1, len(STATUSES) - 1
_COUNTS = len(METHODS) * len(STATUSES)
_ROUTE = _COUNTS + len(BUCKETS) + 1 + 2
"""Numbers a route has in a slot: requests, requests by bucket, their seconds, the bytes they sent."""
_HEAD = 1
"""Numbers a slot begins with: processor seconds of its workers."""


class Board:
    """Counts of every worker. Made before forking; `open` names the routes; `take` picks a worker's slot."""

    def __init__(self, slots: int) -> None:
        self.slots = slots
        self.routes: dict[str, int] = {}
        self._numbers: memoryview[float] = memoryview(bytes(8)).cast("d")
        self._width = 0
        self._slot = 0
        self._spent = 0.0
        self._lock = threading.Lock()
        self._line = memoryview(mmap.mmap(-1, 8 * len(LINE_CLASSES) * len(_LINE))).cast("d")

    def open(self, routes: Iterable[str]) -> None:
        """Make room for routes; whatever else is counted goes under `-`."""
        self.routes = {rule: i for i, rule in enumerate(sorted({*routes, "-"}))}
        self._width = _HEAD + len(self.routes) * _ROUTE
        self._numbers = memoryview(mmap.mmap(-1, 8 * self._width * self.slots)).cast("d")

    def take(self, slot: int) -> None:
        """Count in this slot from now on: called in a new worker."""
        self._slot = slot % self.slots
        self._spent = self._numbers[self._slot * self._width] - time.process_time()

    def count(self, rule: str, method: str, status: int, seconds: float, sent: int) -> None:
        """Count one finished request."""
        slot = self._slot * self._width
        at = slot + _HEAD + self.routes.get(rule, self.routes["-"]) * _ROUTE
        which = _METHOD.get(method, _OTHER_METHOD) * len(STATUSES) + _STATUS.get(status, _OTHER_STATUS)
        numbers = self._numbers
        with self._lock:
            numbers[at + which] += 1
            numbers[at + _COUNTS + bisect_left(BUCKETS, seconds)] += 1
            numbers[at + _ROUTE - 2] += seconds
            numbers[at + _ROUTE - 1] += sent
            numbers[slot] = self._spent + time.process_time()

    def count_line(self, kind: WorkClass, figures: Figures) -> None:
        """Take over what the line before the workers comes to; one process has it."""
        at = LINE_CLASSES.index(kind) * len(_LINE)
        for i, (name, _, _) in enumerate(_LINE):
            self._line[at + i] = getattr(figures, name)

    def text(self) -> str:
        """Return everything counted, in Prometheus' text format (0.0.4)."""
        sums = [sum(column) for column in zip(*self._rows(), strict=True)]
        routes = [(rule, sums[_HEAD + i * _ROUTE : _HEAD + (i + 1) * _ROUTE]) for rule, i in self.routes.items()]
        seen = [(rule, numbers) for rule, numbers in routes if any(numbers[:_COUNTS])]
        lines = [
            *_family("casewright_requests_total", "counter", "Requests answered."),
            *(line for rule, numbers in seen for line in _requests(rule, numbers)),
            *_family("casewright_request_seconds", "histogram", "Time a request took in its worker."),
            *(line for rule, numbers in seen for line in _times(rule, numbers)),
            *_family("casewright_sent_bytes_total", "counter", "Bytes of the bodies answered."),
            *(f'casewright_sent_bytes_total{{route="{rule}"}} {numbers[-1]:.0f}' for rule, numbers in seen),
            *_family("casewright_cpu_seconds_total", "counter", "Processor time of the workers."),
            f"casewright_cpu_seconds_total {sums[0]!r}",
            *self._line_text(),
        ]
        return "\n".join(lines) + "\n"

    def _line_text(self) -> Iterable[str]:
        for i, (name, kind, about) in enumerate(_LINE):
            family = f"casewright_line_{name}{'_total' if kind == 'counter' else ''}"
            yield from _family(family, kind, about)
            for at, work in enumerate(LINE_CLASSES):
                yield f'{family}{{class="{work}"}} {self._line[at * len(_LINE) + i]:g}'

    def _rows(self) -> list[Sequence[float]]:
        return [self._numbers[i * self._width : (i + 1) * self._width].tolist() for i in range(self.slots)]


def _family(name: str, kind: str, about: str) -> tuple[str, str]:
    return f"# HELP {name} {about}", f"# TYPE {name} {kind}"


def _requests(rule: str, numbers: Sequence[float]) -> Iterable[str]:
    for method, i in _METHOD.items():
        for status, j in _STATUS.items():
            if number := numbers[i * len(STATUSES) + j]:
                labels = f'route="{rule}",method="{method}",status="{status or "other"}"'
                yield f"casewright_requests_total{{{labels}}} {number:.0f}"


def _times(rule: str, numbers: Sequence[float]) -> Iterable[str]:
    below = 0.0
    for end, number in zip((*BUCKETS, None), numbers[_COUNTS : _COUNTS + len(BUCKETS) + 1], strict=True):
        below += number
        edge = "+Inf" if end is None else repr(end)
        yield f'casewright_request_seconds_bucket{{route="{rule}",le="{edge}"}} {below:.0f}'
    yield f'casewright_request_seconds_sum{{route="{rule}"}} {numbers[-2]!r}'
    yield f'casewright_request_seconds_count{{route="{rule}"}} {below:.0f}'


def metrics_server(board: Board, host: str, port: int) -> ThreadingHTTPServer:
    """Return a server of the board, bound and not yet serving."""

    class Handler(BaseHTTPRequestHandler):
        """Answers `GET /metrics`."""

        timeout = 5
        server_version, sys_version = "casewright", ""

        def do_GET(self) -> None:
            """Answer the board, or 404."""
            known = self.path.split("?", 1)[0] == "/metrics"
            body = board.text().encode() if known else b"see /metrics\n"
            self.send_response(200 if known else 404)
            self.send_header("Content-Type", MEDIA_TYPE)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, format: str, *args: Any) -> None:
            """Say nothing."""

    class Server(ThreadingHTTPServer):
        daemon_threads = allow_reuse_address = True
        address_family = socket.AF_INET6 if ":" in host else socket.AF_INET

    return Server((host, port), Handler)


def serve_metrics(board: Board, host: str, port: int, listeners: Iterable[Any]) -> int:
    """Fork a process that serves the board until its parent ends, and return its id.

    `listeners` are sockets of the service that the process must not hold. Raises `OSError` where the port is taken.
    """
    server = metrics_server(board, host, port)
    parent = os.getpid()
    child = os.fork()
    if child:
        server.server_close()
        return child
    try:
        for number in range(1, signal.NSIG):
            if signal.getsignal(number) not in (signal.SIG_DFL, signal.SIG_IGN, None):
                signal.signal(number, signal.SIG_DFL)
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        for listener in listeners:
            listener.close()
        gc.freeze()
        threading.Thread(target=server.serve_forever, daemon=True).start()
        while os.getppid() == parent:
            time.sleep(0.2)
    finally:
        os._exit(0)
