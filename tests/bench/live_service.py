"""Runs the service as a process of its own for benchmarks and tests, and ends it by its id."""

import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

SMALL_JOB: dict[str, Any] = {
    "units": "mm",
    "title": "Pump shelf",
    "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
    "cabinets": [{"id": "pumps", "width": 500, "height": 700, "depth": 300, "case": {"material": "mdf"}}],
}


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port


def small_body(width: float) -> bytes:
    """Return a job of one small cabinet, another for each width, so that no plan is kept for it."""
    cabinet = {**SMALL_JOB["cabinets"][0], "width": width}
    return json.dumps({**SMALL_JOB, "cabinets": [cabinet]}).encode()


def heavy_body(number: int, count: int = 24) -> bytes:
    """Return a job that takes a second or more, and ten with 40 parts: cut from stock at the greatest effort."""
    parts = [
        {"id": f"p{i}", "material": "ply", "length": 211 + 7 * i, "width": 97 + 5 * (i % 61), "quantity": 6}
        for i in range(count)
    ]
    return json.dumps(
        {
            "units": "mm",
            "title": f"heavy {number}",
            "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
            "loose_parts": parts,
            "stock": {"sheets": [{"id": "s", "material": "ply", "length": 2440, "width": 1220}], "effort": 5},
        }
    ).encode()


def post(path: str, body: bytes, *more: str) -> bytes:
    """Return a whole request."""
    lines = [f"POST {path} HTTP/1.1", "Host: localhost", "Content-Type: application/json", *more]
    return "\r\n".join([*lines, f"Content-Length: {len(body)}", "", ""]).encode() + body


def ask(port: int, path: str, body: bytes | None = None, timeout: float = 60) -> tuple[int, dict[str, str], bytes]:
    """Send one request and return status, headers and body."""
    connection = HTTPConnection("127.0.0.1", port, timeout=timeout)
    try:
        headers = {"Content-Type": "application/json"} if body is not None else {}
        connection.request("GET" if body is None else "POST", path, body, headers)
        answer = connection.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read()
    finally:
        connection.close()


@contextmanager
def heavy_work(port: int, count: int) -> Iterator[None]:
    """Ask for so many heavy plans in lines of progress, and leave when the block ends: the work ends then too."""
    asking = [socket.create_connection(("127.0.0.1", port), timeout=60) for _ in range(count)]
    try:
        for number, connection in enumerate(asking):
            connection.sendall(post("/v1/stock", heavy_body(number, 40), "Accept: application/x-ndjson"))
        yield
    finally:
        for connection in asking:
            connection.close()


@contextmanager
def running(*arguments: str, log: Path | None = None, **env: str) -> Iterator[tuple[int, "subprocess.Popen[bytes]"]]:
    """Run `casewright serve` on a free port until the block ends; give the port and the process."""
    port = free_port()
    command = [sys.executable, "-m", "casewright.api.command.cli", "serve", "--port", str(port), *arguments]
    with (log or Path(os.devnull)).open("ab") as stream:
        process = subprocess.Popen(command, env={**os.environ, **env}, stderr=stream, start_new_session=True)
    try:
        wait(port, process)
        yield port, process
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()


@dataclass(frozen=True)
class Size:
    """What all processes of a service hold: their own memory in MiB, threads, descriptors."""

    mib: float
    threads: int
    descriptors: int

    @classmethod
    def of(cls, pid: int) -> "Size":
        """Measure a process and its children."""
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        mib, threads, descriptors = 0.0, 0, 0
        for one in (str(pid), *children):
            try:
                status = dict(line.split(":", 1) for line in Path(f"/proc/{one}/status").read_text().splitlines())
                smaps = Path(f"/proc/{one}/smaps_rollup").read_text()
                descriptors += len(list(Path(f"/proc/{one}/fd").iterdir()))
            except OSError:  # it ended meanwhile
                continue
            mib += int(smaps.partition("\nPss:")[2].split()[0]) / 1024
            threads += int(status["Threads"])
        return cls(mib, threads, descriptors)

    def __str__(self) -> str:
        return f"{self.mib:.1f} MiB, {self.threads} threads, {self.descriptors} descriptors"


def wait(port: int, process: "subprocess.Popen[bytes] | None" = None) -> None:
    """Wait until the service is ready."""
    end = time.monotonic() + 120  # the machine may be busy
    while True:
        try:
            if ask(port, "/readyz", timeout=2)[0] == 200:
                return
        except OSError:
            pass
        assert process is None or process.poll() is None, "the service ended"
        assert time.monotonic() < end, f"nothing answers at port {port}"
        time.sleep(0.1)


def part(values: Sequence[float], share: float) -> float:
    """Return the value that this share of values lies at or under."""
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]
