"""Screws of hinge plates, 11 mm in the wood in holes of 5 mm, 16 over and under a hinge 80 from the door's end."""

import pytest

PLAIN = {"corner": {"method": "rabbet"}, "back": {"material": "case", "inset": 20}}
SLAB = {"style": "slab", "material": "case", "hinges": 2}


def bays(left, right):
    return {"bays": [{"front": "door", "hinge_side": left}, {"front": "door", "hinge_side": right}]}


@pytest.mark.parametrize(("right", "meet"), [("left", True), ("right", False)])
def test_plates_of_two_doors_on_one_divider_have_screws_that_meet(planned, codes, right, meet):
    # 11 from each side are 22, more than the divider's 18; hinged on the side instead, one of them is elsewhere.
    plan = planned({"space": bays("right", right), "doors": {**SLAB, "overlay": 7}}, PLAIN)
    assert codes(plan, "plate-meets-plate") == ([("caution", "plate-meets-plate", "bay/divider-1")] if meet else [])


def test_screws_from_both_sides_of_a_thick_divider_do_not_meet(planned, codes):
    # 22 in 24 leave 2 mm between them.
    thick = {"thick": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 24}}
    case = {**PLAIN, "material": "thick"}
    plan = planned({"space": bays("right", "left"), "doors": {**SLAB, "overlay": 7}}, case, materials=thick)
    assert codes(plan, "plate-meets-plate") == []


@pytest.mark.parametrize(("method", "meets"), [("pocket-screw", True), ("housed-groove", False)])
def test_a_plate_screw_finds_no_wood_in_a_screw_pocket(planned, codes, method, meets):
    # A pocket in a divider 24 thick begins 18 from its end and is 45 long, at a slope of 1 in 3.73: 42 to 87 up, over
    # a bottom of 24. The divider is 226 wide: two screws 152.4 apart, the first 36.8 from its front. A door 17 up has
    # its lower plate screw 17 + 80 - 16 = 81 up, 37 from the front.
    thick = {"thick": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 24}}
    case = {**PLAIN, "material": "thick", "fixed_joint": {"method": method}}
    cabinet = {"space": {"bays": [{}, {"front": "door"}]}, "depth": 264, "doors": {**SLAB, "overlay": 7}}
    checks = codes(planned(cabinet, case, materials=thick), "plate-meets-cut")
    assert checks == ([("caution", "plate-meets-cut", "bay/divider-1")] if meets else [])
