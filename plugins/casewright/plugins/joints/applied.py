"""Applied panel: a back laid on the hosts' back edges and fastened there."""

from collections.abc import Sequence
from typing import ClassVar, Literal

from casewright.sdk.fields import Choice, Length, OptionSchema
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, Spacing, area_mm2, check_least, chosen, row, screw_within
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import HardwareUse, Options, Term
from casewright.sdk.units import INCH, MM

SPACING = 6 * INCH
THIN_BACK = 10 * MM
"""Backs thinner than this take No. 6 screws, others No. 8 (common practice)."""


class AppliedOptions(OptionSchema):
    """Options of the applied panel."""

    reveal = Length(
        load_default=0,
        about="How far the panel's edge stands in from the host's outer face. Default: 0.",
    )
    fastener = Choice("screw", "brad", load_default="screw", about="What holds the panel. Default: screw.")
    spacing = Length(
        least=10 * MM,
        load_default=None,
        about="Distance between fasteners, about. Default: 6 in.",
    )


class Applied(JointMethod):
    """A panel behind its hosts' back edges, growing until it covers them."""

    id: ClassVar[str] = "applied"
    title: ClassVar[str] = "Applied panel"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"panel"})
    panel_sits: ClassVar[Literal["within", "behind"]] = "behind"
    options = AppliedOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a panel meeting: the panel grows by the host's thickness less the reveal and is not cut."""
        reveal: int = chosen(options, "reveal", 0)
        growth = meeting.host_depth - reveal
        if growth <= 0:
            raise CannotError(
                "an applied panel lies on its hosts",
                f"reveal {meeting.write.length(reveal)} on an edge {meeting.write.length(meeting.host_depth)} wide",
                "Use a smaller reveal.",
                "reveal",
            )
        why = [Term(f"thickness of {meeting.host.name}", meeting.host_depth)]
        if reveal:
            why.append(Term("reveal", -reveal))
        return Fit(
            growth=growth,
            why=tuple(why),
            hardware=_fasteners(meeting, options, growth),
            findings=check_least(
                "narrow-landing",
                f"{meeting.guest.name} covers little of the edge of {meeting.host.name}.",
                growth,
                Bound(8 * MM, 4 * MM),
            ),
            press=-2,
            glue_area_mm2=area_mm2((meeting.run, growth)),
        )


def _fasteners(meeting: Meeting, options: Options, growth: int) -> tuple[HardwareUse, ...]:
    """Return fasteners through the panel's back into the middle of the landing."""
    t = meeting.guest_thickness
    spacing = max(chosen(options, "spacing", SPACING), 10 * MM)
    points = tuple((x, t, growth // 2) for x in row(meeting.run, Spacing(INCH, spacing, INCH)))
    if options.get("fastener") == "brad":
        brads = [n for n in meeting.catalogue.nails if n.id.startswith("brad-") and n.length > t]
        brad = min(brads, key=lambda n: (abs(n.length - 3 * t), n.length, n.id), default=None)
        return () if brad is None else (HardwareUse(brad.id, brad.title, points, -2),)
    gauge = 6 if t < THIN_BACK else 8
    screw = screw_within(meeting.catalogue, gauge, max(t + INCH, 2 * t), least=t + MM)
    return () if screw is None else (HardwareUse(screw.id, screw.title, points, -2),)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the applied panel."""
    return (Applied(),)
