"""Half-blind dovetail: tails on the drawer side, in sockets that stop short of the front's outer face."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal

from casewright.sdk.fields import Count, Length, Number, OptionSchema
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, area_mm2, check_least, chosen
from casewright.sdk.joinery.dovetails import sheet_findings
from casewright.sdk.joinery.rabbets import at_low_end
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, Options, Term
from casewright.sdk.units import MM

PITCH = 32 * MM
LEAST_LAP = 3 * MM
LEAST_ROOT = 3 * MM
"""Narrowest root of a tail (common practice)."""

HALF_PIN = 6 * MM


class HalfBlindDovetailOptions(OptionSchema):
    """Options of the half-blind dovetail."""

    lap = Length(
        least=MM,
        load_default=None,
        about="Wood left in front of the tails. Default: a quarter of the front, at least 3 mm.",
    )
    tails = Count(least=1, most=60, load_default=None, about="Number of tails. Default: about one in 32 mm.")
    slope = Number(
        least=4.0,
        most=12.0,
        load_default=None,
        about="Slope of the tails as so many to one. Default: 8 for hardwood and sheet, 6 for softwood.",
    )


@dataclass(frozen=True, slots=True)
class _Tails:
    """The tails along x at their wide ends, how much each side draws in, and their length."""

    spans: tuple[tuple[int, int], ...]
    draw: int
    long: int


class HalfBlindDovetail(JointMethod):
    """Tails on the side's end slide into the front from within."""

    id: ClassVar[str] = "half-blind-dovetail"
    title: ClassVar[str] = "Half-blind dovetail"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"box"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"dovetail"})
    box_guest: ClassVar[Literal["end", "side"]] = "side"
    options = HalfBlindDovetailOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a drawer corner whose guest is the side; the side grows by the tails' length.

        The tails slide in across the front's thickness, so the press is along the side's thickness. The
        drawing has no play: tails and sockets are pared to a fit. Raises `CannotError` where no tail fits.
        """
        at_low = at_low_end(meeting)
        t = meeting.guest_thickness
        tails = _tails(meeting, options)
        narrow = min(b - a for a, b in tails.spans) - 2 * tails.draw
        into: Axis = 2 if at_low else -2
        lap = meeting.host_depth - tails.long
        return Fit(
            growth=tails.long,
            why=(Term("tails, to the lap", tails.long),),
            host=(_sockets(meeting, tails, into),),
            guest=(_between(meeting, tails),),
            findings=(
                *check_least("thin-lap", "Little wood is left in front of the tails.", lap, Bound(LEAST_LAP, MM)),
                *check_least("narrow-tails", "The tails are narrow at their root.", narrow, Bound(t // 2)),
                *sheet_findings(meeting.guest),
            ),
            seat=t,
            press=into,
            glue_area_mm2=area_mm2((2 * len(tails.spans) * t, tails.long), (meeting.run, tails.long)),
        )


def _tails(meeting: Meeting, options: Options) -> _Tails:
    run, deep = meeting.run, meeting.host_depth
    lap: int = chosen(options, "lap", max(LEAST_LAP, deep // 4))
    long = deep - lap
    if long <= 0:
        got = f"lap {meeting.write.length(lap)} in {meeting.write.length(deep)}"
        raise CannotError("the tails enter the front", got, "Use a thinner lap.", "lap")
    usual = 6.0 if meeting.guest.stuff.family == "softwood" else 8.0
    draw = round(long / float(chosen(options, "slope", usual)))
    end = max(HALF_PIN, draw + MM)
    pin = max(3 * MM, meeting.guest_thickness // 4)
    count: int = chosen(options, "tails", max(1, (run - 2 * end + pin) // PITCH))
    width = (run - 2 * end - (count - 1) * pin) // count
    if width - 2 * draw < LEAST_ROOT:
        rule = f"a tail is at least {meeting.write.length(LEAST_ROOT)} wide at its root"
        fix = "Use fewer tails, or the method box-rabbet."
        raise CannotError(rule, f"{count} tails in {meeting.write.length(run)}", fix, "tails")
    rest = run - 2 * end - (count - 1) * pin - count * width
    if rest % 2 and count % 2:  # both half pins are alike to the nanometre
        width, rest = width - 1, rest + count
    elif rest % 2:
        pin, rest = pin - 1, rest + count - 1
    starts = [end + rest // 2 + i * (width + pin) for i in range(count)]
    return _Tails(tuple((x, x + width) for x in starts), draw, long)


def _sockets(meeting: Meeting, tails: _Tails, into: Axis) -> Feature:
    """Return the sockets: the tails themselves, wide at the bottom."""
    t, g, s = meeting.guest_thickness, tails.long, tails.draw
    boxes, wedges = [], []
    for a, b in tails.spans:
        boxes.append(Box(a + s, 0, 0, b - s, t, g))
        wedges.append(Wedge(Box(a, 0, 0, a + s, t, g), 2, (1, 3)))
        wedges.append(Wedge(Box(b - s, 0, 0, b, t, g), 2, (-1, 3)))
    return Feature(
        "dovetail", f"sockets for {meeting.guest.name}", -3, boxes=tuple(boxes), wedges=tuple(wedges), run=into
    )


def _between(meeting: Meeting, tails: _Tails) -> Feature:
    """Return the waste between the tails and at both ends."""
    t, g, s, run = meeting.guest_thickness, tails.long, tails.draw, meeting.run
    boxes, wedges = [], []
    edges = [0, *(x for span in tails.spans for x in span), run]
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        boxes.append(Box(a, 0, 0, b, t, g))
    for a, b in tails.spans:
        wedges.append(Wedge(Box(a, 0, 0, a + s, t, g), 2, (-1, -3)))
        wedges.append(Wedge(Box(b - s, 0, 0, b, t, g), 2, (1, -3)))
    return Feature("dovetail", f"tails into {meeting.host.name}", 3, boxes=tuple(boxes), wedges=tuple(wedges), run=2)


@hookimpl
def casewright_box_methods() -> Sequence[JointMethod]:
    """Return the half-blind dovetail."""
    return (HalfBlindDovetail(),)
