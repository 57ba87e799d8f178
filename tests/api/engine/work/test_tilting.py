"""Shelves behind face frames, by hand trigonometry (sines and cosines to five places, from a table)."""

import pytest
from casewright.api.engine.work.tilting import STEEPEST, tilted_in
from casewright.sdk.units import mm

SHELF = (mm(560), mm(18))


@pytest.mark.parametrize("high", [287, 288])
def test_a_shelf_goes_in_at_29_degrees(high):
    # 560 cos 28 + 18 sin 28 = 494.45 + 8.45 = 502.90, too wide for 500; at 29: 489.79 + 8.73 = 498.51.
    # At 29 it is 560 sin 29 + 18 cos 29 = 271.49 + 15.74 = 287.24 high. Diagonal: sqrt(560^2 + 18^2) = 560.29.
    tilt = tilted_in(SHELF, (mm(500), mm(high)), (mm(562), mm(700)))
    if high == 287:
        assert tilt is None
    else:
        assert tilt is not None
        assert tilt.degrees == 29
        assert tilt.spare == pytest.approx(mm("0.76"), abs=mm("0.01"))  # of 288; elsewhere there is more


def test_the_diagonal_must_turn_between_the_sides():
    # sqrt(560^2 + 18^2) = 560.289: a room 560.28 wide jams it, one 560.3 does not.
    assert tilted_in(SHELF, (mm(500), mm(400)), (mm("560.28"), mm(700))) is None
    tilt = tilted_in(SHELF, (mm(500), mm(400)), (mm("560.3"), mm(700)))
    assert tilt is not None
    assert tilt.spare == pytest.approx(mm("0.011"), abs=mm("0.001"))


def test_a_low_room_behind_a_high_opening_stops_it():
    assert tilted_in(SHELF, (mm(500), mm(600)), (mm(562), mm(280))) is None


def test_what_is_narrower_than_the_opening_goes_straight_in():
    tilt = tilted_in(SHELF, (mm(561), mm(300)), (mm(562), mm(300)))
    assert tilt is not None
    assert (tilt.degrees, tilt.spare) == (0, mm(1))


def test_an_opening_hardly_wider_than_the_shelf_is_thick_is_not_proved():
    # At 85 degrees: 560 x 0.08716 + 18 x 0.99619 = 48.81 + 17.93 = 66.74 wide.
    assert STEEPEST == 85
    assert tilted_in(SHELF, (mm("66.7"), mm(700)), (mm(562), mm(700))) is None
    assert tilted_in(SHELF, (mm("66.8"), mm(700)), (mm(562), mm(700))) is not None


def test_a_shelf_behind_a_face_frame_goes_in_tilted(planned):
    # Case 800 wide over 18 mm sides: 764 inside, the shelf 2 shorter. Stiles of 60: 680 open. 762 cos 28 + 18 sin 28 =
    # 672.81 + 8.45 = 681.26, at 29: 666.46 + 8.73 = 675.18. Least spared: 764 - sqrt(762^2 + 18^2) = 1.79.
    frame = {"material": "frame", "stile": 60, "rail": 60}
    case = {"back": None, "pins": {"shelf_play": 2}}
    plan = planned({"face_frame": frame, "space": {"loose_shelves": 1}}, case)
    (check,) = [c for c in plan.checks if c.code == "shelf-behind-frame"]
    assert check.subject == "bay/loose-shelf-1"
    assert check.finding.level == "note"
    assert check.finding.value == pytest.approx(mm("1.787"), abs=mm("0.002"))
    assert "tilted 29 degrees" in check.finding.message


def test_a_case_without_a_face_frame_needs_no_tilt(planned):
    plan = planned({"space": {"loose_shelves": 1}}, {"back": None})
    assert [c for c in plan.checks if c.code == "shelf-behind-frame"] == []
