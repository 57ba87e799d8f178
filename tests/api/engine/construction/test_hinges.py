"""Hinges and pulls: places worked by hand from the common figures of cup hinges (sources: hinge-planning-pages)."""

import pytest
from casewright.sdk.units import mm

SLAB = {"style": "slab", "material": "case", "overlay": 10}
FRAMED = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "overlay": 10}
PLAIN = {"back": None}


def cups(plan, key):
    return [
        (part, part.place.cylinder(h))
        for part in plan.parts
        for f in part.features
        if f.label == "hinge cups" and part.id.startswith(f"bay/{key}/")
        for h in f.holes
    ]


@pytest.mark.parametrize(
    ("edge", "centre"), [(3, "20.5"), (4, "21.5"), (5, "22.5"), (6, "23.5")]
)  # 17.5 + 3…6 mm (published planning pages)
def test_the_cup_centre_is_half_the_bore_and_the_edge_distance(planned, edge, centre):
    plan = planned({"space": {"front": "door-pair"}, "doors": {**SLAB, "bore_edge": edge}}, PLAIN)
    left, right = plan.doors
    assert {h.mouth[0] - left.at[0] for _, h in cups(plan, "door-1")} == {mm(centre)}
    assert {right.at[0] + right.width - h.mouth[0] for _, h in cups(plan, "door-2")} == {mm(centre)}


def test_cups_are_bored_from_the_back_80_mm_from_the_ends(planned):
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "hinges": 3}}, PLAIN)
    (leaf,) = plan.doors
    cup_places = cups(plan, "door-1")
    assert {h.mouth[2] - leaf.at[2] for _, h in cup_places} == {mm(80), leaf.height // 2, leaf.height - mm(80)}
    assert {(h.into, h.diameter, h.depth) for _, h in cup_places} == {(-2, mm(35), mm("12.5"))}
    assert {h.mouth[1] for _, h in cup_places} == {leaf.at[1] + leaf.thickness}


def test_the_plan_drills_what_the_rule_says_and_the_job_may_set_it(planned, codes):
    # 0.784 × 0.884 × 0.018 m at 685 kg/m³ is 8.5 kg: three by mass, and one more as it is wider than 600 mm.
    door = {"space": {"front": "door"}, "doors": SLAB}
    counts = {}
    for hinges in (None, 2, 3, 4, 5):
        plan = planned({**door, "doors": {**SLAB, "hinges": hinges}}, PLAIN)
        (leaf,) = plan.doors
        hardware = {line.item: line.quantity for line in plan.hardware}
        assert len(leaf.hinges) == len(cups(plan, "door-1")) == hardware["cup-35"] == hardware["cup-35-plate"]
        counts[hinges] = len(leaf.hinges)
        few = [("caution", "hinges-too-few", "bay/door-1")] if hinges in (2, 3) else []
        assert codes(plan, "hinges-too-few") == few
    assert counts == {None: 4, 2: 2, 3: 3, 4: 4, 5: 5}


def test_plates_stand_37_mm_behind_the_case_front(planned):
    plan = planned({"space": {"front": "door"}, "doors": SLAB}, PLAIN)
    (line,) = [h for h in plan.hardware if h.item == "cup-35-plate"]
    assert {p[:2] for p in line.at} == {(mm(18), mm(37))}


def test_plates_of_inset_doors_in_a_frame_stand_on_packing_behind_the_door(planned):
    # Door 18 thick flush with a 19 mm frame: its back is 1 in front of the case; 37 more is 36. Stile 38.1 less
    # the side's 18 is 20.1 of packing.
    cabinet = {"space": {"front": "door"}, "face_frame": {"material": "frame"}}
    plan = planned({**cabinet, "doors": {**SLAB, "hang": "inset", "gap": 3}}, PLAIN)
    (line,) = [h for h in plan.hardware if h.item == "cup-35-plate"]
    assert {p[:2] for p in line.at} == {(mm("38.1"), mm(36))}
    assert "packing 20.1 mm" in line.used_for


def test_a_bore_that_leaves_its_wood_is_left_out_of_the_part(planned):
    plan = planned({"space": {"front": "door"}, "doors": {**FRAMED, "stile": 30, "rail": 60}}, PLAIN)
    assert cups(plan, "door-1") == []


def test_a_bore_of_an_inch_and_a_half_for_a_35_mm_cup_is_a_caution(planned, codes):
    # 38.1 mm is 3.1 mm over the cup; over 1 mm is a caution (common practice, no source). Its centre stands at
    # 19.05 + 5 = 24.05 mm.
    space = {"front": "door"}
    plan = planned({"space": space, "doors": {**FRAMED, "bore": "1 1/2 in", "bore_edge": 5}}, PLAIN)
    assert [level for level, *_ in codes(plan, "bore-wider-than-cup")] == ["caution"]
    (leaf,) = plan.doors
    assert {(h.diameter, h.mouth[0] - leaf.at[0]) for _, h in cups(plan, "door-1")} == {(mm("38.1"), mm("24.05"))}
    assert codes(planned({"space": space, "doors": FRAMED}, PLAIN), "bore-wider-than-cup") == []


def screws(plan, words):
    return [line for line in plan.hardware if line.where == words]


def test_plates_and_cups_have_their_screws_at_their_places(planned):
    # Two a plate, 32 mm apart about the hinge's centre; two a cup, 45 mm apart and 9.5 farther in (planning pages).
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "hinges": 2}}, PLAIN)
    (leaf,) = plan.doors
    (plates,), (in_cups,) = screws(plan, "in hinge plates"), screws(plan, "in hinge cups")
    centres = [leaf.at[2] + up for up in leaf.hinges]
    assert plates.item == "system-screw-6-13"
    assert sorted(plates.at) == sorted((mm(18), mm(37), z + way) for z in centres for way in (-mm(16), mm(16)))
    bored = [h.mouth for _, h in cups(plan, "door-1")]
    assert sorted(in_cups.at) == sorted(
        (x + mm("9.5"), y, z + way) for x, y, z in bored for way in (-mm("22.5"), mm("22.5"))
    )
    assert (plates.quantity, in_cups.quantity) == (4, 4)


@pytest.mark.parametrize(("thick", "item"), [("15.8", "screw-6-1-2"), (16, "screw-6-5-8")])
def test_screws_of_the_cups_do_not_come_through_the_door(planned, thick, item):
    # 5/8 in are 15.875 mm: through a door of 15.8, not through one of 16. The next shorter is 1/2 in, 12.7 mm.
    thin = {"thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": float(thick)}}
    doors = {"style": "slab", "material": "thin", "overlay": 10}
    plan = planned({"space": {"front": "door"}, "doors": doors}, PLAIN, materials=thin)
    assert [line.item for line in screws(plan, "in hinge cups")] == [item]


def test_hinge_plates_take_holes_of_the_pin_row_they_stand_in(planned):
    # Pins and plates both stand 37 behind the front on 32 mm: every plate's screws lie on the row's grid, and no
    # hinge moved by more than half a pitch from 80 mm or the middle between.
    door = {"front": "door", "loose_shelves": 2}
    plan = planned({"space": door, "doors": SLAB}, PLAIN)
    (leaf,) = plan.doors
    (plates,) = screws(plan, "in hinge plates")
    (side,) = [part for part in plan.parts if part.id == "bay/side-left"]
    row = {
        side.place.cylinder(hole).mouth
        for feature in side.features
        if feature.label.startswith("shelf pin")
        for hole in feature.holes
    }
    zs = {z for _, y, z in row if y == mm(37)}
    assert zs
    assert {(z - min(zs)) % mm(32) for _, _, z in plates.at} == {0}
    assert abs(leaf.hinges[0] - mm(80)) <= mm(16)
    assert [check for check in plan.checks if check.code == "plate-near-pins"] == []


@pytest.mark.parametrize(("front", "level"), [(37, "stop"), (43, "caution"), (45, None)])
def test_hinge_plates_are_tried_against_pin_rows_of_another_pitch(planned, codes, front, level):
    # Pins every 25 mm share no grid with plates at 32: at 37 some holes overlap; 43 stands 6 off, 1 of wood between
    # holes of 5 mm at the same height; 45 stands 8 off, 3 of wood.
    pins = {"pitch": 25, "from_front": front}
    plan = planned({"space": {"front": "door", "loose_shelves": 2}, "doors": SLAB}, {**PLAIN, "pins": pins})
    levels = {one for one, *_ in codes(plan, "plate-near-pins")}
    assert levels == ({level} if level else set())


@pytest.mark.parametrize(
    ("doors", "frame", "hinge", "plate"),
    [
        # Overlay 19 with B 5: the straight arm on a plate of 0; 9.5: half on 0; inset with a gap of 2: cranked on 3.
        ({"overlay": 19}, None, "full overlay", "plate 0 mm high"),
        ({"overlay": "9.5"}, None, "half overlay", "plate 0 mm high"),
        ({"hang": "inset", "gap": 2}, None, "inset", "plate 3 mm high"),
        ({"overlay": 13}, {"material": "frame"}, "full overlay", "face-frame plate 6 mm high"),
    ],
)  # fmt: skip
def test_hinges_are_named_as_they_are_ordered(planned, doors, frame, hinge, plate):
    cabinet = {"space": {"front": "door"}, "doors": {"style": "slab", "material": "case", **doors}}
    plan = planned({**cabinet, "face_frame": frame}, PLAIN)
    names = {line.item: line.name for line in plan.hardware if line.item.startswith("cup-35")}
    assert hinge in names["cup-35"]
    assert names["cup-35-plate"].startswith(plate)


def test_an_overlay_no_arm_reaches_is_a_caution(planned, codes):
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, "overlay": 24}}, PLAIN)
    # 24 is 5 over 14 + 5, and 3 over the 2 that a hinge adjusts.
    assert codes(plan, "hinge-overlay") == [("caution", "hinge-overlay", "bay/door-1")]
    assert codes(planned({"space": {"front": "door"}, "doors": {**SLAB, "overlay": 19}}, PLAIN), "hinge-overlay") == []
