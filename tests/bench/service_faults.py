"""What the service does when things go wrong round it: `python tests/bench/service_faults.py [--requests 200]`.

One service whose log goes to a full disk, whose clock jumps, and which may write no file. Then in turn: workers are
killed, no file may grow, workers get hardly more memory than they have, the clock goes a day on, a year back and on
again. During and after each, health and small plans are asked for; what is under way in a killed worker may fail, but
must be answered; what asks for more memory than there is is told so, or loses its worker. Printed: what was asked and
answered in each.
"""

import argparse
import json
import os
import resource
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from http.client import HTTPException
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from live_service import SMALL_JOB, ask, running, small_body

WORKERS = 2
PATIENCE = 10
"""Seconds in which a worker that was lost has been replaced."""
MIB = 2**20
CABINETS = 150
LITTLE = 4 * MIB
"""Address space that a worker gets beyond what it has: enough for small plans, too little for a large job."""
JUMPS = (86_400.0, -365 * 86_400.0, 0.0)
"""Seconds that the clock is off by, one after another."""
CLOCK = """
import pathlib, time
real, off = time.time, pathlib.Path({file!r})
time.time = lambda: real() + float(off.read_text() or 0)
time.time_ns = lambda: int(time.time() * 1e9)
"""
"""Run by the interpreter before all else: the wall clock, off by what a file says."""

Answers = Counter[tuple[str, int]]


def large_body() -> bytes:
    """Return a job of many cabinets, none like another."""
    first = SMALL_JOB["cabinets"][0]
    cabinets = [{**first, "id": f"shelf-{number}", "width": 400 + number} for number in range(CABINETS)]
    return json.dumps({**SMALL_JOB, "cabinets": cabinets}).encode()


class Faulty:
    """A running service, and what does it harm."""

    def __init__(self, port: int, pid: int, clock: Path, requests: int) -> None:
        self.port, self.pid, self.clock, self.requests = port, pid, clock, requests
        self.width = 400.0

    def workers(self) -> list[int]:
        """Return the ids of the workers, once all are there: they are the last that were started."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            children = Path(f"/proc/{self.pid}/task/{self.pid}/children").read_text().split()
            if len(children) == 1 + WORKERS:  # and the gateway
                return [int(one) for one in children[1:]]
            time.sleep(0.1)
        raise AssertionError(f"no {WORKERS} workers after {PATIENCE} s")

    def ask(self, path: str, body: bytes | None = None) -> int:
        """Return the status of a request; 0 is no answer."""
        try:
            return ask(self.port, path, body)[0]
        except (OSError, HTTPException):
            return 0

    def small(self) -> Iterator[tuple[str, int]]:
        """Ask for health and small plans, each another job."""
        for _ in range(self.requests):
            self.width += 0.01
            yield "small plan", self.ask("/v1/plan", small_body(self.width))
        yield "health", self.ask("/healthz")

    def large(self) -> tuple[str, int]:
        """Ask for a large job; where memory ends the interpreter may end with it, and its worker is lost."""
        try:
            status, _, body = ask(self.port, "/v1/plan", large_body())
        except (OSError, HTTPException):
            return "large job", 0
        lost = status == 500 and b"the worker was lost" in body
        return "large job, its worker lost" if lost else "large job", status

    def nothing(self) -> Iterator[tuple[str, int]]:
        """Ask while the log goes to a full disk, as it does throughout."""
        yield from self.small()
        yield "unreadable job", self.ask("/v1/plan", b"{")

    def killed(self) -> Iterator[tuple[str, int]]:
        """Kill each worker; its successor may be at work or not yet."""
        for worker in self.workers():
            os.kill(worker, signal.SIGKILL)
            yield from self.small()

    def no_file_grows(self) -> Iterator[tuple[str, int]]:
        """Let no file be written, as on a full disk and nearly as on a read-only one; most papers need none."""
        with self.limited(resource.RLIMIT_FSIZE, lambda worker: 0):
            yield from self.small()
            for path in ("/v1/workbook", "/v1/booklet", "/v1/outlines", "/v1/papers"):
                yield path, self.ask(path, small_body(self.width))

    def little_memory(self) -> Iterator[tuple[str, int]]:
        """Leave workers hardly any memory: a large job is answered that there is too little, and they go on."""
        with self.limited(resource.RLIMIT_AS, lambda worker: _address_space(worker) + LITTLE):
            yield self.large()
            yield from self.small()
        yield "large job after", self.ask("/v1/plan", large_body())

    def clock_jumps(self) -> Iterator[tuple[str, int]]:
        """Set the wall clock wrong by a day, then by a year the other way, then right again."""
        for off in JUMPS:
            self.clock.write_text(str(off))
            yield from self.small()

    @contextmanager
    def limited(self, what: int, most: Callable[[int], int]) -> Iterator[None]:
        """Limit what workers may use until the block ends."""
        hard = {worker: resource.prlimit(worker, what)[1] for worker in self.workers()}
        for worker, ceiling in hard.items():
            resource.prlimit(worker, what, (most(worker), ceiling))
        try:
            yield
        finally:
            for worker in hard.keys() & set(self.workers()):
                resource.prlimit(worker, what, (hard[worker], hard[worker]))


def _address_space(pid: int) -> int:
    """Return the bytes of address space that a process has."""
    return int(Path(f"/proc/{pid}/statm").read_text().split()[0]) * resource.getpagesize()


FAULTS: Mapping[str, Callable[[Faulty], Iterator[tuple[str, int]]]] = {
    "log on a full disk": Faulty.nothing,
    "workers killed": Faulty.killed,
    "no file grows": Faulty.no_file_grows,
    "little memory": Faulty.little_memory,
    "clock jumps": Faulty.clock_jumps,
}
EXPECTED: Mapping[str, frozenset[int]] = {
    "unreadable job": frozenset({400}),
    "large job": frozenset({503}),
    "large job, its worker lost": frozenset({500}),
    "/v1/workbook": frozenset({500}),
    "/v1/papers": frozenset({500}),
}
"""What is answered otherwise than 200: workbooks are made by way of files."""


def tried(requests: int) -> dict[str, Answers]:
    """Return what was answered under each fault, by what was asked and the status."""
    with tempfile.TemporaryDirectory() as folder:
        clock = Path(folder) / "clock"
        clock.write_text("0")
        (Path(folder) / "sitecustomize.py").write_text(CLOCK.format(file=str(clock)))
        with running("--workers", str(WORKERS), log=Path("/dev/full"), PYTHONPATH=folder) as (port, process):
            faulty = Faulty(port, process.pid, clock, requests)
            answers = {}
            for name, harm in FAULTS.items():
                answers[name] = Counter(harm(faulty))
                time.sleep(0.5)
            assert process.poll() is None, "the service ended"
    return answers


def wrong(answers: Mapping[str, Answers]) -> list[str]:
    """Return what was not answered as it should be."""
    return [
        f"{name}: {what} was answered {status} {count} times"
        for name, each in answers.items()
        for (what, status), count in each.items()
        if status not in EXPECTED.get(what, frozenset({200}))
    ]


def main() -> int:
    """Do harm, and print."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--requests", type=int, default=200, help="small plans asked for in each")
    answers = tried(parser.parse_args().requests)
    for name, each in answers.items():
        print(f"{name:<20} " + ", ".join(f"{what} {status} × {count}" for (what, status), count in each.items()))
    faults = wrong(answers)
    print(*faults, sep="\n")
    return int(bool(faults))


if __name__ == "__main__":
    sys.exit(main())
