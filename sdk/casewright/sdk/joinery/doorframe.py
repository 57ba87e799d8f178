"""Stiles, rails and openings of a framed door, and the groove round each opening.

Door frame: x right, y back, z up, origin at the door's lower left front corner. Lengths in whole nm. The
stiles run the full height; how the rails end is the style's own affair.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from casewright.sdk.fields import Choice, Count, Length, OptionSchema
from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery.checks import Bound, check_least, check_most
from casewright.sdk.joinery.layout import chosen
from casewright.sdk.methods import CannotError, DoorRequest, Land
from casewright.sdk.model.parts import Feature, Term, groove, rabbet
from casewright.sdk.units import INCH, MM

STILE = 9 * INCH // 4
NARROW_STILE = 3 * INCH // 2
TALL = 60 * INCH
"""Above this height a framed door has an intermediate rail (AWS 1st ed., 2009, pp. 271, 285)."""

THIN_FRAME = 23 * INCH // 32
"""Least stock of a stile-and-rail door: 3/4 in less 1/32 (AWS 1st ed., 2009, pp. 271, 285)."""


DOORS = "aws-1-p271-p285"


class FramedDoorOptions(OptionSchema):
    """Options that every framed door shares."""

    stile = Length(load_default=None, about="Width of the stiles. Default: 2 1/4 in.")
    rail = Length(load_default=None, about="Width of the rails. Default: as the stiles.")
    top_rail = Length(load_default=None, about="Width of the top rail. Default: as the rails.")
    bottom_rail = Length(load_default=None, about="Width of the bottom rail. Default: as the rails.")
    mid_rails = Count(most=12, load_default=0, about="Rails between top and bottom rail, evenly set. Default: 0.")
    groove_depth = Length(load_default=None, about="Depth of the panel groove. Default: 3/8 in.")
    groove_width = Length(
        load_default=None, about="Width of the panel groove as the cutter leaves it. Default: 1/4 in."
    )
    panel_clearance = Length(
        load_default=None,
        about="Room between the panel's edge and each groove bottom. "
        "Default: 1/32 in for sheet, 1/16 in for boards and glass, more across wide solid panels.",
    )
    panel_kind = Choice(
        "flat",
        "raised",
        "glass",
        load_default=None,
        about="What fills the frame: a flat panel, a raised solid panel with a tongue, or glass held by "
        "stops. Default: raised for a board thicker than the groove, else flat.",
    )


class InnerEdgeOptions(FramedDoorOptions):
    """Options of a framed door whose inner edge may be moulded."""

    inner_edge = Choice(
        "square",
        "moulded",
        load_default="square",
        about="Profile of the inner front edge. A moulding changes only the profile, never a size. Default: square.",
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

    def spare_in(self, index: int) -> int:
        """Return what an equal division left over in an opening, in nm: all of it is in the last."""
        return self.spare if index + 1 == len(self.openings) else 0

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
    _refuse(request, stile, (top, bottom, rail), mids, (depth, width))
    width += (t - width) % 2  # an odd nanometre goes into the groove, so that both cheeks beside it are alike
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


def _refuse(request: DoorRequest, stile: int, rails: tuple[int, int, int], mids: int, cut: tuple[int, int]) -> None:
    """Refuse members that leave no opening, and a groove (depth and width) that leaves no wood."""
    (top, bottom, mid), (depth, width) = rails, cut
    clear = request.width - 2 * stile
    free = request.height - top - bottom - mids * mid
    if clear <= 0:
        got = f"stiles of {request.write.length(stile)} in a door {request.write.length(request.width)} wide"
        fix = f"Use stiles narrower than {request.write.length(request.width // 2)}, or the style slab."
        raise CannotError("the stiles leave an opening", got, fix, "stile")
    if free <= mids:
        got = (
            f"rails of {request.write.length(request.height - free)} together in a door "
            f"{request.write.length(request.height)} high"
        )
        raise CannotError("the rails leave an opening", got, "Use narrower or fewer rails, or the style slab.", "rail")
    least = min(stile, top, bottom, mid if mids else top)
    if not 0 < depth < (least // 2 if mids else least):
        rule = "the panel groove leaves wood in stiles and rails"
        got = f"a groove {request.write.length(depth)} deep in {request.write.length(least)}"
        raise CannotError(rule, got, "Use a shallower groove or wider members.", "groove_depth")
    if not 0 < width < request.frame.thickness - 2 * MM:
        got = f"a groove {request.write.length(width)} wide in {request.write.length(request.frame.thickness)}"
        fix = f"Use a groove of about {request.write.length(request.frame.thickness // 3)}, a third of the stock."
        raise CannotError("the panel groove has walls", got, fix, "groove_width")


def _findings(layout: Layout, mids: int) -> tuple[Finding, ...]:
    lip = layout.groove.front
    findings = [
        *check_least("narrow-stile", "The door's stiles are narrow.", layout.stile, Bound(NARROW_STILE)),
        *check_least(
            "thin-door-frame",
            f"A stile-and-rail door is of stock at least {layout.request.write.length(THIN_FRAME)} thick.",
            layout.thickness,
            Bound(THIN_FRAME, source=DOORS),
        ),
        *check_least("thin-groove-wall", "The wood beside the panel groove is thin.", lip, Bound(4 * MM, 2 * MM)),
        *check_most(
            "deep-panel-groove",
            "The panel groove is deeper than half the narrowest member.",
            layout.groove.depth,
            Bound(min(layout.stile, *(r.width for r in layout.rails)) // 2),
        ),
    ]
    if layout.request.height > TALL and not mids:
        message = f"A door above {layout.request.write.length(TALL)} has an intermediate rail; set mid_rails."
        findings.append(Finding("tall-door", "caution", message, layout.request.height, TALL, LENGTH, DOORS))
    return tuple(findings)
