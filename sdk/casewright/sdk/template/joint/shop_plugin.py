"""Shop plugin: the guest's end sits in a shallow housing across the host's face."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.joints import Fit, JointMethod, Meeting, MeetingKind, area_mm2
from casewright.sdk.kit import (
    COMMON,
    Bound,
    Box,
    CannotError,
    Length,
    Options,
    OptionSchema,
    Term,
    check_least,
    chosen,
    groove,
    hookimpl,
    mm,
)

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""


class ShopPluginOptions(OptionSchema):
    """What a job may say beside `"method": "shop-plugin"`."""

    depth = Length(
        least=mm(1),
        most=mm(12),
        load_default=None,
        about="Depth of the housing. Default: a quarter of the host's thickness.",
    )


class ShopPlugin(JointMethod):
    """A shallow housing as wide as the guest is thick."""

    id: ClassVar[str] = "shop-plugin"
    title: ClassVar[str] = "Shop plugin"
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee"})
    options = ShopPluginOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner or tee meeting: the guest grows by the housing's depth.

        Lengths are whole nm in the joint frame: x along the joint, y through the guest's thickness, z into the
        host. Raises `CannotError` where the housing would break out of its host.
        """
        depth: int = chosen(options, "depth", meeting.host_depth // 4)
        room = meeting.host_depth // 2 if meeting.far_side else meeting.host_depth
        if depth >= room:
            got = f"depth {meeting.write.length(depth)} where {meeting.write.length(room)} of wood is to be had"
            fix = f"Use a depth of {meeting.write.length(meeting.host_depth // 4)}, a quarter of the thickness."
            raise CannotError("a housing is shallower than its host is thick", got, fix, "depth")
        outside = min(meeting.host_before, meeting.host_after - meeting.fit)
        if outside <= 0:
            raise CannotError(
                "a housing needs wood on both sides",
                f"{meeting.write.length(max(outside, 0))} of {meeting.host.name} beyond it",
                "Move the guest in from the end of the host, or use the method rabbet.",
            )
        x0, x1 = meeting.all_along
        cut = groove(
            f"housing for {meeting.guest.name}",
            Box(x0, 0, 0, x1, meeting.guest_thickness + meeting.fit, depth),
            entry=-3,
            run=1,
        )
        return Fit(
            growth=depth,
            why=(Term("housing depth", depth),),
            host=(cut,),
            findings=check_least(
                "short-grain-outside-housing",
                f"Little wood of {meeting.host.name} stands outside the housing for {meeting.guest.name}.",
                outside,
                Bound(depth, source=COMMON),
            ),
            seat=depth,
            glue_area_mm2=area_mm2((meeting.run, meeting.guest_thickness + 2 * depth)),
        )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the joint methods of this plugin."""
    return (ShopPlugin(),)
