"""Jobs from the published document: what the drawer makes, and a few of them sent (more: `schema_jobs.py`)."""

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from schema_jobs import PUBLISHED, Jobs, faults, tried


@pytest.fixture(scope="module")
def published():
    return json.loads(PUBLISHED.read_text())


def test_a_draw_can_be_repeated_and_most_draws_differ(published):
    first, again = ([one.draw() for _ in range(20)] for one in (Jobs(published, 3), Jobs(published, 3)))
    assert first == again
    assert len({json.dumps(job) for job in first}) > 15


def test_overlapping_and_missing_are_faults():
    placed = {"along_length": 4, "along_width": 2, "y": 0}
    layout = {"stock": "sheet", "length": 8, "width": 4, "parts": [{**placed, "part": "a", "x": 0}]}
    plan = {
        "parts": [{"id": "a", "length": 4, "width": 2, "thickness": 1, "quantity": 1}],
        "steps": [{"number": 1, "needs": []}],
        "checks": [], "joints": [], "dry_fit": {"clashes": []}, "stock": {"layouts": [layout]},
    }  # fmt: skip
    assert [*faults(plan)] == []
    layout["parts"].append({**placed, "part": "b", "x": 3})
    assert [*faults(plan)] == ["a and b overlap on sheet"]
    layout["parts"][1]["x"] = 5
    assert [*faults(plan)] == ["b leaves sheet"]
    plan["steps"][0]["needs"] = [1]
    assert "a step needs a later one" in [*faults(plan)]


def test_no_fault_in_a_few():
    answers, wrong = tried(jobs=12, seed=20261127, every=1000, views=())
    assert wrong == []
    assert sum(answers.values()) == 12
