"""Plans that are kept: found by the whole job alone, bounded, and never noticed but by the time an answer takes."""

import copy
import json
from pathlib import Path

import pytest
from casewright.api.use import planning
from casewright.api.use.kept import PARTS, KeptPlans
from casewright.api.web import create_app
from casewright.api.web.guard import Guard
from casewright.api.web.settings import Settings

EXAMPLES = Path(__file__).resolve().parents[3] / "openapi" / "examples"
JOB = json.loads((EXAMPLES / "repair-bay.json").read_text())
DEMO = {key: value for key, value in JOB.items() if key not in ("stock", "rates")}
PATHS = ("/v1/plan", "/v1/parts", "/v1/hardware?as=csv", "/v1/steps", "/v1/checks", "/v1/drawings/elevation")


class Sized:
    """Stands for a plan of so many parts."""

    def __init__(self, parts: int) -> None:
        self.parts = range(parts)


def client(kept: int):
    return create_app(guard=Guard(Settings(kept_plans=kept))).test_client()


@pytest.fixture
def planned(monkeypatch):
    """Count the plans made."""
    made = []
    plain = planning.make_plan

    def count(*arguments, **named):
        made.append(named)
        return plain(*arguments, **named)

    monkeypatch.setattr(planning, "make_plan", count)
    return made


def test_all_views_of_one_job_are_planned_once_and_say_the_same(planned):
    fresh, keeping = client(0), client(4)
    for path in PATHS:
        first = fresh.post(path, json=DEMO)
        assert first.status_code == 200
        for _ in range(2):
            again = keeping.post(path, json=DEMO)
            assert (again.data, again.headers["ETag"]) == (first.data, first.headers["ETag"])
    without = [made for made in planned if not made["with_stock"]]
    # the fresh app plans for each view; the keeping one once with stock and once without, at most
    assert len(planned) <= len(PATHS) + 2
    assert without


def test_another_job_is_never_answered_with_a_kept_plan(planned):
    keeping, fresh = client(16), client(0)
    jobs = []
    for path, value in (
        (("cabinets", 0, "width"), 27),
        (("house", "depth"), 12),
        (("materials", "case", "thickness"), 0.7),
    ):
        job = copy.deepcopy(DEMO)
        at = job
        for step in path[:-1]:
            at = at[step]
        at[path[-1]] = value
        jobs.append(job)
    answers = [keeping.post("/v1/plan", json=job).data for job in (DEMO, *jobs, DEMO, *jobs)]
    assert len(planned) == 4
    assert answers[:4] == answers[4:]
    assert len(set(answers)) == 4
    assert answers[:4] == [fresh.post("/v1/plan", json=job).data for job in (DEMO, *jobs)]


def test_a_job_that_cannot_be_used_leaves_nothing():
    app = create_app(guard=Guard(Settings(kept_plans=4)))
    bad = {**DEMO, "cabinets": [{**DEMO["cabinets"][0], "width": -1}]}
    assert app.test_client().post("/v1/plan", json=bad).status_code in (400, 422)
    assert len(app.extensions["casewright"].kept) == 0


def test_the_longest_unused_goes_first():
    kept = KeptPlans(2)
    a, b, c = Sized(1), Sized(1), Sized(1)
    kept.keep(("a", False), a)
    kept.keep(("b", False), b)
    assert kept.find(("a", False)) is a
    assert kept.find(("a", True)) is None
    kept.keep(("c", False), c)
    assert kept.find(("b", False)) is None
    assert kept.find(("a", False)) is a
    assert kept.find(("c", False)) is c


def test_parts_and_plans_are_bounded():
    kept = KeptPlans(100)
    kept.keep(("large", False), Sized(PARTS + 1))
    assert len(kept) == 0
    for i in range(50):
        kept.keep((str(i), False), Sized(PARTS // 10))
    assert len(kept) == 10
    for _ in range(3):
        kept.keep(("one", False), Sized(1))
    assert sum(kept.find((str(i), False)) is not None for i in range(50)) == 9
