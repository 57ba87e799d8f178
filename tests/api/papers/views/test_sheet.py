"""A cabinet's sheet: its views at one scale, heights level with one another and widths over one another."""

import pytest
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.sheet import cabinet_sheet


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
    pages = [page for one in facts.cabinets.values() for page in cabinet_sheet(facts, one, "A4")]
    assert len(pages) == 3
