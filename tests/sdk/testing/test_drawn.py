"""A meeting written as JSON is read back the same."""

import json

from casewright.sdk.loader import load
from casewright.sdk.testing import meetings
from casewright.sdk.testing.drawn import drawn_document, drawn_from
from hypothesis import given, settings
from hypothesis import strategies as st

CATALOGUE = load(discover="built-in").catalogue


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(["corner", "tee", "panel", "frame", "box"]).flatmap(lambda kind: meetings(kind, CATALOGUE)))
def test_a_meeting_comes_back_the_same(meeting):
    written = json.dumps(drawn_document({"meeting": meeting, "options": {"depth": "5 mm"}}))
    assert drawn_from(json.loads(written), CATALOGUE) == {"meeting": meeting, "options": {"depth": "5 mm"}}
