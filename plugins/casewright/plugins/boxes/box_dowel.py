"""Dowel corner of a drawer box."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery.checks import COMMON
from casewright.sdk.joinery.dowels import DowelOptions, dowelled
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import FeatureKind, Options


class BoxDowel(JointMethod):
    """Front or back butted to the side's face with dowels."""

    id: ClassVar[str] = "box-dowel"
    title: ClassVar[str] = "Dowel corner"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"box"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"hole"})
    options = DowelOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a drawer corner; see `dowelled`."""
        return dowelled(meeting, options)


@hookimpl
def casewright_box_methods() -> Sequence[JointMethod]:
    """Return the dowel corner."""
    return (BoxDowel(),)
