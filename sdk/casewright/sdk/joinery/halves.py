"""The two parts of one meeting as a fit makes them, in the joint frame: for pictures and for tests."""

from collections.abc import Sequence
from dataclasses import replace

from casewright.sdk.geometry import Box, Place
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.model.parts import Feature, Part, Term
from casewright.sdk.units import MM


def halves(meeting: Meeting, fit: Fit, *, behind: bool = False) -> tuple[Part, Part]:
    """Return host and guest as parts in the joint frame, grown and cut as the fit says, the guest off by the spare."""
    x0, x1 = meeting.all_along
    t = meeting.guest_thickness
    if behind:
        host_box = Box(x0, -100 * MM, 0, x1, 0, meeting.host_depth)
    else:
        host_box = Box(x0, -meeting.host_before, 0, x1, t + meeting.host_after, meeting.host_depth)
    guest_box = Box(0, 0, -meeting.guest_length, meeting.run, t, fit.growth)
    host, guest = _part("host", host_box, fit.host), _part("guest", guest_box, fit.guest)
    x, y, z = guest.place.at
    return host, replace(guest, place=Place((x, y, z - meeting.spare), 1, 2, 3))


def _part(name: str, box: Box, features: Sequence[Feature]) -> Part:
    at = (box.x0, box.y0, box.z0)
    home = Place((-at[0], -at[1], -at[2]), 1, 2, 3)
    length, width, thickness = box.size
    return Part(
        id=name,
        cabinet="meeting",
        role="loose",
        name=name,
        quantity=1,
        material="case",
        length=length,
        width=width,
        thickness=thickness,
        grain="along-length",
        why_length=(Term("drawn", length),),
        why_width=(Term("drawn", width),),
        place=Place(at, 1, 2, 3),
        features=tuple(f.carried(home) for f in features),
    )
