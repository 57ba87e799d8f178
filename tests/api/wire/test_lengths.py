"""Bench text and how far rounding to the tape moves a length; masses."""

from fractions import Fraction

import pytest
from casewright.api.wire.lengths import Texts, mass_document


@pytest.mark.parametrize(
    ("nm", "tape", "moved"),
    [(25_400_000, Fraction(1, 64), 0), (198_438, Fraction(1, 128), 0), (200_000, Fraction(1, 64), 196_875)],
)
def test_how_far_the_tape_moves_a_length(nm: int, tape: Fraction, moved: int) -> None:
    """By hand: 1/64 in is 396,875 nm and 1/128 in is 198,437.5 nm, the half being under one nanometre."""
    assert Texts("in", tape).moved(nm) == moved


def test_pounds_stand_beside_kilograms_in_inch_jobs_only() -> None:
    """One pound is 0.45359237 kg, exactly."""
    assert mass_document(4.5359237, "mm") == {"mass_kg": 4.536}
    assert mass_document(4.5359237, "in") == {"mass_kg": 4.536, "mass_lb": 10}
