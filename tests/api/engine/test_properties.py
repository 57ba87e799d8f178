"""What must hold for every plan: reasons sum, sizes are the spec's, nothing clashes, everything is seated.

The default run takes a recorded smaller count; `pytest --full` runs 1,000 jobs and 50 with the solid kernel.
The independent kernel is manifold3d (general-purpose library), within the limits design sets: interference
under 1 mm³ a pair, volumes within 1e-6.
"""

import itertools
import json
from collections.abc import Callable

import pytest
from casewright.api import plan
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.findings import LENGTH
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Part, Plan, Setting, total
from casewright.sdk.sources import SOURCES
from casewright.sdk.testing import jobs
from casewright.sdk.testing.drawing import over
from kernel import interference, part_volume_mm3, prism_volume_mm3

JOBS, JOBS_FULL = 120, 1000
KERNEL, KERNEL_FULL = 12, 60


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def run(count: int, check: Callable[[dict], None]) -> None:
    """Draw `count` jobs from the kit's recorded seed and check each."""
    over(count, "jobs", check, job=jobs(cabinets=2))


def reasons_sum(made: Plan) -> None:
    for part in made.parts:
        assert total(part.why_length) == part.length, part.id
        assert total(part.why_width) == part.width, part.id


def outside_is_the_spec(made: Plan) -> None:
    for cabinet, (name, low, high) in zip(made.job.cabinets, made.dry_fit.outside, strict=True):
        assert name == cabinet.id
        size = tuple(b - a for a, b in zip(low, high, strict=True))
        assert size == (cabinet.width, cabinet.depth, cabinet.height)


def nothing_clashes(made: Plan) -> None:
    assert made.dry_fit.clashes == ()


def all_seated(made: Plan) -> None:
    assert made.dry_fit.seats
    assert [s for s in made.dry_fit.seats if not s.seated] == []


def seats_are_as_deep_as_stated(made: Plan) -> None:
    """Measure how far each guest's blank reaches into its host's, along the press."""
    blanks = {p.id: p.place.box(p.blank) for p in made.parts}
    for joint in made.joints:
        shared = blanks[joint.host].cut(blanks[joint.guest])
        deep = shared.size[abs(joint.press) - 1] if shared.volume else 0
        assert deep == joint.seat, joint.id


def steps_can_be_walked(made: Plan) -> None:
    seen: set[tuple[str, Setting, str]] = set()
    for step in made.steps:
        assert all(n < step.number for n in step.needs)
        if step.stage == "cut":
            assert (step.action, step.setting, step.do) not in seen, step
            seen.add((step.action, step.setting, step.do))


UNITS = {"", LENGTH, "mm", "in", "mm²", "mm3", "kg", "N", "N·mm", "N·m", "MPa", "Pa", "degrees", "hinges", "pairs"}
"""Units of checks: quantities that leave in the job's own units, and things that are counted."""


def checks_cite_a_source_in_a_known_unit(made: Plan) -> None:
    """Each source can be looked up, and each unit be turned into the job's own."""
    for check in made.checks:
        assert check.finding.source in SOURCES, check
        assert check.unit in UNITS, check


def siblings_are_alike(made: Plan) -> None:
    """No two parts of one role differ by less than a micron: what is meant equal is equal to the nanometre."""
    for attribute in ("length", "width"):
        sizes: dict[tuple[str, str], set[int]] = {}
        for part in made.parts:
            sizes.setdefault((part.cabinet, part.role), set()).add(getattr(part, attribute))
        for group in sizes.values():
            ordered = sorted(group)
            assert all(b - a >= 1000 for a, b in itertools.pairwise(ordered)), ordered


def test_every_plan_is_sound(registry: Registry, full: bool) -> None:
    def check(job: dict) -> None:
        made = make_plan(read_job(job, registry), registry)
        reasons_sum(made)
        outside_is_the_spec(made)
        nothing_clashes(made)
        all_seated(made)
        seats_are_as_deep_as_stated(made)
        steps_can_be_walked(made)
        siblings_are_alike(made)
        checks_cite_a_source_in_a_known_unit(made)

    run(JOBS_FULL if full else JOBS, check)


def test_same_job_same_bytes(full: bool) -> None:
    def check(job: dict) -> None:
        text = json.dumps(job)
        assert json.dumps(plan(json.loads(text))) == json.dumps(plan(json.loads(text)))

    run(JOBS_FULL if full else JOBS // 4, check)


def own_volume_mm3(part: Part) -> float | None:
    """Return the part's volume by exact boxes with prisms for holes; None where a hole meets another cut."""
    from casewright.api.engine.solid.solids import left_over

    boxes = [b for f in part.features for b in f.boxes]
    wedges = [w for f in part.features for w in f.wedges]
    holes = [h for f in part.features for h in f.holes]
    for i, hole in enumerate(holes):
        others = [*boxes, *(w.box for w in wedges), *(h.envelope for h in holes[i + 1 :])]
        if any(hole.envelope.meets(o) for o in others):
            return None
    exact = sum(left_over(box, boxes, wedges) for box in (part.blank, *(b.box for b in part.bands)))
    return float(exact) / 1e18 - sum(prism_volume_mm3(h) for h in holes)


def test_an_independent_solid_kernel_agrees(registry: Registry, full: bool) -> None:
    compared = []

    def check(job: dict) -> None:
        made = make_plan(read_job(job, registry), registry)
        for first, second, volume in interference(made.parts):
            assert volume < 1.0, (first, second, volume)
        for part in made.parts:
            own = own_volume_mm3(part)
            if own is not None:
                compared.append(part.id)
                assert part_volume_mm3(part) == pytest.approx(own, rel=1e-6)

    run(KERNEL_FULL if full else KERNEL, check)
    assert len(compared) > 100
