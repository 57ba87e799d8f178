"""What is written once all pages are made: the list of sections wherever it stands, footers that name cabinets."""

import io

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.binding import bound
from casewright.api.papers.pages.canvas import NAMED
from casewright.api.papers.pages.numbers import PageOf, StepNumbers
from casewright.api.papers.pages.setting import Contents, head, para
from pypdf import PdfReader
from reportlab.platypus import PageBreak


def pages(bay, story):
    made = bound(story, Facts(bay), "0123456789ab", "A4")
    return [page.extract_text() for page in PdfReader(io.BytesIO(made)).pages]


def test_the_list_of_sections_is_written_where_it_stands(bay):
    first, second, third = pages(bay, [para("Many cabinets"), PageBreak(), Contents(), PageBreak(), head("Wall")])
    assert "Wall" not in first
    assert "3\nWall" in second
    assert "page 3 of 3" in third


def test_a_footer_names_the_cabinets_of_its_page_and_counts_those_beyond_three(bay):
    names = [f"tools-{n}" for n in range(5)]
    one, many, none = pages(
        bay,
        [StepNumbers([1], (), names[:1]), PageBreak(), StepNumbers([2], (), names), PageBreak(), para("Nothing")],
    )
    assert "tools-0 · " in one
    assert f"tools-0, tools-1, tools-2 and {5 - NAMED} more · " in many
    assert "tools" not in none.replace(bay.job.title, "")


def test_a_page_is_asked_for_before_it_is_known(bay):
    first, *_ = pages(bay, [PageOf(7), PageBreak(), para("between"), PageBreak(), StepNumbers([7])])
    assert "3" in first.splitlines()
