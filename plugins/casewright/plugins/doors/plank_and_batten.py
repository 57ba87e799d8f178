"""Plank-and-batten door: upright planks lapped edge over edge, held by battens across their backs."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from casewright.sdk.fields import Choice, Count, Length, OptionSchema
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, chosen, screw_within
from casewright.sdk.methods import CannotError, DoorDesign, DoorRequest, DoorStyle, Land
from casewright.sdk.model import (
    Assembly,
    Feature,
    Finding,
    HardwareUse,
    JointSpec,
    Material,
    Options,
    PartSpec,
    Term,
    rabbet,
)
from casewright.sdk.units import INCH, MM

WIDEST = 4 * INCH
LAP = 3 * INCH // 8
GAP = INCH // 16
BATTEN = 5 * INCH // 2
FROM_END = 3 * INCH
FROM_EDGE = 3 * INCH // 2


class PlankAndBattenOptions(OptionSchema):
    """Options of the plank-and-batten door."""

    plank_width = Length(least=20 * MM, load_default=None, about="Widest plank wanted. Default: 4 in.")
    edge = Choice(
        "lapped",
        "square",
        load_default="lapped",
        about="Edges of the planks: lapped over each other, or square with gaps. Default: lapped.",
    )
    lap = Length(load_default=None, about="Width of the rabbet at a lapped edge. Default: 3/8 in.")
    plank_gap = Length(most=20 * MM, load_default=None, about="Gap between planks, for swelling. Default: 1/16 in.")
    battens = Count(least=2, most=6, load_default=2, about="Number of battens. Default: 2.")
    batten_width = Length(least=10 * MM, load_default=None, about="Width of a batten. Default: 2 1/2 in.")
    batten_from_end = Length(
        load_default=None,
        about="From the door's upper and lower end to the outer battens. "
        "Default: 3 in, at most an eighth of the height.",
    )
    batten_from_edge = Length(
        load_default=None,
        about="From the door's edges to the ends of the battens, which must clear the case. Default: 1 1/2 in.",
    )


@dataclass(frozen=True, slots=True)
class _Planks:
    """Equal planks: `pitch` from one to the next, each `width` wide; the first gap takes `spare` nm more."""

    count: int
    width: int
    lap: int
    gap: int
    spare: int

    def start(self, index: int) -> int:
        """Return where a plank's left edge stands."""
        step = self.width - self.lap + self.gap
        return index * step + (self.spare if index else 0)


class PlankAndBatten(DoorStyle):
    """Planks of the frame material with battens of the same behind them.

    The battens stand behind the door's back face and reach into the opening; the door counts as thick as its
    planks.
    """

    id: ClassVar[str] = "plank-and-batten"
    title: ClassVar[str] = "Planks with battens"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    options = PlankAndBattenOptions

    def reach_behind(self, frame: Material, options: Options) -> int:
        """Return the battens' thickness."""
        return frame.thickness

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door. Raises `CannotError` where planks or battens have no room."""
        t = request.frame.thickness
        planks = _divide(request, options)
        made = tuple(_plank(request, planks, i) for i in range(planks.count))
        battens = _battens(request, options)
        if battens[0].box.x0 > planks.width - planks.lap - 15 * MM:
            raise CannotError(
                "battens reach the outer planks",
                f"battens {request.write.length(battens[0].box.x0)} from the edge, planks "
                f"{request.write.length(planks.width)} wide",
                "Use wider planks or longer battens.",
                "batten_from_edge",
            )
        joints = tuple(
            JointSpec(self.id, "frame", plank.key, batten.key, -2, 0, 0) for batten in battens for plank in made
        )
        land_width = planks.width - planks.lap
        right = made[-1].key
        return DoorDesign(
            Assembly(
                parts=(*made, *battens),
                joints=joints,
                hardware=_screws(request, planks, battens),
                findings=_findings(request, planks),
            ),
            left=Land(made[0].key, land_width, planks.width, None),
            right=Land(right, land_width, planks.width, None),
            thickness=t,
        )


def _divide(request: DoorRequest, options: Options) -> _Planks:
    widest: int = chosen(options, "plank_width", WIDEST)
    lapped = options.get("edge") != "square"
    lap: int = chosen(options, "lap", LAP) if lapped else 0
    gap: int = chosen(options, "plank_gap", GAP)
    if lapped and gap >= lap:
        got = f"lap {request.write.length(lap)}, gap {request.write.length(gap)}"
        raise CannotError("laps cover the gaps", got, "Use a wider lap or a smaller gap.", "plank_gap")
    if widest <= 2 * lap + 10 * MM:
        got = f"plank {request.write.length(widest)}, laps {request.write.length(2 * lap)}"
        raise CannotError("a plank is wider than its laps", got, "Use wider planks.", "plank_width")
    cover = widest - lap + gap
    count = max(1, -(-(request.width - lap + gap) // cover))
    whole = request.width + (count - 1) * (lap - gap)
    width, spare = divmod(whole, count)
    if width <= 2 * lap + 10 * MM:
        raise CannotError(
            "a plank is wider than its laps",
            f"a door {request.write.length(request.width)} wide",
            "Use the style slab for so narrow a door.",
        )
    return _Planks(count, width, lap, gap, spare)


def _plank(request: DoorRequest, planks: _Planks, index: int) -> PartSpec:
    t, h = request.frame.thickness, request.height
    x0 = planks.start(index)
    x1 = x0 + planks.width
    cuts: list[Feature] = []
    lap, half = planks.lap, t // 2
    if lap and index:
        cuts.append(rabbet("lap, front", Box(x0, 0, 0, x0 + lap, half, h), entry=-2, run=3))
    if lap and index + 1 < planks.count:
        cuts.append(rabbet("lap, back", Box(x1 - lap, half, 0, x1, t, h), entry=2, run=3))
    others = planks.count - 1
    why: tuple[Term, ...] = request.why_width
    if others:
        covered = others * (planks.width - lap + planks.gap) + planks.spare
        why = (*why, Term(f"{others} more planks of one width, less laps, with gaps", -covered))
    return PartSpec(
        key=f"plank-{index + 1}",
        role="door-stile",
        name=f"plank {index + 1}",
        material=request.frame.key,
        box=Box(x0, 0, 0, x1, t, h),
        length_axis=3,
        width_axis=1,
        why_length=request.why_height,
        why_width=why,
        features=tuple(cuts),
    )


def _battens(request: DoorRequest, options: Options) -> tuple[PartSpec, ...]:
    t = request.frame.thickness
    count: int = chosen(options, "battens", 2)
    width: int = chosen(options, "batten_width", BATTEN)
    end: int = chosen(options, "batten_from_end", min(FROM_END, request.height // 8))
    edge: int = chosen(options, "batten_from_edge", FROM_EDGE)
    if min(edge, end) < request.laps:
        raise CannotError(
            "battens clear the wood that the door laps",
            f"{request.write.length(min(edge, end))} from the edge on a door that laps "
            f"{request.write.length(request.laps)}",
            f"Use at least {request.write.length(request.laps)}, and a little play.",
            "batten_from_edge" if edge < request.laps else "batten_from_end",
        )
    x0, x1 = edge, request.width - edge
    free = request.height - 2 * end - width
    if x1 - x0 < 20 * MM or free < (count - 1) * width:
        raise CannotError(
            "battens lie apart on the planks",
            f"{count} battens {request.write.length(width)} wide on a door {request.write.length(request.height)} high",
            "Use fewer or narrower battens, or the style slab.",
            "battens",
        )
    starts = [end + free * i // (count - 1) for i in range(count)]
    clear = (Term("clear of the edge, left", -edge), Term("clear of the edge, right", -edge))
    return tuple(
        PartSpec(
            key=f"batten-{i + 1}",
            role="door-rail",
            name=f"batten {i + 1}",
            material=request.frame.key,
            box=Box(x0, t, z, x1, 2 * t, z + width),
            length_axis=1,
            width_axis=3,
            why_length=(*request.why_width, *clear),
            why_width=(Term("batten width", width),),
        )
        for i, z in enumerate(starts)
    )


def _screws(request: DoorRequest, planks: _Planks, battens: tuple[PartSpec, ...]) -> tuple[HardwareUse, ...]:
    """Return screws from behind, one a plank and batten, in the middle of what the plank shows."""
    t = request.frame.thickness
    screw = screw_within(request.catalogue, 8, 2 * t - 3 * MM, least=t + 6 * MM)
    if screw is None:
        return ()
    points = []
    for batten in battens:
        for i in range(planks.count):
            x = planks.start(i) + planks.width // 2
            x = min(max(x, batten.box.x0 + 10 * MM), batten.box.x1 - 10 * MM)
            points.append((x, 2 * t, (batten.box.z0 + batten.box.z1) // 2))
    return (HardwareUse(screw.id, screw.title, tuple(points), -2),)


def _findings(request: DoorRequest, planks: _Planks) -> tuple[Finding, ...]:
    findings = []
    if request.frame.kind != "board":
        message = "Planks are of solid wood; sheet needs no battens (style slab)."
        findings.append(Finding("planks-of-sheet", "caution", message, source=COMMON))
    message = "Battens stand behind the door: keep shelves and frame clear of them."
    free = "Screw each plank to each batten once, in its middle, and do not glue: planks move."
    findings.append(Finding("planks-move", "note", free, source=COMMON))
    findings.append(Finding("battens-behind", "note", message, request.frame.thickness, None, "length", COMMON))
    return tuple(findings)


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the plank-and-batten door."""
    return (PlankAndBatten(),)
