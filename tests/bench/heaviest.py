"""The heaviest jobs within the limits at every view: `python tests/bench/heaviest.py [--only labels] [--seconds 60]`.

Each path that takes a job is asked, in each of its formats, for jobs at the limits of `/v1/limits`: cabinets, none
like another, on one wall; fewer of them cut from stock; loose parts and offcuts. A job is planned once; each answer is
made of that plan by a process of its own, as by a worker. Printed: processor time with that of the plan, bytes of the
answer, and the most memory that the process had, at the end and by the time that the budget of a request ends it; what
takes more than `--seconds` is broken off. Fails where an answer is no answer, or where heavy requests in all the
workers that may have them would take more memory than a container of `api/deploy/kubernetes.yaml` has.
"""

import argparse
import json
import multiprocessing
import os
import re
import signal
import sys
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

import yaml
from casewright.api.job import limits
from casewright.api.use import kept
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import OF_PARTS
from casewright.api.web import create_app
from casewright.api.web.gateway import KEPT_BYTES
from casewright.api.web.jobs import KEY
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.views import VIEWS

sys.path.insert(0, str(Path(__file__).parent))

from schema_jobs import PUBLISHED, followed, job_body
from test_many_cabinets import many

MANIFEST = Path(__file__).parents[2] / "api" / "deploy" / "kubernetes.yaml"
MIB = 2**20
CUT_PARTS_A_CABINET = 25
"""Of the cabinets of `many`, as the refusal of too many of them says."""

SMALL_WORKER_MIB = 250
"""What the worker that is left to small requests may have, with what it keeps of plans."""

FORKED = multiprocessing.get_context("fork")
Job = Mapping[str, Any]


def cut_from_stock() -> Job:
    """Return as many cabinets as may be cut from stock, with as much of that as they need."""
    cabinets = many(limits.CUT_PARTS // CUT_PARTS_A_CABINET - 10)
    sheets = [{"id": f"{key}-sheet", "material": key, "length": 96, "width": 48} for key in ("case", "infill")]
    boards = [{"id": "frame-board", "material": "frame", "length": 120, "width": 8, "thickness": "3/4"}]
    return {**cabinets, "stock": {"sheets": sheets, "boards": boards, "effort": limits.EFFORT}}


def loose_parts() -> Job:
    """Return as many loose parts as may be cut, none like another, and as many offcuts as may be listed."""
    each = limits.CUT_PARTS // limits.LOOSE_PARTS
    parts = [
        {"id": f"p{i}", "material": "ply", "length": 201 + i, "width": 97 + i * 7 % 300, "quantity": each}
        for i in range(limits.LOOSE_PARTS)
    ]
    offcuts = [
        {"id": f"o{i}", "material": "ply", "length": 400 + i, "width": 300 + i} for i in range(limits.STOCK_ROWS - 1)
    ]
    sheet = {"id": "sheet", "material": "ply", "length": 2440, "width": 1220}
    return {
        "title": "Loose parts",
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "loose_parts": parts,
        "stock": {"sheets": [sheet], "offcuts": offcuts, "effort": limits.EFFORT},
    }


def jobs() -> dict[str, tuple[Job, tuple[bool | None, ...]]]:
    """Return the jobs by name, each with what it is asked for: plans with stock, without it, or several."""
    return {
        f"{limits.CABINETS_IN_ALL} cabinets": (many(limits.CABINETS_IN_ALL), (False, True, None)),
        "cabinets from stock": (cut_from_stock(), (True, None)),
        "loose parts": (loose_parts(), (True,)),
    }


def body_of(path: str, job: Job) -> Any:
    """Return what a path is sent: the job, or the job and what is asked of it."""
    if path == "compare":
        deeper = [
            {"op": "replace", "path": "/house/depth", "value": 10 + number / 8} for number in range(limits.CHANGES)
        ]
        return {"job": job, "changes": [{"name": f"depth {one['value']}", "patch": [one]} for one in deeper]}
    if path == "from-stock":
        first, *others = job["cabinets"]
        spread = {"least": first["width"], "most": first["width"] + 48, "step": 0.125}
        return {"job": {**job, "cabinets": [{**first, "width": spread}, *others]}}
    return job


def requests() -> Iterator[tuple[str, str]]:
    """Yield each path that takes a job, less its first steps, with each of its formats."""
    published = json.loads(PUBLISHED.read_text("utf-8"))
    for path, operations in published["paths"].items():
        if not job_body(published, operations):
            continue
        for parameter in operations["post"]["parameters"]:
            parameter = followed(published, parameter)
            if parameter["name"] == "as":
                yield from ((path.removeprefix("/v1/"), form) for form in parameter["schema"]["enum"])


@dataclass(frozen=True)
class Cost:
    """What an answer took: status, bytes, seconds of processor time, MiB in all and by the end of the budget."""

    status: int
    size: int
    seconds: float
    most: float
    within: float

    def text(self) -> str:
        came = f"{self.status} {self.size:>10}" if self.status else "broken off    "
        return f"{came} bytes {self.seconds:>6.1f} s {self.most:>6.0f} MiB, in the budget {self.within:>5.0f}"


def peak() -> float:
    """Return the most MiB that this process has had."""
    status = Path("/proc/self/status").read_text()
    return int(status.partition("VmHWM:")[2].split()[0]) / 1024


def measured(client: Any, question: tuple[str, str, bytes], planned: float, longest: float, sent: Connection) -> None:
    """Ask, and send what it took; a timer of processor time looks at memory, and breaks off what takes too long."""
    path, form, body = question
    within = [0.0]

    def look(_number: int, _frame: Any) -> None:
        took = planned + time.process_time() - since
        if took <= limits.BUDGET_SECONDS:
            within[0] = peak()
        if took > longest:
            sent.send(Cost(0, 0, took, peak(), within[0] or peak()))
            os._exit(0)

    signal.signal(signal.SIGPROF, look)
    since = time.process_time()
    signal.setitimer(signal.ITIMER_PROF, 0.05, 0.05)
    answer = client.post(f"/v1/{path}?as={form}", data=body, content_type="application/json")
    size = len(answer.data)
    signal.setitimer(signal.ITIMER_PROF, 0)
    took = planned + time.process_time() - since
    most = peak()
    over = took > limits.BUDGET_SECONDS
    sent.send(Cost(answer.status_code, size, took, most, (within[0] if over else most) or most))


def in_a_process(client: Any, question: tuple[str, str, bytes], planned: float, longest: float) -> Cost:
    """Return what an answer takes in a process forked from this one."""
    received, sent = FORKED.Pipe(duplex=False)
    process = FORKED.Process(target=measured, args=(client, question, planned, longest, sent))
    process.start()
    sent.close()
    try:
        cost: Cost = received.recv()
    finally:
        process.join()
    return cost


def group(name: str, job: Job, stock: bool | None, chosen: argparse.Namespace, most: float) -> None:
    """Ask for all that needs a plan with stock, or one without it, or plans of its own; end by whether all was well."""
    kept.PARTS = 10**9
    app = create_app()
    client, planner = app.test_client(), app.extensions[KEY]
    well, planned = True, 0.0
    for path, form in requests():
        if needs_stock(path) is not stock or not re.search(chosen.only, path):
            continue
        if stock is not None and not planned:
            planner.plan(JobInput(job, planner.registry), with_stock=stock)
            planned = time.process_time()
        body = json.dumps(body_of(path, job)).encode()
        cost = in_a_process(client, (path, form, body), planned, chosen.seconds)
        fault = cost.status not in (0, 200) or cost.within > most
        print(f"{path:<20} {form:<6} {name:<20} {cost.text()}{' FAULT' if fault else ''}", flush=True)
        well = well and not fault
    sys.exit(0 if well else 1)


def needs_stock(path: str) -> bool | None:
    """Return whether a path plans how the job is cut from stock; None where it makes plans of its own."""
    views = {view.name: not OF_PARTS.issuperset(view.sections) for view in VIEWS}
    return {**views, **{paper.path: paper.with_stock for paper in PAPER_KINDS}}.get(path)


def main() -> int:
    """Measure, print, and return 1 where a limit is broken."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--only", default="", help="which paths, as a regular expression")
    parser.add_argument("--job", default="", help="which jobs, likewise")
    parser.add_argument("--seconds", type=float, default=3.0 * limits.BUDGET_SECONDS, help="most processor time")
    chosen = parser.parse_args()
    deployment = next(yaml.safe_load_all(MANIFEST.read_text("utf-8")))
    (container,) = deployment["spec"]["template"]["spec"]["containers"]
    whole = int(container["resources"]["limits"]["memory"].removesuffix("Mi"))
    workers = next(int(entry["value"]) for entry in container["env"] if entry["name"] == "CASEWRIGHT_WORKERS")
    most = (whole - KEPT_BYTES // MIB - SMALL_WORKER_MIB) / (workers - 1)
    faults = 0
    for name, (job, stocks) in jobs().items():
        if not re.search(chosen.job, name):
            continue
        for stock in stocks:
            process = FORKED.Process(target=group, args=(name, job, stock, chosen, most))
            process.start()
            process.join()
            faults += process.exitcode != 0
    print(f"of {whole} MiB a heavy request may have {most:.0f}; load {os.getloadavg()[0]:.1f}")
    return int(faults > 0)


if __name__ == "__main__":
    sys.exit(main())
