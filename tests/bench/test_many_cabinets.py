"""Many cabinets: sixty planned in under two seconds of one core without stock, and a cost a cabinet that stays flat.

Times are process time of one thread, the least of a few runs, so that other work on the machine counts little.
`pytest --full` goes to 500 cabinets; the default run to 120. Every cabinet differs in width from its neighbours, has a
face frame, a pair of doors, shelves and a bevelled cleat, and hangs at a place of its own on a wall with studs.
"""

import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import FrameType

sys.path.insert(0, str(Path(__file__).parent))

import pytest
from casewright.api.engine import PlanCache, make_plan
from casewright.api.engine.cabinet import plan_cabinet
from casewright.api.engine.construction.context import Context, job_of
from casewright.api.job.document import read_job
from casewright.api.wire.plan_document import SECTIONS, plan_document
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Job
from slowness import slowness

SIXTY_SECONDS = 2.0
FLAT = 1.6
"""Cost a cabinet at the most against that at ten: room for the collector, which walks a plan that is all alive."""

ROW = 60


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def many(count: int) -> dict:
    """Return a job of `count` cabinets in rows of sixty."""
    cabinet = {
        "height": 33,
        "depth": 11,
        "case": {
            "material": "case",
            "corner": {"method": "housed-groove", "depth": "1/4"},
            "top_inset": "3/4",
            "bottom_inset": "3/4",
            "back": {"material": "case", "inset": "3/4", "joint": {"method": "housed-groove"}},
        },
        "space": {"tiers": [{"size": 20, "front": "door-pair", "fixed_shelves": 1}, {"front": "open"}]},
        "face_frame": {"material": "frame", "stile": "1 3/4", "rail": "1 3/4", "joint": {"method": "loose-tenon"}},
        "doors": {"style": "cope-and-stick", "overlay": "1/2", "hinge": "cup-35", "panel": "infill"},
        "mounting": {"method": "bevel-cleat", "contents_kg": 40},
    }
    ids = [f"bay-{i}" for i in range(count)]
    return {
        "title": "Repair bay",
        "units": "in",
        "materials": {
            "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "0.709"},
            "frame": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
            "infill": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "0.205"},
        },
        "house": cabinet,
        "cabinets": [{"id": name, "width": 24 + i % 8 * 0.5} for i, name in enumerate(ids)],
        "wall": {
            "studs": {"at": [7 + 16 * i for i in range(120)], "stuff": "spruce-pine-fir"},
            "cabinets_at": {name: [{"x": i % ROW * 30, "z": 54 + i // ROW * 40}] for i, name in enumerate(ids)},
        },
        "rates": {"hour": 40, "minutes": {"rip": 2}},
    }


def least(times: int, work: Callable[[], object]) -> float:
    """Return the least process time of some runs of `work`, in seconds."""
    best = float("inf")
    for _ in range(times):
        began = time.process_time()
        work()
        best = min(best, time.process_time() - began)
    return best


def calls(work: Callable[[], object]) -> int:
    """Return how many Python functions `work` calls: a cost that other work on the machine does not move."""
    counted = 0

    def count(frame: FrameType, event: str, arg: object) -> None:
        nonlocal counted
        counted += event == "call"

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        work()
    finally:
        sys.setprofile(before)
    return counted


def test_sixty_cabinets_in_two_seconds(registry: Registry) -> None:
    document = many(60)
    before = slowness()
    took = least(5, lambda: make_plan(read_job(document, registry), registry, with_stock=False))
    slower = max(before, slowness())
    print(f"60 cabinets: {took:.2f} s on a machine {slower:.1f} times slower")
    assert took / slower < SIXTY_SECONDS


def test_the_cost_a_cabinet_is_flat(registry: Registry, full: bool) -> None:
    """The default run counts calls; `--full` also times, on a machine left alone."""
    counted = {}
    for count in (10, 60, 500) if full else (10, 60):
        job = read_job(many(count), registry)
        counted[count] = calls(lambda job=job: make_plan(job, registry, with_stock=False)) / count
    print("; ".join(f"{count}: {cost:.0f} calls a cabinet" for count, cost in counted.items()))
    assert max(counted.values()) <= 1.1 * counted[10]
    if not full:
        return
    each: dict[int, float] = {}
    for count in (1, 10, 60, 200, 500):
        job = read_job(many(count), registry)
        took = least(3 if count <= 60 else 2, lambda job=job: make_plan(job, registry, with_stock=False))
        each[count] = took / count
    print("; ".join(f"{count}: {1000 * cost:.2f} ms a cabinet" for count, cost in each.items()))
    assert max(cost for count, cost in each.items() if count >= 10) <= FLAT * each[10]


def test_writing_costs_a_cabinet_the_same_among_many(registry: Registry) -> None:
    each = {}
    for count in (10, 60):
        plan = make_plan(read_job(many(count), registry), registry, with_stock=False)
        each[count] = calls(lambda plan=plan: plan_document(plan, {}, "", SECTIONS)) / count
    print("; ".join(f"{count}: {cost:.0f} calls a cabinet" for count, cost in each.items()))
    assert each[60] <= 1.1 * each[10]


def test_a_count_of_one_cabinet_costs_no_more_than_the_cabinet(registry: Registry) -> None:
    document = many(1)
    document["wall"]["cabinets_at"] = {}
    one = read_job(document, registry)
    document["cabinets"][0]["count"] = 500
    batch = read_job(document, registry)
    alone = calls(lambda: make_plan(one, registry, with_stock=False))
    assert calls(lambda: make_plan(batch, registry, with_stock=False)) <= 1.1 * alone


def test_planning_again_with_one_of_twenty_changed_costs_that_cabinet_and_the_jobs_own_stages(
    registry: Registry,
) -> None:
    """At the most 1.3 times that cabinet, beside what a plan with nothing changed costs: run, order, costs, checks.

    With nothing changed no cabinet is planned: what twenty cost alone, less a tenth to find them again, is saved.
    """
    job = read_job(many(20), registry)
    seventh = replace(job.cabinets[6], height=job.cabinets[6].height - 1_000_000)
    changed = replace(job, cabinets=(*job.cabinets[:6], seventh, *job.cabinets[7:]))
    cache = PlanCache()

    def again(one: Job) -> Callable[[], object]:
        return lambda: make_plan(one, registry, with_stock=False, cache=cache)

    whole = calls(again(job))
    own_stages = calls(again(job))
    replanned = calls(again(changed))
    alone = calls(lambda: plan_cabinet(Context(job_of(changed, seventh), seventh, registry)))
    print(f"twenty: {whole} calls; nothing changed: {own_stages}; one changed: {replanned}; that one alone: {alone}")
    assert replanned <= 1.3 * alone + own_stages
    assert whole - own_stages >= 0.9 * 20 * alone
