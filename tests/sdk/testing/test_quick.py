"""`plugin check` tries generators of cures: a sound one passes, each fault fails the promise that it breaks."""

from itertools import count
from types import ModuleType

import pytest
from casewright.sdk.findings import Finding
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.methods import Change, CureGenerator, ExtraCheck
from casewright.sdk.patching import patch_setting
from casewright.sdk.testing.quick import Counts, trials

JOB = {
    "units": "mm",
    "materials": {"board": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
    "loose_parts": [{"id": "lid", "material": "board", "length": 500, "width": 300}],
}
FEW, OWN, CLEARS = (
    "Asked twice it proposes the same changes, each with words, and no more than are tried.",
    "The service answers, and one stop of each job at least is cured by a change that this generator proposed.",
    "Each cure that is answered, planned anew by itself, is without the stop it is for and without a new one.",
)
TURNS = count(1)


class TooLong(ExtraCheck):
    id, title = "our-too-long", "Too long"

    def find(self, design):
        long = [one.id for one in design.parts if one.length > 450_000_000]
        return [(part, Finding("our-too-long", "stop", "over 450 mm")) for part in long]


def shortened(stop, to, words="shorter"):
    return Change(words, patch_setting(stop.document, (("loose_parts", 0, "length"), to)))


def plugin(propose, stopping=(JOB,)):
    """Return a plugin with the check and one generator, made of a function."""

    class Shorter(CureGenerator):
        id, title, codes = "our-shorter", "Shorter", frozenset({"our-too-long"})

        def changes(self, stop):
            return propose(stop)

    Shorter.stopping = stopping
    made = ModuleType("ours")
    made.casewright_cures = hookimpl(lambda: (Shorter(),))
    made.casewright_checks = hookimpl(lambda: (TooLong(),))
    return made


def wrong(made):
    """Return what is wrong, by promise: one at most, for the first that is broken says most."""
    ours = [one for one in trials(made, Counts(1, 1, 20)) if one.method == "our-shorter"]
    broken = [one for one in ours if one.wrong]
    assert len(ours) + sum(one.untried for one in ours) == len((FEW, OWN, CLEARS))
    assert broken == ours[-1:] or not broken
    assert all(one.at.startswith("test_quick.py:") and one.fix for one in broken)
    return {one.promise: one.wrong for one in broken}


def test_a_sound_generator_keeps_every_promise():
    assert wrong(plugin(lambda stop: (shortened(stop, 450),))) == {}


@pytest.mark.parametrize(
    ("propose", "promise", "words"),
    [
        (lambda stop: (shortened(stop, 460),), OWN, "no change it proposed cures our-too-long"),
        (lambda stop: (), OWN, "no change it proposed cures our-too-long"),
        (lambda stop: (shortened(stop, 400 + next(TURNS)),), FEW, "asked twice, it proposed different changes"),
        (lambda stop: [shortened(stop, 450 - n) for n in range(61)], FEW, "61 changes; at most 60 are tried"),
        (lambda stop: (shortened(stop, 450, words=""),), FEW, "a change without words"),
        (lambda stop: 1 // 0, FEW, "ZeroDivisionError"),
    ],
)
def test_each_fault_fails_the_promise_it_breaks(propose, promise, words):
    assert words in wrong(plugin(propose))[promise]


@pytest.mark.parametrize(
    ("stopping", "words"),
    [
        ((), "names no job in `stopping`"),
        (({**JOB, "loose_parts": [{**JOB["loose_parts"][0], "length": 400}]},), "stops for none of: our-too-long"),
    ],
)
def test_a_generator_that_nothing_is_tried_with_has_a_problem(stopping, words):
    faults = wrong(plugin(lambda stop: (shortened(stop, 450),), stopping))
    assert words in next(iter(faults.values()))
