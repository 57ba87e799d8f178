"""The strip itself as a beam on its fasteners: bent outward by the pull that hangs on it. N, mm, MPa."""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from casewright.sdk.engineering import beams
from casewright.sdk.engineering.hanging_case import HangingCase, Strip
from casewright.sdk.engineering.hanging_solve import zone_mm
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import MM_PER_IN, NM_PER_MM

ALLOWED_SHARE = 0.35
"""Of the mean modulus of rupture of clear wood, before C_D: 0.737 for the fifth percentile at a coefficient of
variation of 0.16, over 2.1 (ASTM D245, from memory)."""


GIVE_MM = MM_PER_IN / 8.0
"""A strip whose end gives farther than this leaves a gap that is seen (common practice, no source)."""

IN_HAND = 0.9
"""What part of it a strip that is offered may give."""


def bending_mpa(case: HangingCase, pull_n: float, columns_mm: Sequence[float]) -> float:
    """Return the greatest bending stress in the strip: the pull spread along it, its fasteners as simple supports.

    p L²/8 between two columns, p a²/2 where it stands out past the last; the section is what has full thickness.
    """
    strip = case.strip
    spread = pull_n / strip.length_mm
    ends = [columns_mm[0] - strip.left_mm, strip.right_mm - columns_mm[-1]]
    spans = [b - a for a, b in pairwise(columns_mm)]
    moment = spread * max([*(a * a / 2.0 for a in ends), *(span * span / 8.0 for span in spans)])
    return moment / (zone_mm(case) * strip.thickness_mm**2 / 6.0)


def bending_allowed_mpa(case: HangingCase) -> float | None:
    """Return the bending stress allowed in the strip's wood; None where no strength of it is on record."""
    rupture = case.strip.stuff.bending_mpa
    return None if rupture is None else ALLOWED_SHARE * rupture * case.duration


def end_give_mm(case: HangingCase, pull_n: float, columns_mm: Sequence[float]) -> float:
    """Return how far the strip's longer end gives outward, past its last fasteners, in the years to come.

    The least it can: the pull spread along it, the strip taken as held fast at the fasteners, and creep. What hangs on
    an end that gives more than its neighbour hangs on the strip near the fasteners.
    """
    strip = case.strip
    over = max(columns_mm[0] - strip.left_mm, strip.right_mm - columns_mm[-1])
    if over <= 0.0 or pull_n == 0.0:
        return 0.0
    tabulated = strip.stuff.modulus_at(round(strip.thickness_mm * NM_PER_MM)) or strip.stuff.e_along_mpa
    modulus = tabulated * (beams.TRUE_MODULUS if strip.stuff.kind == "board" else 1.0)
    section = beams.Section(zone_mm(case), strip.thickness_mm, modulus)
    return beams.CREEP_FACTOR * beams.overhang_mm(pull_n / strip.length_mm * over, over, section)


def firm_sizes_mm(
    case: HangingCase, pull_n: float, columns_mm: Sequence[float], step_mm: float
) -> tuple[float | None, float | None]:
    """Return how thick or else how high, in whole steps, the strip's end would give less than it may.

    Its fasteners and their pull are taken as they are, and a tenth of what it may give is left for what they change by:
    a larger strip weighs more and moves them. None where not even one twice as thick or high would do.
    """
    strip = case.strip

    def firm(tried: Strip) -> bool:
        return _gives_little(replace(case, strip=tried), pull_n, columns_mm)

    def sizes(now: float) -> list[float]:
        first = math.floor(now / step_mm) + 1
        return [count * step_mm for count in range(first, 2 * first)]

    thick = next((size for size in sizes(strip.thickness_mm) if firm(replace(strip, thickness_mm=size))), None)
    heights = sizes(strip.width_mm)  # a higher one is always firmer; a thicker one may lose more to its bevel
    least = bisect_left(heights, True, key=lambda size: firm(replace(strip, width_mm=size)))
    return thick, heights[least] if least < len(heights) else None


def _gives_little(case: HangingCase, pull_n: float, columns_mm: Sequence[float]) -> bool:
    try:
        return end_give_mm(case, pull_n, columns_mm) <= IN_HAND * GIVE_MM
    except OutsideLimits:  # a bevel that leaves nothing of so thick a cleat
        return False
