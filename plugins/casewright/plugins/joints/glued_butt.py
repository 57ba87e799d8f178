"""Glued butt: glue alone, for frames that the case holds."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, area_mm2
from casewright.sdk.methods import Fit, FrameJoint, JointMethod, Meeting
from casewright.sdk.model import Finding, Options


class GluedButt(FrameJoint):
    """The rail's end glued to the stile's edge."""

    id: ClassVar[str] = "glued-butt"
    title: ClassVar[str] = "Glued butt"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a frame meeting: no cuts, and a caution that end grain holds little glue."""
        message = "Glue on end grain holds little: the case must carry this frame."
        return Fit(
            findings=(Finding("end-grain-glue", "caution", message, source=COMMON),),
            glue_area_mm2=area_mm2((meeting.run, meeting.guest_thickness)),
        )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the glued butt."""
    return (GluedButt(),)
