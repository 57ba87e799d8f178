"""The strip under a masonry anchor: what its wood carries beside what the anchor's approval allows."""

from dataclasses import dataclass

from casewright.sdk.engineering import bearing, withdrawal
from casewright.sdk.engineering.hanging_capacity import MOST_HEAD_MM, MOST_SIDE_MM, gravity
from casewright.sdk.engineering.hanging_case import Anchor, Strip
from casewright.sdk.engineering.units import MPA_PER_PSI, inches


@dataclass(frozen=True, slots=True)
class AnchoredStrip:
    """What the strip carries at one anchor, in N: its head drawn through the wood, its shank bearing on the wood."""

    pull_through_n: float
    bearing_n: float


def anchored_strip(anchor: Anchor, strip: Strip, duration: float) -> AnchoredStrip:
    """Return what the strip carries at one anchor.

    Head pull-through NDS 2018 12.2.5 (a head over 1/2 in, a strip over 1-1/2 in count as those); bearing by yield mode
    I_s, the shank taken loaded across the grain. Raises `NoGravity` for wood the rules do not cover, `OutsideLimits`.
    """
    g = gravity(strip.stuff, holds=False)
    head, thickness = min(anchor.head_mm, MOST_HEAD_MM), min(strip.thickness_mm, MOST_SIDE_MM)
    diameter = inches(anchor.diameter_mm)
    pressure = bearing.bearing_psi(g, diameter, 90.0) * MPA_PER_PSI
    divisor = bearing.reduction(diameter, diameter, 90.0).one
    return AnchoredStrip(
        duration * withdrawal.head_pull_through_n(g, head, thickness),
        duration * pressure * anchor.diameter_mm * strip.thickness_mm / divisor,
    )
