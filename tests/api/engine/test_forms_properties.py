"""What must hold for base and tall cabinets with drawers: sums, sizes, no clash, seats, drawers that open.

The default run takes a recorded smaller count; `pytest --full` runs 500 jobs and 50 with the solid kernel
(manifold3d, a general-purpose library: interference under 1 mm³ a pair).
"""

from collections.abc import Callable

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from casewright.sdk.testing import assert_dry_fit, assert_outside, assert_sums
from casewright.sdk.testing.drawing import over
from casewright.sdk.testing.forms import standing_jobs
from kernel import interference

JOBS, JOBS_FULL = 60, 500
KERNEL, KERNEL_FULL = 8, 50


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def run(count: int, registry: Registry, check: Callable[[Plan], None]) -> None:
    """Plan `count` drawn jobs and check each."""
    over(count, "jobs", lambda job: check(make_plan(read_job(job, registry), registry)), job=standing_jobs())


def test_every_standing_plan_is_sound(registry: Registry, full: bool) -> None:
    def check(made: Plan) -> None:
        assert_sums(made)
        assert_outside(made)
        assert_dry_fit(made)
        assert [c for c in made.checks if c.code in ("drawer-blocked", "web", "outside-size")] == []

    run(JOBS_FULL if full else JOBS, registry, check)


def test_an_independent_solid_kernel_agrees_on_drawers(registry: Registry, full: bool) -> None:
    drawers = []

    def check(made: Plan) -> None:
        drawers.extend(part.id for part in made.parts if part.role == "drawer-front")
        assert [shared for shared in interference(made.parts) if shared[2] >= 1.0] == []

    run(KERNEL_FULL if full else KERNEL, registry, check)
    assert len(drawers) > 5
