"""Bounds and the findings past them; the bounds here are made up for the test."""

import pytest
from casewright.sdk.joinery import COMMON, Bound, check_least, check_most
from casewright.sdk.model import LENGTH, Finding
from casewright.sdk.units import MM

THREE = Bound(3 * MM, 2 * MM, "aws-1-p281")


@pytest.mark.parametrize(
    ("value", "level", "limit"),
    [(3 * MM, None, None), (3 * MM - 1, "caution", 3 * MM), (2 * MM, "caution", 3 * MM), (2 * MM - 1, "stop", 2 * MM)],
)
def test_under_its_bound_a_length_is_a_caution_then_a_stop(value: int, level: str | None, limit: int) -> None:
    wanted = () if level is None else (Finding("thin", level, "It is thin.", value, limit, LENGTH, "aws-1-p281"),)
    assert check_least("thin", "It is thin.", value, THREE) == wanted


@pytest.mark.parametrize(
    ("value", "level", "limit"),
    [(2 * MM, None, None), (2 * MM + 1, "caution", 2 * MM), (3 * MM, "caution", 2 * MM), (3 * MM + 1, "stop", 3 * MM)],
)
def test_over_its_bound_a_length_is_a_caution_then_a_stop(value: int, level: str | None, limit: int) -> None:
    wanted = () if level is None else (Finding("deep", level, "It is deep.", value, limit, LENGTH, COMMON),)
    assert check_most("deep", "It is deep.", value, Bound(2 * MM, 3 * MM)) == wanted


def test_a_bound_without_a_stop_is_only_a_caution() -> None:
    assert [f.level for f in check_least("thin", "It is thin.", 0, Bound(1))] == ["caution"]
    assert [f.level for f in check_most("deep", "It is deep.", 10**12, Bound(1))] == ["caution"]
