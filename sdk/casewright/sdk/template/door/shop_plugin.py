"""Shop plugin: a door of one board or sheet with a hand hole near its free edge."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.doors import Assembly, DoorDesign, DoorRequest, DoorStyle, Land, PartSpec
from casewright.sdk.kit import Box, CannotError, Cylinder, Length, Options, OptionSchema, Purpose, hole, hookimpl, mm

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""


class ShopPluginOptions(OptionSchema):
    """What a job may say beside `"style": "shop-plugin"`."""

    hand_hole = Length(
        least=mm(20), most=mm(60), load_default=mm(30), about="Diameter of the hand hole. Default: 30 mm."
    )


class ShopPlugin(DoorStyle):
    """One board or sheet, upright, bored through in the middle of its height."""

    id: ClassVar[str] = "shop-plugin"
    title: ClassVar[str] = "Shop plugin"
    options = ShopPluginOptions

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door; the hole stands in its middle. Raises `CannotError` where it leaves no wood beside it."""
        bore: int = options["hand_hole"]
        if min(request.width, request.height) < 4 * bore:
            raise CannotError(
                "a door is four times as wide and as high as its hand hole",
                f"{request.write.length(bore)} in {request.write.length(request.width)}",
                "Use a smaller hand_hole, or the style slab.",
                "hand_hole",
            )
        t = request.frame.thickness
        mouth = (request.height // 2, request.width // 2, 0)
        slab = PartSpec(
            key="slab",
            role="door",
            name="door",
            material=request.frame.key,
            box=Box(0, 0, 0, request.width, t, request.height),
            length_axis=3,
            width_axis=1,
            why_length=request.why_height,
            why_width=request.why_width,
            features=(hole("hand hole", Cylinder((mouth[1], 0, mouth[0]), 2, bore, t), purpose=Purpose.PULL),),
        )
        land = Land(part="slab", clear=request.width // 2 - bore, inner_edge=request.width, panel=None)
        return DoorDesign(Assembly((slab,)), left=land, right=land, thickness=t)


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the door styles of this plugin."""
    return (ShopPlugin(),)
