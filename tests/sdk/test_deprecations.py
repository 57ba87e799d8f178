"""The one list of what goes, and the one way to warn of it."""

import pytest
from casewright.sdk.deprecations import DEPRECATED, Deprecation, SdkDeprecationWarning, deprecated
from casewright.sdk.versions import SDK_VERSION


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
