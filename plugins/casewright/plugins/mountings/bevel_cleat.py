"""Bevel cleat: two strips ripped at one bevel, one on the cabinet's back, one on the wall, that hook together.

Cabinet frame: x right, y back, z up; lengths in whole nm. The bevel falls toward the wall, so that the
cabinet's weight draws it to the wall.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from casewright.plugins.mountings.bevel_hook import Hook, cabinet_cleat, lay_out_hook, side_notches, spacer, wall_cleat
from casewright.sdk.fields import Choice, Length, Number, Text
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, chosen
from casewright.sdk.joinery.hanging import (
    ANCHOR,
    CAUTIONS,
    PER_STUD,
    TOP_STRIP,
    HangingOptions,
    anti_lift_strip,
    board_of,
    cabinet_screws,
    fixed_on,
    laid_on_top,
    strip_findings,
    through_screw,
    wall_fastener,
)
from casewright.sdk.methods import CannotError, Hanging, MountDesign, MountingMethod, MountRequest
from casewright.sdk.model import (
    LENGTH,
    Assembly,
    Finding,
    HardwareUse,
    JointSpec,
    Material,
    Options,
    PartSpec,
)
from casewright.sdk.units import INCH, MM

LIFT_PLAY = INCH // 8


class BevelCleatOptions(HangingOptions):
    """Options of the bevel cleat."""

    material = Text(
        load_default=None, about="Key of the material both cleats are ripped from. Default: the case's material."
    )
    height = Length(
        least=20 * MM, most=500 * MM, load_default=None, about="Height of each cleat on its longer face. Default: 3 in."
    )
    bevel_deg = Number(
        least=20.0, most=60.0, load_default=45.0, about="Bevel from horizontal, in degrees. Default: 45."
    )
    side_play = Length(
        most=500 * MM, load_default=None, about="How much shorter the wall cleat is at each end. Default: 1/4 in."
    )
    lift_play = Length(
        most=50 * MM,
        load_default=None,
        about="Room above the hook's own height when lifting the cabinet on. Default: 1/8 in.",
    )
    anti_lift = Choice(
        "auto",
        "top-strip",
        "screw",
        "none",
        load_default="auto",
        about="What stops the cabinet lifting off: a strip on the top bolted to the wall, or screws "
        "through the back into the wall cleat. Default: auto, the strip where the top is inset enough, else screws.",
    )
    through = Choice(
        "none",
        "left",
        "right",
        "both",
        load_default="none",
        about="Sides notched at the rear so that the wall cleat runs through them, one strip with that of the "
        "neighbour, whose facing side must be notched too. Copies side by side: both. Default: none.",
    )


@dataclass(frozen=True, slots=True)
class _Guard:
    """What stops the cabinet lifting off its hook: a strip and the id of its lag, or screws, or nothing."""

    parts: tuple[PartSpec, ...] = ()
    lag: str = ""
    screws: tuple[HardwareUse, ...] = ()


class BevelCleat(MountingMethod):
    """A pair of bevelled cleats behind the back panel, under the top."""

    id: ClassVar[str] = "bevel-cleat"
    title: ClassVar[str] = "Bevelled cleat"
    sources: ClassVar[tuple[str, ...]] = (COMMON, ANCHOR)
    options = BevelCleatOptions

    def build(self, request: MountRequest, options: Options) -> MountDesign:
        """Make both cleats, a spacer where they stand off the wall, and the anti-lift fastening.

        Raises `CannotError` without a back panel, a material, or the height for both cleats.
        """
        material = board_of(request, options)
        hook = lay_out_hook(request, options, material)
        parts = [cabinet_cleat(hook, material), wall_cleat(hook, material)]
        if hook.stand_off:
            parts.append(spacer(hook, material))
        guard = _anti_lift(request, options, hook, material)
        joint = JointSpec(self.id, "hook", "wall-cleat", "cleat", -3, hook.drop, 0)
        hanging = _hanging(request, options, hook, guard)
        return MountDesign(
            assembly=Assembly(
                parts=(*parts, *guard.parts),
                joints=(
                    joint,
                    *(fixed_on(request, part) for part in parts if part.role != "wall-cleat"),
                    *(laid_on_top(request, part) for part in guard.parts),
                ),
                hardware=(*_fixings(request, hook), *guard.screws),
                findings=(
                    *strip_findings(request, hook.upper[1] - hook.upper[0], material),
                    *_stand_findings(request, hook),
                ),
            ),
            hanging=hanging,
            features=side_notches(request, hook, hanging.lift),
            cautions=CAUTIONS,
        )


def _hanging(request: MountRequest, options: Options, hook: Hook, guard: _Guard) -> Hanging:
    """Return what the statics turn on, and the lengths that go with it."""
    low, high = hook.lower
    return Hanging(
        hook_z=hook.upper[0] + hook.drop // 2,
        bearing_z=hook.floor if hook.stand_off else min(hook.floor, request.outside.z0),
        bevel_deg=float(chosen(options, "bevel_deg", 45.0)),
        lift=hook.drop + chosen(options, "lift_play", LIFT_PLAY),
        wall_strip="wall-cleat",
        screw_z=low + (high - low - hook.drop) // 2,
        lengths=(
            ("strip to rip both cleats from, saw cut not counted", 2 * (hook.upper[1] - hook.upper[0]) - hook.drop),
            ("height of the bevel", hook.drop),
            ("wall cleat shorter than the cabinet cleat, each end", hook.play),
            ("cabinet stands off the wall", hook.stand_off),
            ("packing between wall and wall cleat", hook.gap),
        ),
        fastener=wall_fastener(request, options, hook.rear - hook.front + hook.gap),
        per_stud=chosen(options, "per_stud", PER_STUD),
        packed=hook.gap,
        anti_lift=guard.lag,
        anti_lift_side=TOP_STRIP if guard.parts else 0,
        anti_lift_strip="top-strip" if guard.lag else "",
        guarded=bool(guard.lag or guard.screws),
        through=hook.through,
        end_play=hook.play,
    )


def _fixings(request: MountRequest, hook: Hook) -> list[HardwareUse]:
    """Return screws through the back into the cabinet cleat, and into the spacer if there is one."""
    assert request.back is not None
    z = hook.upper[0] + hook.drop + (hook.upper[1] - hook.upper[0] - hook.drop) // 2
    screws = cabinet_screws(request, hook.x0, hook.x1, z, hook.rear - hook.front)
    if hook.stand_off:
        screws += cabinet_screws(
            request, hook.x0, hook.x1, hook.floor + (hook.upper[1] - hook.upper[0]) // 2, hook.rear - hook.front
        )
    return screws


def _anti_lift(request: MountRequest, options: Options, hook: Hook, material: Material) -> _Guard:
    """Return what stops the cabinet lifting off the hook."""
    anti_lift = chosen(options, "anti_lift", "auto")
    room = request.outside.z1 - request.top.z1
    wall_face = request.outside.y1 + hook.stand_off
    lies = request.top.y1 - wall_face + TOP_STRIP
    fits = room >= material.thickness and lies >= TOP_STRIP // 2
    if anti_lift == "none":
        return _Guard()
    if anti_lift == "top-strip" and not fits:
        if room >= material.thickness:
            got = f"{request.write.length(max(lies, 0))} of a strip {request.write.length(TOP_STRIP)} wide over the top"
            fix = "Use anti_lift screw, or a back let into the case, so that the top reaches farther to the wall."
            raise CannotError("a strip on the top lies on it by half its width", got, fix, "anti_lift")
        got = f"{request.write.length(room)} above the top for a strip {request.write.length(material.thickness)} thick"
        fix = "Set case.top_inset to the strip's thickness, or use anti_lift screw."
        raise CannotError("a strip on the top lies below the sides' upper ends", got, fix, "anti_lift")
    if anti_lift == "top-strip" or (anti_lift == "auto" and fits):
        part, lag = anti_lift_strip(request, hook.x0, hook.x1, wall_face, material)
        return _Guard(parts=(part,), lag=lag)
    z = hook.lower[0] + (hook.lower[1] - hook.lower[0] - hook.drop) // 2
    screws = through_screw(request, (hook.x0 + hook.play, hook.x1 - hook.play), z, hook.rear - hook.front)
    return _Guard(screws=screws)


def _stand_findings(request: MountRequest, hook: Hook) -> tuple[Finding, ...]:
    if hook.stand_off:
        message = "The cleats are thicker than the room behind the back: the case stands off the wall by this much."
        return (Finding("stands-off-wall", "note", message, hook.stand_off, 0, LENGTH, COMMON),)
    if hook.gap > request.wall_allowance:
        message = (
            "The room behind the back is deeper than the cleats: pack the wall cleat out from the wall by this much."
        )
        return (Finding("pack-wall-cleat", "caution", message, hook.gap, request.wall_allowance, LENGTH, COMMON),)
    return ()


@hookimpl
def casewright_mountings() -> Sequence[MountingMethod]:
    """Return the bevel cleat."""
    return (BevelCleat(),)
