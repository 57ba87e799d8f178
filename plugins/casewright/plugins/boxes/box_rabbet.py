"""Rabbet corner of a drawer box: front and back sit in rabbets at the sides' ends."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Length, OptionSchema
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, chosen
from casewright.sdk.joinery.rabbets import rabbeted
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import FeatureKind, Options


class BoxRabbetOptions(OptionSchema):
    """Options of the rabbet corner."""

    depth = Length(load_default=None, about="Depth of the rabbet. Default: half the side's thickness.")


class BoxRabbet(JointMethod):
    """A step at the side's end, by default half as deep as the side is thick; glued."""

    id: ClassVar[str] = "box-rabbet"
    title: ClassVar[str] = "Rabbet corner"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"box"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"rabbet"})
    options = BoxRabbetOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a drawer corner; see `rabbeted`."""
        return rabbeted(meeting, chosen(options, "depth", meeting.host_depth // 2), 0, glued=True)


@hookimpl
def casewright_box_methods() -> Sequence[JointMethod]:
    """Return the rabbet corner."""
    return (BoxRabbet(),)
