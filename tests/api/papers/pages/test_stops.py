"""The stops on the booklet's first page, with what was tried and clears each."""

import io
import re

import pytest
from casewright.api import papers
from casewright.api.use.cures import stop_cures
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.sdk.loader import load
from pypdf import PdfReader


@pytest.fixture(scope="module")
def planner():
    return Planner(load(discover="built-in"))


def first_page(planner, document):
    job = JobInput(document, planner.registry)
    plan = planner.plan(job)
    cures = stop_cures(planner, job, plan)
    made = papers.booklet(plan, "0123456789ab", cures=cures)
    return re.sub(r"\s+", " ", PdfReader(io.BytesIO(made)).pages[0].extract_text()), cures


# A groove half the thickness deep from both sides of a divider leaves no wood (trade arithmetic, no source).
WEB = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "bench",
            "width": 800,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply", "back": None, "fixed_joint": {"method": "housed-groove", "depth": 9}},
            "space": {"bays": [{"fixed_shelves": 1}, {"fixed_shelves": 1}]},
        }
    ],
}


def test_each_stop_stands_with_its_cures(planner):
    page, cures = first_page(planner, WEB)
    row = next(row for row in cures if row.check.code == "web")
    assert row.cures
    assert "DO NOT CUT YET" in page
    for cure in row.cures:
        assert f"Tried, and clears it: {cure.words}" in page


def test_a_stop_without_a_cure_says_why(planner):
    unknown = {**WEB, "wall": {"ceiling": 2400}}
    cabinet = {**WEB["cabinets"][0], "case": {"material": "ply", "back": {"material": "ply", "inset": 20}}, "space": {}}
    unknown["cabinets"] = [{**cabinet, "mounting": {"method": "bevel-cleat", "contents_kg": 10}}]
    page, cures = first_page(planner, unknown)
    why = next(row.why_none for row in cures if row.check.code == "wall-unknown")
    assert why
    assert why in page.replace(" .", ".")


def test_a_plan_without_stops_has_nothing_of_it(planner):
    sound = {**WEB, "cabinets": [{**WEB["cabinets"][0], "space": {}}]}
    page, cures = first_page(planner, sound)
    assert cures == ()
    assert "DO NOT CUT" not in page
    assert "Tried" not in page
