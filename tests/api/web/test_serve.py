"""The service as a process: what gunicorn itself answers, large bodies, metrics, recycling, draining, its log."""

import json
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command.demo import free_port
from casewright.api.job import limits
from casewright.api.web.serve import cores, gunicorn_settings, serve
from casewright.api.web.settings import Settings
from casewright.sdk.errors import RefusedStartError


class Live:
    """A service with two workers, each replaced after some requests."""

    def __init__(self, log: Path) -> None:
        self.port, self.metrics, self.log = free_port(), free_port(), log
        env = {
            **os.environ,
            "CASEWRIGHT_PORT": str(self.port),
            "CASEWRIGHT_WORKERS": "2",
            "CASEWRIGHT_METRICS_PORT": str(self.metrics),
            "CASEWRIGHT_REQUESTS_A_WORKER": "40",
            "CASEWRIGHT_DRAIN_SECONDS": "2",
            "CASEWRIGHT_LOG_LEVEL": "info",
        }
        with log.open("wb") as stream:
            command = [sys.executable, "-m", "casewright.api.command.cli", "serve"]
            self.process = subprocess.Popen(command, env=env, stderr=stream, stdout=stream)

    def ask(self, path: str, body: bytes | None = None, **headers: str) -> tuple[int, dict[str, str], bytes]:
        given = {"Content-Type": "application/json", **headers}
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}{path}", body, given)
        try:
            with urllib.request.urlopen(request, timeout=30) as answer:
                return answer.status, dict(answer.headers), answer.read()
        except urllib.error.HTTPError as error:
            with error:
                return error.code, dict(error.headers), error.read()

    def raw(self, sent: bytes) -> tuple[bytes, bytes]:
        """Send bytes and return head and body of what comes back."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=10) as connection:
            connection.sendall(sent)
            connection.shutdown(socket.SHUT_WR)
            output = b""
            while piece := connection.recv(65536):
                output += piece
        head, _, body = output.partition(b"\r\n\r\n")
        return head, body

    def open(self) -> bool:
        """Return whether the port is."""
        with socket.socket() as probe:
            return probe.connect_ex(("127.0.0.1", self.port)) == 0

    def metrics_text(self) -> str:
        with urllib.request.urlopen(f"http://127.0.0.1:{self.metrics}/metrics", timeout=10) as answer:
            return str(answer.read().decode())

    def lines(self) -> list[dict[str, Any]]:
        return [json.loads(line) for line in self.log.read_text("utf-8").splitlines()]


@pytest.fixture(scope="module")
def live(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    live = Live(tmp_path_factory.mktemp("live") / "log")
    try:
        end = time.monotonic() + 120  # the machine may be busy
        while True:
            try:
                live.ask("/readyz")
                break
            except OSError:
                assert live.process.poll() is None, live.log.read_text()
                assert time.monotonic() < end
                time.sleep(0.1)
        yield live
    finally:
        if live.process.poll() is None:
            live.process.kill()
            live.process.wait()


SECRET = "Adas-repair-bay"
MALFORMED = {
    "no such version": (b"GET /healthz HTTP/9.9\r\n\r\n", 400),
    "no version": (b"GET /healthz\r\n\r\n", 400),
    "words": (f"{SECRET} and more words\r\n\r\n".encode(), 400),
    "a header without a colon": (f"GET /healthz HTTP/1.1\r\nHost: a\r\n{SECRET}\r\n\r\n".encode(), 400),
    "a space in a header's name": (b"GET /healthz HTTP/1.1\r\nHost: a\r\nbad name: b\r\n\r\n", 400),
    "a NUL in a header": (b"GET /healthz HTTP/1.1\r\nHost: a\r\nA: b\0c\r\n\r\n", 400),
    "two lengths": (b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n{}", 400),
    "a length that is no number": (b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Length: x\r\n\r\n", 400),
    "a length and chunks": (
        b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
        400,
    ),
    "no host in HTTP/1.1 (RFC 9112 3.2)": (b"GET /version HTTP/1.1\r\n\r\n", 400),
    "two hosts (RFC 9112 3.2)": (b"GET /version HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", 400),
    "a host that is none (RFC 9112 3.2)": (b"GET /version HTTP/1.1\r\nHost: a b/<c>\r\n\r\n", 400),
    "a body that is cut off (RFC 9112 8)": (
        b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 50\r\n\r\n{}",
        400,
    ),
    "chunks that are cut off (RFC 9112 8)": (
        b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\n"
        b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n",
        400,
    ),
    "a coding that is not read here (RFC 9112 6.1)": (
        b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\n"
        b"Transfer-Encoding: gzip, chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n",
        501,
    ),
    "a target that is too long": (b"GET /" + b"a" * 20_000 + b" HTTP/1.1\r\nHost: a\r\n\r\n", 414),
    "too many headers": (
        b"GET /healthz HTTP/1.1\r\nHost: a\r\n" + b"".join(b"A%d: b\r\n" % i for i in range(300)) + b"\r\n",
        431,
    ),
    "a header that is too long": (b"GET /healthz HTTP/1.1\r\nHost: a\r\nA: " + b"b" * 20_000 + b"\r\n\r\n", 431),
    "chunks of no size": (
        b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\n"
        b"Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n",
        400,
    ),
}


@pytest.mark.parametrize("name", MALFORMED)
def test_what_cannot_be_read_is_a_problem_too(live: Live, name: str) -> None:
    sent, status = MALFORMED[name]
    head, body = live.raw(sent)
    first, *headers = head.decode("ascii").split("\r\n")
    assert first.split()[1] == str(status)
    assert "content-type: application/problem+json" in [line.lower() for line in headers]
    document = json.loads(body)
    assert document["status"] == status
    assert document["errors"] is not None
    assert SECRET not in body.decode()


@pytest.mark.parametrize("host", [b"a", b"[::1]:8000", b"a.example:80", b""])
def test_a_later_version_is_answered_in_ours(live: Live, host: bytes) -> None:  # RFC 9110 2.5
    head, _ = live.raw(b"GET /version HTTP/1.2\r\nConnection: close\r\nHost: %s\r\n\r\n" % host)
    assert head.startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize("coding", ["Content-Length", "Transfer-Encoding"])
def test_a_large_body_is_answered_not_cut_off(live: Live, coding: str) -> None:
    size = 3 * limits.BODY_BYTES
    head = b"POST /v1/plan HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\n"
    if coding == "Content-Length":
        sent = head + b"Content-Length: %d\r\n\r\n" % size + b" " * size
    else:
        sent = head + b"Transfer-Encoding: chunked\r\n\r\n%x\r\n" % size + b" " * size + b"\r\n0\r\n\r\n"
    answered, body = live.raw(sent)
    assert b" 413 " in answered
    assert "body_bytes" in json.loads(body)["errors"][0]["rule"]


def test_workers_are_replaced_and_their_counts_kept(live: Live, job: dict[str, Any]) -> None:
    body = json.dumps(job).encode()
    first = live.ask("/v1/parts", body)
    assert all(live.ask("/v1/parts", body)[2] == first[2] for _ in range(129))
    assert sum("Booting worker" in line["message"] for line in live.lines()) > 2
    assert 'casewright_requests_total{route="/v1/parts",method="POST",status="200"} 130' in live.metrics_text()


def test_it_drains_then_stops_and_its_log_is_json_without_the_job(live: Live, job: dict[str, Any]) -> None:
    job["title"] = SECRET
    assert live.ask(f"/v1/plan?{SECRET}", json.dumps(job).encode())[0] == 400
    live.process.send_signal(signal.SIGTERM)
    end = time.monotonic() + 2
    while live.ask("/readyz")[0] == 200:
        assert time.monotonic() < end
    status, headers, _ = live.ask("/readyz")
    assert (status, headers["Content-Type"]) == (503, "application/problem+json")
    assert int(headers["Retry-After"]) > 0
    assert live.ask("/v1/plan", json.dumps(job).encode())[0] == 200
    ready = b"GET /readyz HTTP/1.1\r\nHost: a\r\n\r\n"
    with socket.create_connection(("127.0.0.1", live.port), timeout=10) as begun:
        begun.sendall(ready[:9])
        while live.open():
            time.sleep(0.05)
        begun.sendall(ready[9:])
        assert begun.recv(65536).startswith(b"HTTP/1.1 503 ")  # begun before, so answered
    assert live.process.wait(timeout=20) == 0  # by itself, and not as what is left is killed after 30 s
    time.sleep(0.5)
    with pytest.raises(OSError):  # noqa: PT011 - the metrics end with the service
        live.metrics_text()
    lines = live.lines()
    assert {"time", "level", "logger", "process", "message"} <= set.intersection(*(set(line) for line in lines))
    assert [line["message"] for line in lines if line["level"] in ("error", "critical")] == []
    assert SECRET not in live.log.read_text("utf-8")


# How it is set up.


def test_settings_reach_gunicorn() -> None:
    chosen = gunicorn_settings(Settings(timeout_seconds=50, stop_seconds=9, requests_a_worker=1000, workers=0))
    assert (chosen["timeout"], chosen["graceful_timeout"], chosen["workers"]) == (
        50,
        9,
        cores() + 2,
    )  # and one more, and the gateway
    assert (chosen["max_requests"], chosen["max_requests_jitter"]) == (1000, 100)


@pytest.mark.parametrize(
    ("text", "most"), [("max 100000", None), ("150000 100000", 2), ("50000 100000", 1), ("x", None), ("1 0", None)]
)
def test_cores_are_those_the_container_may_use(tmp_path: Path, text: str, most: int | None) -> None:
    path = tmp_path / "cpu.max"
    path.write_text(text)
    allowed = len(os.sched_getaffinity(0))
    assert cores(path) == (allowed if most is None else min(allowed, most))
    assert cores(tmp_path / "absent") == allowed


def test_a_port_that_is_taken_refuses_the_start() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(RefusedStartError, match=str(port)):
            serve({"port": port}, {})
        with pytest.raises(RefusedStartError, match=str(port)):
            serve({"port": free_port()}, {"CASEWRIGHT_METRICS_PORT": str(port)})


@pytest.mark.parametrize(("user", "warned"), [(0, True), (10_001, False)])
def test_serving_as_root_is_warned_of(
    user: int, warned: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("os.geteuid", lambda: user)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(RefusedStartError):
            serve({"port": taken.getsockname()[1]}, {})
    assert ("as root" in capsys.readouterr().err) is warned
