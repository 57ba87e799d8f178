"""Screw strip: a strip inside the case, under the top, screwed through the back to the wall."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Flag, Length, Text
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Spacing, area_mm2, chosen, row, screw_within
from casewright.sdk.joinery.hanging import (
    ANCHOR,
    CAUTIONS,
    FIXED,
    PER_STUD,
    SCREW_SPACING,
    HangingOptions,
    board_of,
    strip_findings,
    wall_fastener,
)
from casewright.sdk.methods import CannotError, Hanging, MountDesign, MountingMethod, MountRequest
from casewright.sdk.model import LENGTH, Assembly, Finding, HardwareUse, JointSpec, Material, Options, PartSpec, Term
from casewright.sdk.units import INCH, MM

HEIGHT = 3 * INCH
LOWEST = 20 * MM
BITE = 3 * INCH // 2
"""How far a screw from above goes into the strip at most (common practice, no source)."""

STIFF_BACK = INCH // 2
"""A back this thick needs no strip at the bottom (AWS 1st ed., 2009, p. 281)."""


class ScrewStripOptions(HangingOptions):
    """Options of the screw strip."""

    material = Text(
        load_default=None, about="Key of the material the strips are made of. Default: the case's material."
    )
    height = Length(least=LOWEST, most=500 * MM, load_default=None, about="Height of a strip. Default: 3 in.")
    bottom = Flag(
        load_default=None,
        about="Whether a second strip goes on the bottom. Default: true for a back under 1/2 in thick.",
    )


class ScrewStrip(MountingMethod):
    """A strip between the sides, under the top and against the back; wall screws go through strip and back."""

    id: ClassVar[str] = "screw-strip"
    title: ClassVar[str] = "Screw strip"
    sources: ClassVar[tuple[str, ...]] = (COMMON, ANCHOR)
    options = ScrewStripOptions

    def build(self, request: MountRequest, options: Options) -> MountDesign:
        """Make one or two strips. Raises `CannotError` where they do not fit or no material is known."""
        material = board_of(request, options)
        height: int = chosen(options, "height", HEIGHT)
        inside = request.inside
        back = 0 if request.back is None else request.back.y1 - request.back.y0
        second: bool = chosen(options, "bottom", 0 < back < STIFF_BACK)
        if material.thickness >= inside.y1 - inside.y0:
            raise CannotError(
                "the strips fit inside the case",
                f"a strip {request.write.length(material.thickness)} thick in "
                f"{request.write.length(inside.y1 - inside.y0)}",
                "Use a thinner material for the strips, or a deeper cabinet.",
                "material",
            )
        upper = _strips(request, material, height, low=False)
        lower = _strips(request, material, height, low=True) if second else []
        screw_z = inside.z1 - height // 2
        behind = request.behind.y1 - request.behind.y0
        return MountDesign(
            assembly=Assembly(
                parts=(*upper, *lower),
                joints=(*(_under_top(request, part) for part in upper), *(_on_bottom(request, part) for part in lower)),
                hardware=tuple([use for part in upper for use in _screws_from_above(request, part)]),
                findings=(*strip_findings(request, height, material), *_packing(request, behind)),
            ),
            hanging=Hanging(
                hook_z=screw_z,
                bearing_z=request.outside.z0,
                bevel_deg=None,
                lift=0,
                wall_strip="strip-top",
                screw_z=screw_z,
                lengths=(("packing behind the back at each screw", behind),),
                fastener=wall_fastener(request, options, material.thickness + back + behind),
                per_stud=chosen(options, "per_stud", PER_STUD),
                packed=back + behind,
            ),
            cautions=CAUTIONS,
        )


def _strips(request: MountRequest, material: Material, height: int, *, low: bool) -> list[PartSpec]:
    """Return a strip for each room between dividers under the top, or over the bottom, all at one height."""
    rooms = request.over_bottom if low else request.under_top
    key, name = ("strip-bottom", "lower strip") if low else ("strip-top", "hanging strip")
    z = request.inside.z0 if low else request.inside.z1 - height
    lowest = min((room.z1 - room.z0 for room in rooms), default=0)
    if height >= lowest:
        rule = "the strips fit between top, bottom and fixed shelves"
        got = f"a strip {request.write.length(height)} high in {request.write.length(lowest)}"
        lower = f"Use strips less than {request.write.length(lowest)} high, or move" if lowest > LOWEST else "Move"
        raise CannotError(rule, got, f"{lower} the fixed shelf away from them.", "height")
    return [
        PartSpec(
            key=key if len(rooms) == 1 else f"{key}-{number}",
            role="strip",
            name=name,
            material=material.key,
            box=Box(room.x0, room.y1 - material.thickness, z, room.x1, room.y1, z + height),
            length_axis=1,
            width_axis=3,
            why_length=(Term("clear width", room.x1 - room.x0),),
            why_width=(Term("strip height", height),),
        )
        for number, room in enumerate(rooms, start=1)
    ]


def _under_top(request: MountRequest, strip: PartSpec) -> JointSpec:
    """Return how a strip is fixed under the top: glued over the face they share, and screwed from above."""
    box = strip.box
    return JointSpec(FIXED, "strip", request.top_key, strip.key, 3, 0, 0, area_mm2((box.x1 - box.x0, box.y1 - box.y0)))


def _on_bottom(request: MountRequest, strip: PartSpec) -> JointSpec:
    """Return how a lower strip is fixed on the bottom: glued over the face they share."""
    box = strip.box
    area = area_mm2((box.x1 - box.x0, box.y1 - box.y0))
    return JointSpec("glued", "strip", request.bottom_key, strip.key, -3, 0, 0, area)


def _screws_from_above(request: MountRequest, strip: PartSpec) -> tuple[HardwareUse, ...]:
    """Return the screws through the top into a strip's upper edge."""
    box, top = strip.box, request.top.z1 - request.top.z0
    screw = screw_within(request.catalogue, 8, top + min(box.z1 - box.z0, BITE), least=top + 10 * MM)
    if screw is None:
        return ()
    xs = row(box.x1 - box.x0, Spacing(3 * INCH // 2, SCREW_SPACING, 2 * INCH))
    at = tuple([(box.x0 + x, (box.y0 + box.y1) // 2, request.top.z1) for x in xs])
    return (HardwareUse(screw.id, screw.title, at, -3, where="through the top into the hanging strip"),)


def _packing(request: MountRequest, behind: int) -> tuple[Finding, ...]:
    if behind <= request.wall_allowance:
        return ()
    message = "Pack the room behind the back at each wall screw, or the screws bend the back."
    return (Finding("pack-behind-back", "caution", message, behind, request.wall_allowance, LENGTH, COMMON),)


@hookimpl
def casewright_mountings() -> Sequence[MountingMethod]:
    """Return the screw strip."""
    return (ScrewStrip(),)
