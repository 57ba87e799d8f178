"""Where a meeting is, from the parts that meet."""

from functools import cache

import pytest
from casewright.sdk.loader import load
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import MeetingKind
from casewright.sdk.testing import a_meeting
from casewright.sdk.units import MM


@cache
def _catalogue() -> Catalogue:
    return load(discover="built-in").catalogue


@pytest.mark.parametrize(
    ("kind", "beyond", "where"),
    [
        ("tee", (0, 0), "shelf"),
        ("frame", (0, 300 * MM), "frame-corner"),
        ("frame", (300 * MM, 0), "frame-corner"),
        ("frame", (200 * MM, 300 * MM), "frame-middle"),
        ("box", (0, 0), "drawer-corner"),
    ],
)
def test_a_meeting_knows_its_place(kind: MeetingKind, beyond: tuple[int, int], where: str) -> None:
    meeting = a_meeting(kind, _catalogue(), host_start=beyond[0], host_end=beyond[1])
    assert meeting.where == where
