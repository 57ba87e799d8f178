"""Drilling templates: from which edge a pull is measured. Sums by hand on slab doors that lap 5 mm."""

from typing import Any

import pytest
import samples
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.page import area_of
from casewright.api.papers.views.template import patterns
from casewright.sdk.units import MM

LEVEL = {"item": "bar-96", "direction": "level", "from_edge": 38}


def pulls(width: int, pull: dict[str, Any]) -> list[tuple[str, list[int]]]:
    """Return the edge and the holes' distances from it, in mm, of each template for the pull of a single door."""
    cabinet = {"id": "bay", "width": width, "height": 700, "depth": 300, "case": {"material": "ply", "back": None}}
    doors = {"style": "slab", "overlay": 5, "pull": pull}
    document = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [{**cabinet, "space": {"front": "door"}, "doors": doors}],
    }
    plan = make_plan(read_job(document, samples.registry()), samples.registry())
    drawn = patterns(Facts(plan), plan.doors[0], area_of("A4", upright=True))
    return [(one.edge, [spot.edge // MM for spot in one.spots]) for one in drawn if one.what == "pull"]


@pytest.mark.parametrize(
    ("width", "pull", "centres"),
    [
        # 136 mm between sides of 18 mm and twice 5 mm make a door of 146 mm: level holes 38 and 38 + 96 from its edge.
        (172, LEVEL, [("meeting edge", [38, 134])]),
        # 464 + 10 = 474 mm: 400 mm from the meeting edge is 74 mm from the hinges, which a sheet of A4 has room for.
        (500, {"item": "knob-1", "from_edge": 400}, [("hinge edge", [74])]),
        (500, {"item": "knob-1", "from_edge": 237}, []),  # in the middle, wider from both than A4
    ],
)
def test_a_pull_is_measured_from_an_edge_the_paper_has_room_for(
    width: int, pull: dict[str, Any], centres: list[tuple[str, list[int]]]
) -> None:
    assert pulls(width, pull) == centres
