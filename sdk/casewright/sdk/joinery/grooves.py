"""What every groove across a host is refused or warned of: the wood outside it, and how much of the host it takes."""

from casewright.sdk.findings import Finding
from casewright.sdk.joinery.checks import Bound, check_least, check_most
from casewright.sdk.methods import CannotError, Meeting
from casewright.sdk.units import MM

__all__ = ["groove_findings", "wood_outside"]


def wood_outside(meeting: Meeting, span: tuple[int, int], fix: str, option: str = "", what: str = "groove") -> int:
    """Return the wood (nm) that a host keeps beyond a groove, where it is least; `span` is the groove's width along y.

    Raises `CannotError` with `fix` where there is none; `option` is the one at fault, if one is.
    """
    low, high = span
    outside = min(meeting.host_before + low, meeting.host_after + meeting.guest_thickness - high)
    if outside <= 0:
        got = f"{meeting.write.length(max(outside, 0))} of {meeting.host.name} beyond the {what}"
        raise CannotError(f"a {what} needs wood on both sides", got, fix, option)
    return outside


def groove_findings(meeting: Meeting, depth: int, outside: int, what: str = "groove") -> tuple[Finding, ...]:
    """Return findings on a groove `depth` deep with `outside` of wood beyond it, in nm; `what` is its name."""
    return (
        *check_least(
            "thin-wood-outside-groove",
            f"The wood of {meeting.host.name} outside the {what} for {meeting.guest.name} is short and may break out; "
            f"leave at least the {what}'s depth.",
            outside,
            Bound(depth, 3 * MM // 2),
        ),
        *check_most(
            "deep-groove",
            f"The {what} for {meeting.guest.name} takes more than two thirds of {meeting.host.name}.",
            depth,
            Bound(2 * meeting.host_depth // 3),
        ),
    )
