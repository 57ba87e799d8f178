"""How doors and drawers are set: reaches from memory (2 mm sideways and up, 3 mm out and 2 in), by the catalogue."""

from dataclasses import replace
from fractions import Fraction

import pytest
from casewright.api.engine.work.adjusting import adjusting_words, hinge_adjustments, slide_adjustments
from casewright.sdk.model import Action, Stage
from casewright.sdk.units import tape_text

MM = 1_000_000


@pytest.fixture(scope="module")
def hinge(registry):
    return next(one for one in registry.catalogue.hinges if one.id == "cup-35")


def test_which_screw_moves_what_and_how_far(hinge):
    by = {one.short: one for one in hinge_adjustments(hinge)}
    assert {short: (one.one_way, one.other_way) for short, one in by.items()} == {
        "side": (2 * MM, 2 * MM),
        "height": (2 * MM, 2 * MM),
        "depth": (3 * MM, 2 * MM),
    }
    assert "upright edges" in by["side"].moves
    assert "over and under" in by["height"].moves


def test_what_is_not_on_record_is_left_out(hinge):
    bare = replace(hinge, height_adjustment=0, depth_out=0, depth_in=0)
    assert [one.short for one in hinge_adjustments(bare)] == ["side"]


def test_in_few_words_of_the_job_s_units(hinge):
    # 2 mm is 5.04/64 in and 3 mm 7.56/64 in: 5/64 and 1/8 on a tape of 1/64 in
    words = adjusting_words(hinge_adjustments(hinge), lambda nm: tape_text(nm, "in", Fraction(1, 64)))
    assert words == "side ±5/64 in, height ±5/64 in, depth 1/8 in out, 5/64 in in"


def test_the_steps_that_hang_doors_and_drawers_say_it(planned):
    doors = planned({"space": {"front": "door"}, "doors": {"style": "slab", "material": "case"}})
    (hung,) = [step for step in doors.steps if "hang door 1" in step.do]
    assert "side ±2.0 mm, height ±2.0 mm, depth 3.0 mm out, 2.0 mm in" in hung.check
    box = {"material": "case", "bottom": "thin", "corner": {"method": "box-rabbet"}}
    drawers = planned({"space": {"front": "drawer"}, "drawers": box})
    runs = [step for step in drawers.steps if step.stage is Stage.HARDWARE and "slots of the slides" in step.check]
    assert [step.action for step in runs] == [Action.SCREW]
    (slide,) = drawers.fittings
    assert len(slide_adjustments(slide)) == 2
