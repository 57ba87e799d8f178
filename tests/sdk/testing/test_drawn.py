"""A meeting written as JSON is read back the same."""

import json

import pytest
from casewright.sdk.loader import load
from casewright.sdk.testing import meetings
from casewright.sdk.testing.drawing import Declined, journal, over, pinned
from casewright.sdk.testing.drawn import drawn_document, drawn_from
from hypothesis import given, settings
from hypothesis import strategies as st

CATALOGUE = load(discover="built-in").catalogue


@settings(max_examples=20)
@given(st.sampled_from(["corner", "tee", "panel", "frame", "box"]).flatmap(lambda kind: meetings(kind, CATALOGUE)))
def test_a_meeting_comes_back_the_same(meeting):
    written = json.dumps(drawn_document({"meeting": meeting, "options": {"depth": "5 mm"}}))
    assert drawn_from(json.loads(written), CATALOGUE) == {"meeting": meeting, "options": {"depth": "5 mm"}}


def test_where_nearly_all_is_declined_the_commonest_refusal_is_named():
    """Every tenth number has the method no part in; of the rest most want wood, and silence is no refusal."""

    def check(number):
        raise Declined("" if number % 10 == 0 else "too thick" if number % 10 == 1 else "no wood beside it")

    with journal() as kept, pytest.raises(AssertionError, match="oftenest by: no wood beside it"):
        over(20, "numbers", check, number=st.integers(0, 10_000))
    (tally,) = kept.tallies
    assert tally.tried == 0
    assert set(tally.refusals) == {"", "too thick", "no wood beside it"}


def test_what_is_pinned_is_tried_and_nothing_is_drawn():
    seen = []
    with pinned({"number": 7}):
        over(20, "numbers", lambda number: seen.append(number), number=st.integers(0, 3))
    assert seen == [7]
