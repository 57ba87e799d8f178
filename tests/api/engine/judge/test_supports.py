"""What carries shelves and drawers, by hand. 18 mm birch plywood, G 0.42: F_e = 16,600 G^1.84 = 3,350 psi rounded."""

import math
from dataclasses import replace

import pytest

G, PSI = 9.80665, 4.4482216152605 / 25.4**2
LOOSE = {"space": {"loose_shelves": 2}}


def found(plan, code):
    return {check.subject: (check.level, check.value, check.limit) for check in plan.checks if check.code == code}


def pin(depth, arm, width=5.0):
    """Return where a stiff pin gives way: 3,350 psi, F_e D (√((2e + l)² + l²) − 2e − l)."""
    far = 2 * arm + depth
    return 3350 * PSI * width * (math.hypot(far, depth) - far)


def test_each_pin_takes_a_quarter_of_its_shelf(planned):
    # A shelf 762 × 318 of 18 mm at 685 kg/m3, 15 psf on it; holes 6 deep (a third of 18), the arm half of that and
    # half of the play of 2: 4. Over K_D = 10 D + 0.5 with D 5 mm, times 0.9.
    plan = planned(LOOSE, {"back": None})
    (shelf,) = [part for part in plan.parts if part.id == "bay/loose-shelf-1"]
    area = shelf.length * shelf.width * 1e-18
    level, value, limit = found(plan, "shelf-pins")["bay/loose-shelf-1"]
    assert value == pytest.approx((718.2 + 0.018 * 685 * G) * area / 4, rel=1e-4)
    assert limit == pytest.approx(pin(6, 4) / (10 * 5 / 25.4 + 0.5) * 0.9, rel=1e-4)
    assert level == "note"


def test_four_hundred_psf_on_pins_is_a_stop(planned):
    for psf, level in ((15, "note"), (40, "caution"), (400, "stop")):
        plan = planned({**LOOSE, "loading": {"shelf_psf": psf}}, {"back": None})
        assert found(plan, "shelf-pins")["bay/loose-shelf-1"][0] == level


def test_longer_pins_let_in_deeper_end_the_caution_that_offers_them(planned):
    """Thicker ones need not: from 1/4 in on NDS has the wood bear less and divides by more."""
    heavy = {**LOOSE, "loading": {"shelf_psf": 30}}
    (check,) = [
        one for one in planned(heavy, {"back": None}).checks if one.code == "shelf-pins" and one.level != "note"
    ][:1]
    assert "let longer pins in deeper" in check.message
    for pins, level in (({"depth": 12}, "note"), ({"diameter": "1/4 in"}, "caution")):
        plan = planned(heavy, {"back": None, "pins": pins})
        assert found(plan, "shelf-pins")[check.subject][0] == level


def test_pins_in_wood_no_rule_covers_are_a_stop(planned):
    board = {"kind": "sheet", "stuff": "mdf", "thickness": 18}
    plan = planned(LOOSE, {"back": None}, materials={"case": board})
    assert found(plan, "shelf-pins")["bay/loose-shelf-1"][::2] == ("stop", 0.0)


def test_an_end_in_its_groove_is_sheared_along_its_tongue(planned):
    # A tongue of 6 mm over 320, rolling shear 53 psi (from memory) at 1.5 the mean: 421 N; glued over 18 + 2 · 6 by
    # 320 at half of that: 1579 N, which is more and is what holds.
    case = {"fixed_joint": {"method": "tongue-in-groove", "tongue": 6, "depth": 6, "clearance": 0}, "back": None}
    plan = planned({"space": {"fixed_shelves": 1}, "loading": {"shelf_psf": 200}}, case)
    (joint,) = [joint for joint in plan.joints if joint.guest == "bay/shelf-1" and joint.press == -1]
    places = found(plan, "shelf-ends")
    glue = joint.glue_area_mm2 * 53 * PSI * 0.9 * 0.5
    assert all(limit == pytest.approx(glue, rel=1e-4) for level, _, limit in places.values() if level == "stop") or (
        "bay/shelf-1" not in places
    )


def test_a_shelf_end_that_is_too_weak_is_a_stop(planned):
    # Some dowels of 8 mm: 50 mm2 each at 353 psi · 0.75 · 0.9; 400 psf on 764 × 320 is 4682 N, 2341 an end.
    case = {"fixed_joint": {"method": "dowel"}, "corner": {"method": "dowel"}, "back": None}
    plan = planned({"space": {"fixed_shelves": 1}, "loading": {"shelf_psf": 400}}, case)
    level, value, limit = found(plan, "shelf-ends")["bay/shelf-1"]
    assert level == "stop"
    lines = [line for line in plan.hardware if "shelf-1" in line.used_for and "dowel" in line.item]
    each = 0.7854 * 8**2 * 1880 * 0.77 / 4.1 * PSI * 0.75 * 0.9
    # Or its glued ends at a quarter (GTR-190), whichever holds better; never both.
    (glue, _) = [joint.glue_area_mm2 for joint in plan.joints if joint.guest == "bay/shelf-1"]
    dowels = len(lines[0].at) * each
    assert limit == pytest.approx(max(dowels, glue * 53 * PSI * 0.9 * 0.5 * 0.25), rel=1e-3)
    (part,) = [part for part in plan.parts if part.id == "bay/shelf-1"]
    own = part.length * part.width * 1e-18 * 0.018 * 685 * G
    # Shelf and bottom are of one size: each carries its own area's load.
    assert value == pytest.approx((400 * 47.88026 * part.length * part.width * 1e-18 + own) / 2, rel=1e-3)


def test_runner_screws_of_a_drawer_that_stands_open(planned):
    base = {
        "form": "base", "depth": 500, "space": {"front": "drawer", "drawers": 2},
        "drawers": {"material": "case", "bottom": "thin", "front": "case"},
    }  # fmt: skip
    plan = planned(base, {"back": None})
    level, _, limit = found(plan, "runner-screws")["bay/drawer-1"]
    # 6.3 mm screws 12 deep, no arm, for ten minutes 1.6, over K_D = 10 D + 0.5.
    assert limit == pytest.approx(pin(12, 0, 6.3) / (10 * 6.3 / 25.4 + 0.5) * 1.6, rel=1e-4)
    assert level == "note"
    (line,) = [line for line in plan.hardware if line.item == "system-screw-6-13" and line.used_for == "bay/drawer-1"]
    assert line.quantity == len(line.at) == 6
    # Three screws a side, 192 apart, take half the weight at its arm; 200 kg of contents are over what gives way.
    heavy = planned({**base, "mounting": {"method": "screw-strip", "contents_kg": 200}}, {"back": None})
    assert found(heavy, "runner-screws")["bay/drawer-1"][0] == "stop"


def test_runners_are_loaded_no_more_than_they_are_rated_for(planned, registry):
    # All 20 kg lie in the one drawer, as high as the case: its boards by their sizes and 685 kg/m3, less the grooves.
    base = {
        "form": "base", "depth": 500, "space": {"front": "drawer"},
        "mounting": {"method": "screw-strip", "contents_kg": 20},
        "drawers": {"material": "case", "bottom": "thin", "front": "case"},
    }  # fmt: skip
    for rated, stops in ((40, 1), (60, 0)):
        slides = tuple(replace(slide, rated_kg=rated) for slide in registry.catalogue.slides)
        plan = planned(base, {"back": None}, replace(registry, catalogue=replace(registry.catalogue, slides=slides)))
        boards = [part for part in plan.parts if part.group == "drawer-1"]
        blank_kg = sum(part.length * part.width * part.thickness for part in boards) * 685e-27
        rows = found(plan, "runner-load")
        assert len(rows) == stops
        for level, value, limit in rows.values():
            assert (level, limit) == ("stop", rated)
            assert value == pytest.approx(20 + blank_kg, rel=0.02)
            assert value < 20 + blank_kg


def test_drawers_on_both_faces_of_a_divider(planned):
    # Each face carries its own runner: rows of one face alone are a group.
    base = {
        "form": "base", "depth": 300, "space": {"bays": [{"front": "drawer"}, {"front": "drawer"}]},
        "drawers": {"material": "case", "bottom": "thin", "front": "case"},
    }  # fmt: skip
    plan = planned(base, {"back": None})
    assert {level for level, *_ in found(plan, "runner-screws").values()} <= {"note", "caution"}


@pytest.mark.parametrize("stuff", ["birch-plywood", "mdf", "particleboard"])
@pytest.mark.parametrize("corner", ["rabbet", "dowel", "biscuit", "screwed-butt", "pocket-screw", "loose-tenon"])
def test_ordinary_cases_hold_the_load_of_the_cabinet_standard(planned, stuff, corner):
    # 15 psf (KCMA A161.1 5.1) on 764 × 320 mm is 176 N: such cases are made every day.
    board = {"kind": "sheet", "stuff": stuff, "thickness": 18}
    plan = planned(case={"corner": {"method": corner}, "back": None}, materials={"case": board})
    assert {level for level, *_ in found(plan, "shelf-ends").values()} == {"note"}
