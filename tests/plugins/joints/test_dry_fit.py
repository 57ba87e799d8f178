"""Every joint method, in every meeting it claims, put together as solids.

Host and guest are built from the meeting and the fit alone. They may not overlap where they stand, nor moved
by the stated clearance; one nanometre more and they must. The exact solids are the engine's; manifold3d (an
independent general-purpose kernel) repeats a sample within 1 mm³.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import pytest
from casewright.api.engine.solid.solids import Solid, common_volume, share_when_moved
from casewright.sdk.geometry import Box
from casewright.sdk.joinery.halves import halves
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Part, total
from casewright.sdk.testing.meetings import meetings
from hypothesis import HealthCheck, Phase, given, reject, seed, settings
from hypothesis import strategies as st
from kernel import interference

SEED = 20261125
COUNT, COUNT_FULL = 40, 200
KERNEL_SAMPLE = 8
REGISTRY = load(discover="built-in")


@dataclass(frozen=True)
class Case:
    method: JointMethod
    kind: MeetingKind
    draw: Mapping[str, Any] = field(default_factory=dict)
    options: st.SearchStrategy[dict[str, Any]] = field(default_factory=lambda: st.just({}))

    @property
    def name(self) -> str:
        return f"{self.method.id}-{self.kind}"


ENDS_ONLY = {"rabbet", "mitre-spline", "box-rabbet", "box-joint", "half-blind-dovetail"}
NEVER_ENDS = {"housed-groove"}
ALIKE = {"mitre-spline"}
SOME_OPTIONS: dict[str, st.SearchStrategy[dict[str, Any]]] = {
    "housed-groove": st.fixed_dictionaries(
        {},
        optional={
            "depth": st.integers(2_000_000, 8_000_000),
            "clearance": st.integers(0, 1_500_000),
            "stop_start": st.integers(0, 30_000_000),
            "stop_end": st.integers(0, 30_000_000),
        },
    ),
    "rabbet": st.fixed_dictionaries(
        {}, optional={"depth": st.integers(2_000_000, 9_000_000), "clearance": st.integers(0, 1_500_000)}
    ),
    "tongue-in-groove": st.fixed_dictionaries(
        {},
        optional={
            "depth": st.integers(3_000_000, 9_000_000),
            "tongue": st.integers(3_000_000, 9_000_000),
            "clearance": st.integers(0, 1_500_000),
        },
    ),
    "sliding-dovetail": st.fixed_dictionaries(
        {},
        optional={
            "depth": st.integers(3_000_000, 9_000_000),
            "angle_deg": st.floats(5, 20),
            "shoulder": st.integers(1_000_000, 4_000_000),
            "stop": st.integers(0, 30_000_000),
            "clearance": st.integers(0, 1_500_000),
        },
    ),
    "applied": st.fixed_dictionaries({}, optional={"reveal": st.integers(0, 9_000_000)}),
    "pocket-screw": st.fixed_dictionaries({}, optional={"face": st.sampled_from(["near", "far"])}),
    "box-joint": st.fixed_dictionaries({}, optional={"fingers": st.sampled_from([3, 5, 7])}),
    "half-blind-dovetail": st.fixed_dictionaries({}, optional={"slope": st.floats(5, 9)}),
}


def cases(registry: Registry) -> list[Case]:
    found = []
    for method in (*registry.joints.values(), *registry.boxes.values()):
        for kind in sorted(method.does):
            at_end = True if method.id in ENDS_ONLY or kind == "box" else False if method.id in NEVER_ENDS else None
            wide = (80, 200) if method.id == "biscuit" and kind == "frame" else None
            draw = {
                "run_mm": wide,
                "at_end": at_end,
                "alike": method.id in ALIKE,
                "behind": method.panel_sits == "behind",
            }
            found.append(Case(method, kind, draw, SOME_OPTIONS.get(method.id, st.just({}))))
    return found


CASES = cases(REGISTRY)


def exact(part: Part) -> Solid:
    """Return a part as the engine's exact solid, in the joint frame."""
    features = [f.carried(part.place) for f in part.features]
    return Solid(
        part.id,
        (part.place.box(part.blank),),
        tuple(b for f in features for b in f.boxes),
        tuple(w for f in features for w in f.wedges),
        tuple(h for f in features for h in f.holes),
    )


def run(case: Case, count: int, check: Callable[[Meeting, Fit], None]) -> None:
    """Draw until `count` meetings were answered, and check each; those a method declines do not count."""
    answered = 0

    @seed(SEED)
    @settings(
        max_examples=count,
        database=None,
        phases=(Phase.generate, Phase.shrink),
        suppress_health_check=list(HealthCheck),
    )
    @given(meeting=meetings(case.kind, REGISTRY.catalogue, **case.draw), options=case.options)
    def checked(meeting: Meeting, options: dict[str, Any]) -> None:
        nonlocal answered
        if case.kind == "panel":
            options = {k: v for k, v in options.items() if not k.startswith("stop_")}
        try:
            fit = case.method.fit(meeting, options)
        except CannotError:
            reject()
        answered += 1
        check(meeting, fit)

    checked()
    assert answered >= count, f"{case.name} answered only {answered} meetings"


def fits_exactly(meeting: Meeting, fit: Fit, behind: bool) -> None:
    host, guest = (exact(p) for p in halves(meeting, fit, behind=behind))
    assert common_volume(host, guest) == 0
    clearance = fit.clearance + (meeting.spare if fit.press == 3 else 0)
    assert not share_when_moved(host, guest, fit.press, clearance)
    assert share_when_moved(host, guest, fit.press, clearance + 1)


def inside(blank: Box, part: Part) -> None:
    for feature in part.features:
        assert feature.boxes or feature.holes or feature.wedges
        for box in feature.boxes:
            assert box.volume > 0
        assert blank.holds(feature.envelope()), (feature.label, blank, feature.envelope())


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_no_overlap_and_the_stated_clearance(case: Case, full: bool) -> None:
    behind = case.method.panel_sits == "behind"

    def check(meeting: Meeting, fit: Fit) -> None:
        fits_exactly(meeting, fit, behind)

    run(case, COUNT_FULL if full else COUNT, check)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_reasons_sum_and_cuts_stay_inside(case: Case, full: bool) -> None:
    behind = case.method.panel_sits == "behind"

    def check(meeting: Meeting, fit: Fit) -> None:
        assert total(fit.why) == fit.growth
        assert fit.clearance >= 0
        assert fit.glue_area_mm2 >= 0
        for part in halves(meeting, fit, behind=behind):
            inside(part.blank, part)
        assert case.method.fit(meeting, {}) == case.method.fit(meeting, {})

    run(case, COUNT_FULL if full else COUNT, check)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_independent_kernel_agrees(case: Case, full: bool) -> None:
    behind = case.method.panel_sits == "behind"

    def check(meeting: Meeting, fit: Fit) -> None:
        for _, _, volume in interference(halves(meeting, fit, behind=behind)):
            assert volume < 1.0

    run(case, KERNEL_SAMPLE * 5 if full else KERNEL_SAMPLE, check)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_hardware_keeps_clear(case: Case) -> None:
    """Rows are symmetric to the nanometre, inside the joint, and not crowded (common practice, no source)."""

    def check(meeting: Meeting, fit: Fit) -> None:
        for use in fit.hardware:
            xs = [x for x, _, _ in use.at]
            assert xs == sorted(xs)
            assert all(0 < x < meeting.run for x in xs)
            assert all(b - a >= 6_000_000 for a, b in pairwise(xs))
            assert all(abs(a + b - meeting.run) <= 1 for a, b in zip(xs, reversed(xs), strict=True))

    run(case, 20, check)


def test_every_claimed_meeting_is_covered() -> None:
    assert {c.name for c in CASES} >= {
        "housed-groove-corner", "housed-groove-tee", "housed-groove-panel", "rabbet-corner", "rabbet-panel",
        "dowel-corner", "dowel-tee", "dowel-frame", "loose-tenon-frame", "applied-panel", "tongue-in-groove-corner",
        "pocket-screw-frame", "screwed-butt-tee", "biscuit-corner", "mitre-spline-corner", "half-lap-frame",
        "mitre-frame", "glued-butt-frame", "box-rabbet-box", "box-joint-box", "box-dowel-box",
        "half-blind-dovetail-box", "sliding-dovetail-tee",
    }  # fmt: skip
