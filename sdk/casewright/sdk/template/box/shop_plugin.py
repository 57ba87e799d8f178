"""Shop plugin: a drawer corner whose front and back lie in a rabbet at the end of each side."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.joints import Fit, JointMethod, Meeting, MeetingKind, area_mm2
from casewright.sdk.kit import Box, CannotError, Length, Options, OptionSchema, Term, chosen, hookimpl, mm, rabbet

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""


class ShopPluginOptions(OptionSchema):
    """What a job may say beside `"method": "shop-plugin"`."""

    depth = Length(
        least=mm(2), most=mm(20), load_default=None, about="Depth of the rabbet. Default: half the side's thickness."
    )


class ShopPlugin(JointMethod):
    """A rabbet at the end of each side, in which front and back lie."""

    id: ClassVar[str] = "shop-plugin"
    title: ClassVar[str] = "Shop plugin"
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"box"})
    options = ShopPluginOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a drawer corner: the end grows into the side by the rabbet's depth.

        Lengths are whole nm in the joint frame: x along the corner, y through the end's thickness, z into the side.
        Raises `CannotError` where the rabbet would cut the side through.
        """
        depth: int = chosen(options, "depth", meeting.host_depth // 2)
        if depth >= meeting.host_depth:
            got = f"depth {meeting.write.length(depth)} in {meeting.write.length(meeting.host_depth)}"
            fix = f"Use a depth of {meeting.write.length(meeting.host_depth // 2)}, half the thickness."
            raise CannotError("a rabbet is shallower than its host is thick", got, fix, "depth")
        if meeting.host_before and meeting.host_after:
            got = f"{meeting.write.length(min(meeting.host_before, meeting.host_after))} of wood beyond it"
            raise CannotError("this corner is at the end of its host", got, "Use another drawer corner.")
        t, x = meeting.guest_thickness, meeting.all_along
        low, high = (0, t + meeting.fit) if meeting.host_before == 0 else (-meeting.fit, t)
        cut = rabbet(f"rabbet for {meeting.guest.name}", Box(x[0], low, 0, x[1], high, depth), entry=-3, run=1)
        return Fit(
            growth=depth,
            why=(Term("rabbet depth", depth),),
            host=(cut,),
            seat=depth,
            glue_area_mm2=area_mm2((meeting.run, t + depth)),
        )


@hookimpl
def casewright_box_methods() -> Sequence[JointMethod]:
    """Return the drawer corners of this plugin."""
    return (ShopPlugin(),)
