"""No sheet has text over text, lines through dimensions, or marks off the paper."""

from collections.abc import Callable

import pytest
import samples
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.shapes import Dimension, Sheet, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.isometric import keyed
from casewright.api.papers.views.layout import pictures
from casewright.api.papers.views.page import finish
from casewright.api.papers.views.sheet import cabinet_sheet
from casewright.sdk.model import Plan
from overlap import overlaps


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("view", documents.VIEWS)
def test_nothing_overlaps_or_is_cut_off(plan: Callable[[str], Plan], name: str, view: str, full: bool) -> None:
    papers = tuple(documents.PAPERS) if full else (None,)
    for paper in papers:
        for sheet in documents.draw(plan(name), view, paper=paper, fingerprint="0123456789ab"):
            assert overlaps(sheet) == [], (paper, sheet.name)


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_nothing_overlaps_on_the_sheets_of_the_booklet(plan: Callable[[str], Plan], name: str, paper: str) -> None:
    facts = Facts(plan(name))
    pages = pictures(facts, paper)
    for cabinet in facts.cabinets.values():
        pages += [*cabinet_sheet(facts, cabinet, paper), *keyed(facts, cabinet, paper)]
    for sheet in finish(facts, pages, paper, "0123456789ab"):
        assert overlaps(sheet) == [], sheet.name


def test_a_width_that_stands_over_a_low_picture_keeps_clear_of_what_is_written_there() -> None:
    materials = {
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"},
    }
    parts = [{"id": f"strip-{n}", "material": "oak", "length": 28 - 4 * n, "width": 1, "quantity": 2} for n in range(3)]
    parts.append({"id": "panel", "material": "ply", "length": 90, "width": 20})
    board = {"id": "low", "material": "oak", "thickness": 1, "width": "4 1/2", "length": 76, "copies": 1}
    stock = {"boards": [board], "offcuts": [{"id": "long", "material": "ply", "length": 98, "width": 24}]}
    job = {"title": "Strips", "units": "in", "materials": materials, "loose_parts": parts, "stock": stock}
    facts = Facts(make_plan(read_job(job, samples.registry()), samples.registry()))
    for paper in ("A4", "letter"):
        for sheet in finish(facts, pictures(facts, paper), paper, "0123456789ab"):
            assert overlaps(sheet) == [], sheet.name


def test_the_layout_check_sees_faults() -> None:
    one = Text((50, 50), "12.5")
    over = Sheet("", "", 210, 297, "mm", (View("v", (one, Text((52, 50.5), "30"))),))
    off = Sheet("", "", 210, 297, "mm", (View("v", (Text((205, 50), "30"),)),))
    a = Dimension("x", 20, 60, 100, 8, "40", ())
    b = Dimension("x", 30, 70, 96.5, 13.5, "40", ())
    crossed = Sheet("", "", 210, 297, "mm", (View("v", (a, b)),))
    assert any("text over text" in fault for fault in overlaps(over))
    assert any("off the paper" in fault for fault in overlaps(off))
    assert overlaps(crossed)
