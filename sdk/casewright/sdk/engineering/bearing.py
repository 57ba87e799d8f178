"""How hard wood bears against a fastener's side, and the factors that turn yield into design values.

Inch-pound as printed in NDS 2018; callers convert exactly (`units.MPA_PER_PSI`).
"""

import math
from dataclasses import dataclass

from casewright.sdk.engineering.limits import within

SMALL = 0.25
"""Diameter in inches from which the rules for large dowels hold."""


def _round_50(psi: float) -> float:
    return 50.0 * math.floor(psi / 50.0 + 0.5)


def bearing_psi(g: float, diameter_in: float, angle_deg: float = 0.0, *, rounded: bool = True) -> float:
    """Return the dowel bearing strength F_e. NDS 2018 Table 12.3.3, footnote 2 (document read).

    16,600 G^1.84 below 1/4 in, at any angle; from 1/4 in 11,200 G along the grain and 6,100 G^1.45/sqrt(D) across it,
    with Hankinson between (`fpl-282-eq-8-16`). `diameter_in` is the nominal one; `rounded` to 50 psi as the table
    prints. G 0.31 to 0.73, D 0.047 to 1 in, angle 0 to 90 degrees.
    """
    clause = "nds-2018-12-3-3"
    within("fastener-gravity", "specific gravity", g, 0.31, 0.73, "", clause)
    within("bearing-diameter", "diameter", diameter_in, 0.047, 1.0, "in", clause)
    within("bearing-angle", "angle to grain", angle_deg, 0.0, 90.0, "°", clause)
    adjust = _round_50 if rounded else float
    if diameter_in < SMALL:
        return adjust(16_600.0 * g**1.84)
    along, across = adjust(11_200.0 * g), adjust(6_100.0 * g**1.45 / math.sqrt(diameter_in))
    return hankinson(along, across, angle_deg)


def hankinson(along: float, across: float, angle_deg: float) -> float:
    """Return F∥F⊥/(F∥ sin² + F⊥ cos²) at an angle to the grain. NDS 2018 eq. 12.3-11 (document read)."""
    within("bearing-angle", "angle to grain", angle_deg, 0.0, 90.0, "°", "nds-2018-12-3-4")
    s, c = math.sin(math.radians(angle_deg)), math.cos(math.radians(angle_deg))
    return along * across / (along * s * s + across * c * c)


def k_d(diameter_in: float) -> float:
    """Return K_D: 2.2 to 0.17 in, 10 D + 0.5 above. NDS 2018 Table 12.3.1B (document read), valid below 1/4 in."""
    d = within("reduction-diameter", "diameter", diameter_in, 0.047, 0.25, "in", "nds-2018-12-3-1")
    return 2.2 if d <= 0.17 else 10.0 * d + 0.5


def k_theta(angle_deg: float) -> float:
    """Return K_theta = 1 + 0.25 θ/90, θ the greatest angle of load to grain. NDS 2018 Table 12.3.1B (document read)."""
    return 1.0 + 0.25 * within("bearing-angle", "angle to grain", angle_deg, 0.0, 90.0, "°", "nds-2018-12-3-1") / 90.0


@dataclass(frozen=True, slots=True)
class Reduction:
    """The divisors R_d of the yield modes: I_m and I_s, II, then III_m, III_s and IV."""

    one: float
    two: float
    three_four: float


def reduction(nominal_in: float, yield_in: float, angle_deg: float = 0.0) -> Reduction:
    """Return R_d. NDS 2018 Table 12.3.1B (document read).

    `nominal_in` is the fastener's nominal diameter, `yield_in` the one used in the yield equations (root diameter of a
    threaded fastener, `nds-2018-12-3-7`). Valid to 1 in.
    """
    within("reduction-diameter", "diameter", nominal_in, 0.047, 1.0, "in", "nds-2018-12-3-1")
    angle = k_theta(angle_deg)
    if yield_in < SMALL:
        both = k_d(yield_in) * (angle if nominal_in >= SMALL else 1.0)
        return Reduction(both, both, both)
    return Reduction(4.0 * angle, 3.6 * angle, 3.2 * angle)
