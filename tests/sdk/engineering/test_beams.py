"""How far a shelf may sag, worked by hand; the equations themselves are checked in tests/outside."""

import pytest
from casewright.sdk.engineering import beams


def test_the_bench_rule_for_sag():
    """0.02 in a foot of span is L/600 (common practice, no source): 900 mm may sag 1.5 mm."""
    assert beams.LIMITS["two-hundredths-per-foot"].at(900.0) == pytest.approx(1.5)
