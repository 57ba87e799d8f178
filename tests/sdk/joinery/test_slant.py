"""A slot at 45 degrees as boxes and wedges."""

import pytest
from casewright.sdk.joinery.slant import Slanted, slanted_slot
from casewright.sdk.methods import CannotError
from casewright.sdk.units import INCH, MM
from casewright.sdk.writer import INCHES, MILLIMETRES
from hypothesis import given
from hypothesis import strategies as st


@given(thick=st.integers(2 * MM, 5 * MM), ratio=st.floats(1.05, 2.9))
def test_slanted_slot_has_the_area_of_its_rectangle(thick: int, ratio: float) -> None:
    """A rectangle of sides √2·2q and √2·p has the area 4·q·p, exactly (geometry)."""
    slot = Slanted.of(thick, round(thick * ratio), MILLIMETRES)
    boxes, wedges = slanted_slot(slot, (0, 1), (0, 0), (2, 3))
    twice = 2 * sum(b.volume for b in boxes) + sum(w.box.volume for w in wedges)
    assert twice == 2 * 4 * slot.half * slot.deep


def test_a_slot_too_shallow_is_refused_in_the_job_s_units() -> None:
    with pytest.raises(CannotError, match=r"0.125 in deep, 0.25 in thick"):
        Slanted.of(INCH // 4, INCH // 8, INCHES)
