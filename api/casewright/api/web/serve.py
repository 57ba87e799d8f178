"""The service under gunicorn, started from Python so that one command serves it.

The app is made before the workers are forked, which then share it. Nothing is written to disk: the workers' signs of
life are unlinked files in memory, metrics are shared memory, and logs go to standard error.
"""

import gc
import os
import socket
from collections.abc import Mapping
from dataclasses import replace
from math import ceil
from pathlib import Path
from typing import Any

from casewright.api.use.examples import example_job
from casewright.api.use.loading import installed
from casewright.api.use.planning import make
from casewright.api.web import logs
from casewright.api.web.app import create_app
from casewright.api.web.budget import Budget
from casewright.api.web.classes import WorkClass
from casewright.api.web.gateway import Gateway
from casewright.api.web.guard import Guard
from casewright.api.web.line import Figures
from casewright.api.web.metrics import Board, serve_metrics
from casewright.api.web.settings import Settings, read_settings, unknown_settings
from casewright.api.web.worker import Draining, DrainingArbiter, JsonLogger, ProblemWorker
from casewright.sdk.errors import RefusedStartError
from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]

MEMORY = Path("/dev/shm")
_SPARE_SLOTS = 8
_COLLECT = (20_000, 50, 100)
"""When the collector looks for rings of garbage: plans make many records and no rings, so seldom."""


def cores(limit: Path = Path("/sys/fs/cgroup/cpu.max")) -> int:
    """Return how many cores this process may use: by its affinity and, in a container, by its share of time."""
    allowed = len(os.sched_getaffinity(0))
    try:
        quota, period = limit.read_text("ascii").split()
        return max(1, min(allowed, ceil(int(quota) / int(period))))
    except (OSError, ValueError, ZeroDivisionError):
        return allowed


def worker_count(settings: Settings) -> int:
    """Return how many workers there are: as set, or one a core and one more, which heavy work leaves to small."""
    return settings.workers or cores() + 1


def gunicorn_settings(settings: Settings) -> dict[str, Any]:
    """Return gunicorn's settings; those that an older gunicorn does not know are left out by the caller."""
    host = f"[{settings.host}]" if ":" in settings.host else settings.host
    return {
        "bind": f"{host}:{settings.port}",
        "workers": worker_count(settings) + 1,  # the gateway is one of gunicorn's
        "worker_class": ProblemWorker,
        "preload_app": True,
        "timeout": settings.timeout_seconds,
        "graceful_timeout": settings.stop_seconds,
        "max_requests": settings.requests_a_worker,
        "max_requests_jitter": settings.requests_a_worker // 10,
        "worker_tmp_dir": str(MEMORY) if os.access(MEMORY, os.W_OK) else None,
        "control_socket_disable": True,
        "proc_name": "casewright",
        "limit_request_line": 8190,
        "logger_class": JsonLogger,
        "errorlog": "-",
        "loglevel": settings.log_level,
        "accesslog": None,
    }


class Service(BaseApplication):  # type: ignore[misc]
    """The app under gunicorn, with what its processes share."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        self.workers = worker_count(settings)
        self.draining = Draining()
        self.out_of_memory = False
        self.gateway_end, self.workers_end = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        self.board = Board(2 * self.workers + _SPARE_SLOTS) if settings.metrics_port else None
        super().__init__()

    def load_config(self) -> None:
        """Take over our settings and hooks."""
        chosen = {**gunicorn_settings(self.settings), "when_ready": self.when_ready, "post_fork": self.post_fork}
        if self.board is not None:
            chosen["pre_fork"] = self.pre_fork
        for key, value in chosen.items():
            if key in self.cfg.settings:
                self.cfg.set(key, value)

    def load(self) -> Any:
        """Return the app, warmed by the example job, so that workers share what is made once."""
        registry = installed()
        guard = Guard(
            self.settings,
            draining=self.draining,
            count=None if self.board is None else self.board.count,
            budget=Budget(self.settings.budget_seconds),
            out_of_memory=self.note_out_of_memory,
        )
        app = create_app(registry, guard=guard)
        if self.board is not None:
            self.board.open(rule.rule for rule in app.url_map.iter_rules())
        make(example_job(), registry)
        return app

    def note_out_of_memory(self) -> None:
        """Note that this process had too little memory for a request: it leaves after it."""
        self.out_of_memory = True

    def when_ready(self, arbiter: Any) -> None:
        """Keep what was made so far out of the collector's way, and serve the metrics."""
        gc.collect()
        gc.freeze()
        gc.set_threshold(*_COLLECT)
        if self.board is not None:
            unheld = [*arbiter.LISTENERS, self.gateway_end, self.workers_end]
            serve_metrics(self.board, self.settings.metrics_host, self.settings.metrics_port, unheld)

    def pre_fork(self, arbiter: Any, worker: Any) -> None:
        """Give a new worker the first slot of the board that no living worker has."""
        taken = {getattr(other, "slot", None) for other in arbiter.WORKERS.values()}
        worker.slot = next((slot for slot in range(2 * self.workers + _SPARE_SLOTS) if slot not in taken), 0)

    def post_fork(self, arbiter: Any, worker: Any) -> None:
        """Count in that slot, and let go what is not this process's own: the port is the gateway's."""
        if self.board is not None:
            self.board.take(worker.slot)
        theirs = [self.workers_end] if isinstance(worker, Gateway) else [self.gateway_end, *arbiter.LISTENERS]
        for one in theirs:
            one.close()

    def count_line(self, kind: WorkClass, figures: Figures) -> None:
        """Show what the line before the workers comes to."""
        if self.board is not None:
            self.board.count_line(kind, figures)

    def run(self) -> None:
        """Serve until told to stop."""
        DrainingArbiter(self, Gateway, self.draining, self.settings.drain_seconds).run()


def serve(given: Mapping[str, Any], environ: Mapping[str, str] = os.environ) -> None:
    """Serve until stopped; `given` is put over what the environment sets.

    Raises `RefusedStartError` where a built-in or required plugin failed, a setting cannot be used or a port is taken.
    """
    settings = replace(read_settings(environ), **given)
    logs.configure(settings.log_level)
    if os.geteuid() == 0:
        logs.warn("serving as root: run it as a user without rights")
    for warning in unknown_settings(environ):
        logs.warn(warning)
    for host, port in _ports(settings):
        _refuse_if_taken(host, port)
    Service(settings).run()


def _ports(settings: Settings) -> list[tuple[str, int]]:
    both = [(settings.host, settings.port), (settings.metrics_host, settings.metrics_port)]
    return [(host, port) for host, port in both if port]


def _refuse_if_taken(host: str, port: int) -> None:
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, kind, protocol) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(address)
    except OSError as error:
        raise RefusedStartError(f"cannot listen on {host}, port {port}: {error.strerror or error}") from error
