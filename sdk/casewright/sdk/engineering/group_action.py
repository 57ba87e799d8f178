"""Fasteners in one row share a load unevenly: the group action factor. Inch-pound as printed."""

import math
from typing import Literal

from casewright.sdk.engineering.limits import within

_CLAUSE = "nds-2018-11-3-6"
_MODULUS = {"wood": 180_000.0, "metal": 270_000.0}
"""Load over slip of one fastener is this times D^1.5, lb/in, by what the side member is."""


def group_factor(
    number: int, apart_in: float, diameter_in: float, stiffness: tuple[float, float],
    side: Literal["wood", "metal"] = "wood",
) -> float:  # fmt: skip
    """Return C_g of a row of `number` fasteners `apart_in` from each other. NDS 2018 eq. 11.3-1 (document read).

    `stiffness` is E A in lb of the main and of the side member, gross areas. 1 for one fastener, and below 1/4 in.
    """
    within("group-count", "fasteners in a row", number, 1, 100, "", _CLAUSE)
    within("placement-diameter", "diameter", diameter_in, 0.04, 1.0, "in", _CLAUSE)
    within("group-spacing", "distance within a row", apart_in, 0.0, None, "in", _CLAUSE)
    main, other = stiffness
    for member in stiffness:
        within("group-stiffness", "stiffness of a member", member, 1.0, None, "lbf", _CLAUSE)
    if number == 1 or diameter_in < 0.25:
        return 1.0
    ratio = min(main, other) / max(main, other)
    u = 1.0 + _MODULUS[side] * diameter_in**1.5 * apart_in / 2.0 * (1.0 / main + 1.0 / other)
    m = u - math.sqrt(u * u - 1.0)
    power = m**number
    shared = m * (1.0 - power * power) / (number * ((1.0 + ratio * power) * (1.0 + m) - 1.0 + power * power))
    return float(min(1.0, shared * (1.0 + ratio) / (1.0 - m)))
