"""When a worker leaves of itself."""

import socket
from types import SimpleNamespace

import pytest
from casewright.api.web.worker import GROWN_KIB, ProblemWorker
from gunicorn.config import Config  # type: ignore[import-untyped]
from gunicorn.workers.sync import SyncWorker  # type: ignore[import-untyped]


@pytest.mark.parametrize(("grown_kib", "stays"), [(0, True), (GROWN_KIB + 1024, False)])
def test_a_worker_that_took_much_memory_leaves(monkeypatch: pytest.MonkeyPatch, grown_kib: int, stays: bool) -> None:
    peaks = iter([100_000, 100_000 + grown_kib])
    monkeypatch.setattr("resource.getrusage", lambda _who: SimpleNamespace(ru_maxrss=next(peaks)))
    monkeypatch.setattr("threading.active_count", lambda: 1)
    monkeypatch.setattr(SyncWorker, "handle", lambda self, *_: None)
    ours, theirs = socket.socketpair()
    with ours, theirs:
        worker = ProblemWorker(1, 1, [], SimpleNamespace(workers_end=ours), 30, Config(), None)
        worker.handle(ours, theirs, ("", 0))
        worker.tmp.close()
    assert worker.alive is stays
