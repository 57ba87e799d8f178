"""Cases worked by hand from trade facts and published figures, each with its source or "common practice, no source".

Every expected value is worked in the test from the numbers stated there. Published figures: planning pages that
makers of 35 mm cup hinges share; pages on the 32 mm convention; a boatbuilding school's joint proportions and a
door-sizing worked example; the thickness table of an EN 315-class birch plywood sheet.
"""

import copy

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import load
from casewright.sdk.units import inches, mm

THREE_QUARTERS = inches("3/4")

JOB = {
    "title": "Repair bay",
    "units": "in",
    "materials": {
        "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"},
        "frame": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
        "infill": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "1/4"},
    },
    "cabinets": [
        {
            "id": "tools", "width": 28, "height": 33, "depth": 12,
            "case": {
                "material": "case",
                "corner": {"method": "housed-groove"}, "top_inset": "3/4", "bottom_inset": "3/4",
                "back": {"material": "case", "inset": "3/4", "joint": {"method": "housed-groove"}},
            },
            "space": {},
        }
    ],
    "shop": {"fit": 0},
}  # fmt: skip

DOORS = {"style": "cope-and-stick", "material": "frame", "panel": "infill"}
FRAME = {"material": "frame", "stile": "1 3/4", "rail": "1 3/4"}


@pytest.fixture(scope="module")
def plan():
    registry = load(discover="built-in")

    def make(cabinet=None, case=None, materials=None, **top):
        job = copy.deepcopy(JOB)
        job["cabinets"][0].update(cabinet or {})
        job["cabinets"][0]["case"].update(case or {})
        job["materials"].update(materials or {})
        job.update(top)
        return make_plan(read_job(job, registry), registry)

    return make


def part(made, key):
    (found,) = [p for p in made.parts if p.id == f"tools/{key}"]
    return found


def box(made, key):
    found = part(made, key)
    return found.place.box(found.blank)


def grooves(made, key, guest):
    """Return the waste of the grooves a part has for a guest, in the cabinet frame."""
    found = part(made, key)
    cuts = [f for f in found.features if f.kind in ("groove", "rabbet") and f.label.endswith(f"for {guest}")]
    return [found.place.box(b) for f in cuts for b in f.boxes]


def levels(made, code):
    return [c.level for c in made.checks if c.code == code]


# --- grooves -----------------------------------------------------------------------------------------------


def test_a_housed_groove_is_half_the_thickness_deep(plan):
    # 3/4 in stock: 3/8 in (common practice, no source).
    made = plan({"space": {"fixed_shelves": 1}})
    for guest in ("top", "bottom", "back", "shelf 1"):
        (cut,) = grooves(made, "side-left", guest)
        assert cut.x1 - cut.x0 == inches("3/8")
        assert cut.x1 == THREE_QUARTERS


def test_top_and_shelf_reach_both_groove_bottoms(plan):
    # 28 − 2 × 3/4 + 2 × 3/8 = 27 1/4.
    made = plan({"space": {"fixed_shelves": 1}})
    assert part(made, "top").length == part(made, "shelf-1").length == inches("27 1/4")


def test_two_grooves_of_half_the_thickness_leave_no_web(plan):
    # 3/8 + 3/8 in from both sides of a 3/4 in divider: nothing is left (common practice, no source: a stop).
    shelves = {"bays": [{"fixed_shelves": [12]}, {"fixed_shelves": [12]}]}
    made = plan({"space": shelves})
    assert levels(made, "web") == ["stop"]
    assert next(c.value for c in made.checks if c.code == "web") == 0
    # 1/4 in deep they leave 1/4 in, a third of the stock.
    made = plan({"space": shelves}, {"fixed_joint": {"method": "housed-groove", "depth": "1/4"}})
    assert levels(made, "web") == []


# Birch plywood sold as 18 mm measures 17.1 to 18.1 mm (EN 315-class data sheet).
@pytest.mark.parametrize("tenths", range(171, 182))
@pytest.mark.parametrize("fit", ["0 mm", "0.2 mm"])
def test_measured_thickness_flows_through(plan, tenths, fit):
    t = tenths * mm("0.1")
    sheet = {"kind": "sheet", "stuff": "birch-plywood", "nominal": "18 mm", "thickness": f"{tenths / 10} mm"}
    made = plan({"space": {"fixed_shelves": 1}}, materials={"case": sheet}, shop={"fit": fit})
    (cut,) = grooves(made, "side-left", "shelf 1")
    assert cut.z1 - cut.z0 == t + mm(fit.split()[0])
    assert cut.x1 - cut.x0 == t // 2
    assert made.dry_fit.outside == (("tools", (0, 0, 0), (inches(28), inches(12), inches(33))),)
    assert part(made, "side-left").length == inches(33)
    assert part(made, "shelf-1").length == inches(28) - 2 * t + 2 * (t // 2)
    assert all(s.seated for s in made.dry_fit.seats)


# --- back and cleat ----------------------------------------------------------------------------------------


def test_the_back_groove_starts_a_cleats_thickness_from_the_edge(plan):
    # 3/4 in from the back edge, so that a 3/4 in cleat sits behind the back (common practice, no source).
    (cut,) = grooves(plan(), "side-left", "back")
    assert inches(12) - cut.y1 == THREE_QUARTERS
    assert cut.y1 - cut.y0 == THREE_QUARTERS


@pytest.mark.parametrize(("inset", "past"), [("3/4", "0"), ("1/2", "1/4")])
def test_a_back_inset_of_one_cleat_thickness_lets_the_case_meet_the_wall(plan, inset, past):
    # The wall is where the wall cleat's rear face is: 3/4 of cleat behind a back inset by 3/4 is flush with the
    # case's back edge; behind one inset by 1/2 it stands 1/4 in off (common practice, no source).
    back = {"material": "case", "inset": inset, "joint": {"method": "housed-groove"}}
    made = plan({"mounting": {"method": "bevel-cleat", "contents_kg": 20}}, {"back": back})
    assert box(made, "wall-cleat").y1 == inches(12) + inches(past)
    assert made.dry_fit.clashes == ()


def test_both_cleats_are_ripped_at_45_degrees_and_hook(plan):
    made = plan({"mounting": {"method": "bevel-cleat", "contents_kg": 20}})
    bevels = [f for key in ("cleat", "wall-cleat") for f in part(made, key).features if f.kind == "bevel"]
    assert [f.angle_deg for f in bevels] == [45.0, 45.0]
    # At 45 degrees the slope falls as much as the cleat is thick.
    for key in ("cleat", "wall-cleat"):
        (slope,) = [w for f in part(made, key).features for w in f.wedges]
        assert sorted(slope.box.size)[:2] == [THREE_QUARTERS, THREE_QUARTERS]
    assert [s.seated for s in made.dry_fit.seats if "cleat" in s.joint] == [True]


# --- face frame --------------------------------------------------------------------------------------------


def test_face_frame_members_are_an_inch_and_a_half(plan):
    # Where the job does not say (common practice, no source). Rails: 28 − 2 × 1 1/2 = 25.
    made = plan({"face_frame": {"material": "frame"}, "space": {"bays": [{}, {}]}})
    members = [p for p in made.parts if p.group == "face-frame"]
    assert {p.width for p in members} == {inches("1 1/2")}
    assert part(made, "frame-rail-top").length == inches(25)
    assert part(made, "frame-mid-stile-1").length == inches(30)


# --- doors -------------------------------------------------------------------------------------------------


def test_a_half_inch_overlay_pair_on_a_given_opening(plan):
    # Frame 1 3/4 all round: the opening is 28 − 3 1/2 = 24 1/2 by 33 − 3 1/2 = 29 1/2. Overlay 1/2 and a gap of
    # 1/8: each door is (24 1/2 + 1 − 1/8) / 2 = 12 11/16 by 29 1/2 + 1 = 30 1/2 (common practice, no source).
    doors = {**DOORS, "overlay": "1/2", "meeting_gap": "1/8"}
    made = plan({"space": {"front": "door-pair"}, "face_frame": FRAME, "doors": doors})
    assert {(d.width, d.height) for d in made.doors} == {(inches("12 11/16"), inches("30 1/2"))}
    left, right = made.doors
    assert left.at[0] == inches("1 1/4")
    assert right.at[0] - left.at[0] - left.width == inches("1/8")
    assert right.at[0] + right.width == inches("26 3/4")


def test_two_doors_in_a_40_inch_opening(plan):
    # Published door-sizing example: gaps of 5/64 in at both jambs and between, (40 − 3 × 5/64) / 2 = 19.8828 in.
    # Both together are 39 49/64 in; its odd nanometre is left to the gap between them.
    doors = {"style": "slab", "material": "case", "hang": "inset", "gap": "5/64", "meeting_gap": "5/64"}
    made = plan({"width": "41 1/2", "space": {"front": "door-pair"}, "doors": doors})
    assert [d.width for d in made.doors] == [inches("39 49/64") // 2] * 2
    assert made.doors[0].width / inches(1) == pytest.approx(19.8828, abs=0.0001)


def test_rail_length_of_a_framed_door(plan):
    # Published rule: door width − 2 × stile + 2 × tenon. 12 11/16 − 2 × 2 1/4 + 2 × 1/2 = 9 3/16.
    doors = {**DOORS, "overlay": "1/2", "meeting_gap": "1/8", "stile": "2 1/4", "groove_depth": "1/2"}
    made = plan({"space": {"front": "door-pair"}, "face_frame": FRAME, "doors": doors})
    assert part(made, "door-1/rail-top").length == inches("9 3/16")


def test_a_sheet_panel_is_a_sixteenth_smaller_than_its_grooves(plan):
    # Published: 1/16 to 1/8 in total for movement. Opening in the door 12 11/16 − 4 1/2 = 8 3/16; grooves 3/8.
    doors = {**DOORS, "overlay": "1/2", "meeting_gap": "1/8", "stile": "2 1/4", "groove_depth": "3/8"}
    made = plan({"space": {"front": "door-pair"}, "face_frame": FRAME, "doors": doors})
    between_groove_bottoms = inches("8 3/16") + 2 * inches("3/8")
    play = between_groove_bottoms - part(made, "door-1/panel").width
    assert inches("1/16") - 2 <= play <= inches("1/8")


def test_the_panel_groove_is_a_third_of_the_stock(plan):
    # Published: groove width about 1/3 of the stock, 1/4 in for 3/4 in.
    made = plan({"space": {"front": "door"}, "doors": DOORS})
    (cut,) = [b for f in part(made, "door-1/stile-left").features if f.kind == "groove" for b in f.boxes]
    assert inches("1/4") in cut.size


@pytest.mark.parametrize(("gap", "level"), [("1/8", "note"), ("1/16", "note"), ("1/32", "caution"), ("0", "stop")])
def test_a_pair_closes_without_touching(plan, gap, level):
    # Doors about 12 3/4 × 3/4 in on a fixed axis pass their place by 0.75² / (2 × 12.75) = 0.022 in each, 0.044
    # together (own derivation). 1/16 = 0.0625 clears; 1/32 = 0.031 needs the hinges' side adjustment, which is
    # only the reserve (common practice, no source); doors that touch at rest are a stop.
    doors = {**DOORS, "overlay": "1/2", "meeting_gap": gap}
    made = plan({"space": {"front": "door-pair"}, "face_frame": FRAME, "doors": doors})
    assert levels(made, "pair-gap") == [level]
    needed = next(c.limit for c in made.checks if c.code == "pair-gap")
    assert needed == pytest.approx(inches("0.0443"), abs=inches("0.0005"))


# --- hinges ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("edge", [3, 4, 5, 6])
def test_the_cup_centre_stands_half_the_bore_and_the_edge_distance_in(plan, edge):
    # 17.5 + 3…6 = 20.5…23.5 mm from the door's edge (planning pages).
    doors = {**DOORS, "bore_edge": f"{edge} mm"}
    made = plan({"space": {"front": "door"}, "face_frame": FRAME, "doors": doors})
    stile = part(made, "door-1/stile-left")
    centres = {h.mouth[1] for f in stile.features if f.label == "hinge cups" for h in f.holes}
    assert centres == {mm("17.5") + mm(edge)}


def test_a_bore_of_an_inch_and_a_half_for_a_35_mm_cup_is_a_caution(plan):
    # 38.1 mm is 3.1 mm over the cup; over 1 mm is a caution (common practice, no source). Its centre stands at
    # 19.05 + 5 = 24.05 mm.
    doors = {**DOORS, "bore": "1 1/2", "bore_edge": "5 mm"}
    made = plan({"space": {"front": "door"}, "face_frame": FRAME, "doors": doors})
    assert levels(made, "bore-wider-than-cup") == ["caution"]
    holes = [h for f in part(made, "door-1/stile-left").features if f.label == "hinge cups" for h in f.holes]
    assert {(h.diameter, h.mouth[1]) for h in holes} == {(mm("38.1"), mm("24.05"))}
    assert levels(plan({"space": {"front": "door"}, "doors": DOORS}), "bore-wider-than-cup") == []


# --- shelf pins --------------------------------------------------------------------------------------------


def pin_places(made):
    side = part(made, "side-left")
    drilled = [side.place.cylinder(h) for f in side.features if f.label.startswith("shelf pins") for h in f.holes]
    return {h.diameter for h in drilled}, sorted({h.mouth[1] for h in drilled}), sorted({h.mouth[2] for h in drilled})


def test_pins_are_5_mm_at_32_mm_37_mm_back(plan):
    # The 32 mm convention (published pages): hole n at start + 32 n, so 19 steps are 608 mm.
    diameters, rows, heights = pin_places(plan({"space": {"loose_shelves": 1}}))
    assert diameters == {mm(5)}
    assert rows[0] == mm(37)
    assert heights == [heights[0] + n * mm(32) for n in range(len(heights))]
    assert heights[19] - heights[0] == mm(608)


def test_inset_doors_add_their_thickness_to_the_pin_row(plan):
    # 37 + 19.05 = 56.05 mm (published pages on the 32 mm convention).
    doors = {"style": "slab", "material": "case", "hang": "inset", "gap": "1/8"}
    _, rows, _ = pin_places(plan({"space": {"front": "door", "loose_shelves": 1}, "doors": doors}))
    assert rows[0] == mm("56.05")
