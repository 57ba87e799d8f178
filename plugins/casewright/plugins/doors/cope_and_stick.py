"""Cope-and-stick door: rails end in stub tenons that fit the stiles' panel groove."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.geometry import Axis
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, area_mm2
from casewright.sdk.joinery.doorcuts import (
    cheeks,
    profile_size,
    rail_grooves,
    rail_part,
    rail_profile,
    stile_part,
    stile_profile,
)
from casewright.sdk.joinery.doorframe import DOORS, InnerEdgeOptions, Layout, lay_out
from casewright.sdk.joinery.doorpanels import fill
from casewright.sdk.methods import DoorDesign, DoorRequest, DoorStyle
from casewright.sdk.model import Assembly, JointSpec, Options


class CopeAndStick(DoorStyle):
    """Stiles full height, rails between them with stub tenons as long as the panel groove is deep."""

    id: ClassVar[str] = "cope-and-stick"
    title: ClassVar[str] = "Cope and stick"
    sources: ClassVar[tuple[str, ...]] = (COMMON, DOORS)
    options = InnerEdgeOptions
    needs_panel: ClassVar[bool] = True

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door. Raises `CannotError` where no opening, groove wall or panel is left."""
        layout, findings = lay_out(request, options)
        filling = fill(layout, options, self.id)
        reach = layout.groove.depth
        x0, x1 = layout.stile - reach, request.width - layout.stile + reach
        moulded = options.get("inner_edge") == "moulded"
        rails = tuple(
            rail_part(
                layout,
                rail,
                reach,
                "stub tenon",
                (
                    *cheeks(layout, rail, reach, "coped stub tenon", profile_size(layout) if moulded else 0),
                    *rail_grooves(layout, rail, x0, x1),
                    *(rail_profile(layout, rail, x0, x1) if moulded else ()),
                ),
            )
            for rail in layout.rails
        )
        stiles = tuple(
            stile_part(layout, side, stile_profile(layout, side) if moulded else ()) for side in ("left", "right")
        )
        return DoorDesign(
            Assembly(
                parts=(*stiles, *rails, *filling.parts),
                joints=(*_joints(layout, self.id), *filling.joints),
                findings=(*findings, *filling.findings),
            ),
            left=layout.land("left", filling.clearance),
            right=layout.land("right", filling.clearance),
            thickness=layout.thickness,
        )


def _joints(layout: Layout, method: str) -> tuple[JointSpec, ...]:
    """Return a joint at each end of each rail; the stub tenon's end stands on the groove's bottom."""
    made = []
    sides: tuple[tuple[str, Axis], ...] = (("stile-left", -1), ("stile-right", 1))
    for rail in layout.rails:
        glued = area_mm2((rail.width, layout.thickness), (2 * layout.groove.depth, rail.width))
        made += [
            JointSpec(method, "frame", stile, rail.key, press, layout.groove.depth, 0, glued) for stile, press in sides
        ]
    return tuple(made)


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the cope-and-stick door."""
    return (CopeAndStick(),)
