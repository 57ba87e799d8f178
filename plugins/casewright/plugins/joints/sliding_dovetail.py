"""Sliding dovetail: a tail along the guest's end, in a slot of the host that is wider at its bottom."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, tan
from typing import ClassVar

from casewright.sdk.fields import Length, Number, OptionSchema
from casewright.sdk.geometry import Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, area_mm2, check_least, chosen
from casewright.sdk.joinery.dovetails import sheet_findings
from casewright.sdk.joinery.grooves import groove_findings, wood_outside
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, Finding, Options, Term, rabbet
from casewright.sdk.units import INCH

ANGLE_DEG = 8.0
"""How far the flanks lean from square (common practice, no source)."""

BOTTOM_ROOM = INCH // 64
"""Room left under the tail, so that its shoulders close (common practice, no source)."""


class SlidingDovetailOptions(OptionSchema):
    """Options of the sliding dovetail."""

    depth = Length(load_default=None, about="Depth of the slot. Default: a third of the host's thickness.")
    angle_deg = Number(
        least=5.0,
        most=20.0,
        load_default=None,
        about="How far the flanks lean from square, in degrees. Default: 8 (common practice).",
    )
    shoulder = Length(
        load_default=None,
        about="Width of the shoulder on each side of the tail, at its root. Default: a sixth of the "
        "guest's thickness, or more where the flanks lean out further.",
    )
    stop = Length(
        load_default=0,
        about="Length of the joint left uncut at its front. Default: 0, the slot runs through.",
    )
    clearance = Length(load_default=None, about="Room left under the tail. Default: 1/64 in.")


@dataclass(frozen=True, slots=True)
class _Section:
    """The joint's section: depth of the slot, length of the tail, and how far each one's flanks lean out.

    `low` and `high` are the tail's root along y; the slot's mouth stands `play` off them.
    """

    depth: int
    long: int
    low: int
    high: int
    slot_lean: int
    tail_lean: int
    play: tuple[int, int]

    @property
    def mouth(self) -> tuple[int, int]:
        """The slot at the host's face, from and to along y."""
        return self.low - self.play[0], self.high + self.play[1]


class SlidingDovetail(JointMethod):
    """A tail as long as the guest's end, that slides into its slot from the back (or the front, if it runs through)."""

    id: ClassVar[str] = "sliding-dovetail"
    title: ClassVar[str] = "Sliding dovetail"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"tee"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"dovetail"})
    options = SlidingDovetailOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a tee meeting. The tail's shoulders seat on the host's face.

        The shop's fit is added to the slot's width, half beside each flank, and no less than the meeting's spare.
        Raises `CannotError` where host or guest has no wood for it.
        """
        section = _section(meeting, options)
        stop: int = chosen(options, "stop", 0)
        bare = stop + meeting.fit if stop else 0
        if bare >= meeting.run:
            raise CannotError(
                "a stop leaves some of the slot",
                f"a stop of {meeting.write.length(stop)} in a joint {meeting.write.length(meeting.run)} long",
                f"Use a stop of {meeting.write.length(meeting.run // 8)}.",
                "stop",
            )
        findings = _findings(meeting, section)
        x0, x1 = meeting.all_along
        room = section.depth - section.long
        why = [Term("slot depth", section.depth)] + ([Term("room under the tail", -room)] if room else [])
        return Fit(
            growth=section.long,
            why=tuple(why),
            host=(_slot(meeting, section, (stop or x0, x1)),),
            guest=(_tail(meeting, section), *_notch(meeting, section, bare)),
            findings=findings,
            seat=section.long,
            glue_area_mm2=area_mm2((meeting.run - bare, 2 * section.long)),
        )


def _section(meeting: Meeting, options: Options) -> _Section:
    """Return the section the options ask for, or raise `CannotError` if host or guest is too thin for it."""
    write, t = meeting.write, meeting.guest_thickness
    usual = meeting.host_depth // 3
    depth: int = chosen(options, "depth", usual)
    room: int = chosen(options, "clearance", BOTTOM_ROOM)
    most = meeting.host_depth // 2 if meeting.far_side else meeting.host_depth
    if not 0 < depth < most:
        raise CannotError(
            "a slot in a part that is housed from both sides is shallower than half of it"
            if meeting.far_side
            else "a slot is shallower than its host is thick",
            f"depth {write.length(depth)} in {write.length(meeting.host_depth)}",
            f"Use a depth of {write.length(usual)}, a third of the thickness.",
            "depth",
        )
    long = depth - room
    lean = round(depth * tan(radians(chosen(options, "angle_deg", ANGLE_DEG))))
    tail_lean = lean * long // depth
    if tail_lean <= 0:
        raise CannotError(
            "the tail enters its slot and is wider at its end than at its root",
            f"{write.length(room)} of room in a slot {write.length(depth)} deep",
            f"Use a depth of {write.length(usual)} and leave out the clearance.",
            "clearance",
        )
    if 2 * lean >= t:
        raise CannotError(
            "the tail has wood at its root",
            f"flanks that lean {write.length(lean)} in a part {write.length(t)} thick",
            f"Use a depth of {write.length(depth * t // (4 * lean))} or a smaller angle.",
            "depth",
        )
    shoulder: int = chosen(options, "shoulder", max(t // 6, lean))
    if not lean <= shoulder or 2 * shoulder >= t:
        raise CannotError(
            "shoulders cover what the flanks lean and leave wood for the tail",
            f"shoulders of {write.length(shoulder)} and flanks that lean {write.length(lean)} in {write.length(t)}",
            f"Use a shoulder of {write.length((lean + t // 2) // 2)}.",
            "shoulder",
        )
    half = meeting.fit // 2
    play = max(half, meeting.spare), max(meeting.fit - half, meeting.spare)
    return _Section(depth, long, shoulder, t - shoulder, lean, tail_lean, play)


def _slot(meeting: Meeting, section: _Section, along: tuple[int, int]) -> Feature:
    (x0, x1), (low, high), lean, depth = along, section.mouth, section.slot_lean, section.depth
    return Feature(
        "dovetail",
        f"dovetail slot for {meeting.guest.name}",
        -3,
        boxes=(Box(x0, low, 0, x1, high, depth),),
        wedges=(
            Wedge(Box(x0, low - lean, 0, x1, low, depth), 1, (2, 3)),
            Wedge(Box(x0, high, 0, x1, high + lean, depth), 1, (-2, 3)),
        ),
        run=1,
    )


def _tail(meeting: Meeting, section: _Section) -> Feature:
    """Return the waste beside the tail: straight down to its widest, and slanting in from there to its root."""
    run, long, t = meeting.run, section.long, meeting.guest_thickness
    low, high = section.low - section.tail_lean, section.high + section.tail_lean
    return Feature(
        "dovetail",
        f"tail into {meeting.host.name}",
        3,
        boxes=tuple(Box(0, a, 0, run, b, long) for a, b in ((0, low), (high, t)) if b > a),
        wedges=(
            Wedge(Box(0, low, 0, run, section.low, long), 1, (-2, -3)),
            Wedge(Box(0, section.high, 0, run, high, long), 1, (2, -3)),
        ),
        run=1,
    )


def _notch(meeting: Meeting, section: _Section, bare: int) -> tuple[Feature, ...]:
    """Return what is taken off the tail where its slot stops; `bare` nm of the joint, from its front, have no tail."""
    if not bare:
        return ()
    waste = Box(0, 0, 0, bare, meeting.guest_thickness, section.long)
    return (rabbet(f"notch at the stopped slot in {meeting.host.name}", waste, entry=3, run=2),)


def _findings(meeting: Meeting, section: _Section) -> tuple[Finding, ...]:
    (low, high), lean = section.mouth, section.slot_lean
    fix = "Move the guest in from the end of the host, or use the method dowel."
    outside = wood_outside(meeting, (low - lean, high + lean), fix, what="slot")
    root = Bound(meeting.guest_thickness // 3)
    return (
        *groove_findings(meeting, section.depth, outside, "slot"),
        *check_least("narrow-tails", "The tail is narrow at its root.", section.high - section.low, root),
        *sheet_findings(meeting.guest),
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the sliding dovetail."""
    return (SlidingDovetail(),)
