"""SDK version ranges and deprecations."""

import pytest
from casewright.sdk.versions import accepts, bounds, format_range


@pytest.mark.parametrize(
    ("sdk_range", "have", "good"),
    [
        (1, (1, 0), True),
        (1, (1, 9), True),
        (1, (2, 0), False),
        (2, (1, 9), False),
        (((1, 2), (2, 0)), (1, 1), False),
        (((1, 2), (2, 0)), (1, 2), True),
        (((1, 2), (2, 0)), (1, 99), True),
        (((1, 2), (2, 0)), (2, 0), False),
        (((1, 0), (3, 0)), (2, 5), True),
    ],
)
def test_ranges(sdk_range, have, good):
    assert accepts(sdk_range, have) is good


@pytest.mark.parametrize(
    "sdk_range", ["1", 1.0, True, None, -1, (1, 2), ((1, 0),), ((2, 0), (1, 0)), ((1, 0), (1, 0)), ((1, 0), (1, "1"))]
)
def test_what_is_no_range_is_refused(sdk_range):
    with pytest.raises(ValueError, match="range"):
        bounds(sdk_range)


def test_ranges_in_words():
    assert format_range(1) == "1.0 up to, not including, 2.0"
    assert format_range(((1, 2), (2, 1))) == "1.2 up to, not including, 2.1"
