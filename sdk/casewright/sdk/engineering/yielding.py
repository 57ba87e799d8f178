"""The six ways a dowel-type fastener yields sideways in single or double shear, faces touching or with a gap.

Any one consistent set of units: inches and psi give pounds, millimetres and MPa give newtons. `m` is the main member
(holds the point), `s` the side member (under the head).
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

from casewright.sdk.engineering.bearing import Reduction
from casewright.sdk.engineering.limits import within


class Modes(NamedTuple):
    """The lateral design value of each yield mode, in the force unit of the inputs."""

    one_m: float
    one_s: float
    two: float
    three_m: float
    three_s: float
    four: float

    @property
    def governing(self) -> str:
        """The printed name of the least mode; the first in the order I_m, I_s, II, III_m, III_s, IV when equal."""
        return MODE_NAMES[self.index(min(self))]


MODE_NAMES = ("Im", "Is", "II", "IIIm", "IIIs", "IV")


@dataclass(frozen=True, slots=True)
class Shear:
    """One shear plane: yield diameter, bearing lengths, bearing strengths, bending yield strength, divisors."""

    diameter: float
    length_m: float
    length_s: float
    bearing_m: float
    bearing_s: float
    bending: float
    reduction: Reduction

    def __post_init__(self) -> None:
        for name in ("diameter", "length_m", "length_s", "bearing_m", "bearing_s", "bending"):
            within("yield-input", name.replace("_", " "), getattr(self, name), 1e-9, None, "", "nds-2018-12-3-1")


def k_factors(shear: Shear) -> tuple[float, float, float]:
    """Return k1, k2, k3 of NDS 2018 Table 12.3.1A (document read)."""
    d, f_yb = shear.diameter, shear.bending
    r_e = shear.bearing_m / shear.bearing_s
    r_t = shear.length_m / shear.length_s
    root = math.sqrt(r_e + 2.0 * r_e**2 * (1.0 + r_t + r_t**2) + r_t**2 * r_e**3)
    k_1 = (root - r_e * (1.0 + r_t)) / (1.0 + r_e)
    bend = 2.0 * f_yb * d**2 / (3.0 * shear.bearing_m)
    k_2 = -1.0 + math.sqrt(2.0 * (1.0 + r_e) + bend * (1.0 + 2.0 * r_e) / shear.length_m**2)
    k_3 = -1.0 + math.sqrt(2.0 * (1.0 + r_e) / r_e + bend * (2.0 + r_e) / shear.length_s**2)
    return k_1, k_2, k_3


def single_shear(shear: Shear) -> Modes:
    """Return the six yield modes. NDS 2018 eqs 12.3-1 to 12.3-6, Table 12.3.1A (document read). Faces in contact."""
    d, r_d = shear.diameter, shear.reduction
    r_e = shear.bearing_m / shear.bearing_s
    k_1, k_2, k_3 = k_factors(shear)
    return Modes(
        d * shear.length_m * shear.bearing_m / r_d.one,
        d * shear.length_s * shear.bearing_s / r_d.one,
        k_1 * d * shear.length_s * shear.bearing_s / r_d.two,
        k_2 * d * shear.length_m * shear.bearing_m / ((1.0 + 2.0 * r_e) * r_d.three_four),
        k_3 * d * shear.length_s * shear.bearing_m / ((2.0 + r_e) * r_d.three_four),
        d**2 / r_d.three_four * math.sqrt(2.0 * shear.bearing_m * shear.bending / (3.0 * (1.0 + r_e))),
    )


def double_shear(shear: Shear) -> float:
    """Return the design value in double shear, equal side members. NDS 2018 Table 12.3.1A (document read).

    Modes I_m, I_s doubled, III_s doubled, IV doubled; II and III_m cannot form. `length_m` is the whole main member.
    """
    modes = single_shear(shear)
    return min(modes.one_m, 2.0 * modes.one_s, 2.0 * modes.three_s, 2.0 * modes.four)


def single_shear_with_gap(shear: Shear, gap: float) -> Modes:
    """Return the six yield modes with a gap between the faces (such as a wall lining between cleat and stud).

    AWC Technical Report 12, general dowel equations, solid section (from memory). With no gap they equal
    `single_shear`. The lining is taken to carry nothing. Valid for gaps of zero up.
    """
    g = within("yield-gap", "gap between the faces", gap, 0.0, None, "", "awc-tr-12")
    q_m, q_s = shear.bearing_m * shear.diameter, shear.bearing_s * shear.diameter
    l_m, l_s = shear.length_m, shear.length_s
    moment = shear.bending * shear.diameter**3 / 6.0
    r_d = shear.reduction

    def root(a: float, b: float, c: float) -> float:
        return (-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a)

    two = root(0.25 / q_s + 0.25 / q_m, l_s / 2.0 + g + l_m / 2.0, -q_s * l_s**2 / 4.0 - q_m * l_m**2 / 4.0)
    three_m = root(0.5 / q_s + 0.25 / q_m, g + l_m / 2.0, -moment - q_m * l_m**2 / 4.0)
    three_s = root(0.25 / q_s + 0.5 / q_m, l_s / 2.0 + g, -q_s * l_s**2 / 4.0 - moment)
    four = root(0.5 / q_s + 0.5 / q_m, g, -2.0 * moment)
    return Modes(
        q_m * l_m / r_d.one,
        q_s * l_s / r_d.one,
        two / r_d.two,
        three_m / r_d.three_four,
        three_s / r_d.three_four,
        four / r_d.three_four,
    )
