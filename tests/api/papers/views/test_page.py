"""The title block of ISO 7200: what the job gives stands in it, what it does not is a blank with its name."""

import re

import pytest
import samples
from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.shapes import Text

GIVEN = {
    "owner": "Community bicycle workshop",
    "number": "RB-12",
    "date": "2026-03-01",
    "drawn_by": "A. Marker",
    "approved_by": "B. Square",
}
# ISO 7200:2004, tables 1 to 3: legal owner, identification number, date of issue, creator, approval person, sheet.
NAMES = {"Owner", "Number", "Date", "Drawn by", "Approved by", "Sheet"}


def words(extra):
    job = {**samples.JOBS["smallest"](), **extra}
    made = make_plan(read_job(job, samples.registry()), samples.registry())
    (sheet,) = papers.draw(made, "elevation", fingerprint="0123456789abcdef")
    return [shape.text for view in sheet.views for shape in view.shapes if isinstance(shape, Text)]


def test_what_the_job_gives_stands_in_the_block():
    bar = words(GIVEN)
    assert set(GIVEN.values()) <= set(bar)
    assert set(bar) >= NAMES


def test_what_it_does_not_give_is_a_blank_and_no_clock_fills_it():
    bar = words({})
    assert set(bar) >= NAMES
    assert not any(re.fullmatch(r"\d{4}-\d\d-\d\d", word) for word in bar)


def test_the_fingerprint_is_short():
    bar = words({})
    assert "0123456789ab" in bar


@pytest.mark.parametrize("extra", [{}, GIVEN])
def test_sizes_hang_on_none_of_it(extra):
    made = make_plan(read_job({**samples.JOBS["smallest"](), **extra}, samples.registry()), samples.registry())
    assert {part.id: part.length for part in made.parts} == {
        part.id: part.length for part in samples.plan("smallest").parts
    }
