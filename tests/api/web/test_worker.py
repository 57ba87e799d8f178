"""When a worker leaves of itself."""

import socket
from types import SimpleNamespace

import pytest
from casewright.api.web.worker import GROWN_KIB, ProblemWorker
from gunicorn.config import Config  # type: ignore[import-untyped]
from gunicorn.workers.sync import SyncWorker  # type: ignore[import-untyped]


@pytest.mark.parametrize(
    ("grown_kib", "out_of_memory", "stays"),
    [(0, False, True), (GROWN_KIB + 1024, False, False), (0, True, False)],
)
def test_a_worker_that_took_much_memory_or_found_too_little_leaves(
    monkeypatch: pytest.MonkeyPatch, grown_kib: int, out_of_memory: bool, stays: bool
) -> None:
    peaks = iter([100_000, 100_000 + grown_kib])
    monkeypatch.setattr("resource.getrusage", lambda _who: SimpleNamespace(ru_maxrss=next(peaks)))
    monkeypatch.setattr("threading.active_count", lambda: 1)
    monkeypatch.setattr(SyncWorker, "handle", lambda self, *_: None)
    ours, theirs = socket.socketpair()
    with ours, theirs:
        app = SimpleNamespace(workers_end=ours, out_of_memory=out_of_memory)
        worker = ProblemWorker(1, 1, [], app, 30, Config(), None)
        worker.handle(ours, theirs, ("", 0))
        worker.tmp.close()
    assert worker.alive is stays


def test_memory_that_ends_beside_the_app_is_answered_as_what_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    noted: list[str] = []
    sent: list[bytes] = []
    monkeypatch.setattr("gunicorn.util.write_nonblock", lambda _client, answer: sent.append(answer))
    ours, theirs = socket.socketpair()
    with ours, theirs:
        app = SimpleNamespace(workers_end=ours, note_out_of_memory=lambda: noted.append("out of memory"))
        worker = ProblemWorker(1, 1, [], app, 30, Config(), None)
        worker.handle_error(None, theirs, None, MemoryError())
        worker.tmp.close()
    assert noted == ["out of memory"]
    assert sent[0].startswith(b"HTTP/1.1 503 ")
    assert b"Retry-After: " in sent[0]
    assert b"RFC 9112" not in sent[0]
