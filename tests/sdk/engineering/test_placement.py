"""Where fasteners may stand in a row: NDS 2018 12.5.1 (read in a page-cited second-hand copy), D 1/2 in."""

import pytest
from casewright.sdk.engineering import placement
from casewright.sdk.engineering.limits import OutsideLimits

IN = 25.4


@pytest.mark.parametrize(("apart", "factor"), [(1.5, 0.75), (2.0, 1.0), (3.0, 1.0)])
def test_the_geometry_factor_of_a_row(apart, factor):
    assert placement.row_factor(apart * IN, 0.5 * IN) == pytest.approx(factor, rel=1e-12)


def test_closer_than_three_diameters_is_refused():
    with pytest.raises(OutsideLimits):
        placement.row_factor(1.49 * IN, 0.5 * IN)


@pytest.mark.parametrize(("lag", "edge", "loaded"), [(0.25, 0.375, 1.0), (0.3125, 0.46875, 1.25), (0.375, 0.5625, 1.5)])
def test_a_cleats_edges_and_ends(lag, edge, loaded):
    room = placement.spacing(lag * IN)
    assert (room.edge, room.loaded_edge, room.end) == pytest.approx((edge * IN, loaded * IN, loaded * IN))


def test_screws_are_advised_ten_diameters_along_the_grain():
    # NDS commentary, lead holes (from memory); five of EN 1995-1-1 Table 8.2 are the least (from memory).
    room = placement.spacing(0.19 * IN)
    assert room.advisory
    assert (room.in_row, room.in_row_least) == pytest.approx((1.9 * IN, 0.95 * IN))
    assert placement.row_factor(1.3 * IN, 0.19 * IN) == 1.0
    with pytest.raises(OutsideLimits):
        placement.row_factor(0.94 * IN, 0.19 * IN)
