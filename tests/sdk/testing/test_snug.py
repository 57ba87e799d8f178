"""Leaning flanks: a slot 6 mm deep whose lower flank leans 2 mm, worked by hand.

At half its depth the flank has leant half its way: the guest begins 1 mm up, and so does the slot.
"""

import pytest
from casewright.sdk.joints import Fit, Meeting
from casewright.sdk.kit import Box, Feature, Wedge, mm
from casewright.sdk.loader import load
from casewright.sdk.testing import a_meeting
from casewright.sdk.testing.snug import assert_seated

DEEP, LEAN = mm(6), mm(2)
CATALOGUE = load(discover="built-in").catalogue


def dovetailed(meeting: Meeting, play: int = 0, wide: int = 0) -> Fit:
    """Return a fit whose slot has `play` beside its leaning flank and is `wide` nm wider on its straight side."""
    t, run = meeting.guest_thickness, meeting.run
    slot = Feature(
        "dovetail",
        "slot",
        -3,
        boxes=(Box(0, LEAN - play, 0, run, t + wide, DEEP),),
        wedges=(Wedge(Box(0, -play, 0, run, LEAN - play, DEEP), 1, (2, 3)),),
    )
    tail = Feature("dovetail", "tail", 3, wedges=(Wedge(Box(0, 0, 0, run, LEAN, DEEP), 1, (-2, -3)),))
    return Fit(growth=DEEP, host=(slot,), guest=(tail,), seat=DEEP)


@pytest.mark.parametrize(("spare", "play"), [(0, 0), (mm("0.1"), mm("0.1")), (mm("0.3"), mm("0.1"))])
def test_a_slot_with_room_for_the_spare_is_sound(spare: int, play: int) -> None:
    """A guest 0.3 mm off its seat comes 0.3 * 2 / 6 = 0.1 mm nearer to the flank."""
    meeting = a_meeting("tee", CATALOGUE, spare=spare)
    assert_seated(meeting, dovetailed(meeting, play))


@pytest.mark.parametrize(
    ("spare", "play", "wide", "words"),
    [
        (mm("0.3"), 0, 0, "wider than its slot"),
        (0, mm("-0.1"), 0, "wider than its slot"),
        (0, 0, mm(3), "the slot is 3 mm wider"),
        (0, mm(1), 0, "the slot is 1 mm wider"),
    ],
)
def test_a_slot_that_is_narrow_or_wide_is_caught(spare: int, play: int, wide: int, words: str) -> None:
    meeting = a_meeting("tee", CATALOGUE, spare=spare)
    with pytest.raises(AssertionError, match=words):
        assert_seated(meeting, dovetailed(meeting, play, wide))
