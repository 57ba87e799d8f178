"""SDK version ranges and deprecations."""

import pytest
from casewright.sdk.deprecations import DEPRECATED, Deprecation, SdkDeprecationWarning, deprecated
from casewright.sdk.versions import SDK_VERSION, accepts, bounds, format_range


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


def test_a_deprecated_name_warns_whoever_uses_it():
    table = {"old_row": Deprecation("old_row", (1, 1), (2, 0), "row")}

    def old_row():
        deprecated("old_row", table)

    with pytest.warns(SdkDeprecationWarning, match=r"old_row is deprecated since SDK 1.1 .* use row") as caught:
        old_row()
    assert caught[0].filename == __file__


def test_only_what_is_listed_warns():
    with pytest.raises(KeyError):
        deprecated("row")


def test_rows_are_named_by_their_key_and_go_in_a_later_breaking_version():
    for name, row in DEPRECATED.items():
        assert row.name == name
        assert row.since <= SDK_VERSION
        assert row.gone[0] > row.since[0]
        assert row.gone[1] == 0
