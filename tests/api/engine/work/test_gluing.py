"""What holds a joint is let in before it closes, or driven once it has."""

from dataclasses import replace
from types import ModuleType

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.plugins.doors.cope_and_stick import CopeAndStick
from casewright.plugins.joints.housed_groove import HousedGroove
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.kit import hookimpl
from casewright.sdk.model import Action, Stage
from casewright.sdk.template.mounting.shop_plugin import ShopPlugin
from casewright.sdk.testing import registry_with


@pytest.mark.parametrize(
    ("joint", "words"),
    [("dowel", "put 4 × dowel 8 × 35 mm between"), ("pocket-screw", "once home, drive 4 × wood screw No. 8")],
)
def test_dowels_lie_between_and_screws_are_driven_after(registry, joint, words):
    """Two to a rail's end as both methods do at this width, two ends to a stile; a screw in between holds nothing."""
    job = {
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
        },
        "cabinets": [
            {
                "id": "bay", "width": 450, "height": 600, "depth": 300, "case": {"material": "ply"},
                "face_frame": {"material": "oak", "joint": {"method": joint}},
            }
        ],
    }  # fmt: skip
    plan = make_plan(read_job(job, registry), registry)
    (last,) = [
        step.do for step in plan.steps if step.action is Action.INSERT and step.do.startswith("Set the left frame")
    ]
    assert words in last
    assert ("between" in last) == ("put" in words)


class NotedGroove(HousedGroove):
    id, note = "noted-groove", "tap it home with a block"

    def fit(self, meeting, options):
        return replace(super().fit(meeting, options), note=self.note)


def with_note(design, words):
    """Return a design whose joints all have a note."""
    joints = [replace(joint, note=words) for joint in design.assembly.joints]
    return replace(design, assembly=replace(design.assembly, joints=tuple(joints)))


class NotedDoor(CopeAndStick):
    id = "noted-door"

    def build(self, request, options):
        return with_note(super().build(request, options), "glue the shoulders too")


class NotedRail(ShopPlugin):
    id = "noted-rail"

    def build(self, request, options):
        return with_note(super().build(request, options), "rub it in")


def noted():
    """Return the built-ins and methods of each family whose joints have notes."""
    plugin = ModuleType("noted")
    plugin.casewright_joint_methods = hookimpl(lambda: [NotedGroove()])
    plugin.casewright_door_styles = hookimpl(lambda: [NotedDoor()])
    plugin.casewright_mountings = hookimpl(lambda: [NotedRail()])
    return registry_with(plugin)


def noted_job():
    """Return a cabinet with a joint, a door and a mounting of those."""
    sheet = {"kind": "sheet", "stuff": "birch-plywood"}
    return {
        "units": "mm",
        "materials": {
            "ply": {**sheet, "thickness": 18}, "thin": {**sheet, "thickness": 6},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
        },
        "cabinets": [
            {
                "id": "bay", "width": 450, "height": 600, "depth": 300,
                "case": {"material": "ply", "fixed_joint": {"method": "noted-groove"}},
                "space": {"fixed_shelves": 1, "front": "door"},
                "doors": {"style": "noted-door", "material": "oak", "panel": "thin"},
                "mounting": {"method": "noted-rail", "contents_kg": 20},
            }
        ],
        "wall": {
            "studs": {"at": [400, 800], "stuff": "douglas-fir-larch"},
            "cabinets_at": {"bay": [{"x": 380, "z": 1400}]},
        },
    }  # fmt: skip


def test_what_methods_say_of_closing_their_joints_ends_the_steps_that_close_them():
    """The shelf's two ends, four of a door's frame or its panel, and the rail, which is glued alone."""
    registry = noted()
    plan = make_plan(read_job(noted_job(), registry), registry)
    for words, stage in ((NotedGroove.note, Stage.GLUE), ("glue the shoulders too", Stage.DOORS)):
        assert {step.stage for step in plan.steps if step.do.endswith(words)} == {stage}
    (rail,) = [step for step in plan.steps if step.stage is Stage.MOUNTING]
    assert rail.do.startswith("Glue on the hanging rail")
    assert rail.do.endswith("rub it in")
    # Glued along its whole length, the rail to begin a mounting from is held to the case.
    assert "link-missing" not in {check.code for check in plan.checks}


@pytest.mark.parametrize("note", ["Two.\nLines", "a sentence.", "x" * 161, 3])
def test_a_note_is_one_short_phrase(monkeypatch, note):
    monkeypatch.setattr(NotedGroove, "note", note)
    registry = noted()
    with pytest.raises(PluginFaultError, match="note is"):
        make_plan(read_job(noted_job(), registry), registry)
