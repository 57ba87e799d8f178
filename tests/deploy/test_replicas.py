"""Two replicas behind the balancer of api/deploy/haproxy.cfg, under load: one is drained and stopped, one is killed.

Every answer must be the one that planning in process gives, byte for byte. Draining may lose nothing. A kill may cut
what was under way; the balancer sends it again, and what it could not is sent again here and must then be right.
"""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Any

import pytest
from casewright.api import plan
from casewright.api.wire.plan_document import to_bytes

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from live_service import ask, free_port, heavy_body, heavy_work, wait

CONFIG = Path(__file__).parents[2] / "api" / "deploy" / "haproxy.cfg"
SENDERS = 3
SECONDS, SECONDS_FULL = 2.0, 10.0
PAUSE = 0.03
"""Seconds a sender waits between two requests, so that the tests beside these get on too."""
HAPROXY = shutil.which("haproxy") or shutil.which("haproxy", path="/usr/sbin:/usr/local/sbin")

pytestmark = pytest.mark.skipif(
    HAPROXY is None and "CI" not in os.environ, reason="the balancer is not here: apt-get install haproxy"
)


def job(i: int) -> dict[str, Any]:
    return {
        "units": "mm",
        "title": f"job {i}",
        "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
        "cabinets": [{"id": "a", "width": 500 + i, "height": 700, "depth": 300, "case": {"material": "mdf"}}],
    }


@dataclass
class Fleet:
    """Two replicas and the balancer; started processes are ended by their own ids."""

    folder: Path
    port: int = field(default_factory=free_port)
    replicas: dict[str, tuple[int, "subprocess.Popen[bytes]"]] = field(default_factory=dict)
    balancer: "subprocess.Popen[bytes] | None" = None

    def start(self, name: str, port: int | None = None) -> None:
        port = port or free_port()
        command = [sys.executable, "-m", "casewright.api.command.cli", "serve", "--port", str(port), "--workers", "2"]
        env = {**os.environ, "CASEWRIGHT_DRAIN_SECONDS": "2"}
        log = (self.folder / f"{name}.log").open("ab")
        started = subprocess.Popen(command, env=env, stderr=log, start_new_session=True)
        log.close()
        self.replicas[name] = (port, started)

    def balance(self) -> None:
        assert HAPROXY, "CI must have the balancer: apt-get install haproxy"
        env = {
            **os.environ,
            "BALANCER_PORT": str(self.port),
            "BALANCER_ONE": f"127.0.0.1:{self.replicas['one'][0]}",
            "BALANCER_TWO": f"127.0.0.1:{self.replicas['two'][0]}",
            "BALANCER_RATE": "1000000",
            "BALANCER_SLOTS": "100",
            "BALANCER_SOCKET": str(self.folder / "admin.sock"),
        }
        log = (self.folder / "balancer.log").open("ab")
        self.balancer = subprocess.Popen([HAPROXY, "-db", "-f", str(CONFIG)], env=env, stderr=log, stdout=log)
        log.close()

    def tell(self, command: str) -> str:
        """Send a command to the balancer's own socket and return what it says."""
        with socket.socket(socket.AF_UNIX) as admin:
            admin.connect(str(self.folder / "admin.sock"))
            admin.sendall(command.encode() + b"\n")
            logged = b""
            while piece := admin.recv(65536):
                logged += piece
        return logged.decode()

    def state(self, name: str) -> str:
        rows = [line.split(",") for line in self.tell("show stat").splitlines() if line]
        status = rows[0].index("status")
        return next(row[status] for row in rows if row[:2] == ["replicas", name])

    def await_state(self, name: str, wanted: str) -> None:
        end = time.monotonic() + 20
        while not self.state(name).startswith(wanted):
            assert time.monotonic() < end, f"{name} is {self.state(name)}, not {wanted}"
            time.sleep(0.1)

    def kill(self, name: str) -> None:
        """End a replica at once, with its workers: its session is its own."""
        _, process = self.replicas[name]
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()

    def close(self) -> None:
        for _, process in self.replicas.values():
            if process.poll() is None:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()
        if self.balancer is not None:
            self.balancer.kill()
            self.balancer.wait()


@dataclass
class Traffic:
    """Senders that ask for plans until stopped, and what came of it."""

    port: int
    wanted: dict[int, bytes]
    right: int = 0
    cut: list[tuple[int, str]] = field(default_factory=list)
    wrong: list[tuple[int, int, bytes]] = field(default_factory=list)
    stop: threading.Event = field(default_factory=threading.Event)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def ask(self, i: int) -> tuple[int, bytes]:
        connection = HTTPConnection("127.0.0.1", self.port, timeout=60)
        try:
            connection.request("POST", "/v1/plan", json.dumps(job(i)), {"Content-Type": "application/json"})
            answer = connection.getresponse()
            return answer.status, answer.read()
        finally:
            connection.close()

    def send(self, first: int) -> None:
        i = first
        while not self.stop.is_set():
            i = (i + 1) % len(self.wanted)
            try:
                status, body = self.ask(i)
            except (OSError, HTTPException) as error:
                with self.lock:
                    self.cut.append((i, repr(error)))
                continue
            with self.lock:
                if status == 200 and body == self.wanted[i]:
                    self.right += 1
                elif status in (502, 503, 504):
                    self.cut.append((i, str(status)))
                else:
                    self.wrong.append((i, status, body[:200]))
            time.sleep(PAUSE)

    def __enter__(self) -> "Traffic":
        self.threads = [threading.Thread(target=self.send, args=(7 * n,)) for n in range(SENDERS)]
        for thread in self.threads:
            thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop.set()
        for thread in self.threads:
            thread.join()


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Fleet]:
    fleet = Fleet(tmp_path_factory.mktemp("fleet"))
    try:
        fleet.start("one")
        fleet.start("two")
        for port, _ in fleet.replicas.values():
            wait(port)
        fleet.balance()
        wait(fleet.port)
        yield fleet
    finally:
        fleet.close()


@pytest.fixture
def fleet(started: Fleet) -> Fleet:
    """Return both replicas at work, whatever the test before did to them."""
    for name, (port, process) in started.replicas.items():
        if process.poll() is not None:
            started.start(name, port)
    for name, (port, _) in started.replicas.items():
        wait(port)
        started.tell(f"set server replicas/{name} state ready")
        started.await_state(name, "UP")
    return started


def test_no_answer_is_lost_or_wrong(fleet: Fleet, full: bool, record_property: Any) -> None:
    wanted = {i: to_bytes(plan(job(i))) for i in range(20)}
    while_steady = SECONDS_FULL if full else SECONDS

    with Traffic(fleet.port, wanted) as draining:
        time.sleep(while_steady)
        fleet.tell("set server replicas/one state drain")
        fleet.await_state("one", "DRAIN")
        time.sleep(0.5)
        port, process = fleet.replicas["one"]
        process.terminate()  # TERM after draining
        assert process.wait(timeout=40) == 0
        time.sleep(while_steady)
        fleet.start("one", port)
        wait(port)
        fleet.tell("set server replicas/one state ready")
        fleet.await_state("one", "UP")
        time.sleep(while_steady / 2)
    assert (draining.wrong, draining.cut) == ([], [])

    with Traffic(fleet.port, wanted) as leaving:
        time.sleep(while_steady / 2)
        port, process = fleet.replicas["one"]
        process.terminate()  # TERM alone: /readyz says so first, and the balancer looks
        assert process.wait(timeout=40) == 0
        fleet.start("one", port)
        wait(port)
        fleet.await_state("one", "UP")
        time.sleep(while_steady / 2)
    assert (leaving.wrong, leaving.cut) == ([], [])

    with Traffic(fleet.port, wanted) as killing:
        time.sleep(while_steady)
        fleet.kill("two")
        time.sleep(while_steady)
    assert killing.wrong == []
    assert len(killing.cut) <= SENDERS, killing.cut  # at most what was under way
    for i, _ in killing.cut:
        assert killing.ask(i) == (200, wanted[i])
    least = min(draining.right, leaving.right, killing.right)
    assert least > 2 * SENDERS, "hardly any load"
    counts = {"drained": draining.right, "stopped": leaving.right, "killed": killing.right, "cut": len(killing.cut)}
    record_property("answers", json.dumps(counts))
    print(counts)


def test_a_slow_replica_loses_nothing(fleet: Fleet) -> None:
    wanted = {i: to_bytes(plan(job(i))) for i in range(20)}
    _, process = fleet.replicas["one"]
    with Traffic(fleet.port, wanted) as slowed:
        time.sleep(1)
        before = slowed.right
        os.killpg(process.pid, signal.SIGSTOP)
        try:
            time.sleep(6)  # long enough to be found out; the other then has it all
        finally:
            os.killpg(process.pid, signal.SIGCONT)
        fleet.await_state("one", "UP")
    assert (slowed.wrong, slowed.cut) == ([], [])
    assert slowed.right > before


def test_busy_replicas_stay_in_and_small_plans_go_through(fleet: Fleet, full: bool) -> None:
    with heavy_work(fleet.port, 4):
        time.sleep(1.5)  # until the balancer has looked at both more than once
        end = time.monotonic() + (6 if full else 3)
        while time.monotonic() < end:
            assert ask(fleet.port, "/readyz")[0] == 200
            assert ask(fleet.port, "/v1/plan", json.dumps(job(1)).encode())[0] == 200
            assert {fleet.state("one"), fleet.state("two")} == {"UP"}


def test_a_request_that_ends_its_worker_is_not_sent_again(fleet: Fleet) -> None:
    end = time.monotonic() + 10
    while busy(fleet):  # what the test before left to end
        assert time.monotonic() < end
    answers: list[tuple[int, dict[str, str], bytes]] = []
    sender = threading.Thread(target=lambda: answers.append(ask(fleet.port, "/v1/stock", heavy_body(9, 40))))
    sender.start()
    time.sleep(1)
    (worker,) = busy(fleet)
    os.kill(worker, signal.SIGKILL)
    sender.join(timeout=10)
    assert [status for status, _, _ in answers] == [500]
    time.sleep(0.5)
    assert busy(fleet) == []


def busy(fleet: Fleet) -> list[int]:
    """Return the processes of the replicas that compute: what they spend in half a second is much of it."""

    def spent() -> dict[int, int]:
        pids = [process.pid for _, process in fleet.replicas.values()]
        children = [one for pid in pids for one in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
        stats = {int(child): Path(f"/proc/{child}/stat").read_text().rsplit(")", 1)[1].split() for child in children}
        return {child: int(stat[11]) + int(stat[12]) for child, stat in stats.items()}

    before = spent()
    time.sleep(0.5)
    return [child for child, ticks in spent().items() if ticks - before.get(child, ticks) > 5]


def test_the_balancer_speaks_for_itself_in_problems(fleet: Fleet) -> None:
    for name in ("one", "two"):
        fleet.tell(f"set server replicas/{name} state maint")
    connection = HTTPConnection("127.0.0.1", fleet.port, timeout=30)
    connection.request("GET", "/healthz")
    answer = connection.getresponse()
    body = json.loads(answer.read())
    connection.close()
    assert (answer.status, body["status"], body["type"]) == (503, 503, "/problems/unavailable")
    assert answer.headers["Content-Type"] == "application/problem+json"
    assert int(answer.headers["Retry-After"]) > 0
