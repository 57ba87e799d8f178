"""Doors, hinge cups and shelf pins of planned cabinets against published figures, each named beside its check.

Planning pages: what makers of 35 mm cup hinges publish alike. 32 mm pages: published pages on the 32 mm convention.
Joint proportions: those a boatbuilding school teaches, as published.
"""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import load
from casewright.sdk.units import inches, mm

REGISTRY = load(discover="built-in")
FRAMED = {"style": "cope-and-stick", "material": "frame", "panel": "infill"}
INSET = {"style": "slab", "material": "case", "hang": "inset"}


def plan(space, doors=None, width="28"):
    """Plan a case 33 high and 12 deep of 3/4 in plywood, without back or face frame."""
    cabinet = {
        "id": "tools", "width": width, "height": 33, "depth": 12, "space": space,
        "case": {"material": "case", "corner": {"method": "dowel"}, "back": None},
    }  # fmt: skip
    job = {
        "units": "in",
        "materials": {
            "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"},
            "frame": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
            "infill": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "1/4"},
        },
        "cabinets": [{**cabinet, "doors": doors} if doors else cabinet],
    }
    return make_plan(read_job(job, REGISTRY), REGISTRY)


def part(made, key):
    (one,) = [p for p in made.parts if p.id == f"tools/{key}"]
    return one


def test_two_doors_in_a_40_inch_opening():
    # Published door-sizing example: gaps of 5/64 in at both jambs and between, (40 − 3 × 5/64) / 2 = 19.8828 in.
    # Both together are 39 49/64 in; its odd nanometre is left to the gap between them.
    made = plan({"front": "door-pair"}, {**INSET, "gap": "5/64", "meeting_gap": "5/64"}, width="41 1/2")
    assert [d.width for d in made.doors] == [inches("39 49/64") // 2] * 2
    assert made.doors[0].width / inches(1) == pytest.approx(19.8828, abs=0.0001)


def test_rail_length_of_a_framed_door():
    # Published rule (a woodworking magazine's tenon page): door width − 2 × stile + 2 × tenon. The opening is
    # 28 − 2 × 3/4 = 26 1/2; overlay 1/2 each side makes the door 27 1/2; 27 1/2 − 2 × 2 1/4 + 2 × 1/2 = 24.
    made = plan({"front": "door"}, {**FRAMED, "overlay": "1/2", "stile": "2 1/4", "groove_depth": "1/2"})
    assert part(made, "door-1/rail-top").length == inches(24)


def test_a_sheet_panel_is_a_sixteenth_smaller_than_its_grooves():
    # Published (a woodworking forum's door-panel thread): 1/16 to 1/8 in in total for movement. Between the stiles
    # of a 27 1/2 in door 27 1/2 − 4 1/2 = 23; grooves 3/8 deep.
    made = plan({"front": "door"}, {**FRAMED, "overlay": "1/2", "stile": "2 1/4", "groove_depth": "3/8"})
    play = inches("23 3/4") - part(made, "door-1/panel").width
    assert inches("1/16") - 2 <= play <= inches("1/8")


def test_the_panel_groove_is_a_third_of_the_stock():
    # Joint proportions: groove width about 1/3 of the stock, 1/4 in for 3/4 in.
    made = plan({"front": "door"}, FRAMED)
    (cut,) = [b for f in part(made, "door-1/stile-left").features if f.kind == "groove" for b in f.boxes]
    assert inches("1/4") in cut.size


@pytest.mark.parametrize("edge", [3, 4, 5, 6])
def test_the_cup_centre_stands_half_the_bore_and_the_edge_distance_in(edge):
    # Planning pages: 17.5 + 3…6 = 20.5…23.5 mm from the door's edge.
    made = plan({"front": "door"}, {**FRAMED, "bore_edge": f"{edge} mm"})
    holes = [h for f in part(made, "door-1/stile-left").features for h in f.holes if h.diameter == mm(35)]
    assert {h.mouth[1] for h in holes} == {mm("17.5") + mm(edge)}


def pin_places(made):
    side = part(made, "side-left")
    drilled = [side.place.cylinder(h) for f in side.features if f.label.startswith("shelf pins") for h in f.holes]
    return {h.diameter for h in drilled}, sorted({h.mouth[1] for h in drilled}), sorted({h.mouth[2] for h in drilled})


def test_pins_are_5_mm_at_32_mm_37_mm_back():
    # 32 mm pages: hole n at start + 32 n, so 19 steps are 608 mm; the front row 37 mm from the panel's front.
    diameters, rows, heights = pin_places(plan({"loose_shelves": 1}))
    assert diameters == {mm(5)}
    assert rows[0] == mm(37)
    assert heights == [heights[0] + n * mm(32) for n in range(len(heights))]
    assert heights[19] - heights[0] == mm(608)


def test_inset_doors_add_their_thickness_to_the_pin_row():
    # 32 mm pages: 37 mm and the door's thickness, 37 + 19.05 = 56.05 mm.
    _, rows, _ = pin_places(plan({"front": "door", "loose_shelves": 1}, {**INSET, "gap": "1/8"}))
    assert rows[0] == mm("56.05")
