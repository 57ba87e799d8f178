"""What buying is measured by, and that a proof of least buying says so."""

import copy

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from worked import SHELF


@pytest.mark.parametrize(("cost", "measure", "least"), [(61.5, "cost", 6150), (None, "area", 2440 * 1220)])
def test_buying_counts_by_cost_where_every_size_has_one_else_by_area(registry, cost, measure, least):
    # All parts of the shelf go on one sheet of 2440 × 1220 mm, and less than one cannot be bought: 6150
    # cents, or its area in square millimetres.
    job = copy.deepcopy(SHELF)
    job["stock"]["sheets"][0]["cost"] = cost
    plan = make_plan(read_job(job, registry), registry)
    assert plan.stock is not None
    (bound,) = plan.stock.bounds
    assert (bound.measure, bound.least, bound.bought) == (measure, least, least)
