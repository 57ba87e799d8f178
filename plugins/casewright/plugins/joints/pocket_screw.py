"""Pocket screws: screws driven at a slant from pockets in the guest's face into the host."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.fields import Choice, Count, Length, OptionSchema
from casewright.sdk.findings import Finding
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.hardware import Screw
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, Spacing, area_mm2, check_least, chosen, clear_row, screw_within
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, HardwareUse, Options
from casewright.sdk.units import INCH, MM

SPACING = 6 * INCH
POCKET = 95 * MM // 10
"""Diameter of the pocket's cutter, 9.5 mm (common practice)."""

SLOPE = (15, 56)
"""Tangent of the 15 degree slant as a ratio (common practice)."""

LEAST_THICKNESS = INCH // 2


class PocketScrewOptions(OptionSchema):
    """Options of the pocket screw."""

    face = Choice(
        "near",
        "far",
        load_default="far",
        about="Face the pockets are bored in: near (front, left or lower) or far (back, right or upper). Default: far.",
    )
    spacing = Length(
        least=20 * MM,
        load_default=None,
        about="Distance between screws, about. Default: 6 in, and less in short joints.",
    )
    count = Count(least=1, most=60, load_default=None, about="Number of screws, if given.")


class PocketScrew(JointMethod):
    """A butt joint with slanted screws; the pockets stay open in one face of the guest."""

    id: ClassVar[str] = "pocket-screw"
    title: ClassVar[str] = "Pocket screws"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee", "frame"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"pocket"})
    options = PocketScrewOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner, tee or frame meeting; the guest does not grow.

        Pockets are drawn as straight-sided wedges round the slanted bore. Raises `CannotError` for a guest
        under 1/2 in, too short for the pockets, or with no screw in the catalogue that fits.
        """
        t = meeting.guest_thickness
        if t < LEAST_THICKNESS:
            raise CannotError(
                f"a part with pocket screws is at least {meeting.write.length(LEAST_THICKNESS)} thick",
                meeting.write.length(t),
                "Use thicker stock, or the method dowel.",
            )
        shoulder = 3 * t // 4
        rise, over = SLOPE
        deep = t // 2 - shoulder * rise // over + POCKET * 1035 // 2000
        long = deep * over // rise
        if 2 * (shoulder + long) > meeting.guest_length:
            raise CannotError(
                "pockets from a guest's two ends do not meet",
                f"pockets {meeting.write.length(shoulder + long)} long in a part "
                f"{meeting.write.length(meeting.guest_length)} long",
                "Use the method dowel.",
            )
        screw = _screw(meeting, shoulder)
        end = max(POCKET // 2 + 3 * MM, min(32 * MM, meeting.run // 4))
        pitch = chosen(options, "spacing", SPACING)
        xs = clear_row(meeting, POCKET // 2, Spacing(end, pitch, 2 * POCKET, options.get("count")))
        far = options.get("face") != "near"
        y0, y1 = (t - deep, t) if far else (0, deep)
        face: Axis = 2 if far else -2
        half = POCKET // 2
        wedges = tuple(Wedge(Box(x - half, y0, -shoulder - long, x + half, y1, -shoulder), 1, (face, 3)) for x in xs)
        pockets = Feature("pocket", f"screw pockets to {meeting.host.name}", face, wedges=wedges)
        return Fit(
            guest=(pockets,),
            hardware=(
                HardwareUse(screw.id, f"{screw.title}, flat under the head", tuple((x, t // 2, 0) for x in xs), 3),
            ),
            findings=_findings(meeting, screw, shoulder, min(xs[0], meeting.run - xs[-1]) - half),
            glue_area_mm2=area_mm2((meeting.run, t)),
        )


def _screw(meeting: Meeting, shoulder: int) -> Screw:
    most = min(meeting.guest_thickness + 13 * MM, shoulder * 1035 // 1000 + meeting.host_depth - 2 * MM)
    screw = screw_within(meeting.catalogue, 8, most, least=shoulder + 6 * MM)
    if screw is None:
        raise CannotError(
            "a screw that holds in the host without breaking out",
            f"a host {meeting.write.length(meeting.host_depth)} thick",
            "Use the method dowel.",
        )
    return screw


def _findings(meeting: Meeting, screw: Screw, shoulder: int, from_edge: int) -> tuple[Finding, ...]:
    into = (screw.length - shoulder * 1035 // 1000) * 966 // 1000
    return (
        *check_least(
            "pocket-screw-bite",
            f"The screws go little way into {meeting.host.name}.",
            into,
            Bound(12 * MM, 6 * MM),
        ),
        *check_least(
            "pocket-at-edge",
            f"The pockets stand near the edges of {meeting.guest.name}.",
            from_edge,
            Bound(3 * MM, 1 * MM),
        ),
    )


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the pocket screw."""
    return (PocketScrew(),)
