"""Stiles, rails and openings of a framed door, and the groove round each opening.

Door frame: x right, y back, z up, origin at the door's lower left front corner. Lengths in whole nm. The
stiles run the full height; how the rails end is the style's own affair.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from casewright.sdk.fields import Choice, Count, Length, OptionSchema
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.joinery.checks import below, beyond, said
from casewright.sdk.joinery.layout import chosen
from casewright.sdk.methods import CannotError, DoorRequest, Land
from casewright.sdk.model.parts import LENGTH, Feature, Finding, PartSpec, Term, groove, rabbet
from casewright.sdk.units import INCH, MM

__all__ = [
    "FramedDoorOptions", "Groove", "Layout", "Rail", "cheeks", "lay_out", "profile_size", "rail_grooves",
    "rail_part", "rail_profile", "stile_part", "stile_profile",
]  # fmt: skip

STILE = 9 * INCH // 4
NARROW_STILE = 3 * INCH // 2
TALL = 60 * INCH
"""Above this height a framed door has an intermediate rail (AWS 1st ed., 2009, pp. 271, 285)."""

THIN_FRAME = 23 * INCH // 32
"""Least stock of a stile-and-rail door: 3/4 in less 1/32 (AWS 1st ed., 2009, pp. 271, 285)."""


DOORS = "aws-1-p271-p285"


class FramedDoorOptions(OptionSchema):
    """Options that every framed door shares."""

    stile = Length(load_default=None, metadata={"description": "Width of the stiles. Default: 2 1/4 in."})
    rail = Length(load_default=None, metadata={"description": "Width of the rails. Default: as the stiles."})
    top_rail = Length(load_default=None, metadata={"description": "Width of the top rail. Default: as the rails."})
    bottom_rail = Length(
        load_default=None, metadata={"description": "Width of the bottom rail. Default: as the rails."}
    )
    mid_rails = Count(
        most=12, load_default=0, metadata={"description": "Rails between top and bottom rail, evenly set. Default: 0."}
    )
    groove_depth = Length(load_default=None, metadata={"description": "Depth of the panel groove. Default: 3/8 in."})
    groove_width = Length(
        load_default=None,
        metadata={"description": "Width of the panel groove as the cutter leaves it. Default: 1/4 in."},
    )
    panel_clearance = Length(
        load_default=None,
        metadata={
            "description": "Room between the panel's edge and each groove bottom. "
            "Default: 1/32 in for sheet, 1/16 in for solid boards and glass, and more across wide solid panels."
        },
    )
    panel_kind = Choice(
        "flat",
        "raised",
        "glass",
        load_default=None,
        metadata={
            "description": "What fills the frame: a flat panel, a raised solid panel with a tongue, or glass held by "
            "stops. Default: raised for a board thicker than the groove, else flat."
        },
    )


@dataclass(frozen=True, slots=True)
class Groove:
    """The groove round an opening: its depth, and where its front and back walls stand along y.

    For glass `back` is the door's thickness: the groove is open behind, a rabbet.
    """

    depth: int
    front: int
    back: int
    open_behind: bool

    @property
    def width(self) -> int:
        """From wall to wall, in nm."""
        return self.back - self.front

    def cut(self, box: Box, entry: Axis, run: Axis) -> Feature:
        """Return the waste `box` of an inner edge that faces `entry`: a groove, or a rabbet open behind."""
        if self.open_behind:
            return rabbet("rabbet for the glass", box, entry=2, run=run)
        return groove("panel groove", box, entry=entry, run=run)


@dataclass(frozen=True, slots=True)
class Rail:
    """One rail: its key and name, where it stands, and which of its edges are inner edges."""

    key: str
    name: str
    z0: int
    z1: int
    below: bool
    above: bool

    @property
    def width(self) -> int:
        """From edge to edge, in nm."""
        return self.z1 - self.z0


@dataclass(frozen=True, slots=True)
class Layout:
    """A framed door laid out. `openings` run from bottom to top, each (z0, z1); `spare` nm are in the last."""

    request: DoorRequest
    thickness: int
    stile: int
    rails: tuple[Rail, ...]
    openings: tuple[tuple[int, int], ...]
    spare: int
    groove: Groove
    panel_kind: str
    why_opening_height: tuple[Term, ...]

    @property
    def opening_width(self) -> int:
        """Clear width between the stiles."""
        return self.request.width - 2 * self.stile

    @property
    def why_opening_width(self) -> tuple[Term, ...]:
        """Terms that sum to the clear width."""
        return (*self.request.why_width, Term("left stile", -self.stile), Term("right stile", -self.stile))

    def land(self, side: str, panel_clearance: int) -> Land:
        """Return the wood for hinge cups in the stile on one side."""
        clear = self.stile - self.groove.depth
        return Land(f"stile-{side}", clear, self.stile, clear + panel_clearance)


def lay_out(request: DoorRequest, options: Mapping[str, Any]) -> tuple[Layout, tuple[Finding, ...]]:
    """Lay out stiles, rails, openings and groove. Raises `CannotError` where there is no opening or no wood."""
    stile: int = chosen(options, "stile", STILE)
    rail: int = chosen(options, "rail", stile)
    top: int = chosen(options, "top_rail", rail)
    bottom: int = chosen(options, "bottom_rail", rail)
    mids: int = chosen(options, "mid_rails", 0)
    depth: int = chosen(options, "groove_depth", 3 * INCH // 8)
    width: int = chosen(options, "groove_width", INCH // 4)
    t = request.frame.thickness
    kind = _panel_kind(request, options, width)
    _refuse(request, stile, (top, bottom, rail), mids, depth, width)
    front = (t - width) // 2
    cut = Groove(depth, front, t if kind == "glass" else front + width, kind == "glass")
    free = request.height - top - bottom - mids * rail
    size = free // (mids + 1)
    rails = [Rail("rail-bottom", "bottom rail", 0, bottom, below=False, above=True)]
    openings = []
    z = bottom
    for i in range(mids):
        openings.append((z, z + size))
        rails.append(Rail(f"rail-mid-{i + 1}", f"middle rail {i + 1}", z + size, z + size + rail, True, True))
        z += size + rail
    openings.append((z, request.height - top))
    rails.append(Rail("rail-top", "top rail", request.height - top, request.height, below=True, above=False))
    why: tuple[Term, ...]
    if mids:
        why = (Term(f"clear height of each of {mids + 1} equal openings", size),)
    else:
        why = (*request.why_height, Term("top rail", -top), Term("bottom rail", -bottom))
    spare = free - size * (mids + 1)
    layout = Layout(request, t, stile, tuple(rails), tuple(openings), spare, cut, kind, why)
    return layout, _findings(layout, mids)


def _panel_kind(request: DoorRequest, options: Mapping[str, Any], width: int) -> str:
    thick_board = request.panel is not None and request.panel.kind == "board" and request.panel.thickness > width
    return str(chosen(options, "panel_kind", "raised" if thick_board else "flat"))


def _refuse(request: DoorRequest, stile: int, rails: tuple[int, int, int], mids: int, depth: int, width: int) -> None:
    top, bottom, mid = rails
    clear = request.width - 2 * stile
    free = request.height - top - bottom - mids * mid
    if clear <= 0:
        raise CannotError(
            "the stiles leave an opening",
            f"stiles of {said(stile)} in a door {said(request.width)} wide",
            f"Use stiles narrower than {said(request.width // 2)}, or the style slab.",
            "stile",
        )
    if free <= mids:
        raise CannotError(
            "the rails leave an opening",
            f"rails of {said(request.height - free)} together in a door {said(request.height)} high",
            "Use narrower or fewer rails, or the style slab.",
            "rail",
        )
    least = min(stile, top, bottom, mid if mids else top)
    if not 0 < depth < (least // 2 if mids else least):
        raise CannotError(
            "the panel groove leaves wood in stiles and rails",
            f"a groove {said(depth)} deep in {said(least)}",
            "Use a shallower groove or wider members.",
            "groove_depth",
        )
    if not 0 < width < request.frame.thickness - 2 * MM:
        raise CannotError(
            "the panel groove has walls",
            f"a groove {said(width)} wide in {said(request.frame.thickness)}",
            f"Use a groove of about {said(request.frame.thickness // 3)}, a third of the stock.",
            "groove_width",
        )


def _findings(layout: Layout, mids: int) -> tuple[Finding, ...]:
    lip = layout.groove.front
    found = [
        *below("narrow-stile", "The door's stiles are narrow.", layout.stile, NARROW_STILE),
        *below(
            "thin-door-frame",
            "A stile-and-rail door is of stock at least 3/4 in less 1/32 thick.",
            layout.thickness,
            THIN_FRAME,
            source=DOORS,
        ),
        *below("thin-groove-wall", "The wood beside the panel groove is thin.", lip, 4 * MM, 2 * MM),
        *beyond(
            "deep-panel-groove",
            "The panel groove is deeper than half the narrowest member.",
            layout.groove.depth,
            min(layout.stile, *(r.width for r in layout.rails)) // 2,
        ),
    ]
    if layout.request.height > TALL and not mids:
        found.append(
            Finding(
                "tall-door",
                "caution",
                "A door above 60 in has an intermediate rail; set mid_rails.",
                layout.request.height,
                TALL,
                LENGTH,
                DOORS,
            )
        )
    return tuple(found)


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
        name=f"door stile, {side}",
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
        name=f"door {rail.name}",
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
    return (Feature("edge-profile", "moulded inner edge", -2, wedges=(slope,), run=3),)


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
        )
        for z, toward in edges
    )
