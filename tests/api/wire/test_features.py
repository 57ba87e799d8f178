"""Cuts in words: a bit goes by the size it is sold in (common practice: cup bits by whole millimetres)."""

from fractions import Fraction

import pytest
from casewright.api.wire.features import feature_document
from casewright.api.wire.lengths import Numbers, Texts
from casewright.sdk.geometry import Cylinder
from casewright.sdk.model import Purpose, hole
from casewright.sdk.units import MM, inches


@pytest.mark.parametrize(
    ("diameter", "words"), [(35 * MM, "35 mm across, 1/2 in deep"), (inches("1/4"), "1/4 in across, 1/2 in deep")]
)
def test_a_hole_in_an_inch_job_names_its_bit(diameter: int, words: str) -> None:
    feature = hole("hinge cups", Cylinder((0, 0, 0), 3, diameter, inches("1/2")), purpose=Purpose.HINGE_CUP)
    assert feature_document(feature, Numbers("in"), Texts("in", Fraction(1, 64)))["text"] == words
