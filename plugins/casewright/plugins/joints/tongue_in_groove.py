"""Tongue in groove: a tongue on the guest's end, thinner than the guest, in a groove across the host's face."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Length, OptionSchema
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, PROPORTIONS, Bound, area_mm2, check_least, check_most, chosen
from casewright.sdk.joinery.grooves import groove_findings, wood_outside
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, Finding, Options, Term, groove
from casewright.sdk.units import INCH, MM

BOTTOM_ROOM = INCH // 64
"""Room left under the tongue, so that its shoulder closes (common practice)."""


class TongueInGrooveOptions(OptionSchema):
    """Options of the tongue in groove."""

    depth = Length(load_default=None, about="Depth of the groove. Default: a third of the host's thickness.")
    tongue = Length(
        load_default=None,
        about="Thickness of the tongue. Default: a third of the guest's thickness.",
    )
    clearance = Length(load_default=None, about="Room left under the tongue. Default: 1/64 in.")


class TongueInGroove(JointMethod):
    """A tongue with a shoulder: on both sides in a tee, on the outer side at a corner."""

    id: ClassVar[str] = "tongue-in-groove"
    title: ClassVar[str] = "Tongue in groove"
    sources: ClassVar[tuple[str, ...]] = (COMMON, PROPORTIONS)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"groove", "tenon"})
    options = TongueInGrooveOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner or tee meeting. The shoulder seats on the host's face, so the fit has no clearance.

        At a corner the tongue stands at the face away from the host's nearer end, which leaves the most wood
        outside the groove.
        """
        t = meeting.guest_thickness
        depth: int = chosen(options, "depth", meeting.host_depth // 3)
        tongue: int = chosen(options, "tongue", t // 3)
        room: int = chosen(options, "clearance", BOTTOM_ROOM)
        _refuse(meeting, depth, tongue, room)
        growth = depth - room
        y0 = _place(meeting, tongue)
        y1 = y0 + tongue
        low = y0 - meeting.fit // 2
        high = low + tongue + meeting.fit
        x0, x1 = meeting.all_along
        label = f"tongue into {meeting.host.name}"
        sides = [(0, y0), (y1, t)]
        waste = tuple(Box(0, a, 0, meeting.run, b, growth) for a, b in sides if b > a)
        why = [Term("groove depth", depth)] + ([Term("room under the tongue", -room)] if room else [])
        return Fit(
            growth=growth,
            why=tuple(why),
            host=(groove(f"groove for {meeting.guest.name}", Box(x0, low, 0, x1, high, depth), entry=-3, run=1),),
            guest=(Feature("tenon", label, 3, boxes=waste, run=1),),
            findings=_findings(meeting, depth, tongue, low, high),
            seat=growth,
            glue_area_mm2=area_mm2((meeting.run, t + 2 * growth)),
        )


def _refuse(meeting: Meeting, depth: int, tongue: int, room: int) -> None:
    """Refuse a groove or a tongue that its part cannot hold, and room that leaves no tongue in the groove."""
    write, t = meeting.write, meeting.guest_thickness
    if not 0 < depth < meeting.host_depth:
        raise CannotError(
            "a groove is shallower than its host is thick",
            f"depth {write.length(depth)} in {write.length(meeting.host_depth)}",
            f"Use a depth of {write.length(meeting.host_depth // 3)}, a third of the thickness.",
            "depth",
        )
    if not 0 < tongue < t:
        raise CannotError(
            "a tongue is thinner than its part",
            f"tongue {write.length(tongue)} on {write.length(t)}",
            f"Use a tongue of {write.length(t // 3)}, or the method housed-groove.",
            "tongue",
        )
    if room >= depth:
        raise CannotError(
            "the tongue enters its groove",
            f"{write.length(room)} of room in a groove {write.length(depth)} deep",
            "Use less clearance.",
            "clearance",
        )


def _place(meeting: Meeting, tongue: int) -> int:
    """Return where the tongue starts through the guest's thickness."""
    t = meeting.guest_thickness
    if meeting.kind == "tee":
        return (t - tongue) // 2
    return t - tongue if meeting.host_before <= meeting.host_after else 0


def _findings(meeting: Meeting, depth: int, tongue: int, low: int, high: int) -> tuple[Finding, ...]:
    outside = wood_outside(meeting, (low, high), "Use a thinner tongue or the method rabbet.", "tongue")
    return (
        *groove_findings(meeting, depth, outside),
        *check_least("thin-tongue", "The tongue is thin.", tongue, Bound(4 * MM, 2 * MM)),
        *check_most(
            "long-tongue",
            "A tongue is at most six times as long as it is thick.",
            depth,
            Bound(6 * tongue, source=PROPORTIONS),
        ),
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the tongue in groove."""
    return (TongueInGroove(),)
