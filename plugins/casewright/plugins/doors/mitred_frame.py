"""Mitred-frame door: four members cut corner to corner, grooved for the panel."""

import math
from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON
from casewright.sdk.joinery.doorcuts import rail_grooves, rail_part, rail_profile, stile_part, stile_profile
from casewright.sdk.joinery.doorframe import DOORS, InnerEdgeOptions, Layout, Rail, lay_out
from casewright.sdk.joinery.doorpanels import fill
from casewright.sdk.methods import CannotError, DoorDesign, DoorRequest, DoorStyle
from casewright.sdk.model import Assembly, Feature, Finding, JointSpec, Options
from casewright.sdk.units import MM


class MitredFrame(DoorStyle):
    """Stiles and rails of one width, mitred at 45 degrees; the moulding runs round unbroken."""

    id: ClassVar[str] = "mitred-frame"
    title: ClassVar[str] = "Mitred frame"
    sources: ClassVar[tuple[str, ...]] = (COMMON, DOORS)
    options = InnerEdgeOptions
    needs_panel: ClassVar[bool] = True

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door. Raises `CannotError` for members of unequal width or rails between."""
        layout, findings = lay_out(request, options)
        widths = {layout.stile, *(r.width for r in layout.rails)}
        if len(widths) > 1 or len(layout.rails) != 2:
            rule = "a mitred frame has two stiles and two rails of one width"
            got = f"{len(layout.rails)} rails, widths {', '.join(request.write.length(w) for w in sorted(widths))}"
            fix = "Leave out rail, top_rail, bottom_rail and mid_rails."
            raise CannotError(rule, got, fix, "rail" if len(widths) > 1 else "mid_rails")
        filling = fill(layout, options, self.id)
        s, w = layout.stile, request.width
        moulded = options.get("inner_edge") == "moulded"
        rails = tuple(
            rail_part(
                layout,
                rail,
                s,
                "mitre across the stile",
                (
                    *_rail_mitres(layout, rail),
                    *rail_grooves(layout, rail, 0, w),
                    *(rail_profile(layout, rail, 0, w) if moulded else ()),
                ),
            )
            for rail in layout.rails
        )
        stiles = tuple(
            stile_part(layout, side, (*_stile_mitres(layout, side), *(stile_profile(layout, side) if moulded else ())))
            for side in ("left", "right")
        )
        message = "A glued mitre holds little; add a spline or loose tenon across each corner."
        return DoorDesign(
            Assembly(
                parts=(*stiles, *rails, *filling.parts),
                joints=(*_joints(layout, self.id), *filling.joints),
                findings=(*findings, Finding("mitre-glue", "caution", message, source=COMMON), *filling.findings),
            ),
            left=layout.land("left", filling.clearance),
            right=layout.land("right", filling.clearance),
            thickness=layout.thickness,
        )


def _corner(layout: Layout, side: str, rail: Rail) -> Box:
    s, w = layout.stile, layout.request.width
    x0 = 0 if side == "left" else w - s
    return Box(x0, 0, rail.z0, x0 + s, layout.thickness, rail.z1)


def _rail_mitres(layout: Layout, rail: Rail) -> tuple[Feature, ...]:
    """Return the rail's two mitres: waste on the door's outer side edge, toward its middle height."""
    inner: Axis = 3 if rail.above else -3
    sides: tuple[tuple[str, Axis], ...] = (("left", -1), ("right", 1))
    return tuple(
        Feature(
            "bevel",
            f"mitre, {side} end",
            out,
            wedges=(Wedge(_corner(layout, side, rail), 2, (out, inner)),),
            angle_deg=45.0,
        )
        for side, out in sides
    )


def _stile_mitres(layout: Layout, side: str) -> tuple[Feature, ...]:
    """Return the stile's two mitres: waste on the door's upper and lower edge, toward its middle width."""
    inner: Axis = 1 if side == "left" else -1
    made = []
    for rail in layout.rails:
        out: Axis = -3 if rail.above else 3
        wedge = Wedge(_corner(layout, side, rail), 2, (inner, out))
        made.append(
            Feature("bevel", f"mitre, {'lower' if rail.above else 'upper'} end", out, wedges=(wedge,), angle_deg=45.0)
        )
    return tuple(made)


def _joints(layout: Layout, method: str) -> tuple[JointSpec, ...]:
    sides: tuple[tuple[str, Axis], ...] = (("stile-left", -1), ("stile-right", 1))
    area = math.sqrt(2) * layout.stile * layout.thickness / MM**2
    return tuple(
        JointSpec(method, "frame", stile, rail.key, press, layout.stile, 0, area)
        for rail in layout.rails
        for stile, press in sides
    )


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the mitred-frame door."""
    return (MitredFrame(),)
