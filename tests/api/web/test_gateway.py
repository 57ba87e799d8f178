"""The process before the workers, as a client meets it: slow senders, lost workers, clients that leave, keep-alive."""

import asyncio
import json
import os
import resource
import signal
import socket
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from http.client import HTTPConnection
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "bench"))

import slow_connections
from casewright.api.job import limits
from casewright.api.web import gateway as gateways
from casewright.api.web.gateway import KEPT_BYTES, Connection, Gateway
from gunicorn.config import Config  # type: ignore[import-untyped]
from live_service import ask, free_port, heavy_body, heavy_work, post, running, small_body

WORKERS = 2


def open_files(pid: int) -> list[str]:
    """Return what a process has open but for what it closes meanwhile; of one that has just ended nothing is shown."""
    files = []
    with suppress(FileNotFoundError, PermissionError):
        for one in Path(f"/proc/{pid}/fd").iterdir():
            with suppress(FileNotFoundError):
                files.append(os.readlink(one))
    return files


class Live:
    """A running service."""

    def __init__(self, port: int, process: Any, metrics: int) -> None:
        self.port, self.process, self.metrics = port, process, metrics

    def children(self) -> list[int]:
        """Return the ids of the gateway and the workers, oldest first; the process of the metrics is none of them.

        The kernel lists them as they were started; their ids start again at the bottom now and then.
        """
        pid = self.process.pid
        children = [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
        return children[1:]

    def spent(self) -> dict[int, float]:
        """Return the seconds of processor time that each child has spent."""
        tick = os.sysconf("SC_CLK_TCK")
        stats = {pid: Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split() for pid in self.children()}
        return {pid: (int(stat[11]) + int(stat[12])) / tick for pid, stat in stats.items()}

    def gateway(self) -> int:
        """Return the id of the gateway: the one that listens at the port."""
        rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
        listening, at = "0A", f":{self.port:04X}"
        link = next(f"socket:[{row[9]}]" for row in rows if row[1].endswith(at) and row[3] == listening)
        return next(pid for pid in self.children() if link in open_files(pid))

    def lose_gateway(self) -> None:
        """Kill the gateway and wait until another serves."""
        os.kill(self.gateway(), signal.SIGKILL)
        end = time.monotonic() + 10
        while True:
            try:
                assert ask(self.port, "/v1/plan", small_body(570))[0] == 200
                return
            except OSError:
                assert time.monotonic() < end

    def figure(self, name: str) -> float:
        _, _, body = ask(self.metrics, "/metrics")
        return next(float(line.split()[-1]) for line in body.decode().splitlines() if line.startswith(name))

    def rest(self) -> None:
        """Wait until heavy work whose client has left is over, and the workers that did it are replaced."""
        end, seen = time.monotonic() + limits.BUDGET_SECONDS, [0]
        while self.figure('casewright_line_running{class="heavy"}') or seen != self.children():
            assert time.monotonic() < end, "the workers still work"
            seen = self.children()
            time.sleep(0.5)

    def talk(self, *sent: bytes, pause: float = 0.0) -> bytes:
        """Send pieces and return all that comes back until the connection closes."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=30) as connection:
            for piece in sent:
                connection.sendall(piece)
                time.sleep(pause)
            received = b""
            while piece := connection.recv(65536):
                received += piece
        return received


@pytest.fixture(scope="module")
def live() -> Iterator[Live]:
    metrics = free_port()
    with running("--workers", str(WORKERS), CASEWRIGHT_METRICS_PORT=str(metrics)) as (port, process):
        served = Live(port, process, metrics)
        while len(served.children()) <= WORKERS:  # the gateway answers before the last of them is forked
            time.sleep(0.1)
        yield served


def test_slow_connections_hold_nobody_up(live: Live) -> None:
    before = live.figure('casewright_line_admitted_total{class="small"}')
    came = asyncio.run(slow_connections.measured(live.port, connections=42, seconds=3))
    assert {name: kind.failed for name, kind in came.items() if kind.failed} == {}
    # The machine of the tests may be busy; the figures proper are those of tests/bench/slow_connections.py.
    assert slow_connections.part(came["health"].seconds, 0.5) < 0.5
    assert live.figure('casewright_line_admitted_total{class="small"}') > before


def test_slow_connections_without_a_key_hold_nobody_up() -> None:
    """Nor do those that ask for a path that is not there: half of all do."""
    key = slow_connections.KEY
    with running("--workers", str(WORKERS), CASEWRIGHT_API_KEY=key) as (port, _):
        assert ask(port, "/v1/plan", small_body(500))[0] == 401
        came = asyncio.run(slow_connections.measured(port, 42, 2, f"Authorization: Bearer {key}"))
    assert {name: kind.failed for name, kind in came.items() if kind.failed} == {}
    assert slow_connections.part(came["health"].seconds, 0.5) < 0.5


def test_health_waits_for_no_plan(live: Live) -> None:
    with heavy_work(live.port, WORKERS + 1):
        time.sleep(0.5)
        assert live.figure('casewright_line_running{class="heavy"}') == WORKERS - 1
        assert live.figure('casewright_line_waiting{class="heavy"}') == 2
        since = time.monotonic()
        assert ask(live.port, "/healthz")[0] == ask(live.port, "/readyz")[0] == 200
        assert ask(live.port, "/v1/plan", small_body(501))[0] == 200
        assert time.monotonic() - since < 2
        assert live.figure('casewright_line_running{class="heavy"}') == WORKERS - 1, "too short a job to show anything"
    live.rest()


def test_a_connection_stays_for_more_requests(live: Live) -> None:
    connection = HTTPConnection("127.0.0.1", live.port, timeout=30)
    connection.connect()
    first = connection.sock
    for width in (510, 520, 530):
        connection.request("POST", "/v1/parts", small_body(width), {"Content-Type": "application/json"})
        answer = connection.getresponse()
        assert (answer.status, answer.headers["Connection"]) == (200, "keep-alive")
        assert answer.read() == ask(live.port, "/v1/parts", small_body(width))[2]
        connection.request("HEAD", "/version")
        assert (connection.getresponse().read(), connection.sock) == (b"", first)
    connection.close()


def test_requests_sent_at_once_are_answered_in_turn(live: Live) -> None:
    last = b"GET /healthz HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n"
    received = live.talk(post("/v1/parts", small_body(540)) + b"GET /version HTTP/1.1\r\nHost: a\r\n\r\n" + last)
    assert received.count(b"HTTP/1.1 200 ") == 3
    assert received.index(b'"parts"') < received.index(b'"software"') < received.index(b'"alive"')


def test_a_client_that_waits_for_100_gets_it_once(live: Live) -> None:
    whole = post("/v1/parts", small_body(550), "Expect: 100-continue", "Connection: close")
    head, _, body = whole.partition(b"\r\n\r\n")
    received = live.talk(head + b"\r\n\r\n", body, pause=0.3)
    assert received.startswith(b"HTTP/1.1 100 Continue\r\n\r\nHTTP/1.1 200 OK\r\n")
    assert received.count(b"HTTP/1.1 100 ") == 1


def test_a_lost_worker_is_answered_and_replaced(live: Live) -> None:
    answers: list[Any] = []
    asking = threading.Thread(target=lambda: answers.append(ask(live.port, "/v1/stock", heavy_body(9, 40))))
    gateway, *workers = live.children()
    idle = live.spent()
    asking.start()
    while max(spent - idle[pid] for pid, spent in live.spent().items() if pid in workers) < 0.2:
        time.sleep(0.1)  # until one is at it
    for worker in workers:
        os.kill(worker, signal.SIGKILL)
    asking.join()
    ((status, headers, body),) = answers
    assert (status, headers["Content-Type"]) == (500, "application/problem+json")
    assert "worker" in json.loads(body)["errors"][0]["got"]
    assert ask(live.port, "/v1/plan", small_body(560))[0] == 200
    assert live.children()[0] == gateway


def test_a_lost_gateway_is_replaced(live: Live) -> None:
    gateway = live.gateway()
    live.lose_gateway()
    assert gateway not in live.children()


def test_more_connections_than_descriptors_hold_nobody_up(live: Live) -> None:
    few, usual = 256, resource.prlimit(live.process.pid, resource.RLIMIT_NOFILE)

    resource.prlimit(live.process.pid, resource.RLIMIT_NOFILE, (few, usual[1]))
    live.lose_gateway()  # the next one has as few
    clients = []
    try:
        for _ in range(few + few // 4):
            clients.append(socket.create_connection(("127.0.0.1", live.port), timeout=10))
            clients[-1].sendall(b"GET /healthz HT")
        since = time.monotonic()
        assert ask(live.port, "/healthz", timeout=10)[0] == 200
        assert ask(live.port, "/v1/plan", small_body(575), timeout=10)[0] == 200
        assert time.monotonic() - since < 5
        assert len(list(Path(f"/proc/{live.gateway()}/fd").iterdir())) < few
    finally:
        for client in clients:
            client.close()
        resource.prlimit(live.process.pid, resource.RLIMIT_NOFILE, usual)
        live.lose_gateway()


def test_work_for_a_client_that_left_ends(live: Live) -> None:
    for number in range(3):
        with socket.create_connection(("127.0.0.1", live.port), timeout=30) as connection:
            connection.sendall(post("/v1/stock", heavy_body(20 + number, 100), "Accept: application/x-ndjson"))
            assert connection.recv(100)
    end = time.monotonic() + limits.BUDGET_SECONDS  # one after another, each would have taken all of it
    while True:
        before = live.spent()
        time.sleep(1)
        after = live.spent()
        if before.keys() == after.keys() and sum(after.values()) - sum(before.values()) < 0.2:
            break
        assert time.monotonic() < end, "the workers still work"
    assert live.figure('casewright_line_running{class="heavy"}') == 0


class Transport:
    """As much of a transport as room is made by: what it has yet to send, and whether it was let go of."""

    def __init__(self, unsent: int) -> None:
        self.unsent, self.closed = unsent, False

    def get_write_buffer_size(self) -> int:
        return self.unsent

    def abort(self) -> None:
        self.unsent, self.closed = 0, True


def test_whoever_reads_slowly_makes_room_for_others() -> None:
    now = time.monotonic()
    begun = {"slow": now - 60, "slowest": now - 99, "reading": now - 1, "mine": now - 99}
    unsent = {"slow": KEPT_BYTES // 2, "slowest": KEPT_BYTES // 4, "reading": KEPT_BYTES, "mine": KEPT_BYTES}
    connections = {
        name: Connection(cast(Any, None), cast(Any, SimpleNamespace(transport=Transport(unsent[name]))), answered_at=at)
        for name, at in begun.items()
    }
    gateway = Gateway.__new__(Gateway)

    def kept(*names: str, needed_by: str) -> tuple[bool, list[str]]:
        gateway.connections = {connections[name]: None for name in names}
        there_is = gateway.room(connections[needed_by])
        return there_is, [name for name in names if not connections[name].writer.transport.closed]

    assert kept("slow", "slowest", needed_by="slow") == (True, ["slow", "slowest"])
    # Half and a quarter and all: the half is not enough, so both go.
    assert kept("slow", "slowest", "reading", needed_by="reading") == (True, ["reading"])
    # Neither has been at it for long, or is the one that asks: both stay, and the one that asks waits.
    assert kept("reading", "mine", needed_by="mine") == (False, ["reading", "mine"])
    assert kept("reading", "mine", needed_by="reading") == (True, ["reading"])


def test_a_request_that_takes_too_long_to_arrive_is_refused(live: Live) -> None:
    since = time.monotonic()
    received = live.talk(b"GET /healthz HTTP/1.1\r\nHo")
    assert 9 < time.monotonic() - since < 20
    assert received.startswith(b"HTTP/1.1 408 ")


def test_too_much_that_takes_too_long_is_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is not asked for again."""
    monkeypatch.setattr(gateways, "BODY_SECONDS", 0.1)
    gateway = Gateway.__new__(Gateway)
    gateway.cfg, gateway.connections = Config(), {}
    written: list[bytes] = []

    async def conversed() -> None:
        reader = asyncio.StreamReader()
        reader.feed_data(post("/v1/plan", b"x" * (limits.BODY_BYTES + 9000))[:-1])
        writer = SimpleNamespace(write=written.append, transport=Transport(0))
        await gateway.converse(Connection(reader, cast(Any, writer)))

    asyncio.run(conversed())
    assert b"".join(written).startswith(b"HTTP/1.1 413 ")
    assert b"Retry-After" not in b"".join(written)
