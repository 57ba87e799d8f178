"""Every built-in method in every place a job may put it, through the real planner.

For each: no clash, every guest seated, sizes that sum; on a sample manifold3d (general-purpose solid kernel) finds
under 1 mm³ a pair. The default run takes a recorded smaller count; `pytest --full` 200 jobs each, 20 with the kernel.
A job that a method must refuse (422) is drawn again.
"""

from typing import Any

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.loader import load
from casewright.sdk.testing import Using, assert_dry_fit, assert_sums, jobs
from casewright.sdk.testing.drawing import Declined, over
from casewright.sdk.testing.forms import CORNERS, standing_jobs
from hypothesis import strategies as st
from kernel import interference

JOBS, JOBS_FULL = 8, 200
KERNEL, KERNEL_FULL = 1, 20
REGISTRY = load(discover="built-in")
ENDS = ("rabbet", "mitre-spline")
"""Corner joints for tops and bottoms at the very ends of the sides."""


def cases() -> list[Any]:
    found: dict[str, st.SearchStrategy[dict[str, Any]]] = {}
    for method in REGISTRY.joints.values():
        for kind in sorted(method.does):
            inset = 0 if kind == "corner" and method.id in ENDS else None
            using: dict[str, Any] = {kind: {"method": method.id}, "top_inset": inset}
            found[f"{kind}-{method.id}"] = jobs(Using(**using))
    for style in REGISTRY.doors:
        found[f"door-{style}"] = jobs(Using(doors={"style": style}))
    for mounting in REGISTRY.mountings:
        found[f"mounting-{mounting}"] = jobs(Using(mounting={"method": mounting}))
    for corner in CORNERS:
        found[f"box-{corner}"] = boxes(corner)
    return [pytest.param(drawn, id=name) for name, drawn in found.items()]


def boxes(corner: str) -> st.SearchStrategy[dict[str, Any]]:
    """Return standing cabinets whose drawers all have one corner joint."""

    def put(job: dict[str, Any]) -> dict[str, Any]:
        job["cabinets"][0]["drawers"]["corner"] = {"method": corner}
        return job

    return standing_jobs().map(put)


def test_every_drawer_corner_has_a_case() -> None:
    assert set(CORNERS) == set(REGISTRY.boxes)


@pytest.mark.parametrize("drawn", cases())
def test_a_method_in_jobs(drawn: st.SearchStrategy[dict[str, Any]], full: bool) -> None:
    seen: list[int] = []

    def check(job: dict[str, Any]) -> None:
        try:
            plan = make_plan(read_job(job, REGISTRY), REGISTRY)
        except NoGeometryError:
            raise Declined from None
        assert_sums(plan)
        assert_dry_fit(plan)
        if len(seen) < (KERNEL_FULL if full else KERNEL):
            seen.append(len(plan.parts))
            assert [shared for shared in interference(plan.parts) if shared[2] >= 1.0] == []

    over(JOBS_FULL if full else JOBS, "jobs", check, job=drawn)
