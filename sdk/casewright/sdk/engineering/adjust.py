"""Factors on connection values (`nds-2018-11-3`), and lateral load and withdrawal acting together."""

import math
from types import MappingProxyType

from casewright.sdk.engineering.limits import within

DURATION = MappingProxyType(
    {
        "permanent": 0.9,
        "ten-years": 1.0,
        "two-months": 1.15,
        "seven-days": 1.25,
        "ten-minutes": 1.6,
    }
)
"""C_D, Table 2.3.2 (document read). A hung cabinet is a permanent load."""


END_GRAIN = 0.67
"""C_eg of a sideways load on a fastener in end grain, 12.5.2 (document read)."""

END_GRAIN_LAG = 0.75
"""C_eg of a lag pulled out of end grain, 12.2.1.3 (document read); screws may not be pulled there, 12.2.2.3."""


def combined(withdrawal: float, lateral: float, angle_deg: float) -> float:
    """Return Z'α = W Z/(W cos² α + Z sin² α), α from the wood surface. NDS 2018 eq. 12.4-1 (document read).

    `withdrawal` is W'p of the whole thread, `lateral` Z', in one force unit, both above zero; α 0 to 90 degrees.
    """
    angle = math.radians(within("combined-angle", "load angle", angle_deg, 0.0, 90.0, "°", "nds-2018-12-4-1"))
    within("combined-capacity", "withdrawal capacity", withdrawal, 1e-9, None, "N", "nds-2018-12-4-1")
    within("combined-capacity", "lateral capacity", lateral, 1e-9, None, "N", "nds-2018-12-4-1")
    c, s = math.cos(angle), math.sin(angle)
    return withdrawal * lateral / (withdrawal * c * c + lateral * s * s)


def combined_use(pull: float, shear: float, withdrawal: float, lateral: float) -> float:
    """Return the utilisation of a fastener under a pull and a sideways load together; 1 is the limit.

    The resultant over eq. 12.4-1, and never less than either load over its own capacity: the equation alone would let
    an added sideways load lower the figure when the pull governs. Own stricter reading.
    """
    within("combined-load", "pull", pull, 0.0, None, "N", "nds-2018-12-4-1")
    within("combined-load", "sideways load", shear, 0.0, None, "N", "nds-2018-12-4-1")
    resultant = math.hypot(pull, shear)
    if resultant == 0.0:
        return 0.0
    allowed = combined(withdrawal, lateral, math.degrees(math.atan2(pull, shear)))
    return max(resultant / allowed, pull / withdrawal, shear / lateral)
