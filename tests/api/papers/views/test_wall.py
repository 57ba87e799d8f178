"""The wall's sheet: fasteners that stand close, and names of what is on the wall beside a cabinet."""

from itertools import combinations
from math import dist

import pytest
from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import USUAL, Kind, Line, Ring, Text

MATERIALS = {
    "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
    "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
}


def wall(registry, per_stud=4, x=60, **more):
    """Return the wall's view of a cabinet 500 wide from x, 1400 to 2160 up, screwed to the stud at 300."""
    mounting = {"method": "bevel-cleat", "material": "oak", "contents_kg": 20, "height": 120}
    job = {
        "units": "mm",
        "materials": MATERIALS,
        "cabinets": [
            {
                "id": "tyres",
                "width": 500,
                "height": 760,
                "depth": 320,
                "case": {"material": "ply", "back": {"material": "ply", "inset": 20}},
                "mounting": {**mounting, "fastener": "screw-10-4", "per_stud": per_stud},
            }
        ],
        "wall": {
            "studs": {"at": [300, 900], "stuff": "spruce-pine-fir"},
            "lining": 12.5,
            "ceiling": 2440,
            "cabinets_at": {"tyres": [{"x": x, "z": 1400}]},
            **more,
        },
    }
    (sheet,) = papers.draw(make_plan(read_job(job, registry), registry), "wall")
    return next(view for view in sheet.views if view.name == "wall")


@pytest.mark.parametrize("per_stud", [2, 3, 4])
def test_every_fastener_is_a_ring_that_can_be_seen_and_touches_no_other(registry, per_stud):
    # The finest line of a drawing is 0.13 mm wide (ISO 128-2:2020, line groups): a ring is to be wider than two of it.
    shown = wall(registry, per_stud)
    rings = [one for one in shown.shapes if isinstance(one, Ring)]
    assert len(rings) == per_stud
    assert all(2 * one.radius > 2 * 0.13 for one in rings)
    for one, other in combinations(rings, 2):
        assert dist(one.centre, other.centre) * shown.scale > one.radius + other.radius


def test_a_name_over_something_on_the_wall_ends_before_the_cabinet_beside_it(registry):
    # An outlet from 700 to 775, a cabinet from 790: the name is longer than the outlet is wide at this scale.
    outlet = {"id": "outlet-of-the-pump", "kind": "outlet", "x": 700, "z": 1500, "width": 75, "height": 115}
    shown = wall(registry, x=790, studs={"at": [900, 1200], "stuff": "spruce-pine-fir"}, obstacles=[outlet])
    assert any(isinstance(one, Line) and one.kind is Kind.WIDE and 790 in (one.a[0], one.b[0]) for one in shown.shapes)
    (name,) = [one for one in shown.shapes if isinstance(one, Text) and one.text == outlet["id"]]
    long = metrics.width(name.text, USUAL) / shown.scale
    assert long > 75 + 15
    assert name.at[0] + long < 790
