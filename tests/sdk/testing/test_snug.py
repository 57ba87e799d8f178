"""Leaning flanks, and pins in their holes: a slot 6 mm deep whose lower flank leans 2 mm, worked by hand.

At half its depth the flank has leant half its way: the guest begins 1 mm up, and so does the slot.
"""

import pytest
from casewright.sdk.joints import Fit, Meeting
from casewright.sdk.kit import Axis, Box, Cylinder, Feature, HardwareUse, Wedge, hole, mm
from casewright.sdk.loader import load
from casewright.sdk.testing import a_meeting
from casewright.sdk.testing.snug import assert_known, assert_seated

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


@pytest.mark.parametrize(
    ("into", "mouth"), [(3, (mm(20), mm(5), 0)), (2, (mm(20), 0, mm(4))), (-2, (mm(20), mm(9), mm(4)))]
)
def test_a_pin_may_go_into_a_joint_or_across_it(into: Axis, mouth: tuple[int, int, int]) -> None:
    """What is bored along a pin's own line takes it, whichever way that runs; a hole 1 mm beside it does not."""
    pin = HardwareUse("dowel-6-30", "dowel", (mouth,), into)
    bored = hole("pin", Cylinder(mouth, into, mm(6), mm(9)))
    assert_known(Fit(host=(bored,), guest=(bored,), hardware=(pin,)), CATALOGUE, frozenset())
    beside = hole("pin", Cylinder((mouth[0] + mm(1), *mouth[1:]), into, mm(6), mm(9)))
    with pytest.raises(AssertionError, match=f"along axis {abs(into)}"):
        assert_known(Fit(host=(beside,), hardware=(pin,)), CATALOGUE, frozenset())
