"""The contract suite finds what it says it finds: a sound method passes, and each fault fails the promise it breaks."""

import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import count
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest
from casewright.sdk.fields import Count, Length, OptionSchema, Text
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.methods import CannotError, Fit, HouseStyle, Meeting
from casewright.sdk.model import Finding, Term, groove
from casewright.sdk.testing import HouseStyleContract, JointContract, registry_with
from casewright.sdk.testing.quick import trials
from modules import TEMPLATE, module_at

SHOP = module_at(TEMPLATE)
Answer = Callable[[Meeting, Mapping[str, Any], Fit], Fit]


def contract(answer: Answer | None = None, **attributes: Any) -> JointContract:
    """Return the contract of the template's joint, whose answers `answer` changes."""

    def fit(self: Any, meeting: Meeting, options: Mapping[str, Any]) -> Fit:
        sound = SHOP.ShopPlugin.fit(self, meeting, options)
        return sound if answer is None else answer(meeting, options, sound)

    method = type("Altered", (SHOP.ShopPlugin,), {"fit": fit, **attributes})()
    plugin = ModuleType("altered")
    plugin.casewright_joint_methods = hookimpl(lambda: [method])
    return type("Of", (JointContract,), {"plugin": plugin, "method": "shop-plugin", "jobs": 6, "meetings": 15})()


def failing(of: JointContract, *promises: str) -> dict[str, str]:
    """Return which of the promises (default: all) fail, each with what is said."""
    found = {}
    for name in dir(of):
        if name.startswith("test_") and (not promises or name.removeprefix("test_") in promises):
            try:
                getattr(of, name)()
            except Exception as error:
                found[name.removeprefix("test_")] = str(error)
    return found


def test_a_sound_method_keeps_every_promise():
    assert failing(contract()) == {}


CALLS = count()
SHARED = {}


def unsure(meeting, options, fit):
    return replace(fit, glue_area_mm2=float(next(CALLS)))


def mutates(meeting, options, fit):
    options["depth"] = 1
    return fit


def digs_outside(meeting, options, fit):
    deep = Box(0, 0, 0, meeting.run, meeting.guest_thickness, meeting.host_depth + 1)
    return replace(fit, host=(groove("too deep", deep, entry=-3, run=1),))


def floats(meeting, options, fit):
    return replace(fit, growth=float(fit.growth))


def does_not_sum(meeting, options, fit):
    return replace(fit, why=(Term("housing depth", fit.growth - 1),))


def leaves_no_groove(meeting, options, fit):
    return replace(fit, host=())


def lies_about_clearance(meeting, options, fit):
    return replace(fit, clearance=1)


def cites_hearsay(meeting, options, fit):
    return replace(fit, findings=(Finding("x", "note", "so I was told", source="hearsay"),))


def generates(meeting, options, fit):
    return replace(fit, host=(f for f in fit.host))


def refuses_without_help(meeting, options, fit):
    raise CannotError("no", "a meeting", "")


def blames_no_option(meeting, options, fit):
    if meeting.run % 2:
        raise CannotError("even lengths", "odd", "Plane it.", "deepness")
    return fit


def raises(meeting, options, fit):
    raise ZeroDivisionError("the plane is blunt")


def shares_state(meeting, options, fit):
    SHARED["now"] = meeting.run
    time.sleep(1e-5 * (threading.get_ident() % 7))
    return replace(fit, glue_area_mm2=float(SHARED["now"]))


@pytest.mark.parametrize(
    ("answer", "promise", "words"),
    [
        (unsure, "same_meeting_same_fit", "answers otherwise"),
        (mutates, "nothing_it_is_given_changes", "changed its options"),
        (digs_outside, "cuts_stay_inside_their_parts", "reaches outside host"),
        (digs_outside, "generated_jobs_fit_dry", "plugin-under-test, method shop-plugin"),
        (floats, "fits_are_exact", "whole nm"),
        (does_not_sum, "fits_are_exact", "sums to"),
        (leaves_no_groove, "generated_jobs_fit_dry", "parts overlap"),
        (lies_about_clearance, "generated_jobs_fit_dry", "do not sit"),
        (cites_hearsay, "fits_are_exact", "hearsay"),
        (generates, "fits_are_exact", "generator"),
        (refuses_without_help, "refusals_say_what_would_do", "no fix"),
        (refuses_without_help, "fits_are_exact", "declined"),
        (blames_no_option, "refusals_say_what_would_do", "deepness"),
        (raises, "fits_are_exact", "the plane is blunt"),
        (raises, "generated_jobs_fit_dry", "raised ZeroDivisionError"),
        (shares_state, "threads_answer_alike", "otherwise than one alone"),
    ],
)
def test_each_fault_breaks_its_promise(answer, promise, words):
    broken = failing(contract(answer), promise)
    assert words in broken.get(promise, "(kept)")


class Undescribed(OptionSchema):
    depth = Length(load_default=None)


class Needed(OptionSchema):
    depth = Length(required=True, metadata={"description": "depth"})


@pytest.mark.parametrize(
    ("options", "promise", "words"),
    [
        (Undescribed, "options_are_described", "no about"),
        (Needed, "options_read_alike_every_time", "are required"),
    ],
)
def test_faulty_options_are_told(options, promise, words):
    assert words in failing(contract(options=options), promise)[promise]


def test_a_plugin_that_does_not_load_says_why():
    with pytest.raises(AssertionError, match="implements no hook"):
        registry_with(SimpleNamespace())


def test_a_method_that_is_not_there_is_told():
    of = type("Of", (JointContract,), {"plugin": SHOP, "method": "sholp-joint"})()
    assert "no 'sholp-joint'" in failing(of, "fits_are_exact")["fits_are_exact"]


def test_only_the_plugin_under_test_and_built_ins_are_loaded():
    plugins = registry_with(SHOP).plugins
    assert [p.name for p in plugins if not p.built_in] == ["plugin-under-test"]


def test_options_are_drawn_within_what_the_schema_takes():
    class Wide(OptionSchema):
        spacing = Length(least=20_000_000, metadata={"description": "pitch"}, load_default=None)
        fasteners = Count(least=3, most=5, metadata={"description": "count"}, load_default=3)
        mark = Text(most=4, metadata={"description": "mark"}, load_default="")

    of = contract(options=Wide, fit=lambda self, meeting, options: Fit())
    assert failing(of, "options_read_alike_every_time") == {}


def test_a_house_style_that_cannot_be_read_is_told():
    plugin = ModuleType("styled")
    plugin.casewright_house_styles = hookimpl(lambda: [HouseStyle("ours", "Ours", {"depht": "300 mm"})])
    (trial,) = trials(plugin)
    assert "defaults['depht']" in trial.wrong


def test_a_house_style_contract():
    plugin = ModuleType("styled")
    plugin.casewright_house_styles = hookimpl(
        lambda: [HouseStyle("ours", "Ours", {"depth": "300 mm", "case": {"material": "case"}})]
    )
    job = {
        "units": "mm",
        "materials": {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "house": {"style": "ours"},
        "cabinets": [{"id": "tools", "width": 600, "height": 700}],
    }
    of = type("Of", (HouseStyleContract,), {"plugin": plugin, "style": "ours", "job": job})()
    assert failing(of) == {}
    other = type("Of", (HouseStyleContract,), {"plugin": plugin, "style": "ours", "job": {**job, "house": {}}})()
    assert "style" in failing(other)["the_job_is_planned_and_says_what_came_from_the_style"]
