"""The booklet's bench pages: every step by hand, what is done ticked, when each can be begun; gates of one's own."""

import io
import json
import re
from pathlib import Path

import pytest
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.building import _before, _is_glue, _on
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


def test_every_step_by_hand_is_on_it_with_what_is_left_to_do(demo, words):
    tight = words.replace(" ", "")
    for step in demo.steps:
        if step.machine == "by-hand":
            assert step.do.replace(" ", "") in tight, step.do
    left = len(demo.steps) - 2
    assert f"{left} steps to do" in words
    assert "can be done." in words


def test_what_is_done_is_ticked(words):
    assert words.count("☑") == 2


def test_no_gate_prints_what_is_done_to_another_cabinet_s_parts(demo):
    facts = Facts(demo)
    by_number = {step.number: step for step in demo.steps}
    names = {part.id: part.name for part in demo.parts}
    gates = [step for step in demo.steps if _is_glue(step)]
    assert len(gates) == 10  # two cases, two face frames, these on those, four doors
    for gate in gates:
        (own,) = {facts.parts[part].cabinet for part in gate.parts}
        (other,) = set(facts.cabinets) - {own}
        for need in _before(gate, by_number):
            assert re.search(rf"\b{other}\b", _on(need, gate, names)) is None


def test_clamps_are_counted_and_no_force_is_asked_of_them(demo):
    clamps = [step for step in demo.steps if step.action == "clamp"]
    assert clamps
    for step in clamps:
        count = sum(one.clamps for one in step.on)
        assert re.search(rf"\b{count} clamps?\b", step.do)
    assert not [step.do for step in demo.steps if re.search(r"\d (k?N|lbf|kgf)\b", step.do)]
