"""Where cabinets find room along their wall, worked by hand: boxes of outside sizes, steps of 10 mm."""

from types import SimpleNamespace

import pytest
from casewright.plugins.cures.moving import is_free, is_open, least_free, set_out
from casewright.sdk.geometry import Box
from casewright.sdk.model import Obstacle, Spot
from casewright.sdk.units import MM

A, B = Spot(300 * MM, 1400 * MM, pointer="a"), Spot(900 * MM, 1400 * MM, pointer="b")


def stop(*obstacles, length=None, width=600, b=(B,)):
    """Return what stands for a stop: a and b, 600 wide and high, at 300 and 900 mm."""
    wall = SimpleNamespace(cabinets_at={"a": (A,), "b": b}, obstacles=obstacles, length=length)
    cabinets = [SimpleNamespace(id=name, width=width * MM, height=600 * MM) for name in ("a", "b")]
    return SimpleNamespace(plan=SimpleNamespace(job=SimpleNamespace(wall=wall, cabinets=cabinets, units="mm")))


def thing(x, width, z=1500, clear=0):
    return Obstacle("thing", "window", x * MM, z * MM, width * MM, 300 * MM, keep_clear=clear * MM)


@pytest.mark.parametrize(
    ("spots", "sign", "obstacles", "length", "by"),
    [
        ([A], 1, [thing(200, 300)], None, 1200),  # 500 is taken by b: past it, from 1500
        ([A, B], 1, [thing(200, 300)], None, 200),
        ([A, B], 1, [thing(200, 300, clear=15)], None, 220),  # 215, up to a step
        ([A, B], -1, [thing(1400, 300)], None, -100),
        ([A, B], -1, [thing(1000, 300)], None, None),  # 500 to the left would pass the wall's end
        ([A, B], 1, [thing(200, 300)], 1700 * MM, 200),
        ([A, B], 1, [thing(200, 300)], 1690 * MM, None),
        ([A], 1, [thing(200, 300, z=2000)], None, 1200),  # over it stands the window, beside it b
    ],
)
def test_the_least_move_that_hits_nothing(spots, sign, obstacles, length, by):
    found = least_free(stop(*obstacles, length=length), spots, sign)
    assert found == (None if by is None else by * MM)


def test_what_stays_is_in_the_way_and_what_goes_is_not():
    assert not is_free(stop(), [A], 10 * MM)
    assert is_free(stop(), [A, B], 10 * MM)
    assert is_free(stop(), [A], -10 * MM)
    assert not is_open(stop(), [Box(0, 0, 1400 * MM, 301 * MM, 1, 1500 * MM)])
    assert is_open(stop(), [Box(0, 0, 1400 * MM, 300 * MM, 1, 1500 * MM)])
    assert is_open(stop(), [Box(0, 0, 1400 * MM, 301 * MM, 1, 1500 * MM)], [A])


@pytest.mark.parametrize(
    ("case", "sign", "apart", "by"),
    [
        ({}, 1, 0, None),  # nothing is in another's way
        ({"width": 650}, 1, 0, (0, 50)),  # from 300 to 950, b from there
        ({"width": 650}, 1, 75, (0, 125)),
        ({"width": 650}, -1, 0, (-50, 0)),
        ({"width": 650, "length": 1590 * MM}, 1, 0, None),  # b would end at 1600
        ({"width": 650, "length": 1540 * MM}, -1, 0, (-60, -10)),  # b ends at the wall's end, a before it
        ({"width": 1000}, -1, 0, None),  # a would begin at -100
        ({"b": (Spot(300 * MM, 1400 * MM, pointer="b"),)}, 1, 0, (0, 600)),  # one over the other
        ({"b": (Spot(400 * MM, 500 * MM, pointer="b"),)}, 1, 0, None),  # at another level
    ],
)
def test_a_row_is_set_out_so_that_none_is_in_anothers_way(case, sign, apart, by):
    moves = set_out(stop(**case), sign, apart * MM)
    assert moves == (None if by is None else {("a", 0): by[0] * MM, ("b", 0): by[1] * MM})


def test_a_row_is_set_out_past_an_obstacle():
    # The window takes 950 to 1250: b, moved by steps of 10, begins there and ends at 1850, within the wall or not.
    window = thing(950, 300)
    assert set_out(stop(window, length=1850 * MM), 1, 0) == {("a", 0): 0, ("b", 0): 350 * MM}
    assert set_out(stop(window, length=1840 * MM), 1, 0) is None
