"""The hook of a bevel cleat: where its two strips stand, and the strips as parts.

Cabinet frame: x right, y back, z up; lengths in whole nm. The bevel falls toward the wall, so that the
cabinet's weight draws it to the wall.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.joinery import chosen
from casewright.sdk.methods import CannotError, MountRequest
from casewright.sdk.model import Feature, Material, Options, PartSpec, Purpose, Term
from casewright.sdk.units import INCH, MM

HEIGHT = 3 * INCH
SIDE_PLAY = INCH // 4
NOTCH_PLAY = 2 * MM
"""Room over and under a wall cleat that runs through a notch (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Hook:
    """Where the two cleats stand: y from `front` to `rear`, z of the cabinet cleat and of the wall cleat.

    `wall` are the wall cleat's left and right end, `through` whether it goes on past the case there.
    """

    x0: int
    x1: int
    front: int
    rear: int
    upper: tuple[int, int]
    lower: tuple[int, int]
    drop: int
    play: int
    floor: int
    stand_off: int
    gap: int
    wall: tuple[int, int]
    through: tuple[bool, bool]


def lay_out_hook(request: MountRequest, options: Options, material: Material) -> Hook:
    """Return where the cleats stand. Raises `CannotError` without a back, or without room for both."""
    if request.back is None:
        raise CannotError(
            "a bevel cleat is fixed to a back panel",
            "a case without a back",
            "Give the case a back, or use the mounting screw-strip.",
        )
    t = material.thickness
    height: int = chosen(options, "height", HEIGHT)
    play: int = chosen(options, "side_play", SIDE_PLAY)
    drop = round(t * math.tan(math.radians(float(chosen(options, "bevel_deg", 45.0)))))
    room = request.behind
    x0, x1 = (room.x0, room.x1) if room.x1 > room.x0 else (request.inside.x0, request.inside.x1)
    ceiling = min(room.z1, request.top.z0) if room.z1 > room.z0 else request.top.z0
    floor = max(room.z0, request.bottom.z1) if room.z1 > room.z0 else request.bottom.z1
    deep = room.y1 - room.y0
    stack = 2 * height - drop + (height if deep < t else 0)
    _validate_room(request.write.length, (height, drop, stack), ceiling - floor, (play, x1 - x0))
    upper = (ceiling - height, ceiling)
    lower_top = upper[0] + drop
    through = _through(options)
    return Hook(
        x0=x0,
        x1=x1,
        front=room.y0,
        rear=room.y0 + t,
        upper=upper,
        lower=(lower_top - height, lower_top),
        drop=drop,
        play=play,
        floor=floor,
        stand_off=max(0, t - deep),
        gap=max(0, deep - t),
        wall=(
            request.outside.x0 if through[0] else x0 + play,
            request.outside.x1 if through[1] else x1 - play,
        ),
        through=through,
    )


def _validate_room(length: Callable[[int], str], cleat: tuple[int, int, int], room: int, ends: tuple[int, int]) -> None:
    """Raise `CannotError` where cleats of a height, with their bevel's drop and their stack, find no room, in nm.

    `ends` are the play at each end and the length between them.
    """
    (height, drop, stack), (play, long) = cleat, ends
    if height <= drop:
        rule = "a cleat is higher than its bevel"
        got = f"height {length(height)}, bevel {length(drop)}"
        raise CannotError(rule, got, f"Use a height of at least {length(drop + INCH)}.", "height")
    if room < stack:
        got = f"{length(room)} of height for {length(stack)} of cleats"
        raise CannotError("both cleats fit behind the back", got, "Use lower cleats or a higher cabinet.", "height")
    if 2 * play >= long:
        got = f"play of {length(play)} at each end in {length(long)}"
        raise CannotError("the wall cleat has a length", got, f"Use {length(SIDE_PLAY)}.", "side_play")


def _through(options: Options) -> tuple[bool, bool]:
    """Return whether the wall cleat is to run on through the left and through the right side."""
    sides: str = chosen(options, "through", "none")
    return sides in ("left", "both"), sides in ("right", "both")


def side_notches(request: MountRequest, hook: Hook, lift: int) -> tuple[tuple[str, Feature], ...]:
    """Return the notches in the rear edges of sides that the wall cleat runs on through, by the sides' keys.

    They leave room for the cleat while the cabinet is hung, `lift` over its place. None where the cleat lies behind
    the sides. Raises `CannotError` where a notch would reach the bottom.
    """
    outside, inside = request.outside, request.inside
    low, high = hook.lower[0] - lift - NOTCH_PLAY, hook.lower[1] + NOTCH_PLAY
    if not any(hook.through) or hook.front >= outside.y1:
        return ()
    if low < request.bottom.z1:
        short = request.write.length(request.bottom.z1 - low)
        raise CannotError(
            "the notch for a cleat that runs through stays above the bottom",
            f"a notch that reaches {short} below the bottom's upper face",
            "Use lower cleats or a higher cabinet.",
            "height",
        )
    ends = ((outside.x0, inside.x0), (inside.x1, outside.x1))
    keys = (request.left_key, request.right_key)
    return tuple(
        [
            (key, Feature("notch", "notch for the wall cleat", 2, boxes=(box,), run=1, purpose=Purpose.SHAPE))
            for key, (x0, x1), through in zip(keys, ends, hook.through, strict=True)
            if through
            for box in [Box(x0, hook.front, low, x1, outside.y1, high)]
        ]
    )


def _why_height(hook: Hook) -> tuple[Term, ...]:
    height = hook.upper[1] - hook.upper[0]
    return (Term("shorter face", height - hook.drop), Term("bevel across the thickness", hook.drop))


def _angle(hook: Hook) -> float:
    """Return the saw's tilt from square, in degrees."""
    return round(math.degrees(math.atan2(hook.drop, hook.rear - hook.front)), 3)


def _bevel(label: str, entry: Axis, waste: Wedge, hook: Hook) -> Feature:
    return Feature("bevel", label, entry, wedges=(waste,), run=1, angle_deg=_angle(hook), purpose=Purpose.SHAPE)


def cabinet_cleat(hook: Hook, material: Material) -> PartSpec:
    """Return the cleat on the cabinet: bevel on its lower edge, longer face toward the wall."""
    z0, z1 = hook.upper
    waste = Wedge(Box(hook.x0, hook.front, z0, hook.x1, hook.rear, z0 + hook.drop), 1, (-2, -3))
    bevel = _bevel("hook, longer face to the wall", -3, waste, hook)
    return PartSpec(
        key="cleat",
        role="cleat",
        name="cabinet cleat",
        material=material.key,
        box=Box(hook.x0, hook.front, z0, hook.x1, hook.rear, z1),
        length_axis=1,
        width_axis=3,
        why_length=(Term("room between the sides behind the back", hook.x1 - hook.x0),),
        why_width=_why_height(hook),
        features=(bevel,),
    )


def wall_cleat(hook: Hook, material: Material) -> PartSpec:
    """Return the cleat on the wall: bevel on its upper edge, longer face toward the cabinet."""
    z0, z1 = hook.lower
    x0, x1 = hook.wall
    waste = Wedge(Box(x0, hook.front, z1 - hook.drop, x1, hook.rear, z1), 1, (2, 3))
    bevel = _bevel("hook, longer face to the cabinet", 3, waste, hook)
    why = [Term("room between the sides behind the back", hook.x1 - hook.x0)]
    for side, through, by in zip(("left", "right"), hook.through, (hook.x0 - x0, x1 - hook.x1), strict=True):
        if by:
            why.append(Term(f"on through the {side} side" if through else f"side play, {side}", by))
    return PartSpec(
        key="wall-cleat",
        role="wall-cleat",
        name="wall cleat",
        material=material.key,
        box=Box(x0, hook.front, z0, x1, hook.rear, z1),
        length_axis=1,
        width_axis=3,
        why_length=tuple(why),
        why_width=_why_height(hook),
        features=(bevel,),
    )


def spacer(hook: Hook, material: Material) -> PartSpec:
    """Return the strip at the bottom that keeps the cabinet plumb where the cleats stand off the wall."""
    height = hook.upper[1] - hook.upper[0]
    return PartSpec(
        key="spacer",
        role="strip",
        name="lower spacer",
        material=material.key,
        box=Box(hook.x0, hook.front, hook.floor, hook.x1, hook.rear, hook.floor + height),
        length_axis=1,
        width_axis=3,
        why_length=(Term("room between the sides behind the back", hook.x1 - hook.x0),),
        why_width=(Term("as high as the cleats", height),),
    )
