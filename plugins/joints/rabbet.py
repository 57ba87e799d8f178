"""Rabbet: the guest sits in a step cut along the host's end or edge."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from casewright.sdk.fields import Flag, Length, OptionSchema
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import area_mm2, beyond, chosen, row, said
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import HardwareUse, Term, rabbet
from casewright.sdk.units import INCH

PANEL_PLAY = INCH // 32
"""Room left beside a panel in its rabbet (common practice)."""

BRAD_SPACING = 6 * INCH


class RabbetOptions(OptionSchema):
    """Options of the rabbet."""

    depth = Length(
        load_default=None,
        metadata={"description": "Depth of the rabbet. Default: half the host's thickness."},
    )
    clearance = Length(
        load_default=None,
        metadata={
            "description": "Room left at the rabbet's floor. Default: none for case corners, 1/32 in for panels."
        },
    )
    brads = Flag(
        load_default=None,
        metadata={"description": "Whether brads hold the guest. Default: true for panels, false for case corners."},
    )


class Rabbet(JointMethod):
    """A step open at the host's end or edge, by default half as deep as the host is thick."""

    id: ClassVar[str] = "rabbet"
    title: ClassVar[str] = "Rabbet"
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "panel"})
    options = RabbetOptions

    def fit(self, meeting: Meeting, options: Mapping[str, Any]) -> Fit:
        """Answer a corner or panel meeting at the host's end or edge.

        The guest grows by the depth less the clearance; the shop's fit is added on the inner side, so that
        the outer faces stay flush.
        """
        panel = meeting.kind == "panel"
        at_low = meeting.host_before == 0
        if at_low == (meeting.host_after == 0):
            raise CannotError(
                "a rabbet is open at one end or edge of its host",
                f"{said(meeting.host_before)} and {said(meeting.host_after)} of {meeting.host.name} on the two sides",
                "Use the method housed-groove, or set the inset to 0.",
            )
        depth: int = chosen(options, "depth", meeting.host_depth // 2)
        play: int = chosen(options, "clearance", PANEL_PLAY if panel else 0)
        if not play < depth < meeting.host_depth:
            raise CannotError(
                "a rabbet is deeper than its clearance and shallower than its host is thick",
                f"depth {said(depth)}, clearance {said(play)}, host {said(meeting.host_depth)}",
                f"Use a depth of {said(meeting.host_depth // 2)}, half the thickness.",
                "depth",
            )
        growth = depth - play
        t = meeting.guest_thickness
        low, high = (0, t + meeting.fit) if at_low else (-meeting.fit, t)
        x0, x1 = meeting.all_along
        cut = rabbet(f"rabbet for {meeting.guest.name}", Box(x0, low, 0, x1, high, depth), entry=-3, run=1)
        glued = not panel or meeting.guest.material.kind == "sheet"
        why = [Term("rabbet depth", depth)] + ([Term("clearance at the rabbet's floor", -play)] if play else [])
        return Fit(
            growth=growth,
            why=tuple(why),
            host=(cut,),
            hardware=_brads(meeting, growth, at_low) if chosen(options, "brads", panel) else (),
            findings=beyond(
                "deep-rabbet",
                f"The rabbet for {meeting.guest.name} takes more than two thirds of {meeting.host.name}.",
                depth,
                2 * meeting.host_depth // 3,
            ),
            seat=growth,
            clearance=play,
            glue_area_mm2=area_mm2((meeting.run, t + growth)) if glued else 0.0,
        )


def _brads(meeting: Meeting, growth: int, at_low: bool) -> tuple[HardwareUse, ...]:
    """Return brads driven through the guest's outer face into the step that it lies on."""
    t = meeting.guest_thickness
    fits = [n for n in meeting.catalogue.nails if n.id.startswith("brad-") and n.length > t]
    if not fits:
        return ()
    brad = min(fits, key=lambda n: (abs(n.length - 2 * t), n.length, n.id))
    xs = row(meeting.run, end=INCH, pitch=BRAD_SPACING, least=INCH)
    axis: Axis = 2 if at_low else -2
    points = tuple((x, 0 if at_low else t, growth // 2) for x in xs)
    return (HardwareUse(brad.id, brad.title, points, axis),)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the rabbet."""
    return (Rabbet(),)
