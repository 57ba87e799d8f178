"""Mortise-and-tenon door: haunched tenons on the rails, in line with the panel groove."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Length
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, PROPORTIONS, Bound, area_mm2, check_least, check_most, chosen
from casewright.sdk.joinery.doorcuts import cheeks, rail_grooves, rail_part, stile_part
from casewright.sdk.joinery.doorframe import DOORS, FramedDoorOptions, Layout, Rail, lay_out
from casewright.sdk.joinery.doorpanels import fill
from casewright.sdk.methods import CannotError, DoorDesign, DoorRequest, DoorStyle
from casewright.sdk.model import Assembly, Feature, Finding, JointSpec, Options, mortise
from casewright.sdk.units import INCH, MM

BOTTOM_ROOM = INCH // 8
"""A tenon is this much shorter than its mortise (joint proportions taught to joiners)."""

LEAST_TENON = 6 * MM
"""Least width of a full-length tenon (common practice)."""


class MortiseAndTenonOptions(FramedDoorOptions):
    """Options of the mortise-and-tenon door."""

    tenon = Length(
        load_default=None,
        about="Length of the tenons. Default: two thirds of the stile, at most six times their thickness.",
    )


class MortiseAndTenon(DoorStyle):
    """Stiles full height; rails between them with tenons as thick as the panel groove is wide."""

    id: ClassVar[str] = "mortise-and-tenon"
    title: ClassVar[str] = "Mortise and tenon"
    sources: ClassVar[tuple[str, ...]] = (COMMON, PROPORTIONS, DOORS)
    options = MortiseAndTenonOptions
    needs_panel: ClassVar[bool] = True

    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door. Raises `CannotError` where no opening is left or the tenon does not fit its stile."""
        layout, findings = lay_out(request, options)
        if layout.groove.open_behind:
            rule = "tenons run in line with a panel groove"
            fix = "Use the style cope-and-stick for glass."
            raise CannotError(rule, "glass, which asks for a rabbet", fix, "panel_kind")
        thick = layout.groove.width
        long: int = chosen(options, "tenon", min(2 * layout.stile // 3, 6 * thick))
        if not layout.groove.depth < long <= layout.stile - BOTTOM_ROOM - 3 * MM:
            raise CannotError(
                "a tenon is longer than the panel groove is deep and stays inside the stile",
                f"tenon {request.write.length(long)}, groove {request.write.length(layout.groove.depth)}, stile "
                f"{request.write.length(layout.stile)}",
                "Use wider stiles or another tenon length.",
                "tenon",
            )
        filling = fill(layout, options, self.id)
        x0, x1 = layout.stile - long, request.width - layout.stile + long
        rails = tuple(
            rail_part(
                layout,
                rail,
                long,
                "tenon",
                (
                    *cheeks(layout, rail, long, "tenon"),
                    *_haunch(layout, rail, long),
                    *rail_grooves(layout, rail, x0, x1),
                ),
            )
            for rail in layout.rails
        )
        stiles = tuple(stile_part(layout, side, _mortises(layout, side, long)) for side in ("left", "right"))
        return DoorDesign(
            Assembly(
                parts=(*stiles, *rails, *filling.parts),
                joints=(*_joints(layout, self.id, long), *filling.joints),
                findings=(*findings, *_findings(layout, long), *filling.findings),
            ),
            left=layout.land("left", filling.clearance),
            right=layout.land("right", filling.clearance),
            thickness=layout.thickness,
        )


def _tenon_span(layout: Layout, rail: Rail) -> tuple[int, int]:
    """Return the full-length tenon's z range: a third off an outer edge for the haunch, the groove off an inner."""
    third, d = rail.width // 3, layout.groove.depth
    z0 = rail.z0 + (d if rail.below else third)
    z1 = rail.z1 - (d if rail.above else third)
    if z1 - z0 < LEAST_TENON:
        rule = f"a tenon is at least {layout.request.write.length(LEAST_TENON)} wide"
        got = f"{layout.request.write.length(max(0, z1 - z0))} in a rail {layout.request.write.length(rail.width)} wide"
        raise CannotError(rule, got, "Use wider rails.", "rail")
    return z0, z1


def _haunch(layout: Layout, rail: Rail, long: int) -> tuple[Feature, ...]:
    """Return the waste that leaves, at an outer edge, only a haunch as long as the groove is deep."""
    z0, z1 = _tenon_span(layout, rail)
    cut, d = layout.groove, layout.groove.depth
    outer = []
    if not rail.below:
        outer.append((rail.z0, z0))
    if not rail.above:
        outer.append((z1, rail.z1))
    left, right = layout.stile, layout.request.width - layout.stile
    ends: tuple[tuple[str, int, int, Axis], ...] = (
        ("left", left - long, left - d, -1),
        ("right", right + d, right + long, 1),
    )
    return tuple(
        Feature("tenon", f"haunch, {side} end", entry, boxes=(Box(x0, cut.front, a, x1, cut.back, b),))
        for side, x0, x1, entry in ends
        for a, b in outer
    )


def _mortises(layout: Layout, side: str, long: int) -> tuple[Feature, ...]:
    cut = layout.groove
    deep = long + BOTTOM_ROOM
    w, s = layout.request.width, layout.stile
    entry: Axis = 1 if side == "left" else -1
    x0, x1 = (s - deep, s - cut.depth) if side == "left" else (w - s + cut.depth, w - s + deep)
    made = []
    for rail in layout.rails:
        z0, z1 = _tenon_span(layout, rail)
        made.append(mortise(f"mortise for the {rail.name}", Box(x0, cut.front, z0, x1, cut.back, z1), entry=entry))
    return tuple(made)


def _joints(layout: Layout, method: str, long: int) -> tuple[JointSpec, ...]:
    made = []
    sides: tuple[tuple[str, Axis], ...] = (("stile-left", -1), ("stile-right", 1))
    for rail in layout.rails:
        z0, z1 = _tenon_span(layout, rail)
        glued = area_mm2((rail.width, layout.thickness), (2 * long, z1 - z0))
        made += [JointSpec(method, "frame", stile, rail.key, press, long, 0, glued) for stile, press in sides]
    return tuple(made)


def _findings(layout: Layout, long: int) -> tuple[Finding, ...]:
    thick = layout.groove.width
    return (
        *check_most(
            "long-tenon",
            "A tenon is at most six times as long as it is thick.",
            long,
            Bound(6 * thick, source=PROPORTIONS),
        ),
        *check_least(
            "thin-tenon",
            "A tenon is about one third of the stock; this one is under a quarter.",
            thick,
            Bound(layout.thickness // 4, source=PROPORTIONS),
        ),
        *check_most(
            "thick-tenon",
            "A tenon is about one third of the stock; this one is over half.",
            thick,
            Bound(layout.thickness // 2, source=PROPORTIONS),
        ),
    )


@hookimpl
def casewright_door_styles() -> Sequence[DoorStyle]:
    """Return the mortise-and-tenon door."""
    return (MortiseAndTenon(),)
