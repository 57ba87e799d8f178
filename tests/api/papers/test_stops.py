"""A plan that says stop says so on every paper, and how often in words that agree with the number."""

import io
import re

import pytest
from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from pypdf import PdfReader

HUNG = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "rack", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply"},
            "space": {"front": "door"}, "doors": {"style": "slab", "material": "ply"},
            "mounting": {"method": "screw-strip"},
        }
    ],
    "wall": {
        "studs": {"at": [1500], "stuff": "spruce-pine-fir", "width": 38, "depth": 89},
        "cabinets_at": {"rack": [{"x": 200, "z": 1400}]},
        "length": 4000,
        "obstacles": [{"id": "bench-socket", "kind": "outlet", "x": 3000, "z": 300, "width": 80, "height": 80}],
    },
    "stock": {"sheets": [{"id": "ply", "material": "ply", "length": 2440, "width": 1220}], "kerf": 3},
}  # fmt: skip
"""No stud stands behind the cabinet, so nothing holds it."""


@pytest.fixture(scope="module")
def stopped(registry):
    return make_plan(read_job(HUNG, registry), registry)


def pages(data):
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(io.BytesIO(data)).pages]


def test_nothing_is_drawn_of_a_fixing_that_no_stud_allows(stopped):
    assert papers.draw(stopped, "fixing") == ()


@pytest.mark.parametrize("view", [view for view in papers.VIEWS if view != "fixing"])
def test_every_sheet_of_every_drawing_says_stop(stopped, view):
    sheets = papers.draw(stopped, view)
    assert sheets
    for page in pages(papers.to_pdf(sheets)):
        assert "STOP: " in page


def test_booklet_and_labels_say_stop_on_every_page(stopped):
    count = sum(check.level == "stop" for check in stopped.checks)
    words = f"STOP: {count} reason{'s' if count > 1 else ''} not to cut"
    assert all(words in page for page in pages(papers.booklet(stopped, "")))
    assert all("STOP" in page for page in pages(papers.labels(stopped)))


def test_a_plan_without_stops_never_says_it(plan):
    made = plan("loose-only")
    assert not [check for check in made.checks if check.level == "stop"]
    assert not any("STOP" in page for page in pages(papers.booklet(made, "")))


def test_a_tall_row_of_a_table_goes_over_pages(registry):
    # Pins 16 mm apart over 1.7 m in two sides: more places in one row than a page has lines.
    case = {"material": "ply", "pins": {"pitch": 16}}
    tall = {"id": "store", "form": "tall", "width": 900, "height": 2100, "depth": 600, "case": case,
            "space": {"front": "open", "loose_shelves": 5}}  # fmt: skip
    made = make_plan(
        read_job({**{k: v for k, v in HUNG.items() if k != "wall"}, "cabinets": [tall]}, registry), registry
    )
    assert papers.booklet(made, "").startswith(b"%PDF")


def test_the_wall_is_as_long_as_it_is_and_shows_what_is_on_it(stopped):
    (sheet,) = papers.draw(stopped, "wall")
    words = " ".join(pages(papers.to_pdf([sheet])))
    assert "bench-socket" in words
    (view,) = [one for one in sheet.views if not one.furniture]
    reached = [point[0] for shape in view.shapes if type(shape).__name__ == "Line" for point in (shape.a, shape.b)]
    assert max(reached) == 4000
