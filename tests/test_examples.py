"""Every published example job is planned without a stop, cut from its stock, and drawn without a layout fault."""

import json
from importlib.resources import files
from typing import Any

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers import VIEWS, draw
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from overlap import overlaps

EXAMPLES = sorted(
    p.name for p in files("casewright.openapi").joinpath("examples").iterdir() if p.name.endswith(".json")
)


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def planned(name: str, registry: Registry) -> Plan:
    text = files("casewright.openapi").joinpath(f"examples/{name}").read_text("utf-8")
    job: dict[str, Any] = json.loads(text)
    return make_plan(read_job(job, registry), registry)


def test_there_are_the_three_complete_jobs() -> None:
    assert {"repair-bay.json", "tall-store.json", "workbench-run.json"} <= set(EXAMPLES)


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_is_planned_cut_and_drawn(name: str, registry: Registry) -> None:
    plan = planned(name, registry)
    assert [c for c in plan.checks if c.level == "stop"] == []
    assert plan.stock.short == ()
    assert plan.stock.returns.count == 0
    for view in VIEWS:
        for sheet in draw(plan, view):
            assert list(overlaps(sheet)) == [], (view, sheet)
