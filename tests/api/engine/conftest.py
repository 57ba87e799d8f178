"""A small cabinet that tests change one thing of."""

import copy

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context, job_of
from casewright.api.job.document import read_job

DOCUMENT = {
    "title": "Repair bay",
    "units": "mm",
    "materials": {
        "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6},
        "frame": {"kind": "board", "stuff": "red-oak", "thickness": 19},
        "edging": {"kind": "band", "stuff": "red-oak", "thickness": 1},
    },
    "cabinets": [
        {"id": "bay", "width": 800, "height": 900, "depth": 320, "case": {"material": "case"}, "space": {}},
    ],
    "shop": {"fit": 0},
}


@pytest.fixture
def document():
    """Return a function that makes a job document: the small cabinet with what is given laid over it."""

    def make(cabinet=None, case=None, **top):
        out = copy.deepcopy(DOCUMENT)
        out["cabinets"][0].update(cabinet or {})
        out["cabinets"][0]["case"].update(case or {})
        for key, value in top.items():
            out[key] = {**out[key], **value} if isinstance(out.get(key), dict) else value
        return out

    return make


@pytest.fixture
def planned(document, registry):
    """Return a function that plans the small cabinet with what is given laid over it."""

    def make(cabinet=None, case=None, using=registry, **top):
        return make_plan(read_job(document(cabinet, case, **top), using), using)

    return make


@pytest.fixture
def building(document, registry):
    """Return a function that reads the small cabinet and gives the construction before its first part."""

    def make(cabinet=None, case=None, using=registry, **top):
        job = read_job(document(cabinet, case, **top), registry)
        cabinet = job.cabinets[0]
        return Construction(Context(job_of(job, cabinet), cabinet, using))

    return make


@pytest.fixture
def part_of():
    """Return a function that finds a part of a plan by the end of its id."""

    def find(plan, key):
        (part,) = [p for p in plan.parts if p.id.split("/", 1)[1] == key]
        return part

    return find


@pytest.fixture
def codes():
    """Return a function that lists (level, code, subject) of a plan's checks, of some codes or of all."""

    def find(plan, *wanted):
        return [(c.level, c.code, c.subject) for c in plan.checks if not wanted or c.code in wanted]

    return find
