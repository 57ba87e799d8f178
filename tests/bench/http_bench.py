"""Benchmarks of the service over HTTP, as one table: `python tests/bench/http_bench.py [--quick]`.

One gunicorn worker and the gateway before it are pinned to one core and the load (Debian package wrk) to another, so
figures are for one core. The yardstick is a Flask route that answers a stored JSON text of the same size, on the same
gunicorn, gateway and settings: what is compared are ratios within rounds of a few seconds each. Where it says "new
job", every request has a job of its own (a width that no other request has), so that nothing kept can help; "same job"
is one job asked for again and again, which is read, found among the kept plans and written; "held plan" has the ETag
with it.

Processor time is the worker's own, user and system, as the kernel counts it. Loads at a steady rate are sent by this
script, each request timed from the moment it was due, so that a late start counts as waiting.
"""

from __future__ import annotations

import argparse
import copy
import gc
import json
import os
import re
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.job.strict_json import read_json
from casewright.api.use.examples import example_job
from casewright.api.use.loading import installed
from casewright.api.web.serve import Service
from casewright.api.web.settings import Settings
from casewright.api.wire.made_by import fingerprint, made_by
from casewright.api.wire.plan_document import SECTIONS, plan_document, to_bytes
from flask import Flask, Response

TICK = os.sysconf("SC_CLK_TCK")
CONNECTIONS = 4
WIDTHS = 20_000
"""Jobs that differ: each request takes the next of them."""

SCRIPT = """
local n = 0
local head = [==[%s]==]
local tail = [==[%s]==]
local headers = {["Content-Type"] = "application/json"%s}
function request()
  n = n + 1
  local width = %d + (n %% %d) * 0.0001
  return wrk.format("%s", "%s", headers, head .. string.format("%%.4f", width) .. tail)
end
local bad = 0
function response(status) if status ~= %d then bad = bad + 1; print("status", status) end end
"""


def demo_job() -> dict[str, Any]:
    """Return the demo job without stock and without rates."""
    return {key: value for key, value in example_job().items() if key not in ("stock", "rates")}


def pieces(job: dict[str, Any]) -> tuple[str, str, int]:
    """Return the job's text before and after its first cabinet's width, and that width in whole units."""
    job = copy.deepcopy(job)
    width = job["cabinets"][0]["width"]
    job["cabinets"][0]["width"] = "WIDTH"
    head, tail = json.dumps(job, separators=(",", ":")).split('"WIDTH"')
    return head, tail, int(width)


def stored(size: int) -> Flask:
    """Return the yardstick: one route that answers a stored JSON text of `size` bytes."""
    app = Flask("stored", static_folder=None)
    text = to_bytes({"text": "x" * (size - len(to_bytes({"text": ""})))})
    assert len(text) == size

    @app.get("/stored")
    def answer() -> Response:
        return Response(text, mimetype="application/json")

    return app


class Bench(Service):
    """The service as it runs, or the yardstick in its place."""

    def __init__(self, settings: Settings, size: int | None) -> None:
        self.size = size
        super().__init__(settings)

    def load(self) -> Any:
        return super().load() if self.size is None else stored(self.size)


@dataclass(frozen=True)
class Running:
    """A service under test: its port and its one worker."""

    port: int
    worker: int

    def spent(self) -> float:
        """Return the worker's processor seconds so far."""
        fields = Path(f"/proc/{self.worker}/stat").read_text().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) / TICK

    def resident(self) -> float:
        """Return the worker's own memory in MiB: resident, not shared with the files it maps."""
        line = re.search(r"RssAnon:\s+(\d+) kB", Path(f"/proc/{self.worker}/status").read_text())
        assert line
        return int(line[1]) / 1024


@contextmanager
def running(core: int, size: int | None = None) -> Iterator[Running]:
    """Run the service (or the yardstick) with one worker on one core, and stop it by its process id."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    child = os.fork()
    if child == 0:
        os.sched_setaffinity(0, {core})
        try:
            Bench(Settings(port=port, workers=1, requests_a_worker=0), size).run()
        finally:
            os._exit(0)
    try:
        end = time.monotonic() + 30
        while time.monotonic() < end:
            workers = Path(f"/proc/{child}/task/{child}/children").read_text().split()
            with socket.socket() as probe:
                if len(workers) == 2 and probe.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.05)
        yield Running(port, int(workers[1]))  # the first is the gateway
    finally:
        os.kill(child, 15)
        os.waitpid(child, 0)


@dataclass(frozen=True)
class Load:
    """What a load came to."""

    rate: float
    cpu_ms: float
    bad: int
    count: int


def load(service: Running, core: int, seconds: int, script: str) -> Load:
    """Send requests as fast as they are answered, by wrk."""
    with tempfile.NamedTemporaryFile("w", suffix=".lua") as file:
        file.write(script)
        file.flush()
        command = [
            "wrk",
            "-t1",
            f"-c{CONNECTIONS}",
            f"-d{seconds}s",
            "-s",
            file.name,
            f"http://127.0.0.1:{service.port}",
        ]
        before = service.spent()
        output = subprocess.run(
            ["taskset", "-c", str(core), *command], capture_output=True, text=True, check=True
        ).stdout
        spent = service.spent() - before
    count = int(re.search(r"(\d+) requests in", output)[1])  # type: ignore[index]
    rate = float(re.search(r"Requests/sec:\s+([\d.]+)", output)[1])  # type: ignore[index]
    return Load(rate, 1000 * spent / max(1, count), output.count("status"), count)


def plan_script(job: dict[str, Any], tag: str | None = None, jobs: int = WIDTHS) -> str:
    """Return a wrk script that asks for plans: of so many jobs in turn, or of one whose tag is held."""
    head, tail, width = pieces(job)
    if tag is None:
        return SCRIPT % (head, tail, "", width, jobs, "POST", "/v1/plan", 200)
    condition = f', ["If-None-Match"] = [==[{tag}]==]'
    return SCRIPT % (head, tail, condition, width, 1, "POST", "/v1/plan", 412)


GET_STORED = 'request = function() return wrk.format("GET", "/stored") end\n'


def ask(port: int, body: bytes) -> tuple[int, dict[str, str], bytes]:
    """Ask for one plan."""
    connection = HTTPConnection("127.0.0.1", port, timeout=60)
    connection.request("POST", "/v1/plan", body, {"Content-Type": "application/json"})
    answer = connection.getresponse()
    content = answer.read()
    connection.close()
    return answer.status, dict(answer.getheaders()), content


def steady(port: int, job: dict[str, Any], rate: float, count: int) -> list[float]:
    """Send `count` requests at a steady rate and return how long each took, in seconds, from when it was due."""
    head, tail, width = pieces(job)
    took = [0.0] * count
    start = time.monotonic() + 0.1
    turn = iter(range(count))
    lock = threading.Lock()

    def send() -> None:
        while True:
            with lock:
                i = next(turn, None)
            if i is None:
                return
            due = start + i / rate
            time.sleep(max(0.0, due - time.monotonic()))
            body = f"{head}{width + 3 + (i % WIDTHS) * 0.0001:.4f}{tail}".encode()
            assert ask(port, body)[0] == 200
            took[i] = time.monotonic() - due

    threads = [threading.Thread(target=send) for _ in range(16)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return took


def cpu_of(work: Callable[[], Any], repeats: int) -> float:
    """Return the least processor milliseconds of a few runs of some work."""
    work()
    best = float("inf")
    for _ in range(repeats):
        before = time.process_time()
        work()
        best = min(best, time.process_time() - before)
    return best * 1000


def row(job: dict[str, Any], cabinets: int) -> dict[str, Any]:
    """Return a job of as many unlike cabinets, without places on the wall."""
    many = [{**copy.deepcopy(job["cabinets"][0]), "id": f"c{i}", "count": 1} for i in range(cabinets)]
    for i, cabinet in enumerate(many):
        cabinet["width"] = 24 + i * 0.01
    wall = {key: value for key, value in job["wall"].items() if key != "cabinets_at"}
    return {**job, "cabinets": many, "wall": wall}


def shelves(job: dict[str, Any], cabinets: int) -> dict[str, Any]:
    """Return a job of tall open cabinets with many shelves: about 40 parts a cabinet."""
    made = row(job, cabinets)
    for cabinet in made["cabinets"]:
        cabinet.update(width=30, height=84, depth=12, form="tall")
        for key in ("doors", "face_frame", "mounting"):
            cabinet.pop(key, None)
        cabinet["space"] = {"front": "open", "fixed_shelves": 30}
    return made


def in_process(quick: bool) -> list[tuple[str, str, str]]:
    """Measure planning without HTTP: the demo job, sixty cabinets, and cost against parts."""
    registry = installed()
    made = made_by(registry)
    gc.collect()
    gc.freeze()

    def whole(job: dict[str, Any]) -> Callable[[], bytes]:
        body = json.dumps(job).encode()

        def work() -> bytes:
            document = read_json(body)
            plan = make_plan(read_job(document, registry), registry, with_stock=False)
            return to_bytes(plan_document(plan, made, fingerprint(document, registry), SECTIONS))

        return work

    rows = []
    demo = cpu_of(whole(demo_job()), 10 if quick else 60)
    rows.append(("demo job, read, planned and written", f"{demo:.2f} ms", "under 10 ms"))
    sixty = cpu_of(whole(row(demo_job(), 60)), 1 if quick else 3)
    rows.append(("60 cabinets", f"{sixty / 1000:.2f} s", "under 2 s"))
    sizes = (5, 20, 60) if quick else (5, 20, 60, 130)
    per_part = []
    for cabinets in sizes:
        job = shelves(demo_job(), cabinets)
        parts = len(make_plan(read_job(job, registry), registry, with_stock=False).parts)
        per_part.append((parts, cpu_of(whole(job), 1 if parts > 1000 else 3) / parts))
    shown = ", ".join(f"{parts}: {1000 * ms:.0f} µs" for parts, ms in per_part)
    ratio = per_part[-1][1] / per_part[0][1]
    rows.append((f"cost a part ({shown})", f"most parts / fewest {ratio:.2f}", "flat: under 1.5"))
    return rows


def over_http(quick: bool, requests: int) -> list[tuple[str, str, str]]:
    """Measure the service over HTTP: rounds of stored answer, plan and held plan in turn, and the medians of them."""
    cores = sorted(os.sched_getaffinity(0))
    ours, theirs = cores[0], cores[-1]
    rounds, seconds = (3, 1) if quick else (7, 3)
    job = demo_job()
    head, tail, width = pieces(job)
    with running(ours) as service:
        status, headers, answer = ask(service.port, f"{head}{width}.0000{tail}".encode())
        assert status == 200, answer[:500]
        script, same_script, unchanged_script = (
            plan_script(job),
            plan_script(job, jobs=1),
            plan_script(job, headers["ETag"]),
        )
        with running(ours, len(answer)) as yardstick:
            kinds = ((yardstick, GET_STORED), (service, script), (service, same_script), (service, unchanged_script))
            for which, sent in kinds:
                load(which, theirs, 1, sent)
            turns = [[load(which, theirs, seconds, sent) for which, sent in kinds] for _ in range(rounds)]
        assert not any(one.bad for turn in turns for one in turn), turns
        top = statistics.median(turn[1].rate for turn in turns)
        took = sorted(steady(service.port, job, 0.8 * top, int(0.8 * top * rounds * seconds)))
        count, memory = 0, [service.resident()]
        while count < requests:
            count += load(service, theirs, max(1, min(20, round((requests - count) / top))), script).count
            memory.append(service.resident())
    p50, p99 = statistics.median(took), took[int(0.99 * len(took))]
    names = (f"stored JSON ({len(answer):,} bytes)", "demo plan, new job", "demo plan, same job", "held plan (412)")
    rows = [
        (
            name,
            f"{statistics.median(turn[k].rate for turn in turns):.0f}/s, "
            f"{statistics.median(turn[k].cpu_ms for turn in turns):.2f} ms",
            "",
        )
        for k, name in enumerate(names)
    ]
    wants = ("", "", "10 % or more", "60 % or more")
    for k, (name, wanted) in enumerate(zip(names, wants, strict=True)):
        if k == 0:
            continue
        rates = statistics.median(turn[k].rate / turn[0].rate for turn in turns)
        spent = statistics.median(turn[0].cpu_ms / turn[k].cpu_ms for turn in turns)
        shown = f"{100 * rates:.1f} % ({100 * spent:.1f} % by processor time)"
        rows.append((f"{name} / stored JSON, median of {rounds} rounds", shown, wanted))
    return [
        *rows,
        (f"at 80 % of top load, {len(took)} requests", f"p50 {1000 * p50:.1f} ms, p99 {1000 * p99:.1f} ms", ""),
        ("p99 / p50", f"{p99 / p50:.1f}", "under 5"),
        (
            f"memory over {count:,} requests",
            f"{memory[0]:.1f} → {memory[-1]:.1f} MiB, half way {memory[len(memory) // 2]:.1f}",
            "flat",
        ),
    ]


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure and print the table."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--quick", action="store_true", help="short runs, for a look")
    parser.add_argument(
        "--requests", type=int, default=None, help="requests of the memory run (default 20,000; quick 500)"
    )
    parser.add_argument("--only", choices=["http", "process"], help="one half of it")
    chosen = parser.parse_args(arguments)
    if chosen.only != "process" and shutil.which("wrk") is None:
        sys.exit("wrk is not here: apt-get install wrk")
    requests = chosen.requests if chosen.requests is not None else 500 if chosen.quick else 20_000
    load_before = os.getloadavg()[0]
    rows: list[tuple[str, str, str]] = []
    if chosen.only != "process":
        rows += over_http(chosen.quick, requests)
    if chosen.only != "http":
        rows += in_process(chosen.quick)
    print(f"{'what':<64} {'measured':<44} wanted")
    for what, measured, wanted in rows:
        print(f"{what:<64} {measured:<44} {wanted}")
    after = os.getloadavg()[0]
    print(f"Python {sys.version.split()[0]}, {os.cpu_count()} cores, load {load_before:.1f} to {after:.1f}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
