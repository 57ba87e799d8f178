"""The booklet: every part and page in it, fonts embedded, absent sections named."""

import io
import re
import time
from collections.abc import Callable

import pytest
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.facts import Facts
from casewright.sdk.model import Plan
from pypdf import PdfReader


def words(data: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


@pytest.fixture(scope="module")
def booklet(bay: Plan) -> str:
    return words(documents.booklet(bay, "0123456789ab"))


def test_booklet_is_quick(bay: Plan) -> None:
    documents.booklet(bay, "x")
    start = time.process_time()
    documents.booklet(bay, "0123456789ab")
    assert time.process_time() - start < 2.0


def test_booklet_names_every_part_and_its_size(bay: Plan, booklet: str) -> None:
    tight = booklet.replace(" ", "")
    facts = Facts(bay)
    for part in bay.parts:
        assert part.id in tight
        assert facts.size(part).replace(" ", "") in tight, part.id


@pytest.mark.parametrize(
    "heading",
    ["Next", "Mind", "Buy and gather", "Cut list", "Settings and the order of work", "Dry fit and glue-up",
     "At the bench and at the wall", "Take from the work", "Appendix: hanging", "Appendix: what each size comes from",
     "Drilling", "Joints, cut through", "Appendix: checks and their sources", "Print at 100 %"],
)  # fmt: skip
def test_booklet_has_its_sections(booklet: str, heading: str) -> None:
    assert heading in booklet


def test_the_first_page_lists_the_sections_with_their_pages(bay: Plan) -> None:
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(documents.booklet(bay, ""))).pages]
    for name in ("Buy and gather", "Cut list", "Take from the work", "Appendix: checks and their sources"):
        (number,) = re.findall(rf"^(\d+)\s*{name}$", pages[0], re.MULTILINE)
        assert name in pages[int(number) - 1]


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "loose-only"])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_every_page_carries_title_fingerprint_and_number(plan: Callable[[str], Plan], name: str, paper: str) -> None:
    pages = PdfReader(io.BytesIO(documents.booklet(plan(name), "0123456789ab", paper))).pages
    for number, page in enumerate(pages, start=1):
        page_text = re.sub(r"\s+", " ", page.extract_text())
        assert f"page {number} of {len(pages)}" in page_text
        assert "plan 0123456789ab" in page_text


@pytest.mark.parametrize("name", ["repair-bay", "smallest", "loose-only"])
def test_fonts_are_embedded(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    papers = [documents.booklet(made, "x"), documents.labels(made)]
    papers += [documents.to_pdf(s) for v in documents.VIEWS if (s := documents.draw(made, v)[:2])]
    for data in papers:
        for page in PdfReader(io.BytesIO(data)).pages:
            for font in page["/Resources"].get("/Font", {}).values():
                assert "/FontFile2" in font.get_object()["/FontDescriptor"], font.get_object()["/BaseFont"]


def test_absent_sections_say_so(plan: Callable[[str], Plan]) -> None:
    page_text = words(documents.booklet(plan("bays-framed"), ""))
    assert "gives no stock" in page_text
    page_text = words(documents.booklet(plan("loose-only"), ""))
    assert "No joints are cut." in page_text
    assert "Nothing is glued." in page_text
    assert "loose/panel-11" in page_text


def test_stock_with_defects_is_gathered_by_the_name_it_lies_there_under(registry) -> None:
    job = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [],
        "loose_parts": [{"id": "flap", "material": "ply", "length": 500, "width": 200, "quantity": 2}],
        "stock": {
            "offcuts": [
                {"id": "knotty", "material": "ply", "length": 560, "width": 220, "copies": 2,
                 "defects": [{"x": 0, "y": 0, "length": 20, "width": 220}]}
            ]
        },
    }  # fmt: skip
    text = words(documents.booklet(make_plan(read_job(job, registry), registry), "0123456789ab"))
    assert "On hand and used: 2 × knotty" in text
    assert "knotty.1" not in text.split("Cut list")[0].split("Buy and gather")[-1]
