"""Housed groove: the guest's whole thickness sits in a groove across the host's face."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from casewright.sdk.fields import Length, OptionSchema
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, area_mm2, chosen
from casewright.sdk.joinery.grooves import groove_findings, wood_outside
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, Term, groove, rabbet
from casewright.sdk.units import INCH, MM

PANEL_PLAY = INCH // 32
"""Room left for a panel at the bottom of each groove (common practice)."""


class HousedGrooveOptions(OptionSchema):
    """Options of the housed groove."""

    depth = Length(
        load_default=None,
        about="Depth of the groove. Default: half the host's thickness, a third in one housed from both sides.",
    )
    clearance = Length(
        load_default=None,
        about="Room left at the bottom of the groove. Default: none for case joints, 1/32 in for panels.",
    )
    stop_start = Length(
        load_default=0,
        about="Length of the joint left uncut at its front, left or lower end. Default: 0.",
    )
    stop_end = Length(
        load_default=0,
        about="Length of the joint left uncut at its back, right or upper end. Default: 0.",
    )


class HousedGroove(JointMethod):
    """A groove as wide as the guest is thick, by default half as deep as the host is thick."""

    id: ClassVar[str] = "housed-groove"
    title: ClassVar[str] = "Housed groove"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee", "panel"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"groove"})
    options = HousedGrooveOptions

    def fit(self, meeting: Meeting, options: Mapping[str, Any]) -> Fit:
        """Answer a corner, tee or panel meeting.

        The guest grows by the depth less the clearance. The shop's fit is added to the groove's width, half
        on each side of the guest. With a stop the guest is notched, and its shoulder seats on the host.
        """
        panel = meeting.kind == "panel"
        depth: int = chosen(options, "depth", _usual(meeting))
        play: int = chosen(options, "clearance", PANEL_PLAY if panel else 0)
        start, end = chosen(options, "stop_start", 0), chosen(options, "stop_end", 0)
        low = -(meeting.fit // 2)
        high = meeting.guest_thickness + meeting.fit + low
        outside = _outside(meeting, low, high)
        _refuse(meeting, depth, play, (start, end))
        growth = depth - play
        x0, x1 = meeting.all_along
        x0 = start if start else x0
        x1 = meeting.run - end if end else x1
        label = f"groove for {meeting.guest.name}"
        cut = groove(label, Box(x0, low, 0, x1, high, depth), entry=-3, run=1)
        notches = _notches(meeting, start, end, growth)
        glued = not panel or meeting.guest.material.kind == "sheet"
        length = meeting.run - start - end
        why = [Term("groove depth", depth)] + ([Term("clearance at the groove bottom", -play)] if play else [])
        return Fit(
            growth=growth,
            why=tuple(why),
            host=(cut,),
            guest=notches,
            findings=groove_findings(meeting, depth, outside),
            seat=growth,
            clearance=0 if notches else play,
            glue_area_mm2=area_mm2((length, meeting.guest_thickness + 2 * growth)) if glued else 0.0,
        )


def _usual(meeting: Meeting) -> int:
    """Return the depth where none is given: half the host, or a third where another guest may come from behind."""
    return meeting.host_depth // (3 if meeting.far_side else 2)


def _outside(meeting: Meeting, low: int, high: int) -> int:
    inset = f"set {meeting.inset_field or 'the inset'} to {meeting.write.length(3 * MM + meeting.fit)} or more"
    return wood_outside(meeting, (low, high), f"Use the method rabbet, or {inset}.")


def _refuse(meeting: Meeting, depth: int, play: int, stops: tuple[int, int]) -> None:
    """Refuse a groove that its host cannot hold; `stops` are its uncut ends."""
    start, end = stops
    most = meeting.host_depth // 2 if meeting.far_side else meeting.host_depth - 1
    if not 0 < depth <= most:
        raise CannotError(
            "a groove in a part that is housed from both sides is no deeper than half of it"
            if meeting.far_side
            else "a groove is shallower than its host is thick",
            f"depth {meeting.write.length(depth)} in {meeting.write.length(meeting.host_depth)}",
            f"Use a depth of {meeting.write.length(_usual(meeting))}, "
            f"{'a third of' if meeting.far_side else 'half'} the thickness.",
            "depth",
        )
    if play >= depth:
        raise CannotError(
            "the clearance is less than the groove's depth",
            f"clearance {meeting.write.length(play)} in a groove {meeting.write.length(depth)} deep",
            "Use a smaller clearance.",
            "clearance",
        )
    if (start or end) and meeting.kind == "panel":
        raise CannotError(
            "a panel groove runs through",
            f"stops of {meeting.write.length(start)} and {meeting.write.length(end)}",
            "Leave out stop_start and stop_end for panels.",
            "stop_start" if start else "stop_end",
        )
    if start + end >= meeting.run:
        raise CannotError(
            "stops leave some of the groove",
            f"stops of {meeting.write.length(start + end)} in a joint {meeting.write.length(meeting.run)} long",
            "Use shorter stops.",
            "stop_start",
        )


def _notches(meeting: Meeting, start: int, end: int, growth: int) -> tuple[Feature, ...]:
    """Return the corners taken off the guest's end, each longer than its stop by the shop's fit."""
    spans = []
    if start:
        spans.append((0, start + meeting.fit))
    if end:
        spans.append((meeting.run - end - meeting.fit, meeting.run))
    return tuple(
        rabbet(
            f"notch at the stopped groove in {meeting.host.name}",
            Box(x0, 0, 0, x1, meeting.guest_thickness, growth),
            entry=3,
            run=2,
        )
        for x0, x1 in spans
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the housed groove."""
    return (HousedGroove(),)
