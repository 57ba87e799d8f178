"""What every groove across a host is warned of: little wood outside it, and much of the host taken."""

from casewright.sdk.findings import Finding
from casewright.sdk.joinery.checks import Bound, check_least, check_most
from casewright.sdk.methods import Meeting
from casewright.sdk.units import MM

__all__ = ["groove_findings"]


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
