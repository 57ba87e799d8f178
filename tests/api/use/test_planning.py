"""The one path read, plan, write: what it keeps, what it leaves out, and what using it in process imports."""

import subprocess
import sys
from typing import Any

import pytest
from casewright.api.engine import PlanCache
from casewright.api.use import planning
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner, make, plan_job
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry

STOCK = {"sheets": [{"id": "full", "material": "mdf", "length": 2440, "width": 1220}], "effort": 1}


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[bool]:
    """Return a list that grows by each plan made: whether with stock."""
    calls: list[bool] = []
    plain = planning.make_plan

    def count(*arguments: Any, **named: Any) -> Any:
        calls.append(named["with_stock"])
        return plain(*arguments, **named)

    monkeypatch.setattr(planning, "make_plan", count)
    return calls


def test_stock_is_planned_for_every_section_but_those_of_parts(
    registry: Registry, job: dict[str, Any], made: list[bool]
) -> None:
    planner = Planner(registry)
    for sections in (("parts",), ("stock",), ("costs", "parts"), ("steps",), ("summary", "checks")):
        document = planner.document(JobInput(job, registry), sections)
        assert set(sections) <= set(document)
    assert made == [False, True, True, True, True]


@pytest.mark.parametrize("copies", [None, 1])
def test_parts_are_the_same_whether_stock_is_planned_or_not(
    registry: Registry, job: dict[str, Any], copies: int | None
) -> None:
    # one sheet of 200 x 200 yields hardly any part: what is short is said in both
    sheet = {**STOCK["sheets"][0], "copies": copies, **({"length": 200, "width": 200} if copies else {})}
    document = {**job, "stock": {**STOCK, "sheets": [sheet]}}
    names = ("summary", "parts", "hardware")
    alone = Planner(registry).document(JobInput(document, registry), names)
    whole = Planner(registry).document(JobInput(document, registry))
    assert alone == {key: whole[key] for key in alone}
    assert any(part["no_stock"] for part in whole["parts"]) == (copies is not None)


def test_a_saw_that_is_lacking_stops_every_section(registry: Registry, job: dict[str, Any]) -> None:
    # nothing of these two rips: only how sheets are cut says that no machine does it
    document = {**job, "stock": STOCK, "shop": {"machines": ["drill", "by-hand"]}}
    alone = Planner(registry).document(JobInput(document, registry), ("parts",))
    assert alone["stops"] == Planner(registry).document(JobInput(document, registry))["stops"] > 0


def test_a_kept_plan_is_not_made_again_but_where_its_progress_is_asked_for(
    registry: Registry, job: dict[str, Any], made: list[bool]
) -> None:
    planner, given = Planner(registry, keep=2), JobInput(job, registry)
    first = planner.plan(given)
    assert planner.plan(JobInput(dict(job), registry)) is first
    assert len(made) == 1
    steps: list[tuple[str, int, int]] = []
    assert planner.plan(given, progress=lambda *step: steps.append(step)) == first
    assert len(made) == 2
    assert steps[0][0] == "cabinets"
    assert planner.plan(given, with_stock=False) is not first


def test_nothing_is_kept_where_none_are_to_be_and_where_cutting_is_carried_over(
    registry: Registry, job: dict[str, Any], made: list[bool]
) -> None:
    given = JobInput(job, registry)
    for planner, cache in ((Planner(registry), None), (Planner(registry, keep=4), PlanCache())):
        assert planner.plan(given, cache=cache) is not planner.plan(given, cache=cache)
    assert len(made) == 4


def test_a_job_that_cannot_be_used_is_not_kept(registry: Registry, job: dict[str, Any]) -> None:
    planner = Planner(registry, keep=4)
    job["loose_parts"][0]["material"] = "oak"
    with pytest.raises(ProblemsError):
        planner.plan(JobInput(job, registry))
    assert planner.kept is not None
    assert len(planner.kept) == 0


def test_the_whole_plan_and_its_document_are_of_one_job(registry: Registry, job: dict[str, Any]) -> None:
    job["stock"] = STOCK
    both = Planner(registry).both(JobInput(job, registry))
    assert both.plan == make(job, registry)
    assert both.document == plan_job(job, registry)
    assert both.document["fingerprint"] == JobInput(job, registry).fingerprint


LIBRARIES = ("flask", "werkzeug", "gunicorn", "reportlab", "ezdxf", "openpyxl", "trimesh", "numpy", "segno")


def test_in_process_use_imports_neither_web_nor_paper_libraries(job: dict[str, Any]) -> None:
    code = f"import sys; from casewright.api import plan; plan({job!r}); "
    code += f"print(sorted(m for m in {LIBRARIES} if m in sys.modules))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    assert ran.stdout.strip() == "[]", ran.stdout + ran.stderr
