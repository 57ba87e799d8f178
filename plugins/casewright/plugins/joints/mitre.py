"""Mitre: frame members cut corner to corner where they meet."""

import math
from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, area_mm2
from casewright.sdk.methods import CannotError, Fit, FrameJoint, JointMethod, Meeting
from casewright.sdk.model import Feature, FeatureKind, Finding, Options, Term
from casewright.sdk.units import MM


class Mitre(FrameJoint):
    """A frame corner cut from the inner to the outer corner; 45 degrees where both are equally wide."""

    id: ClassVar[str] = "mitre"
    title: ClassVar[str] = "Mitre"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"bevel"})

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a frame meeting; at an end of the stile the rail grows by the stile's width.

        A rail between the ends cannot be mitred: it is butted, with a caution. Raises `CannotError` for
        members of different thickness, or a stile no longer than the rail is wide.
        """
        if meeting.host_start and meeting.host_end:
            return _butted(meeting)
        _refuse(meeting)
        at_low = meeting.host_start == 0
        run, t, w = meeting.run, meeting.guest_thickness, meeting.host_depth
        inner: Axis = 1 if at_low else -1
        outer: Axis = -1 if at_low else 1
        corner = Box(0, 0, 0, run, t, w)
        return Fit(
            growth=w,
            why=(Term("mitre across the stile", w),),
            host=(
                Feature(
                    "bevel",
                    f"mitre to {meeting.guest.name}",
                    outer,
                    wedges=(Wedge(corner, 2, (outer, -3)),),
                    angle_deg=round(math.degrees(math.atan2(run, w)), 3),
                ),
            ),
            guest=(
                Feature(
                    "bevel",
                    f"mitre to {meeting.host.name}",
                    3,
                    wedges=(Wedge(corner, 2, (inner, 3)),),
                    angle_deg=round(math.degrees(math.atan2(w, run)), 3),
                ),
            ),
            findings=(
                Finding(
                    "mitre-glue",
                    "caution",
                    "A glued mitre holds little; the case or a spline must carry this frame.",
                    source=COMMON,
                ),
            ),
            seat=w,
            glue_area_mm2=math.hypot(run, w) * t / MM**2,
        )


def _refuse(meeting: Meeting) -> None:
    if meeting.host_start == 0 and meeting.host_end == 0:
        raise CannotError(
            "a mitred stile is longer than its rail is wide",
            f"a stile and rail both {meeting.write.length(meeting.run)}",
            "Use the method half-lap or dowel for this frame.",
        )
    if meeting.host_before or meeting.host_after:
        raise CannotError(
            "mitred members are equally thick",
            f"{meeting.write.length(meeting.guest_thickness)} on "
            f"{meeting.write.length(meeting.host_before + meeting.guest_thickness + meeting.host_after)}",
            "Use members of one thickness.",
        )


def _butted(meeting: Meeting) -> Fit:
    message = (
        f"{meeting.guest.name} stands between mitred corners and is only butted: dowel it, or let the case hold it."
    )
    return Fit(
        findings=(Finding("butted-between-mitres", "caution", message, source=COMMON),),
        glue_area_mm2=area_mm2((meeting.run, meeting.guest_thickness)),
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the mitre."""
    return (Mitre(),)
