"""Shop plugin: a rail under the top, against the back, that wall screws go through."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.kit import Box, CannotError, Length, Options, Term, chosen, hookimpl, mm
from casewright.sdk.mountings import (
    CAUTIONS,
    Assembly,
    Hanging,
    HangingOptions,
    JointSpec,
    MountDesign,
    MountingMethod,
    MountRequest,
    PartSpec,
    board_of,
    wall_fastener,
)

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""


class ShopPluginOptions(HangingOptions):
    """What a job may say beside `"method": "shop-plugin"`, and `fastener` and `per_stud`."""

    height = Length(least=mm(40), most=mm(200), load_default=None, about="Height of the rail. Default: 80 mm.")


class ShopPlugin(MountingMethod):
    """A rail between the sides, glued under the top."""

    id: ClassVar[str] = "shop-plugin"
    title: ClassVar[str] = "Shop plugin"
    options = ShopPluginOptions

    def build(self, request: MountRequest, options: Options) -> MountDesign:
        """Make the rail in the cabinet frame. Raises `CannotError` where a divider or a shelf is in its way."""
        height: int = chosen(options, "height", mm(80))
        if len(request.under_top) != 1:
            rule, got = "one rail runs from side to side", f"{len(request.under_top)} rooms under the top"
            raise CannotError(rule, got, "Use the mounting screw-strip, which makes a strip for each room.")
        (room,), material = request.under_top, board_of(request, options)
        if height >= room.z1 - room.z0 or material.thickness >= room.y1 - room.y0:
            got = f"a rail {request.write.length(height)} high in {request.write.length(room.z1 - room.z0)}"
            raise CannotError("the rail fits under the top", got, "Use a lower rail.", "height")
        rail = PartSpec(
            key="rail",
            role="strip",
            name="hanging rail",
            material=material.key,
            box=Box(room.x0, room.y1 - material.thickness, room.z1 - height, room.x1, room.y1, room.z1),
            length_axis=1,
            width_axis=3,
            why_length=(Term("clear width", room.x1 - room.x0),),
            why_width=(Term("rail height", height),),
        )
        packed = request.outside.y1 - room.y1
        glued_mm2 = (room.x1 - room.x0) * material.thickness / 1e12
        middle = room.z1 - height // 2
        return MountDesign(
            assembly=Assembly((rail,), (JointSpec("glued", "strip", request.top_key, "rail", 3, 0, 0, glued_mm2),)),
            hanging=Hanging(
                hook_z=middle,
                bearing_z=request.outside.z0,
                bevel_deg=None,
                lift=0,
                wall_strip="rail",
                screw_z=middle,
                fastener=wall_fastener(request, options, material.thickness + packed),
                per_stud=options["per_stud"],
                packed=packed,
            ),
            cautions=CAUTIONS,
        )


@hookimpl
def casewright_mountings() -> Sequence[MountingMethod]:
    """Return the mountings of this plugin."""
    return (ShopPlugin(),)
