"""A butt joint held by dowels, as case, frame and drawer corners use it."""

from casewright.sdk.fields import Count, Length, OptionSchema, Text
from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Cylinder
from casewright.sdk.joinery.checks import COMMON, Bound, check_least
from casewright.sdk.joinery.layout import Spacing, area_mm2, chosen, clear_length, clear_row
from casewright.sdk.joinery.picks import listed, nearest, pin_depths, pins_meet, use_one
from casewright.sdk.materials import Dowel
from casewright.sdk.methods import CannotError, Fit, Meeting
from casewright.sdk.model.choices import Options
from casewright.sdk.model.parts import HardwareUse, hole
from casewright.sdk.units import MM

SPACING = 96 * MM


class DowelOptions(OptionSchema):
    """Options of a dowelled joint."""

    dowel = Text(
        least=1,
        load_default=None,
        about="Catalogue id of the dowel. Default: the one nearest five twelfths of the guest's thickness.",
    )
    spacing = Length(
        load_default=None, about="Distance between dowels, about. Default: 96 mm, and less in short joints."
    )
    end_distance = Length(
        load_default=None,
        about="Least distance from an end of the joint to a dowel's centre. Default: 32 mm, and less in short joints.",
    )
    count = Count(least=1, most=60, load_default=None, about="Number of dowels, if given.")


def dowelled(meeting: Meeting, options: Options) -> Fit:
    """Return the fit of a butt joint with a symmetric row of dowels in the middle of the guest's thickness.

    The guest does not grow. Holes are long enough together for the dowel and its slack at both ends. Raises
    `CannotError` where no dowel is known or the holes do not fit.
    """
    dowel = _dowel(meeting, options)
    d = dowel.diameter
    into_host, into_guest = pin_depths(meeting, dowel)
    _refuse(meeting, dowel, into_guest)
    end: int = chosen(options, "end_distance", min(32 * MM, max(d, meeting.run // 4)))
    spacing: int = max(chosen(options, "spacing", SPACING), 2 * d)
    xs = clear_row(meeting, d // 2, Spacing(max(end, d), spacing, 2 * d, options.get("count")))
    y = meeting.guest_thickness // 2
    label = f"{dowel.title} holes, {meeting.guest.name} to {meeting.host.name}"
    return Fit(
        host=(hole(label, *(Cylinder((x, y, 0), 3, d, into_host) for x in xs)),),
        guest=(hole(label, *(Cylinder((x, y, 0), -3, d, into_guest) for x in xs)),),
        hardware=(HardwareUse(dowel.id, dowel.title, tuple((x, y, 0) for x in xs), 3),),
        findings=_findings(meeting, dowel, xs, into_host),
        glue_area_mm2=len(xs) * 3.141592653589793 * area_mm2((d, dowel.length))
        + area_mm2((meeting.run, meeting.guest_thickness)),
    )


def _dowel(meeting: Meeting, options: Options) -> Dowel:
    if (dowel_id := options.get("dowel")) is not None:
        return listed(meeting.catalogue.dowel, dowel_id, "a dowel of the catalogue", lambda near: _offer(meeting, near))
    dowels = _fitting(meeting) or meeting.catalogue.dowels
    dowel = nearest(dowels, lambda e: e.diameter, meeting.guest_thickness * 5 // 12)
    if dowel is None:
        raise CannotError("a dowel of the catalogue", "a catalogue without dowels", "Add a dowel to the catalogue.")
    return dowel


def _fitting(meeting: Meeting) -> list[Dowel]:
    """Return the dowels of the catalogue that are thinner than the guest and whose holes do not meet in it."""
    return [
        one
        for one in meeting.catalogue.dowels
        if one.diameter < min(meeting.guest_thickness, clear_length(meeting)) and not pins_meet(meeting, one)
    ]


def _refuse(meeting: Meeting, dowel: Dowel, into_guest: int) -> None:
    """Refuse a dowel that its stock cannot take, naming those of the catalogue that it can."""
    write = meeting.write
    if dowel.diameter >= meeting.guest_thickness:
        got = f"dowel {write.length(dowel.diameter)} in {write.length(meeting.guest_thickness)}"
        raise CannotError("a dowel is thinner than its stock", got, *_offer(meeting))
    if pins_meet(meeting, dowel):
        got = f"holes {write.length(into_guest)} deep in a part {write.length(meeting.guest_length)} long"
        raise CannotError("dowel holes from a guest's two ends do not meet", got, *_offer(meeting))


def _offer(meeting: Meeting, near: tuple[str, ...] = ()) -> tuple[str, str]:
    """Return what would do, and the option it is for: dowels that fit, those in `near` before others."""
    if fix := use_one(_fitting(meeting), near):
        return fix, "dowel"
    name = meeting.guest.name
    return f"No dowel of the catalogue fits: make {name} thicker or longer, or use another method.", ""


def _findings(meeting: Meeting, dowel: Dowel, xs: tuple[int, ...], into_host: int) -> tuple[Finding, ...]:
    d, t = dowel.diameter, meeting.guest_thickness
    beside = min(t // 2 + meeting.host_before, t - t // 2 + meeting.host_after, t // 2) - d // 2
    findings = [
        *check_least(
            "thin-web-behind-dowel",
            f"Little wood of {meeting.host.name} is left behind the dowel holes.",
            meeting.host_depth - into_host,
            Bound(3 * MM, 3 * MM // 2),
        ),
        *check_least(
            "thin-wood-beside-dowel",
            f"Little wood is left beside the dowel holes for {meeting.guest.name}.",
            beside,
            Bound(3 * MM, 3 * MM // 2),
        ),
    ]
    if not t <= 3 * d <= 3 * t // 2 + 1:
        message = "A dowel's diameter is one third to one half of the stock."
        findings.append(Finding("dowel-size", "caution", message, d, t // 2 if 2 * d > t else t // 3, LENGTH, COMMON))
    if len(xs) == 1:
        message = f"One dowel lets {meeting.guest.name} turn; add a second, for which it may have to be wider."
        findings.append(Finding("single-dowel", "caution", message, 1, 2, "", COMMON))
    return tuple(findings)
