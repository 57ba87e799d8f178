"""Words for hardware at the bench, with numbers worked out by hand."""

import re
from fractions import Fraction

from casewright.sdk.units import MM, tape_text

TENTH = Fraction(1, 10)

FRAME = {"face_frame": {"material": "frame", "joint": {"method": "dowel"}}}
SLAB = {"style": "slab", "material": "case", "overlay": 15, "hinges": 2}


def step(plan, stage, action, what):
    (words,) = [one.do for one in plan.steps if one.stage == stage and one.action == action and what in one.do]
    return words


def test_a_door_is_hung_at_the_heights_of_its_plates_and_by_its_edges(planned):
    plan = planned({"count": 2, "space": {"front": "door"}, "doors": SLAB})
    (door,) = plan.doors
    do = step(plan, "hardware", "screw", "hang door 1 of bay")
    # 18 mm sides, overlay 15: the door's edge stands 18 - 15 = 3 mm in from the case's side, and up from its bottom.
    assert "left edge 3.0 mm from the case's left side, bottom edge 3.0 mm up from the case's bottom" in do
    up = [(door.at[2] + at) / 1e6 for at in door.hinges]
    assert f"their middle {up[0]:.1f} mm and {up[1]:.1f} mm up from the case's bottom" in do
    assert do.startswith("Fix 2 × 35 mm cup hinge")  # two on each of two doors: of one copy
    # Overlay 15 of 14 + 5 less a plate of 3, the rest by the hinge's own adjustment.
    assert "2 × plate 3 mm high for 35 mm cup hinge to the left side" in do


def test_plates_on_a_beaded_frame_are_screwed_through_the_bead(planned):
    frame = {"material": "frame", "joint": {"method": "dowel"}, "bead": 6}
    plan = planned({"space": {"front": "door"}, "face_frame": frame, "doors": SLAB})
    do = step(plan, "hardware", "screw", "hang door 1 of bay")
    assert "to the bead on the left frame stile, the screws through it, their middle" in do
    plan = planned({"space": {"front": "door"}, "face_frame": frame, "doors": {**SLAB, "hang": "inset"}})
    do = step(plan, "hardware", "screw", "hang door 1 of bay")
    assert "thick behind the left frame stile, their middle" in do  # on packing no screw is in the bead
    assert "through it" not in do


def test_a_pair_is_set_by_the_gap_between_its_doors(planned):
    plan = planned({"space": {"front": "door-pair"}, "doors": {**SLAB, "meeting_gap": 4}})
    assert "4.0 mm clear of the next door" in step(plan, "hardware", "screw", "hang door 1 of bay")
    assert "next door" not in step(plan, "hardware", "screw", "hang door 2 of bay")


def test_pins_are_counted_from_the_bottom_of_their_row(planned):
    plan = planned({"space": {"loose_shelves": 1}})
    do = step(plan, "hardware", "screw", "shelf pins")
    nth, up = re.search(r"hole (\d+) from the bottom of each row, ([\d.]+) mm up", do).groups()
    side = next(part for part in plan.parts if part.id == "bay/side-left")
    row = next(feature for feature in side.features if feature.purpose == "shelf-pins")
    heights = sorted(side.place.point(hole.mouth)[2] / 1e6 for hole in row.holes)
    assert abs(heights[int(nth) - 1] - float(up)) <= 0.05


def test_heights_are_measured_from_the_case_that_stands_on_a_base(planned):
    base = {"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}}
    plan = planned({**base, "space": {"front": "door"}, "doors": SLAB})
    assert "bottom edge 3.0 mm up from the case's bottom" in step(plan, "hardware", "screw", "hang door 1 of bay")


def test_a_face_frame_is_glued_on_the_edges_behind_it(planned):
    plan = planned({**FRAME, "space": {"fixed_shelves": 1}}, {"back": {"inset": 19}})
    do = step(plan, "face-frame", "glue", "on its back")
    assert "the left side, the right side, the top, the bottom" in do
    assert re.search(r"hold it with \d+ × brad", do)


def test_a_strip_is_screwed_where_its_screws_are(planned):
    plan = planned({"mounting": {"method": "bevel-cleat", "contents_kg": 5}}, {"back": {"inset": 19}})
    do = step(plan, "mounting", "screw", "glue and screw on")
    into, against = [one for one in plan.hardware if one.used_for == "bay/mounting" and one.at]
    for x, _, z in into.at:
        assert f"{x / 1e6:.1f} mm" in do
        assert f"{z / 1e6:.1f} mm up from its bottom" in do
    # Those into the wall cleat, against lifting, can only be driven once the cabinet hangs on it.
    assert "against lifting" not in do
    hung = step(plan, "hang", "hang", "Hang bay")
    assert all(tape_text(x, "mm", TENTH) in hung for x, _, _ in against.at)


def test_a_strip_that_no_screw_goes_into_is_glued_on(planned, part_of):
    cleat = {"method": "bevel-cleat", "contents_kg": 5, "anti_lift": "top-strip"}
    plan = planned(
        {"mounting": cleat},
        {"corner": {"method": "housed-groove"}, "top_inset": 19, "bottom_inset": 19, "back": {"inset": 19}},
    )
    do = step(plan, "mounting", "screw", "glue and screw on")
    strip = part_of(plan, "top-strip")
    (into,) = [one for one in plan.hardware if one.used_for == "bay/mounting" and "through the back" in one.words]
    box = strip.place.box(strip.blank)
    assert not any(box.z0 <= z <= box.z1 for _, _, z in into.at)
    screwed, glued = do.split("; glue on ")
    assert "anti-lift strip" not in screwed
    assert glued.startswith(
        "the anti-lift strip on the top, its bottom face 881.0 mm over the case's bottom and its back edge flush"
    )


def test_screws_down_through_the_top_are_named_with_the_strip_they_go_into(planned, part_of):
    plan = planned({"mounting": {"method": "screw-strip", "contents_kg": 5}}, {"back": None})
    do = step(plan, "mounting", "screw", "glue and screw on")
    strip = part_of(plan, "strip-top").place.box(part_of(plan, "strip-top").blank)
    # 320 deep without a back, the strip 18 thick at the rear: its middle is 9 before 320. Screws stand about 6 in
    # apart on both sides of the middle: 400 and 152.4 from it.
    assert (strip.y0, strip.y1) == (302 * MM, 320 * MM)
    assert "through the top into the hanging strip, 95.2 mm, 247.6 mm, 400.0 mm, 552.4 mm and 704.8 mm from the" in do
    assert "311.0 mm behind its front edge" in do


def test_a_lower_strip_that_no_screw_reaches_is_glued_and_clamped(planned, part_of):
    """It lies under the hanging strip, so seen from above the screws of that one stand over it too."""
    plan = planned({"mounting": {"method": "screw-strip", "contents_kg": 5, "bottom": True}}, {"back": None})
    screwed, glued = step(plan, "mounting", "screw", "glue and screw on").split("; glue on ")
    assert "the hanging strip" in screwed
    assert "lower strip" not in screwed
    bottom = part_of(plan, "bottom").thickness // MM
    assert glued == f"the lower strip, its bottom edge {bottom}.0 mm over the case's bottom, clamped till it has set"


def test_a_pull_goes_through_front_and_box_where_the_box_stands_behind_it(planned):
    drawers = {"material": "thin", "bottom": "thin", "front": "case", "pull": "bar-96"}
    plan = planned({"width": 600, "height": 300, "depth": 500, "space": {"front": "drawer"}, "drawers": drawers})
    words = step(plan, "hardware", "screw", "Set the front of drawer 1")
    # A front of 18 mm before a box of 6 mm.
    assert words.endswith("fix 1 × bar pull, holes 96 mm apart with screws for 24.0 mm of wood")
    assert "bore on through the box at the pull's holes" in words


def test_a_drawer_is_hung_and_its_front_set_by_numbers(planned):
    drawers = {"space": {"front": "drawer"}, "drawers": {"material": "case", "bottom": "thin"}}
    plan = planned({"width": 600, "height": 300, "depth": 500, **drawers})
    runners = step(plan, "hardware", "screw", "runners of drawer 1")
    slide = next(line for line in plan.hardware if "slide" in line.item)
    assert f"its line {slide.at[0][2] / 1e6:.1f} mm up from the case's bottom" in runners
    front = next(part for part in plan.parts if part.role == "drawer-front")
    box = front.place.box(front.blank)
    words = step(plan, "hardware", "screw", "Set the front of drawer 1")
    assert f"left edge {box.x0 / 1e6:.1f} mm" in words
    assert f"bottom edge {box.z0 / 1e6:.1f} mm up" in words
