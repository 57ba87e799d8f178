"""The booklet's bench pages: every step by hand, what is done ticked, when each can be begun; a card an assembly."""

import io
import json
import re
from pathlib import Path

import pytest
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cards import cards
from pypdf import PdfReader

EXAMPLE = Path(__file__).resolve().parents[4] / "openapi" / "examples" / "repair-bay.json"


@pytest.fixture(scope="module")
def demo(registry):
    job = json.loads(EXAMPLE.read_text())
    job.pop("stock")
    return make_plan(read_job({**job, "done": [1, 2]}, registry), registry)


@pytest.fixture(scope="module")
def words(demo):
    pages = PdfReader(io.BytesIO(documents.booklet(demo, "0123456789ab"))).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def test_every_step_is_on_it_and_the_words_of_like_ones_once(demo, words):
    tight = words.replace(" ", "")
    again = {step.number for card in cards(Facts(demo)) for steps in card.again for step in steps}
    for step in demo.steps:
        if step.machine == "by-hand" and step.measurement is None and step.number not in again:
            assert step.do.replace(" ", "") in tight, step.do
    left = len(demo.steps) - 2
    assert f"{left} steps to do" in words
    assert "can be done." in words


def test_what_is_done_is_ticked(words):
    assert words.count("☑") == 2


def test_a_card_is_one_assembly_and_like_doors_share_one(demo):
    made = cards(Facts(demo))
    steps = [step for card in made for one in (card.steps, *card.again) for step in one]
    assert len({step.number for step in steps}) == len(steps)
    for card in made:
        for one in (card.steps, *card.again):
            assert [step.action for step in one] == [step.action for step in card.steps]
            parts = {part for step in one for part in step.parts}
            assert len({part.partition("/")[0] for part in parts}) == 1
    doors = [card for card in made if card.steps[0].stage == "doors"]
    assert len(doors) == 2  # the doors of tools are cut alike, and so are those of spares
    assert all(len(card.again) == 1 for card in doors)


def test_clamps_are_counted_and_no_force_is_asked_of_them(demo):
    clamps = [step for step in demo.steps if step.action == "clamp"]
    assert clamps
    for step in clamps:
        count = sum(one.clamps for one in step.on)
        assert re.search(rf"\b{count} clamps?\b", step.do)
    assert not [step.do for step in demo.steps if re.search(r"\d (k?N|lbf|kgf)\b", step.do)]
