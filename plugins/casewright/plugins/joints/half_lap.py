"""Half lap: rail and stile each lose half their thickness and lie in each other."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, area_mm2
from casewright.sdk.methods import CannotError, Fit, FrameJoint, JointMethod, Meeting
from casewright.sdk.model import Feature, FeatureKind, Options, Term, rabbet


class HalfLap(FrameJoint):
    """The rail's front half laps over the stile's back half."""

    id: ClassVar[str] = "half-lap"
    title: ClassVar[str] = "Half lap"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"rabbet"})

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a frame meeting of two members whose faces are flush in front.

        The rail grows by the stile's width, or by half of it where another rail may come from the far side.
        Raises `CannotError` where the front faces are not flush or the stile is too thin for half the rail.
        """
        t = meeting.guest_thickness
        half = t // 2
        if meeting.host_before != 0 or meeting.host_after + t <= half:
            raise CannotError(
                "half-lapped members are flush in front",
                f"{meeting.write.length(meeting.host_before)} of the stile before the rail",
                "Use members of one thickness, or the method dowel.",
            )
        w = meeting.host_depth // 2 if meeting.far_side else meeting.host_depth
        glued = area_mm2((meeting.run, w))
        lap = rabbet(f"lap over {meeting.host.name}", Box(0, half, 0, meeting.run, t, w), entry=2, run=1)
        bed = Feature(
            "rabbet", f"lap under {meeting.guest.name}", -2, boxes=(Box(0, 0, 0, meeting.run, half, w),), run=3
        )
        return Fit(
            growth=w,
            why=(Term("lap across the stile", w),),
            host=(bed,),
            guest=(lap,),
            seat=w,
            glue_area_mm2=glued,
        )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the half lap."""
    return (HalfLap(),)
