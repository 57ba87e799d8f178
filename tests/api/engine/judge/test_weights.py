"""Masses against manifold3d's volumes times the densities of the published tables."""

import pytest
from kernel import part_volume_mm3

FULL = {
    "space": {"bays": [{"front": "door", "fixed_shelves": 1}, {"front": "door-pair", "loose_shelves": 1}]},
    "width": 1000,
    "face_frame": {"material": "frame"},
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin", "pull": {"item": "bar-96"}},
}


def density(plan, registry, part):
    stuff = registry.catalogue.stuff(plan.job.materials[part.material].stuff)
    return stuff.density_at(part.thickness)


def test_the_cabinet_weighs_what_its_solids_weigh(planned, registry):
    plan = planned(FULL, {"back": {"material": "thin", "inset": 19, "joint": {"method": "housed-groove"}}})
    wanted = sum(part_volume_mm3(p, 200) * 1e-9 * density(plan, registry, p) for p in plan.parts)
    # Hinges weigh 0.10 kg, the pulls 0.08 (common practice, no source).
    count = {item: sum(line.quantity for line in plan.hardware if line.item == item) for item in ("cup-35", "bar-96")}
    assert count["bar-96"] == 3
    wanted += 0.10 * count["cup-35"] + 0.08 * count["bar-96"]
    # Holes that break into another cut (cups into the panel groove) count whole: well under a part in a thousand.
    assert plan.weights[0].mass_kg == pytest.approx(wanted, rel=1e-3)


def test_a_board_by_hand(planned):
    # Four case parts of 18 mm birch plywood at 685 kg/m³ (EN 315-class data sheet): 2 × 900 × 320 and
    # 2 × 764 × 320, the dowel holes apart.
    plan = planned(case={"corner": {"method": "dowel"}, "back": None})
    wood = 2 * (0.9 + 0.764) * 0.32 * 0.018 * 685
    assert plan.weights[0].mass_kg < wood
    assert plan.weights[0].mass_kg == pytest.approx(wood, rel=0.01)


def test_the_centre_of_a_plain_box_is_its_middle(planned):
    plan = planned(case={"corner": {"method": "rabbet"}, "back": None})
    x, y, z = (c / 1e6 for c in plan.weights[0].centre)
    assert (x, y, z) == pytest.approx((400, 160, 450), abs=0.01)


def test_a_back_and_a_frame_pull_the_centre_their_way(planned):
    bare = planned(case={"corner": {"method": "rabbet"}, "back": None}).weights[0]
    backed = planned(case={"back": {"material": "case", "inset": 0, "joint": {"method": "applied"}}}).weights[0]
    framed = planned({"face_frame": {"material": "frame"}}, {"back": None}).weights[0]
    assert backed.centre[1] > bare.centre[1] > framed.centre[1]
    assert backed.mass_kg > bare.mass_kg


def test_edging_weighs_as_its_own_stuff(planned, registry):
    # Fronts less the rabbets are as long as the bands: 2 × 900 − 4 × 9 + 2 × 782 = 2 × 900 + 2 × 764 = 3 328 mm.
    # 1 mm of red oak instead of 1 mm of birch plywood on the front edges: 685 against oak's tabulated density.
    plain = planned(case={"corner": {"method": "rabbet"}, "back": None}).weights[0].mass_kg
    banded = planned(case={"corner": {"method": "rabbet"}, "back": None, "case_band": "edging"}).weights[0].mass_kg
    oak = registry.catalogue.stuff("red-oak").density_kg_m3
    length = 2 * 0.9 + 2 * 0.764
    assert banded - plain == pytest.approx(length * 0.018 * 0.001 * (oak - 685), abs=2e-4)


def test_what_stays_on_the_wall_is_not_weighed(planned):
    cleat = {"mounting": {"method": "bevel-cleat", "contents_kg": 10}}
    back = {"back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}}}
    without, hung = planned(case=back), planned(cleat, back)
    parts = {p.role: p for p in hung.parts if p.group == "mounting"}
    assert "wall-cleat" in parts
    extra = sum(part_volume_mm3(p) * 1e-9 * 685 for p in hung.parts if p.group == "mounting" and p.role != "wall-cleat")
    assert hung.weights[0].mass_kg - without.weights[0].mass_kg == pytest.approx(extra, abs=0.02)


def test_hardware_weighs_where_it_stands(planned):
    # One door of 10 hinges' worth: the same cabinet with two and with five hinges, 0.10 kg each at the door's back.
    doors = {"style": "slab", "material": "case", "overlay": 10}
    two, five = (
        planned({"space": {"front": "door"}, "doors": {**doors, "hinges": count}}, {"back": None}).weights[0]
        for count in (2, 5)
    )
    cup = 3.14159 / 4 * 35**2 * 12.5 * 685e-9
    assert five.mass_kg - two.mass_kg == pytest.approx(3 * (0.10 - cup), abs=1e-4)
    assert five.centre[1] < two.centre[1]
