"""Arms and plates: overlay = constant + edge distance - plate height (planning pages; constants from memory)."""

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.hinges import most_hinges, pick_arm
from casewright.sdk.units import mm

HINGE = CATALOGUE.hinge("cup-35")


@pytest.mark.parametrize(
    ("overlay", "edge", "arm", "plate", "adjust"),
    [
        # Straight, 14: 14 + 5 - 0 = 19; 14 + 5 - 6 = 13 for 12.7.
        (19, 5, "full", 0, 0),
        ("12.7", 5, "full", 6, "-0.3"),
        # Half, 4.5: 4.5 + 5 - 0 = 9.5; 4.5 + 3 - 0 = 7.5 for 7.
        ("9.5", 5, "half", 0, 0),
        (7, 3, "half", 0, "-0.5"),
        # Inset with a gap of 2: -4 + 5 - 3 = -2.
        (-2, 5, "inset", 3, 0),
    ],
)
def test_the_arm_and_plate_of_an_overlay(overlay, edge, arm, plate, adjust):
    picked = pick_arm(HINGE, mm(overlay), mm(edge))
    assert picked.arm.title.startswith(arm)
    assert (picked.plate_height, picked.adjust) == (mm(plate), mm(adjust))


def test_how_many_hinges_a_door_takes():
    # 900 less 80 at each end leaves 740: 12 spaces of 60; 184 less a quarter at each end leaves 92: one space.
    assert most_hinges(HINGE, mm(900)) == 13
    assert most_hinges(HINGE, mm(184)) == 2
