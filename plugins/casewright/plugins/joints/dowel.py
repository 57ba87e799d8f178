"""Dowels: round pins in holes bored in the guest's end and the host's face."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery.checks import COMMON
from casewright.sdk.joinery.dowels import DowelOptions, dowelled
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import FeatureKind, Options


class DowelJoint(JointMethod):
    """A butt joint with dowels in a symmetric row."""

    id: ClassVar[str] = "dowel"
    title: ClassVar[str] = "Dowels"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee", "frame"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"hole"})
    options = DowelOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner, tee or frame meeting; the guest does not grow."""
        return dowelled(meeting, options)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the dowel joint."""
    return (DowelJoint(),)
