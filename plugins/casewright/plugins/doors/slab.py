"""Slab door: one piece."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery.checks import COMMON
from casewright.sdk.methods import CannotError, DoorDesign, DoorRequest, DoorStyle, Land
from casewright.sdk.model import Assembly, Finding, Options, PartSpec
from casewright.sdk.units import INCH

WIDEST_BOARD = 8 * INCH
"""A solid slab wider than this moves and cups enough to say so (common practice)."""


class Slab(DoorStyle):
    """A door of one sheet or board, its length upright."""

    id: ClassVar[str] = "slab"
    title: ClassVar[str] = "Slab"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door of the frame material. Raises `CannotError` for a door without size."""
        if min(request.width, request.height) <= 0:
            raise CannotError("a door has a width and a height", "none", "Make the opening larger.")
        t = request.frame.thickness
        part = PartSpec(
            key="slab",
            role="door",
            name="door",
            material=request.frame.key,
            box=Box(0, 0, 0, request.width, t, request.height),
            length_axis=3,
            width_axis=1,
            why_length=request.why_height,
            why_width=request.why_width,
        )
        land = Land(part="slab", clear=request.width, inner_edge=request.width, panel=None)
        return DoorDesign(Assembly((part,), findings=_findings(request)), land, land, t)


def _findings(request: DoorRequest) -> tuple[Finding, ...]:
    if request.frame.kind != "board" or request.width <= WIDEST_BOARD:
        return ()
    return (
        Finding(
            "solid-slab-moves",
            "caution",
            "A solid slab swells, shrinks and cups across its width; use sheet, or a framed door.",
            request.width,
            WIDEST_BOARD,
            "length",
            "common-practice",
        ),
    )


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the slab door."""
    return (Slab(),)
