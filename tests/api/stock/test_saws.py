"""Which saw makes a cut, on pieces given in mm. Limits by common practice, no source; sizes by hand."""

import pytest
from casewright.api.stock import Saws, StraightCut, in_place_of_a_table_saw
from casewright.sdk.model import Machine, StockPiece

MM = 1_000_000


def saw(run, across, kept, *machines, **reach):
    saws = Saws(frozenset(machines), **{name: size * MM for name, size in reach.items()})
    return saws.machine(StraightCut(run * MM, across * MM, kept * MM))


def test_a_strip_is_ripped_along_its_long_edge_at_the_fence():
    assert saw(2440, 1220, 300) is Machine.TABLE_SAW


def test_a_piece_longer_across_than_along_rides_no_fence():
    # 300 along the fence and 301 across it would turn; square to it just rides.
    assert saw(300, 300, 100) is Machine.TABLE_SAW
    assert saw(300, 301, 100) is Machine.CROSSCUT_SLED


def test_an_edge_too_short_for_the_fence_lies_on_the_sled():
    assert saw(149, 100, 50) is Machine.CROSSCUT_SLED
    assert saw(150, 100, 50) is Machine.TABLE_SAW


def test_what_the_sled_does_not_reach_across_is_cut_with_a_track():
    assert saw(600, 900, 400) is Machine.CROSSCUT_SLED
    assert saw(620, 900, 400) is Machine.TRACK_SAW
    assert saw(310, 900, 400, crosscut_capacity=305) is Machine.TRACK_SAW
    assert saw(620, 900, 400, crosscut_capacity=650) is Machine.CROSSCUT_SLED


def test_a_long_piece_lies_on_the_sled_only_where_it_is_narrow():
    assert saw(90, 2400, 700) is Machine.CROSSCUT_SLED
    assert saw(500, 2400, 700) is Machine.TRACK_SAW


def test_what_the_fence_does_not_reach_is_cut_with_a_track():
    assert saw(2440, 1220, 700, rip_capacity=700) is Machine.TABLE_SAW
    assert saw(2440, 1220, 701, rip_capacity=700) is Machine.TRACK_SAW


@pytest.mark.parametrize(
    ("machines", "chosen"),
    [
        ((Machine.MITRE_SAW, Machine.TRACK_SAW), Machine.MITRE_SAW),
        ((Machine.TABLE_SAW, Machine.TRACK_SAW), Machine.TRACK_SAW),
        (
            (Machine.TABLE_SAW, Machine.BAND_SAW),
            Machine.CROSSCUT_SLED,
        ),  # the shop has none: what it lacks is the best there is
    ],
)
def test_the_best_saw_of_the_shop_is_chosen(machines, chosen):
    assert saw(90, 2400, 700, *machines) is chosen


def test_a_sled_of_unknown_reach_takes_what_no_track_can():
    assert saw(620, 900, 400, Machine.TABLE_SAW, Machine.CROSSCUT_SLED) is Machine.CROSSCUT_SLED
    assert saw(620, 900, 400, Machine.CROSSCUT_SLED, crosscut_capacity=600) is Machine.TRACK_SAW


@pytest.mark.parametrize(("cup", "twist", "run", "across", "flat"), [
    (1, 0, 2000, 200, True), (2, 0, 2000, 200, False), (2, 0, 2000, 100, True),
    (0, 2, 2000, 200, False), (0, 2, 1000, 200, True), (0, 2, 2000, 100, True), (1, 1, 2000, 200, False),
])  # fmt: skip
def test_a_board_rocks_by_its_own_cup_and_twist_a_piece_of_it_by_less(cup, twist, run, across, flat):
    """1 mm at most (common practice). Half the width: a quarter of the cup, half the twist; half the length: half."""
    piece = StockPiece("plank", "oak", 27 * MM, 2000 * MM, 200 * MM, kind="board", cup=cup * MM, twist=twist * MM)
    assert (in_place_of_a_table_saw(piece, run * MM, across * MM) == ()) is flat
