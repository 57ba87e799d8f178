"""Patches that set places: the operations of RFC 6902 that come out, and what applying them makes of the document."""

import copy

import pytest
from casewright.api.job.json_patch import patched, read_patch
from casewright.api.job.problems import Findings
from casewright.sdk.errors import steps_of
from casewright.sdk.patching import at_path, patch_setting
from hypothesis import given
from hypothesis import strategies as st

DOCUMENT = {"cabinets": [{"id": "a", "mounting": {"method": "m"}}, {"id": "b", "mounting": None}], "wall": {"x": 1}}


def applied(document, patch):
    findings = Findings()
    operations = read_patch(patch, "", findings)
    assert not findings.schema
    return patched(document, operations)


# Operations by hand, from RFC 6902: "add" makes a member, "replace" needs it to be there, "-" is past an array's end.
@pytest.mark.parametrize(
    ("settings", "operations"),
    [
        ([(("wall", "x"), 2)], [{"op": "replace", "path": "/wall/x", "value": 2}]),
        ([(("wall", "x"), 1)], []),
        ([(("wall", "y"), None)], [{"op": "add", "path": "/wall/y", "value": None}]),
        ([(("cabinets", 0, "mounting", "n"), 3)], [{"op": "add", "path": "/cabinets/0/mounting/n", "value": 3}]),
        ([(("cabinets", "0", "id"), "c")], [{"op": "replace", "path": "/cabinets/0/id", "value": "c"}]),
        ([(("cabinets", 1, "mounting", "n"), 3)],
         [{"op": "replace", "path": "/cabinets/1/mounting", "value": {"n": 3}}]),
        ([(("stock", "sheets", "-"), 5)], [{"op": "add", "path": "/stock", "value": {"sheets": [5]}}]),
        ([(("cabinets", "-"), {"id": "c"})], [{"op": "add", "path": "/cabinets/-", "value": {"id": "c"}}]),
        ([(("a/b", "c~d"), 1)], [{"op": "add", "path": "/a~1b", "value": {"c~d": 1}}]),
    ],
)  # fmt: skip
def test_operations(settings, operations):
    assert list(patch_setting(DOCUMENT, *settings)) == operations


def test_a_place_made_by_one_setting_is_there_for_the_next():
    kept = copy.deepcopy(DOCUMENT)
    patch = patch_setting(DOCUMENT, (("shop", "fit"), 1), (("shop", "same"), 2))
    assert applied(DOCUMENT, patch) == {**DOCUMENT, "shop": {"fit": 1, "same": 2}}
    assert kept == DOCUMENT


def test_a_step_of_digits_is_a_key_of_an_object_and_a_place_in_an_array():
    # RFC 6901, section 4: what a reference token means is decided by the value that it is applied to.
    document = {"cabinets_at": {"12": [{"x": 1}]}}
    assert at_path(document, steps_of("/cabinets_at/12/0/x")) == 1
    patch = patch_setting(document, (steps_of("/cabinets_at/12/0/x"), 2))
    assert patch == ({"op": "replace", "path": "/cabinets_at/12/0/x", "value": 2},)


STEPS = st.lists(st.sampled_from(["a", "b", "c/d", "~"]), min_size=1, max_size=3).map(tuple)
VALUES = st.none() | st.integers() | st.text(max_size=2)


@given(st.lists(st.tuples(STEPS, VALUES), max_size=4))
def test_what_is_set_last_is_there_when_the_patch_is_applied(settings):
    try:
        patch = patch_setting({}, *settings)
    except TypeError:
        return  # a place inside what was set to text or a number
    document = applied({}, patch)
    if settings:
        assert at_path(document, settings[-1][0]) == settings[-1][1]
