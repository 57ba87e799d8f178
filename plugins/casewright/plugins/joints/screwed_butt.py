"""Screwed butt: the guest's end stands on the host's face, screwed through the host."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Count, Length, OptionSchema
from casewright.sdk.geometry import Cylinder
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, Spacing, area_mm2, check_least, chosen, clear_row, screw_within
from casewright.sdk.materials import Screw
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import FeatureKind, Finding, HardwareUse, Options, hole
from casewright.sdk.units import INCH, MM

SPACING = 6 * INCH
BITE = 5 * INCH // 4
"""Length of screw wanted in the guest's end, at most (common practice)."""


class ScrewedButtOptions(OptionSchema):
    """Options of the screwed butt."""

    gauge = Count(least=6, most=14, load_default=8, about="Screw number. Default: 8.")
    spacing = Length(
        least=20 * MM,
        load_default=None,
        about="Distance between screws, about. Default: 6 in, and less in short joints.",
    )
    count = Count(least=1, most=60, load_default=None, about="Number of screws, if given.")


class ScrewedButt(JointMethod):
    """A butt joint with a row of screws through the host into the guest's end."""

    id: ClassVar[str] = "screwed-butt"
    title: ClassVar[str] = "Screwed butt"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"hole"})
    options = ScrewedButtOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner or tee meeting; the guest does not grow.

        The host is bored right through to the screw's shank, the guest's end to its root. Raises
        `CannotError` where the catalogue has no screw of the gauge that long.
        """
        gauge: int = chosen(options, "gauge", 8)
        host, t = meeting.host_depth, meeting.guest_thickness
        longest = min(host + BITE, host + meeting.guest_length // 2)
        screw = screw_within(meeting.catalogue, gauge, longest, least=host + 12 * MM)
        if screw is None:
            raise CannotError(
                "a screw through the host into the guest",
                f"none of No. {gauge} from {meeting.write.length(host + 12 * MM)} to "
                f"{meeting.write.length(longest)} long",
                "Pick another gauge, or the method dowel.",
                "gauge",
            )
        if 2 * screw.diameter >= t:
            raise CannotError(
                "a screw is thinner than half its part",
                f"screw {meeting.write.length(screw.diameter)} in {meeting.write.length(t)}",
                "Pick a thinner gauge.",
                "gauge",
            )
        end = max(2 * screw.diameter, min(32 * MM, meeting.run // 4))
        pitch = chosen(options, "spacing", SPACING)
        xs = clear_row(meeting, screw.diameter // 2, Spacing(end, pitch, 4 * screw.diameter, options.get("count")))
        y = t // 2
        label = f"screw holes, {meeting.host.name} to {meeting.guest.name}"
        return Fit(
            host=(hole(label, *(Cylinder((x, y, host), -3, screw.diameter, host) for x in xs)),),
            guest=(hole(label, *(Cylinder((x, y, 0), -3, screw.root, screw.length - host) for x in xs)),),
            hardware=(HardwareUse(screw.id, screw.title, tuple((x, y, host) for x in xs), -3),),
            findings=_findings(meeting, screw),
            glue_area_mm2=area_mm2((meeting.run, t)),
        )


def _findings(meeting: Meeting, screw: Screw) -> tuple[Finding, ...]:
    t = meeting.guest_thickness
    near = min(t // 2 + meeting.host_before, t - t // 2 + meeting.host_after)
    findings = [
        *check_least(
            "screw-near-end",
            f"The screws stand near the end of {meeting.host.name} and may split it.",
            near,
            Bound(2 * screw.diameter, screw.diameter),
        ),
        *check_least(
            "screw-in-thin-edge",
            f"Little wood of {meeting.guest.name} is left beside the screws.",
            t // 2 - screw.diameter // 2,
            Bound(4 * MM, 2 * MM),
        ),
    ]
    if not meeting.guest.stuff.holds_screws:
        message = f"No source gives screws in the edge of {meeting.guest.name} a hold; glue the joint as well."
        findings.append(Finding("screw-in-sheet-edge", "caution", message, source=COMMON))
    return tuple(findings)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the screwed butt."""
    return (ScrewedButt(),)
