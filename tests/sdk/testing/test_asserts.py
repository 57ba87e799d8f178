"""The assertions a contract makes, each shown to fail where it should."""

import pytest
from casewright.sdk.testing.asserts import assert_words
from casewright.sdk.units import Units


@pytest.mark.parametrize(
    ("units", "text"),
    [
        ("in", "Use 9 mm."),
        ("in", "depth 9.53 mm (0.375 in)"),
        ("in", "4500000 nm deep"),
        ("in", "a pull of 300 N"),
        ("mm", "A door above 60 in has a rail."),
        ("mm", "0.375 in, at least"),
        ("mm", "a load of 40 lb"),
    ],
)
def test_words_in_other_units_are_refused(units: Units, text: str) -> None:
    with pytest.raises(AssertionError, match="a job in"):
        assert_words([text], units)


@pytest.mark.parametrize(
    ("units", "text"), [("in", "3 fingers in 2.5 in"), ("in", "No. 8 from 1 in"), ("mm", "depth 9 mm, 2 in 18 mm")]
)
def test_words_in_the_job_s_units_pass(units: Units, text: str) -> None:
    assert_words([text], units)
