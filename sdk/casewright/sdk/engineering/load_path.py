"""What passes a load on inside a cabinet: glue lines, wood on wood, tongues, dowels, short pins. Newtons, mm, MPa.

Allowable values for lasting loads indoors; each names where it is from. A link that nothing here covers holds nothing.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.materials import Stuff

ROLLING_SHEAR_MPA = 53.0 * MPA_PER_PSI
"""Plies rolling on one another, the weakest way plywood shears: APA Panel Design Specification (from memory).

Taken for boards too, whose grain may cross at a glue line.
"""
BOARD_SHEAR_MPA = 0.35 * 0.6 / 1.3 / 2.0
"""Particleboard and fibreboard, within their thickness.

Half of what EN 312 P2 asks of internal bond, 0.35 N/mm2, with k_mod 0.6 and gamma_M 1.3 of EN 1995-1-1 (from memory).
"""
LASTING_GLUE = 0.5
"""PVA creeps under a lasting load: half its value (common practice, no source)."""
TENSION_SHARE = 1.0 / 3.0
"""Across a glue line a third of what it holds along: the rule of NDS 2018 5.2.8 for radial tension (from memory)."""
BUTT_SHARE = 0.25
"""A glued end-grain butt holds a quarter at most: GTR-190 ch. 10 (document read)."""
BEARING_MPA = 360.0 * MPA_PER_PSI
"""Wood on a panel's face or edge: APA Panel Design Specification, bearing on face (from memory)."""
PIN_SHEAR_MPA = 1880.0 * 0.77 / 4.1 * MPA_PER_PSI
"""Dowels and loose tenons of birch across their length.

Shear strength of yellow birch, 1,880 psi (FPL-GTR-282 Table 5-3b), at the fifth percentile over 4.1 (ASTM D245, from
memory).
"""

By = Literal["glue", "screws", "groove", "wood on wood", "dowels", "wood round the pin", "nothing"]


@dataclass(frozen=True, slots=True)
class Link:
    """One place where the load passes from part to part: what it is, the load on it, and the best that holds it."""

    name: str
    load_n: float
    holds_n: float
    by: By
    source: str = "load-path"

    @property
    def use(self) -> float:
        """Load over what holds it; infinite where nothing does."""
        if self.load_n == 0.0:
            return 0.0
        return self.load_n / self.holds_n if self.holds_n > 0.0 else math.inf


def best(name: str, ways: Sequence[Link]) -> Link:
    """Return the way that holds best, named anew; one that holds nothing where there is none. Ways never add up."""
    good = min(ways, key=lambda way: way.use, default=None)
    if good is None or good.holds_n <= 0.0:
        load = max((way.load_n for way in ways), default=0.0)
        return Link(name, load, 0.0, "nothing")
    return Link(name, good.load_n, good.holds_n, good.by, good.source)


def shear_mpa(stuffs: Sequence[Stuff], duration: float) -> float:
    """Return the allowable shear in the weakest of some woods' planes; `duration` is C_D."""
    within("duration-factor", "load duration factor", duration, 0.5, 1.6, "", "nds-2018-2-3-2")
    covered = all(stuff.family != "panel" or stuff.g_oven_dry is not None for stuff in stuffs)
    return duration * (ROLLING_SHEAR_MPA if covered else BOARD_SHEAR_MPA)


def glue_n(area_mm2: float, stuffs: Sequence[Stuff], duration: float, *, across: bool = False) -> float:
    """Return what a glue line between woods holds along itself, or across, drawn open."""
    within("glue-area", "glue area", area_mm2, 0.0, None, "mm²", "statics")
    return area_mm2 * shear_mpa(stuffs, duration) * LASTING_GLUE * (TENSION_SHARE if across else 1.0)


def butt_share(stuff: Stuff) -> float:
    """Return what share of its value a glued butt has: a quarter at end grain, which fibreboard has none of."""
    return 1.0 if stuff.family == "panel" and stuff.g_oven_dry is None else BUTT_SHARE


def bearing_n(area_mm2: float, duration: float) -> float:
    """Return what wood lying on wood over an area holds."""
    within("bearing-area", "bearing area", area_mm2, 0.0, None, "mm²", "statics")
    return area_mm2 * BEARING_MPA * duration


def tongue_n(thickness_mm: float, run_mm: float, seat_mm: float, stuff: Stuff, duration: float) -> float:
    """Return what an end in a groove holds: its tongue sheared off (at 1.5 times the mean), or its seat pressed in."""
    sheared = thickness_mm * run_mm * shear_mpa((stuff,), duration) / 1.5
    return min(sheared, bearing_n(seat_mm * run_mm, duration))


def dowels_n(area_mm2: float, duration: float) -> float:
    """Return what dowels or loose tenons of a whole cross-section hold, sheared at 4/3 of the mean (round sections)."""
    return area_mm2 * PIN_SHEAR_MPA * duration * 0.75


def short_pin_n(bearing_mpa: float, diameter_mm: float, depth_mm: float, arm_mm: float, divisor: float) -> float:
    """Return what a stiff pin in a blind hole holds, loaded `arm_mm` off the face: the wood yields on both sides of it.

    q (√((2e + l)² + l²) − 2e − l) with q = F_e D, by equal and opposite yielding along its depth (own derivation),
    over the yield equations' divisor.
    """
    within("pin-depth", "depth of the hole", depth_mm, 0.1, None, "mm", "statics")
    within("pin-arm", "load off the face", arm_mm, 0.0, None, "mm", "statics")
    far = 2.0 * arm_mm + depth_mm
    return bearing_mpa * diameter_mm * (math.hypot(far, depth_mm) - far) / divisor
