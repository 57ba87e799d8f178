"""Joints and drawer corners: a meeting in, a fit out. Part of the public SDK; what all families share is in `kit`."""

from casewright.sdk.joinery.layout import Spacing, area_mm2, clear_row, too_narrow
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.methods.joints import Body, Fit, JointMethod, Meeting, MeetingKind

__all__ = [
    "Body", "Fit", "JointMethod", "Meeting", "MeetingKind", "Spacing", "area_mm2", "clear_row", "screw_within",
    "too_narrow",
]  # fmt: skip
