"""What a plugin sees and brings: the place of a meeting, the whole plan, machines, sources, cures.

One choice of a job is made one way at the corners of a face frame, another at its mid rails, another at shelves.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

import pytest
from casewright.sdk.catalogue import Catalogue, Source
from casewright.sdk.checks import Design, ExtraCheck
from casewright.sdk.cures import Change, CureGenerator, Stop, patch_setting
from casewright.sdk.joints import Fit, JointMethod, Meeting
from casewright.sdk.kit import Action, Box, Feature, Finding, Machine, Options, Term, groove, hookimpl, mm
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan
from casewright.sdk.testing import client, planned, registry_with

NOTES = Source("bay-notes", "Measured in the repair bay")
DEPTHS = {"frame-corner": mm(8), "frame-middle": mm(5), "shelf": mm(4), "divider": mm(3)}
JOB: dict[str, Any] = {
    "units": "mm",
    "materials": {
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
    },
    "cabinets": [
        {
            "id": "bay",
            "width": 600,
            "height": 900,
            "depth": 300,
            "case": {"material": "ply", "fixed_joint": {"method": "by-place"}},
            "face_frame": {"material": "oak", "joint": {"method": "by-place"}},
            "space": {
                "tiers": [
                    {"share": 1, "front": "open"},
                    {"bays": [{"share": 1, "front": "open", "fixed_shelves": 1}, {"share": 1, "front": "open"}]},
                ]
            },
        }
    ],
}


class ByPlace(JointMethod):
    """A tongue in a frame, a housing in a case, each as deep as its place asks."""

    id = "by-place"
    title = "By place"
    does = frozenset({"frame", "tee"})
    machines: ClassVar[Mapping[Action, tuple[Machine, ...]]] = {Action.GROOVE: (Machine.ROUTER, Machine.ROUTER_TABLE)}

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a meeting by its place."""
        deep, t, (x0, x1) = DEPTHS[meeting.where], meeting.guest_thickness, meeting.all_along
        note = Finding("by-place", "note", f"at {meeting.where}", source=NOTES.code)
        why = (Term("depth", deep),)
        if meeting.kind == "tee":
            cut = groove("housing", Box(x0, 0, 0, x1, t + meeting.fit, deep), entry=-3, run=1)
            return Fit(deep, why, (cut,), findings=(note,), seat=deep)
        low, high, run = t // 3, 2 * t // 3, meeting.run
        socket = Feature("mortise", "socket", -3, boxes=(Box(0, low, 0, run, high, deep),))
        waste = (Box(0, 0, 0, run, low, deep), Box(0, high, 0, run, t, deep))
        return Fit(deep, why, (socket,), (Feature("tenon", "tongue", 3, boxes=waste),), findings=(note,), seat=deep)


class Narrow(ExtraCheck):
    """Stops a cabinet over 500 mm wide, and says what it saw."""

    id = "narrow"
    title = "Narrow"

    def find(self, design: Design) -> tuple[tuple[str, Finding], ...]:
        """Return a stop about each wide cabinet."""
        counts = (len(design.parts), len(design.joints), sum(line.quantity for line in design.hardware))
        words = "{} parts, {} joints, {} pieces".format(*counts)
        wide = [one for one in design.job.cabinets if one.width > mm(500)]
        return tuple((one.id, Finding("too-wide", "stop", words, source=NOTES.code)) for one in wide)


class Narrower(CureGenerator):
    """Makes the cabinet 500 mm wide."""

    id = "narrower"
    title = "Narrower"
    codes = frozenset({"too-wide"})

    def changes(self, stop: Stop) -> Iterator[Change]:
        """Yield the change."""
        yield Change("500 mm wide", patch_setting(stop.document, (("cabinets", 0, "width"), 500)))


class Brings:
    @staticmethod
    @hookimpl
    def casewright_joint_methods() -> Sequence[JointMethod]:
        return (ByPlace(),)

    @staticmethod
    @hookimpl
    def casewright_checks() -> Sequence[ExtraCheck]:
        return (Narrow(),)

    @staticmethod
    @hookimpl
    def casewright_cures() -> Sequence[CureGenerator]:
        return (Narrower(),)

    @staticmethod
    @hookimpl
    def casewright_catalogue() -> Catalogue:
        return Catalogue(sources=(NOTES,))


@pytest.fixture(scope="module")
def registry() -> Registry:
    return registry_with(Brings)


@pytest.fixture(scope="module")
def plan(registry: Registry) -> Plan:
    return planned(JOB, registry)


def test_one_choice_differs_by_place(plan: Plan) -> None:
    """Four corners of the frame and, of a mid rail and a mid stile, four ends; four shelf ends, two divider ends."""
    seats = sorted((joint.kind, joint.seat) for joint in plan.joints if joint.method == "by-place")
    expected = [("frame", mm(5))] * 4 + [("frame", mm(8))] * 4 + [("tee", mm(3))] * 2 + [("tee", mm(4))] * 4
    assert seats == expected
    assert not plan.dry_fit.clashes


def test_a_check_sees_the_whole_plan_and_cites_the_plugins_source(plan: Plan) -> None:
    (stop,) = [check for check in plan.checks if check.code == "too-wide"]
    pieces = sum(line.quantity for line in plan.hardware)
    assert stop.message == f"{len(plan.parts)} parts, {len(plan.joints)} joints, {pieces} pieces"
    assert stop.source == NOTES.code


def test_a_machine_that_a_method_advises_is_taken(registry: Registry) -> None:
    steps = client(registry).post("/v1/steps", json=JOB).get_json()["steps"]
    assert {step["machine"] for step in steps if step["action"] == "groove" and "housing" in step["do"]} == {"router"}


def test_a_plugins_cure_clears_the_plugins_stop(registry: Registry) -> None:
    cures = client(registry).post("/v1/cures", json=JOB).get_json()["cures"]
    (answer,) = [one for one in cures if one["check"]["code"] == "too-wide"]
    assert [cure["words"] for cure in answer["cures"]] == ["500 mm wide"]
