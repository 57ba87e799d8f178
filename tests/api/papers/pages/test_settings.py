"""The settings: every step at a machine once, saws by one distance, what is made in words of the trade."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cards import ASSEMBLED
from casewright.api.papers.pages.settings import _cells, _same_pieces, at_machine, order_words
from casewright.sdk.model import Action, Machine, Setting, Stage

EXAMPLE = Path(__file__).resolve().parents[4] / "openapi" / "examples" / "repair-bay.json"


@pytest.fixture(scope="module")
def facts(registry):
    return Facts(make_plan(read_job(json.loads(EXAMPLE.read_text()), registry), registry))


def test_what_a_machine_does_is_a_setting_and_what_hands_assemble_is_not(facts):
    for step in facts.plan.steps:
        assert at_machine(step) or step.machine is Machine.BY_HAND
        assert not (at_machine(step) and step.stage in ASSEMBLED and step.machine is Machine.BY_HAND)


@pytest.mark.parametrize(
    ("nm", "words"),
    # 1 in is 25,400,000 nm: 10 1/4 in lies on the tape; 35.291 in is nearest to 35 19/64 (35.296875).
    [(260_350_000, "10 1/4 in"), (896_391_400, "35 19/64 in (35.291)")],
)
def test_a_distance_off_the_tape_has_both_its_notations(facts, nm, words):
    assert facts.both(nm) == words


@pytest.mark.parametrize(("count", "words"), [(1, "1 loose piece waits for its"), (2, "2 loose pieces wait for their")])
def test_one_piece_waits_and_more_wait(facts, count, words):
    assert f"at most {words} next cut." in order_words(replace(facts.plan.stock.returns, at_hand=count))


def test_a_saw_is_set_by_one_distance(facts):
    rip = next(step for step in facts.plan.steps if step.action is Action.RIP)
    made = replace(rip, machine=Machine.TABLE_SAW, setting=Setting(fence=260_350_000), cautions=())
    sled = replace(made, machine=Machine.CROSSCUT_SLED)
    assert _cells(facts, sled, [], [])[1][0].text == "cut to width, stop 10 1/4 in"  # there is no fence on a sled
    machine, how, _ = _cells(facts, made, (), ())
    assert machine == "table saw"
    assert [line.text for line in how] == ["rip, fence 10 1/4 in"]
    made = replace(made, machine=Machine.CROSSCUT_SLED, action=Action.CROSSCUT, setting=Setting(stop=260_350_000))
    assert [line.text for line in _cells(facts, made, ("! a",), ())[1]] == ["crosscut, stop 10 1/4 in ! a"]


def test_only_just_the_same_pieces_are_the_same(facts):
    milled = [step for step in facts.plan.steps if step.stage is Stage.MILL and len(step.on) > 1]
    first = milled[0]
    assert _same_pieces(first, replace(first, number=999))
    assert not _same_pieces(first, replace(first, on=first.on[1:]))
