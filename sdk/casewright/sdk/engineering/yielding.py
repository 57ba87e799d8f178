"""The six ways a dowel-type fastener yields sideways in single shear, faces touching or with a gap.

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


def single_shear_with_gap(shear: Shear, gap: float) -> Modes:
    """Return the six yield modes with a gap between the faces (such as a wall lining between cleat and stud).

    AWC Technical Report 12, general dowel equations, solid section (from memory). With no gap they are another
    algebra for NDS 2018 eqs 12.3-1 to 12.3-6. The lining is taken to carry nothing. Valid for gaps of zero up.
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
