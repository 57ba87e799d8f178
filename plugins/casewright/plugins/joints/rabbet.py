"""Rabbet: the guest sits in a step cut along the host's end or edge."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from casewright.sdk.fields import Flag, Length, OptionSchema
from casewright.sdk.geometry import Axis
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Spacing, chosen, row
from casewright.sdk.joinery.rabbets import at_low_end, rabbeted
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import FeatureKind, HardwareUse
from casewright.sdk.units import INCH

PANEL_PLAY = INCH // 32
"""Room left beside a panel in its rabbet (common practice)."""

BRAD_SPACING = 6 * INCH


class RabbetOptions(OptionSchema):
    """Options of the rabbet."""

    depth = Length(
        load_default=None,
        about="Depth of the rabbet. Default: half the host's thickness.",
    )
    clearance = Length(
        load_default=None,
        about="Room left at the rabbet's floor. Default: none for case corners, 1/32 in for panels.",
    )
    brads = Flag(
        load_default=None,
        about="Whether brads hold the guest. Default: true for panels, false for case corners.",
    )


class Rabbet(JointMethod):
    """A step open at the host's end or edge, by default half as deep as the host is thick."""

    id: ClassVar[str] = "rabbet"
    title: ClassVar[str] = "Rabbet"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "panel"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"rabbet"})
    options = RabbetOptions

    def fit(self, meeting: Meeting, options: Mapping[str, Any]) -> Fit:
        """Answer a corner or panel meeting at the host's end or edge; see `rabbeted`."""
        panel = meeting.kind == "panel"
        depth: int = chosen(options, "depth", meeting.host_depth // 2)
        play: int = chosen(options, "clearance", PANEL_PLAY if panel else 0)
        brads: bool = chosen(options, "brads", panel)
        return rabbeted(
            meeting,
            depth,
            play,
            glued=not panel or meeting.guest.material.kind == "sheet",
            hardware=_brads(meeting, depth - play) if brads else (),
        )


def _brads(meeting: Meeting, growth: int) -> tuple[HardwareUse, ...]:
    """Return brads driven through the guest's outer face into the step that it lies on."""
    t, at_low = meeting.guest_thickness, at_low_end(meeting)
    fits = [n for n in meeting.catalogue.nails if n.id.startswith("brad-") and n.length > t]
    if not fits:
        return ()
    brad = min(fits, key=lambda n: (abs(n.length - 2 * t), n.length, n.id))
    xs = row(meeting.run, Spacing(INCH, BRAD_SPACING, INCH))
    axis: Axis = 2 if at_low else -2
    points = tuple((x, 0 if at_low else t, growth // 2) for x in xs)
    return (HardwareUse(brad.id, brad.title, points, axis),)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the rabbet."""
    return (Rabbet(),)
