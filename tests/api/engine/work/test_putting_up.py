"""Putting up a run: lines that cannot be taken for one another, and neighbours screwed where their frames meet."""

import pytest
from casewright.sdk.units import MM

STUDS = {"at": [100, 500, 900, 1300, 1700], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}


@pytest.fixture
def row(document, planned):
    """Return the plan of two framed cabinets side by side, the right one so much higher."""

    def make(higher):
        one = document({"id": "bay", "count": 1, "width": 800, "height": 600})["cabinets"][0]
        frame = {"material": "frame", "stile": 40, "rail": 40, "joint": {"method": "loose-tenon"}}
        cabinets = [{**one, "face_frame": frame}, {**one, "id": "store", "face_frame": frame}]
        places = {"bay": [{"x": 50, "z": 1400}], "store": [{"x": 850, "z": 1400 + higher}]}
        return planned(cabinets=cabinets, wall={"studs": STUDS, "cabinets_at": places})

    return make


def do_of(plan, stage):
    (step,) = [one for one in plan.steps if one.stage == stage]
    return step


def test_each_of_several_lines_of_a_kind_names_its_cabinets(row):
    lines = do_of(row(76), "set-out").check.split("; ")
    assert lines[:2] == ["bottoms of bay 1400.0 mm", "bottoms of store 1476.0 mm"]
    assert do_of(row(0), "set-out").check.startswith("bottoms 1400.0 mm; ")


def test_neighbours_are_screwed_through_their_stiles_with_the_bit_that_the_frame_asks_for(row):
    plan = row(0)
    do = do_of(plan, "join").do
    (gap,) = [one for one in plan.run.gaps if one.screws is not None]
    stiles = [one for one in plan.parts if one.role == "frame-stile"]
    low, high = min(one.place.box(one.blank).y0 for one in stiles), 0
    assert all(low < back < high for _, back, _ in gap.screws.at)
    # NDS 2018 12.1.5 (from memory): 90 % of the root over 0.6, and red oak has 0.67 (Table 12.3.3A); of the 3.3274 mm
    # of a No. 8 that is 2.99. The plywood of the sides has less than 0.6 and would have asked for 70 %, 2.33.
    assert "then one of 3.0 mm" in do
    low, high = (f"{up / MM:.1f} mm" for up in sorted({up for _, _, up in gap.screws.at}))
    assert f"{low} and {high} up from the bottom of its case, 9.5 mm before its front edge" in do
    assert "from inside bay: " in do
