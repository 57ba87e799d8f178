"""What is cut at any place of ranges, held against the job planned there itself."""

from random import Random

import pytest
from casewright.api.engine import PlanCache
from casewright.api.job.ranges import read_question
from casewright.api.use.job_input import JobInput
from casewright.api.use.least_change import request_of
from casewright.api.use.pile_outlines import Outlines
from casewright.api.use.pile_sizes import PileSizes, Planned
from casewright.api.use.planning import Planner
from casewright.api.wire.from_stock_document import outside_volume, stop_codes

PLY = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}
OFFCUTS = {"kerf": 3, "offcuts": [{"id": "one", "material": "ply", "length": 2000, "width": 900}]}


def size(least, most, step=10):
    return {"least": least, "most": most, "step": step}


SHELVED = {
    "id": "shelved", "width": size(300, 700), "height": size(400, 900, 7), "depth": 250,
    "count": {"least": 1, "most": 3}, "case": {"material": "ply"}, "space": {"fixed_shelves": {"least": 0, "most": 2}},
}  # fmt: skip
TALL = {"id": "tall", "height": 800, "count": 2, "case": {"material": "ply"}}
DRAWERS = {
    "id": "drawers", "form": "base", "width": 500, "height": 700, "depth": size(350, 600), "case": {"material": "ply"},
    "space": {"front": "drawer", "drawers": 3}, "drawers": {"overlay": 8},
}  # fmt: skip
JOBS = {
    "ranges of its own": {"cabinets": [SHELVED]},
    "ranges of its house": {"cabinets": [SHELVED, TALL], "house": {"width": size(400, 800), "depth": size(200, 300)}},
    "runners of lengths that are sold": {"cabinets": [DRAWERS]},
}


class Case:
    """A question, what is asked of places of it, and how many were planned."""

    def __init__(self, name, registry):
        body = {"job": {"units": "mm", "materials": {"ply": PLY}, "stock": OFFCUTS, **JOBS[name]}}
        self.question = read_question(body, registry)
        self.planner, self.cache, self.count = Planner(registry), PlanCache(), 0
        self.top = [len(one.values) - 1 for one in self.question.ranges]
        self.job = self.draft([0] * len(self.top)).job

    def draft(self, point):
        return self.planner.draft(JobInput(self.question.job(point), self.planner.registry), self.cache)

    def planned(self, point):
        self.count += 1
        draft = self.draft(point)
        demands = {}
        for one in request_of(draft).demands:
            demands.setdefault(one.id.split("/")[0], []).append(one)
        return Planned({name: tuple(some) for name, some in demands.items()}, stop_codes(draft.checks))

    def sizes(self):
        return PileSizes(self.question.ranges, [one.id for one in self.job.cabinets], self.planned, frozenset())


def cut(demands):
    return sorted((one.quantity, one.length, one.width) for one in demands)


@pytest.mark.parametrize("name", JOBS)
def test_parts_are_as_the_job_at_each_place_has_them_to_a_few_nanometres(name, registry):
    case, rng = Case(name, registry), Random(5)
    sizes, outlines = case.sizes(), Outlines(case.question, case.job)
    for _ in range(12):
        point = tuple(rng.randint(0, most) for most in case.top)
        draft = case.draft(point)
        planned = [one for some in case.planned(point).demands.values() for one in some]
        for mine, its in zip(cut(sizes.demands(point)), cut(planned), strict=True):
            assert mine == pytest.approx(its, abs=20)
        assert outlines.volume(point) == outside_volume(draft.job)


def test_places_between_are_not_planned_where_sizes_grow_evenly(registry):
    case = Case("ranges of its own", registry)
    sizes = case.sizes()
    places = [(2, width, height, 1) for width in range(0, 40, 5) for height in range(0, 70, 10)]
    assert [one.path[-1] for one in case.question.ranges] == ["count", "height", "width", "fixed_shelves"]
    for count, width, height, shelves in places:
        sizes.demands((count, height, width, shelves))
    # least, two tops, two halfway, both at their greatest, and the least of all ranges before
    assert case.count <= 7


def test_what_does_not_grow_evenly_is_planned_at_each_place(registry):
    case = Case("runners of lengths that are sold", registry)
    sizes = case.sizes()
    for depth in range(20):
        sizes.demands((depth,))
    assert case.count >= 20


def test_a_stop_of_a_larger_cabinet_is_asked_once(registry):
    case = Case("ranges of its own", registry)
    least = (0,) * 4
    sizes = case.sizes()
    assert sizes.allowed(least)
    before = case.count
    assert sizes.allowed(least)
    assert case.count == before
