"""Loose tenon: a separate tongue glued into mortises in both parts."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Count, Length, OptionSchema, Text
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import (
    COMMON,
    PROPORTIONS,
    Bound,
    Spacing,
    area_mm2,
    check_least,
    chosen,
    clear_length,
    clear_row,
    listed,
    nearest,
    pin_depths,
    pins_meet,
    too_narrow,
    use_one,
)
from casewright.sdk.materials import LooseTenon as Tenon
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import LENGTH, Feature, FeatureKind, Finding, HardwareUse, Options
from casewright.sdk.units import MM

SHOULDER = 6 * MM
"""Least wood beside a mortise at the joint's ends (common practice)."""

SPACING = 128 * MM


class LooseTenonOptions(OptionSchema):
    """Options of the loose tenon."""

    tenon = Text(
        least=1,
        load_default=None,
        about="Catalogue id of the tenon. "
        "Default: of those that fit, the one nearest a third of the guest's thickness.",
    )
    spacing = Length(
        load_default=None,
        about="Distance between tenons in a wide joint, about. Default: 128 mm.",
    )
    count = Count(least=1, most=40, load_default=None, about="Number of tenons, if given.")


class LooseTenon(JointMethod):
    """A butt joint with one or more loose tenons in the middle of the guest's thickness."""

    id: ClassVar[str] = "loose-tenon"
    title: ClassVar[str] = "Loose tenon"
    sources: ClassVar[tuple[str, ...]] = (COMMON, PROPORTIONS)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"frame", "corner", "tee"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"loose-mortise"})
    options = LooseTenonOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a frame, corner or tee meeting; the guest does not grow.

        The mortises together are as deep as the tenon is long, with its slack at both bottoms. Their ends
        are drawn square, outside the cutter's round.
        """
        tenon = _tenon(meeting, options)
        apart = tenon.width + 2 * SHOULDER
        count = options.get("count")
        least = apart if count else max(apart, 64 * MM)
        pitch = max(chosen(options, "spacing", SPACING), apart)
        spacing = Spacing(tenon.width // 2 + SHOULDER, pitch, least, count)
        into_host, into_guest = pin_depths(meeting, tenon)
        _refuse(meeting, tenon, into_guest)
        centres = clear_row(meeting, tenon.width // 2, spacing)
        y0 = (meeting.guest_thickness - tenon.thickness) // 2
        y1 = y0 + tenon.thickness
        spans = [(x - tenon.width // 2, x - tenon.width // 2 + tenon.width) for x in centres]
        host = tuple(Box(x0, y0, 0, x1, y1, into_host) for x0, x1 in spans)
        guest = tuple(Box(x0, y0, -into_guest, x1, y1, 0) for x0, x1 in spans)
        middle = y0 + tenon.thickness // 2
        return Fit(
            host=(Feature("loose-mortise", f"mortises for {meeting.guest.name}", -3, boxes=host),),
            guest=(Feature("loose-mortise", f"mortises to {meeting.host.name}", 3, boxes=guest),),
            hardware=(HardwareUse(tenon.id, tenon.title, tuple((x, middle, 0) for x in centres), 3),),
            findings=_findings(meeting, tenon, into_host, y0),
            glue_area_mm2=2 * len(centres) * area_mm2((tenon.width + tenon.thickness, tenon.length))
            + area_mm2((meeting.run, meeting.guest_thickness)),
        )


def _tenon(meeting: Meeting, options: Options) -> Tenon:
    if (tenon_id := options.get("tenon")) is not None:
        return listed(
            meeting.catalogue.loose_tenon,
            tenon_id,
            "a loose tenon of the catalogue",
            lambda near: _offer(meeting, near),
        )
    fits = _fitting(meeting)
    tenon = nearest(fits, lambda t: t.thickness, meeting.guest_thickness // 3)
    if tenon is None:
        narrowest = min((t.width for t in meeting.catalogue.loose_tenons), default=0) + 2 * SHOULDER
        if clear_length(meeting) < narrowest:
            raise too_narrow(meeting, narrowest)
        raise CannotError(
            "a loose tenon narrower than the joint",
            f"a joint {meeting.write.length(clear_length(meeting))} wide",
            "Use the method dowel, or a wider part.",
        )
    same = [t for t in fits if t.thickness == tenon.thickness]
    return min(same, key=lambda t: (abs(t.length // 2 + t.slack - 2 * meeting.host_depth // 3), t.id))


def _fitting(meeting: Meeting) -> list[Tenon]:
    """Return the tenons of the catalogue that lie within the joint with a shoulder at both ends."""
    clear = clear_length(meeting)
    return [
        t
        for t in meeting.catalogue.loose_tenons
        if t.width + 2 * SHOULDER <= clear and t.thickness < meeting.guest_thickness and not pins_meet(meeting, t)
    ]


def _refuse(meeting: Meeting, tenon: Tenon, into_guest: int) -> None:
    if tenon.width >= clear_length(meeting) or tenon.thickness >= meeting.guest_thickness:
        raise CannotError(
            "a loose tenon lies within its joint",
            f"tenon {meeting.write.length(tenon.thickness)} × {meeting.write.length(tenon.width)} in a joint "
            f"{meeting.write.length(meeting.guest_thickness)} × {meeting.write.length(clear_length(meeting))}",
            *_offer(meeting),
        )
    if pins_meet(meeting, tenon):
        raise CannotError(
            "mortises from a guest's two ends do not meet",
            f"mortises {meeting.write.length(into_guest)} deep in a part "
            f"{meeting.write.length(meeting.guest_length)} long",
            *_offer(meeting),
        )


def _offer(meeting: Meeting, near: tuple[str, ...] = ()) -> tuple[str, str]:
    """Return what would do, and the option it is for: tenons that fit, those in `near` before others."""
    return use_one(_fitting(meeting), near) or "Use the method dowel, or a larger part.", "tenon"


def _findings(meeting: Meeting, tenon: Tenon, into_host: int, y0: int) -> tuple[Finding, ...]:
    findings = [
        *check_least(
            "thin-web-behind-mortise",
            f"Little wood of {meeting.host.name} is left behind the mortise.",
            meeting.host_depth - into_host,
            Bound(3 * MM, 3 * MM // 2),
        ),
        *check_least(
            "thin-mortise-cheek",
            f"The wood beside the tenon in {meeting.guest.name} is thin.",
            y0,
            Bound(4 * MM, 2 * MM),
        ),
    ]
    t = meeting.guest_thickness
    if not t <= 4 * tenon.thickness <= 2 * t:
        findings.append(
            Finding(
                "tenon-thickness",
                "caution",
                "A tenon is about one third of the stock; this one is under a quarter or over half.",
                tenon.thickness,
                t // 3,
                LENGTH,
                PROPORTIONS,
            )
        )
    if tenon.width + 2 * SHOULDER > meeting.run:
        findings.append(
            Finding(
                "narrow-shoulder",
                "caution",
                f"Little wood is left beside the tenon across {meeting.guest.name}.",
                (meeting.run - tenon.width) // 2,
                SHOULDER,
                LENGTH,
                COMMON,
            )
        )
    return tuple(findings)


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the loose tenon."""
    return (LooseTenon(),)
