"""Generated wall jobs that stop: how many stops get a cure, and that each cure clears its stop when planned anew.

The jobs are those of `wall_jobs.wall_job` by the seeds from 1. The default run takes the first that stop; with `--full`
there are 300, and these figures are asked for: a cure for 90 % of the stops, at most 60 tries a job, 95 % of the jobs
in less than 2 s of processor time, divided by how slow the machine is (`slowness`). Facts to be found out count as
stops without a cure.
"""

import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.job.json_patch import patched, read_patch
from casewright.api.job.problems import Findings
from casewright.api.use.cures import find_cures
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from casewright.sdk.model.cures import Cures
from slowness import slowness
from wall_jobs import wall_job

JOBS, JOBS_FULL = 8, 300
SHARE, MOST_TRIES, SECONDS = 0.9, 60, 2.0
MANY = 20
"""Stops of a code from which its own share of cures says something."""


@dataclass(frozen=True)
class Tried:
    """A job that stops, its cures, and the processor time they took, divided by how slow the machine was then."""

    seed: int
    job: dict[str, Any]
    cures: Cures
    seconds: float


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def tried(registry: Registry, count: int) -> Iterator[Tried]:
    planner, seed = Planner(registry), 0
    while count:
        seed += 1
        job = wall_job(seed)
        begun = time.process_time()
        cures = find_cures(planner, JobInput(job, registry))
        if cures.stops:
            count -= 1
            spent = time.process_time() - begun
            yield Tried(seed, job, cures, spent / slowness(2))


def stops(plan: Plan) -> set[tuple[str, str]]:
    return {(check.code, check.subject) for check in plan.checks if check.level == "stop"}


def planned(job: dict[str, Any], registry: Registry) -> set[tuple[str, str]]:
    return stops(make_plan(read_job(job, registry), registry))


def test_stops_are_cured(registry: Registry, full: bool) -> None:
    """Every cure is applied and planned by itself, with no cache: its stop is gone, and no stop is new."""
    every, cured, seconds = Counter[str](), Counter[str](), []
    for one in tried(registry, JOBS_FULL if full else JOBS):
        seconds.append(one.seconds)
        assert one.cures.tries <= MOST_TRIES, one.seed
        before = planned(one.job, registry)
        known: dict[str, set[tuple[str, str]]] = {}
        for stop in one.cures.stops:
            every[stop.check.code] += 1
            cured[stop.check.code] += bool(stop.cures)
            assert bool(stop.cures) is not bool(stop.why_none), one.seed
            for cure in stop.cures:
                name = repr(cure.patch)
                if name not in known:
                    findings = Findings()
                    job = patched(one.job, read_patch(cure.patch, "", findings))
                    assert not findings.schema
                    known[name] = planned(job, registry)
                key = (stop.check.code, stop.check.subject)
                assert key in before
                assert key not in known[name], (one.seed, cure.words)
                assert known[name] <= before, (one.seed, cure.words)
    late = sorted(seconds)[len(seconds) * 95 // 100]
    print(f"\n{'code':28}{'stops':>7}{'cured':>7}")
    for code, count in sorted(every.items()):
        print(f"{code:28}{count:7}{cured[code]:7}")
    print(f"{'all':28}{every.total():7}{cured.total():7}   95 % of jobs within {late:.2f} s")
    assert cured.total() >= SHARE * every.total()
    if full:
        assert late < SECONDS
        alone = {code: count for code, count in every.items() if code not in ("clash", "not-seated")}
        assert sum(cured[code] for code in alone) >= SHARE * sum(alone.values())  # these two come in dozens a door
        assert all(cured[code] > 0 for code, count in every.items() if count >= MANY)


def test_the_same_job_gets_the_same_cures(registry: Registry) -> None:
    first, again = (tuple(one.cures for one in tried(registry, 2)) for _ in range(2))
    assert first == again
