"""Holes bored from one side of a part that run into each other; webs from two sides: see test_dry_fit and test_pins."""

import pytest

CASE = {"corner": {"method": "rabbet"}, "back": {"material": "case", "inset": 20}}


@pytest.mark.parametrize(("at", "meet"), [(253, True), (265, False)])
def test_a_screw_hole_runs_into_a_pin_hole_of_the_same_face(planned, codes, at, meet):
    # Pins of 5 stand 65 behind the front and 64 + 32 n over the divider's lower end: 256. The shelf of the right bay
    # has two screws 152.4 apart in 282: 64.8 behind the front, 9 over its underside. A hole for a No. 8 screw is over
    # 4 wide: 3 from a pin's the two meet, 9 from it they do not.
    case = {**CASE, "fixed_joint": {"method": "screwed-butt"}, "pins": {"from_front": 65}}
    bays = [{"loose_shelves": 1}, {"fixed_shelves": [at - 9]}]
    plan = planned({"space": {"bays": bays}}, case)
    assert codes(plan, "holes-meet") == ([("caution", "holes-meet", "bay/divider-1")] if meet else [])
