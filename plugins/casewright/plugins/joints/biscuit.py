"""Biscuits: flat oval tongues glued into slots sawn in both parts."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from casewright.sdk.fields import Choice, Count, Length, OptionSchema
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import (
    COMMON,
    Bound,
    Spacing,
    area_mm2,
    check_least,
    chosen,
    clear_length,
    clear_row,
    too_narrow,
)
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, HardwareUse, Options
from casewright.sdk.units import MM

SPACING = 160 * MM
WEB = 4 * MM
"""Least wood wanted behind a slot (common practice)."""


@dataclass(frozen=True, slots=True)
class _Size:
    """A biscuit: number, length, width and the slot's length and depth in each part, nm."""

    number: str
    length: int
    width: int

    @property
    def slot_length(self) -> int:
        return self.length + 8 * MM

    @property
    def slot_depth(self) -> int:
        return self.width // 2 + MM


SIZES = (
    _Size("0", 47 * MM, 15 * MM),
    _Size("10", 53 * MM, 19 * MM),
    _Size("20", 56 * MM, 23 * MM),
)
"""The three usual sizes, small to large (common practice)."""

SLOT = 4 * MM


class BiscuitOptions(OptionSchema):
    """Options of the biscuit joint."""

    size = Choice(
        "0",
        "10",
        "20",
        load_default=None,
        about="Biscuit number. Default: the largest that leaves 4 mm behind its slot.",
    )
    spacing = Length(
        least=60 * MM,
        load_default=None,
        about="Distance between biscuits, about. Default: 160 mm.",
    )
    count = Count(least=1, most=60, load_default=None, about="Number of biscuits, if given.")


class Biscuit(JointMethod):
    """A butt joint with biscuits in the middle of the guest's thickness."""

    id: ClassVar[str] = "biscuit"
    title: ClassVar[str] = "Biscuits"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee", "frame"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"biscuit-slot"})
    supplies: ClassVar[frozenset[str]] = frozenset(f"biscuit-{size.number}" for size in SIZES)
    options = BiscuitOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a corner, tee or frame meeting; the guest does not grow.

        Slots are drawn square, outside the cutter's arc. Raises `CannotError` where no size fits.
        """
        size = _size(meeting, options)
        t = meeting.guest_thickness
        end = size.slot_length // 2 + 3 * MM
        apart = size.slot_length + 6 * MM
        spacing = Spacing(end, max(chosen(options, "spacing", SPACING), apart), apart, options.get("count"))
        xs = clear_row(meeting, size.slot_length // 2, spacing)
        y0 = (t - SLOT) // 2
        half, deep = size.slot_length // 2, size.slot_depth
        host = tuple(Box(x - half, y0, 0, x + half, y0 + SLOT, deep) for x in xs)
        guest = tuple(Box(x - half, y0, -deep, x + half, y0 + SLOT, 0) for x in xs)
        return Fit(
            host=(Feature("biscuit-slot", f"biscuit slots for {meeting.guest.name}", -3, boxes=host),),
            guest=(Feature("biscuit-slot", f"biscuit slots to {meeting.host.name}", 3, boxes=guest),),
            hardware=(
                HardwareUse(
                    f"biscuit-{size.number}",
                    f"biscuit No. {size.number}",
                    tuple((x, y0 + SLOT // 2, 0) for x in xs),
                    3,
                ),
            ),
            findings=(
                *check_least(
                    "thin-web-behind-slot",
                    f"Little wood of {meeting.host.name} is left behind the biscuit slots.",
                    meeting.host_depth - deep,
                    Bound(WEB, 2 * MM),
                ),
                *check_least(
                    "thin-slot-cheek", "The wood beside the biscuit slots is thin.", y0, Bound(4 * MM, 2 * MM)
                ),
            ),
            glue_area_mm2=2 * len(xs) * area_mm2((size.length, size.width)) + area_mm2((meeting.run, t)),
        )


def _fits(meeting: Meeting, size: _Size, web: int) -> bool:
    return (
        size.slot_length + 6 * MM <= clear_length(meeting)
        and meeting.host_depth - size.slot_depth >= web
        and 2 * size.slot_depth < meeting.guest_length
        and meeting.guest_thickness > SLOT + 2 * MM
    )


def _size(meeting: Meeting, options: Options) -> _Size:
    number = options.get("size")
    sizes = [s for s in SIZES if number in (None, s.number)]
    fits = [s for s in sizes if _fits(meeting, s, WEB if number is None else MM)]
    if not fits:
        if clear_length(meeting) < SIZES[0].slot_length + 6 * MM:
            raise too_narrow(meeting, SIZES[0].slot_length + 6 * MM)
        smaller = [s.number for s in SIZES if _fits(meeting, s, MM)]
        raise CannotError(
            "a biscuit fits along the joint and leaves wood behind it",
            f"{meeting.write.length(clear_length(meeting))} clear along the joint of {meeting.guest.name} to "
            f"{meeting.host.name}, {meeting.write.length(meeting.host_depth)} of wood",
            f"Use size {' or '.join(smaller)}." if smaller else "Use the method dowel.",
            "size" if smaller and number is not None else "",
        )
    return fits[-1]


@hookimpl
def casewright_joint_methods() -> Sequence[JointMethod]:
    """Return the biscuit joint."""
    return (Biscuit(),)
