"""Mitre with spline: a case corner cut at 45 degrees, with a spline across the mitre."""

import math
from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Length, OptionSchema
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, check_least, chosen
from casewright.sdk.joinery.rabbets import at_low_end
from casewright.sdk.joinery.slant import Slanted, slanted_slot
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, HardwareUse, Options, Term
from casewright.sdk.units import INCH, MM

SPLINE = INCH // 8


class MitreSplineOptions(OptionSchema):
    """Options of the mitre with spline."""

    spline = Length(least=MM, most=12 * MM, load_default=None, about="Thickness of the spline. Default: 1/8 in.")
    slot_depth = Length(
        least=2 * MM,
        most=40 * MM,
        load_default=None,
        about="Depth of the spline's slot in each part, square to the mitre. Default: 0.35 of the stock.",
    )


class MitreSpline(JointMethod):
    """A mitred case corner; the spline lies a third of the way out from the inner corner."""

    id: ClassVar[str] = "mitre-spline"
    title: ClassVar[str] = "Mitre with spline"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"bevel", "spline-slot"})
    supplies: ClassVar[frozenset[str]] = frozenset({"spline"})
    options = MitreSplineOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner meeting of two equally thick parts flush at the host's end.

        The guest grows by the host's thickness. Raises `CannotError` away from the host's end, for unequal
        thickness, or for a slot that the stock cannot hold.
        """
        t, at_low = meeting.guest_thickness, at_low_end(meeting)
        if t != meeting.host_depth:
            raise CannotError(
                "mitred parts are equally thick",
                f"{meeting.write.length(t)} on {meeting.write.length(meeting.host_depth)}",
                "Use one material, or the method rabbet.",
            )
        thick: int = chosen(options, "spline", SPLINE)
        deep: int = chosen(options, "slot_depth", t * 35 // 100)
        slot = Slanted.of(thick, deep, meeting.write)
        in_host, in_guest = _slots(slot, t, at_low, meeting)
        x0, x1 = meeting.all_along
        inner: Axis = 2 if at_low else -2
        outer: Axis = -2 if at_low else 2
        label = "spline slot across the mitre"
        host_cut = Wedge(Box(x0, 0, 0, x1, t, t), 1, (outer, -3))
        guest_cut = Wedge(Box(0, 0, 0, meeting.run, t, t), 1, (inner, 3))
        spline_size = (
            f"spline {meeting.write.length(thick)} × {meeting.write.length(2 * deep)} × "
            f"{meeting.write.length(meeting.run)}, grain across"
        )
        return Fit(
            growth=t,
            why=(Term("mitre across the host's thickness", t),),
            host=(
                Feature("bevel", f"mitre to {meeting.guest.name}", outer, wedges=(host_cut,), run=1, angle_deg=45.0),
                Feature("spline-slot", label, outer, boxes=in_host[0], wedges=in_host[1], run=1),
            ),
            guest=(
                Feature("bevel", f"mitre to {meeting.host.name}", 3, wedges=(guest_cut,), run=1, angle_deg=45.0),
                Feature("spline-slot", label, 3, boxes=in_guest[0], wedges=in_guest[1], run=1),
            ),
            hardware=(HardwareUse("spline", spline_size, quantity=1),),
            findings=check_least(
                "thin-web-behind-spline",
                "Little wood is left between the spline slot and the outer face.",
                t - t // 3 - slot.reach,
                Bound(4 * MM, 2 * MM),
            ),
            seat=t,
            glue_area_mm2=(math.sqrt(2) * t + 4 * deep) * meeting.run / MM**2,
        )


def _slots(
    slot: Slanted, t: int, at_low: bool, meeting: Meeting
) -> tuple[tuple[tuple[Box, ...], tuple[Wedge, ...]], tuple[tuple[Box, ...], tuple[Wedge, ...]]]:
    """Return the slot's waste in host and guest: both start at a point a third out along the mitre."""
    z = t // 3
    y = t - z
    if slot.reach > min(y, t - z) - MM or slot.half > z:
        raise CannotError(
            "the spline's slot stays inside the wood",
            f"a slot {meeting.write.length(slot.reach + slot.half)} high in {meeting.write.length(t)}",
            "Use a thinner or narrower spline.",
            "slot_depth",
        )
    x0, x1 = meeting.all_along
    far: Axis = 2 if at_low else -2
    near: Axis = -2 if at_low else 2
    at = (y if at_low else t - y, z)
    return (
        slanted_slot(slot, (x0, x1), at, (far, 3)),
        slanted_slot(slot, (0, meeting.run), (at[1], at[0]), (-3, near)),
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the mitre with spline."""
    return (MitreSpline(),)
