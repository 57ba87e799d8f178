"""Stiles and rails of a framed door as parts, with their grooves, tongues and moulded arrises.

Door frame as in `doorframe`; lengths in whole nm.
"""

from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.joinery.doorframe import Layout, Rail
from casewright.sdk.model.parts import Feature, PartSpec, Purpose, Term


def stile_part(layout: Layout, side: str, extra: tuple[Feature, ...] = ()) -> PartSpec:
    """Return the left or right stile, full height, its inner edge grooved right through."""
    w, h, t, s = layout.request.width, layout.request.height, layout.thickness, layout.stile
    cut = layout.groove
    left = side == "left"
    x0 = 0 if left else w - s
    gx = s - cut.depth if left else w - s
    waste = Box(gx, cut.front, 0, gx + cut.depth, cut.back, h)
    return PartSpec(
        key=f"stile-{side}",
        role="door-stile",
        name=f"{side} stile",
        material=layout.request.frame.key,
        box=Box(x0, 0, 0, x0 + s, t, h),
        length_axis=3,
        width_axis=1,
        why_length=layout.request.why_height,
        why_width=(Term("stile width", s),),
        features=(cut.cut(waste, entry=1 if left else -1, run=3), *extra),
    )


def rail_grooves(layout: Layout, rail: Rail, x0: int, x1: int) -> tuple[Feature, ...]:
    """Return the grooves in a rail's inner edges, run right through from x0 to x1."""
    cut = layout.groove
    made = []
    if rail.below:
        made.append(cut.cut(Box(x0, cut.front, rail.z0, x1, cut.back, rail.z0 + cut.depth), entry=-3, run=1))
    if rail.above:
        made.append(cut.cut(Box(x0, cut.front, rail.z1 - cut.depth, x1, cut.back, rail.z1), entry=3, run=1))
    return tuple(made)


def rail_part(layout: Layout, rail: Rail, reach: int, reach_label: str, features: tuple[Feature, ...]) -> PartSpec:
    """Return a rail that goes `reach` nm into each stile."""
    x0, x1 = layout.stile - reach, layout.request.width - layout.stile + reach
    why = [*layout.why_opening_width]
    if reach:
        why += [Term(f"{reach_label}, left", reach), Term(f"{reach_label}, right", reach)]
    return PartSpec(
        key=rail.key,
        role="door-rail",
        name=rail.name,
        material=layout.request.frame.key,
        box=Box(x0, 0, rail.z0, x1, layout.thickness, rail.z1),
        length_axis=1,
        width_axis=3,
        why_length=tuple(why),
        why_width=(Term("rail width", rail.width),),
        features=features,
    )


def cheeks(layout: Layout, rail: Rail, reach: int, label: str, profile: int = 0) -> tuple[Feature, ...]:
    """Return the waste before and behind the tongue at both ends of a rail that reaches into the stiles.

    The tongue fills the groove; for glass it runs on to the back face, since the rabbet is open there. With a
    `profile` the front is coped: a slope of that size is left standing to lie in the stile's sloped arris.
    """
    t, cut = layout.thickness, layout.groove
    inner_left, inner_right = layout.stile, layout.request.width - layout.stile
    ends: tuple[tuple[str, int, int, Axis], ...] = (
        ("left", inner_left - reach, inner_left, -1),
        ("right", inner_right, inner_right + reach, 1),
    )
    made = []
    for side, x0, x1, entry in ends:
        z0, z1 = rail.z0, rail.z1
        slopes: tuple[Wedge, ...] = ()
        if profile:
            near = Box(x0, 0, z0, x1 - profile, cut.front, z1)
            coped = Box(x1 - profile, 0, z0, x1, profile, z1)
            if entry > 0:
                near = Box(x0 + profile, 0, z0, x1, cut.front, z1)
                coped = Box(x0, 0, z0, x0 + profile, profile, z1)
            boxes = [near, Box(coped.x0, profile, z0, coped.x1, cut.front, z1)]
            slopes = (Wedge(coped, 3, (entry, 2)),)
        else:
            boxes = [Box(x0, 0, z0, x1, cut.front, z1)]
        if cut.back < t:
            boxes.append(Box(x0, cut.back, z0, x1, t, z1))
        boxes = [b for b in boxes if b.volume]
        made.append(Feature("tenon", f"{label}, {side} end", entry, boxes=tuple(boxes), wedges=slopes))
    return tuple(made)


def profile_size(layout: Layout) -> int:
    """Return the size of the sloped arris that stands for a moulding: half the groove's front wall."""
    return min(layout.groove.depth, layout.groove.front // 2)


def stile_profile(layout: Layout, side: str) -> tuple[Feature, ...]:
    """Return the moulded arris of a stile, drawn as a slope over its full height."""
    c, h = profile_size(layout), layout.request.height
    x = layout.stile - c if side == "left" else layout.request.width - layout.stile
    toward: Axis = 1 if side == "left" else -1
    slope = Wedge(Box(x, 0, 0, x + c, c, h), 3, (toward, -2))
    return (Feature("edge-profile", "moulded inner edge", -2, wedges=(slope,), run=3, purpose=Purpose.SHAPE),)


def rail_profile(layout: Layout, rail: Rail, x0: int, x1: int) -> tuple[Feature, ...]:
    """Return the moulded arrises of a rail's inner edges, drawn as slopes from x0 to x1."""
    c = profile_size(layout)
    edges: list[tuple[int, Axis]] = []
    if rail.below:
        edges.append((rail.z0, -3))
    if rail.above:
        edges.append((rail.z1 - c, 3))
    return tuple(
        Feature(
            "edge-profile",
            "moulded inner edge",
            -2,
            wedges=(Wedge(Box(x0, 0, z, x1, c, z + c), 1, (-2, toward)),),
            run=1,
            purpose=Purpose.SHAPE,
        )
        for z, toward in edges
    )
