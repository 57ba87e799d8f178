"""Shelf pins: the 32 mm convention (sources: practice-32-mm), and holes that always lie in wood."""

import itertools

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import mm

PLAIN = {"back": None}


def rows(plan, part):
    return [f for f in part.features if f.label.startswith("shelf pins")]


def mouths(plan, part):
    return sorted({part.place.point(h.mouth)[1:] for f in rows(plan, part) for h in f.holes})


def test_holes_are_5_mm_at_32_mm_37_mm_back(planned, part_of):
    # First hole 64 mm over the bottom's upper face (18): z = 82, then 32 apart up to 882 − 64 = 818: 82 + 23 × 32.
    plan = planned({"space": {"loose_shelves": 1}}, PLAIN)
    side = part_of(plan, "side-left")
    assert {h.diameter for f in rows(plan, side) for h in f.holes} == {mm(5)}
    places = mouths(plan, side)
    assert sorted({y for y, _ in places}) == [mm(37), mm(320 - 37)]
    assert sorted({z for _, z in places}) == [mm(82 + 32 * n) for n in range(24)]
    assert mouths(plan, part_of(plan, "side-right")) == places


def test_inset_doors_add_their_thickness_and_rows_keep_in_line_with_hinge_plates(planned, part_of):
    # 37 + 18 mm slab; the stand-off moves shelves, not holes. (common practice: practice-32-mm)
    door = {"style": "slab", "material": "case", "hang": "inset", "gap": 3, "stand_off": 2}
    plan = planned({"space": {"front": "door", "loose_shelves": 1}, "doors": door}, PLAIN)
    places = mouths(plan, part_of(plan, "side-left"))
    assert min(y for y, _ in places) == mm(37 + 18)
    plates = [line for line in plan.hardware if line.item == "cup-35-plate"]
    assert {y for line in plates for _, y, _ in line.at} == {mm(37 + 18)}


def test_rows_keep_to_the_case_front_whatever_the_setback_or_band(planned, part_of):
    for case in ({"shelf_setback": 20}, {"case_band": "edging"}, {"shelf_band": "edging"}):
        plan = planned({"space": {"loose_shelves": 1}}, {**PLAIN, **case})
        assert min(y for y, _ in mouths(plan, part_of(plan, "side-left"))) == mm(37)


def test_a_custom_row(planned, part_of):
    pins = {"diameter": "1/4 in", "pitch": "1 in", "from_front": "2 in", "from_back": "1 in", "clear_ends": "4 in"}
    plan = planned({"space": {"loose_shelves": 2}}, {**PLAIN, "pins": pins})
    places = mouths(plan, part_of(plan, "side-left"))
    inch = mm("25.4")
    assert sorted({y for y, _ in places}) == [2 * inch, mm(320) - inch]
    heights = sorted({z for _, z in places})
    assert {b - a for a, b in itertools.pairwise(heights)} == {inch}
    assert heights[0] == mm(18) + 4 * inch


def test_a_loose_shelf_stands_on_its_pins_with_its_play(planned, part_of):
    # 764 − 2 play = 762 long; 320 − 2 = 318 deep; its underside 2.5 over a hole's centre.
    plan = planned({"space": {"loose_shelves": 1}}, PLAIN)
    shelf = part_of(plan, "loose-shelf-1")
    assert (shelf.length, shelf.width) == (mm(762), mm(318))
    under = shelf.place.box(shelf.blank).z0
    assert under - mm("2.5") in {z for _, z in mouths(plan, part_of(plan, "side-left"))}
    (line,) = [h for h in plan.hardware if h.item == "pin-5"]
    assert line.quantity == 4


def test_fixed_shelves_part_the_rows(planned, part_of):
    plan = planned(
        {"space": {"fixed_shelves": [423], "loose_shelves": 2}}, {**PLAIN, "fixed_joint": {"method": "dowel"}}
    )
    heights = {z for _, z in mouths(plan, part_of(plan, "side-left"))}
    shelf = part_of(plan, "shelf-1")
    box = shelf.place.box(shelf.blank)
    assert all(z <= box.z0 - mm(64) or z >= box.z1 + mm(64) for z in heights)
    assert plan.dry_fit.clashes == ()


def test_holes_from_both_sides_of_a_divider_leave_a_web(planned, codes):
    # 10 mm deep from both sides of 18 mm is 2 mm too deep; 6 mm leaves 6 mm, over a quarter (4.5).
    both = {"space": {"bays": [{"loose_shelves": 1}, {"loose_shelves": 1}]}}
    deep = planned(both, {**PLAIN, "pins": {"depth": 10}})
    assert codes(deep, "web") == [("stop", "web", "bay/divider-1")]
    assert next(c.value for c in deep.checks if c.code == "web") == mm(-2)
    assert codes(planned(both, {**PLAIN, "pins": {"depth": 6}}), "web") == []


@pytest.mark.parametrize(
    ("pins", "case", "pointer"),
    [
        ({"depth": 18}, {}, "/case/pins/depth"),
        ({"depth": 30}, {}, "/case/pins/depth"),
        ({"from_front": 2}, {}, "/case/pins/from_front"),
        ({"from_back": 0}, {}, "/case/pins/from_back"),
        ({"clear_ends": 2}, {}, "/case/pins/clear_ends"),
        ({"from_front": 200, "from_back": 200}, {}, "/case/pins"),
        ({}, {"shelf_setback": 40}, "/case/shelf_setback"),
        ({"clear_ends": 440}, {}, "/space/loose_shelves"),
        ({"pitch": 5, "clear_ends": 425}, {}, "/space/loose_shelves"),
    ],
)
def test_pins_that_cannot_be_are_refused_at_their_place(planned, pins, case, pointer):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": {"loose_shelves": 3}}, {**PLAIN, **case, "pins": pins})
    problem = caught.value.problems[0]
    assert problem.pointer == f"/cabinets/0{pointer}"
    assert problem.fix


def test_little_wood_behind_the_holes_is_told(planned, codes):
    plan = planned({"space": {"loose_shelves": 1}}, {**PLAIN, "pins": {"depth": 16}})
    assert {level for level, *_ in codes(plan, "thin-web-behind-pins")} == {"caution"}


def test_many_loose_shelves_never_stand_in_one_another(planned):
    for n in range(1, 20):
        try:
            plan = planned({"space": {"loose_shelves": n}}, PLAIN)
        except NoGeometryError:
            assert n > 12
            continue
        assert plan.dry_fit.clashes == ()
        assert len({p.place.at for p in plan.parts if p.group == "loose"}) == n


@pytest.mark.parametrize(("thickness", "depth"), [(18, 6), (24, 8), (36, 10)])
def test_holes_are_a_third_of_the_wood_deep_and_10_mm_at_the_most(planned, part_of, thickness, depth):
    # Where the job does not say: a third of the thinner part, never over 10 mm (common practice, no source).
    materials = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": thickness}}
    plan = planned({"space": {"loose_shelves": 1}}, PLAIN, materials=materials)
    holes = [h for f in part_of(plan, "side-left").features if f.label.startswith("shelf pins") for h in f.holes]
    assert {h.depth for h in holes} == {mm(depth)}
