"""A cabinet's sheet: its views at one scale, heights level with one another and widths over one another."""

from collections.abc import Callable

import pytest
from casewright.api.papers.drawing.shapes import Running, Text
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.common import solids_of
from casewright.api.papers.views.section import cut_places, upright
from casewright.api.papers.views.sheet import cabinet_sheet
from casewright.sdk.model import Plan


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "smallest"])
def test_views_are_aligned_and_of_one_scale(plan, name):
    facts = Facts(plan(name))
    for cabinet in facts.cabinets.values():
        (page,) = cabinet_sheet(facts, cabinet, "letter")
        views = {view.name: view for view in page.views}
        face, side, level = (views[one] for one in ("front", "upright section", "level section"))
        assert face.scale == side.scale == level.scale
        # ISO 128-3: views in projection stand in line: heights level, widths one under the other.
        assert face.at[1] == side.at[1]
        assert face.at[0] == level.at[0]
        assert side.at[0] > face.at[0]
        assert level.at[1] < face.at[1]


def test_what_one_sheet_does_not_hold_has_sheets_of_its_own(plan):
    facts = Facts(plan("largest"))
    pages = [page for one in facts.cabinets.values() for page in cabinet_sheet(facts, one, "letter")]
    assert len(pages) == 3


def test_a_high_cabinet_stands_on_upright_paper(plan):
    """A cabinet 900 wide, 2100 high and 620 deep is drawn larger on A4 that stands: 2100 is 140 mm at 1:15."""
    facts = Facts(plan("tall"))
    (page,) = [page for one in facts.cabinets.values() for page in cabinet_sheet(facts, one, "A4")]
    assert (page.upright, page.scale) == (True, "1:15")


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "largest"])
def test_no_place_is_left_out_in_silence(plan: Callable[[str], Plan], name: str) -> None:
    facts = Facts(plan(name))
    for cabinet in facts.cabinets.values():
        solids = solids_of(facts, cabinet.id)
        side = upright(facts, cabinet, solids, cut_places(facts, cabinet)[0])
        wanted = len(side.row.stops) + (len(side.column.stops) if side.column else 0)
        for page in cabinet_sheet(facts, cabinet, "A4"):
            views = {view.name: view for view in page.views}
            if "upright section" in views:
                drawn = sum(len(s.stops) for s in views["upright section"].shapes if isinstance(s, Running))
                words = [shape.text for view in page.views for shape in view.shapes if isinstance(shape, Text)]
                assert drawn == wanted or any(f"{wanted - drawn} places left out" in line for line in words)
