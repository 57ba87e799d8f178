"""Rows of fasteners: symmetric, on the 32 mm step where it fits, clear of other cuts."""

from functools import cache
from itertools import pairwise

import pytest
from casewright.sdk.joinery import Spacing, area_mm2, clear_length, clear_row, mirrored, row
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import CannotError
from casewright.sdk.testing import a_meeting, registry_with
from casewright.sdk.units import MM
from hypothesis import given, settings
from hypothesis import strategies as st


@given(
    run=st.integers(1, 900 * MM),
    end=st.integers(0, 60 * MM),
    pitch=st.integers(20 * MM, 200 * MM),
    least=st.integers(1, 40 * MM),
)
def test_rows_keep_their_distances(run: int, end: int, pitch: int, least: int) -> None:
    points = row(run, Spacing(end, pitch, least))
    assert points
    assert all(abs(a + b - run) <= 1 for a, b in zip(points, reversed(points), strict=True))
    if len(points) > 1:
        assert min(points) >= end
        assert all(b - a >= min(least, pitch) - 1 for a, b in pairwise(points))


def test_rows_on_the_32_mm_step() -> None:
    # 32 mm convention (document read): 608 = 19·32. With 32 mm at each end 544 = 17·32 is free: 96 mm leaves 64
    # over and 64 mm leaves 32, so the row takes 64 mm.
    points = row(608 * MM, Spacing(32 * MM, 96 * MM, 16 * MM))
    assert {b - a for a, b in pairwise(points)} == {64 * MM}
    assert mirrored(100, 3, 10) == (40, 50, 60)


@cache
def _catalogue() -> Catalogue:
    return registry_with().catalogue


@settings(deadline=None)  # the first draw loads the registry
@given(run=st.integers(10 * MM, 700 * MM), low=st.integers(0, 690 * MM), wide=st.integers(1, 25 * MM))
def test_rows_stay_out_of_other_cuts_or_say_how_long_the_joint_must_be(run: int, low: int, wide: int) -> None:
    low = min(low, max(0, run - wide))
    crossing = ((low, low + wide),)
    meeting = a_meeting("corner", _catalogue(), run=run, keep_clear=crossing)
    longest = max(low, run - low - wide)  # a fastener 8 mm across, and 3 mm (the layout's own) at both its sides
    assert clear_length(meeting) == longest
    spacing = Spacing(16 * MM, 96 * MM, 16 * MM)
    if longest < 14 * MM:
        with pytest.raises(CannotError, match="or more along the joint"):
            clear_row(meeting, 4 * MM, spacing)
        return
    points = clear_row(meeting, 4 * MM, spacing)
    assert points
    assert all(x + 4 * MM < low or x - 4 * MM > low + wide for x in points)
    assert all(4 * MM <= x <= run - 4 * MM for x in points)


def test_area() -> None:
    assert area_mm2((10 * MM, 20 * MM), (MM, MM)) == 201.0
