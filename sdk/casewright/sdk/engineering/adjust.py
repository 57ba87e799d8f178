"""Factors on connection values, and lateral load and withdrawal acting together. NDS 2018."""

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

END_GRAIN_LATERAL = 0.67
END_GRAIN_LAG_WITHDRAWAL = 0.75
"""C_eg, 12.5.2 and 12.2.1.3; withdrawal of wood screws and nails from end grain is not permitted."""


def temperature_factor(celsius: float) -> float:
    """Return C_t for dry wood: 1.0 to 100 °F, 0.8 to 125 °F, 0.7 to 150 °F. Table 11.3.4 (document read)."""
    f = within("connection-temperature", "temperature", celsius * 1.8 + 32.0, None, 150.0, "°F", "nds-2018-11-3")
    return 1.0 if f <= 100.0 else 0.8 if f <= 125.0 else 0.7


def wet_withdrawal_factor(*, wet: bool) -> float:
    """Return C_M for screw withdrawal: 0.7 in wet service, 1.0 dry. Table 11.3.3 (document read)."""
    return 0.7 if wet else 1.0


def combined(withdrawal: float, lateral: float, angle_deg: float) -> float:
    """Return Z'α = W Z/(W cos² α + Z sin² α), α from the wood surface. NDS 2018 eq. 12.4-1 (document read).

    `withdrawal` is W'p of the whole thread, `lateral` Z', in one force unit, both above zero; α 0 to 90 degrees.
    """
    within("combined-angle", "load angle", angle_deg, 0.0, 90.0, "°", "nds-2018-12-4-1")
    _above_zero(withdrawal, lateral)
    return _combined(withdrawal, lateral, angle_deg)


def _above_zero(withdrawal: float, lateral: float) -> None:
    within("combined-capacity", "withdrawal capacity", withdrawal, 1e-9, None, "N", "nds-2018-12-4-1")
    within("combined-capacity", "lateral capacity", lateral, 1e-9, None, "N", "nds-2018-12-4-1")


def _combined(withdrawal: float, lateral: float, angle_deg: float) -> float:
    angle = math.radians(angle_deg)
    c, s = math.cos(angle), math.sin(angle)
    return withdrawal * lateral / (withdrawal * c * c + lateral * s * s)


def combined_use(pull: float, shear: float, withdrawal: float, lateral: float) -> float:
    """Return the utilisation of a fastener under a pull and a sideways load together; 1 is the limit.

    The resultant over eq. 12.4-1, and never less than either load over its own capacity: the equation alone would let
    an added sideways load lower the figure when the pull governs. Own stricter reading.
    """
    if not (0.0 <= pull < math.inf and 0.0 <= shear < math.inf):
        within("combined-load", "pull", pull, 0.0, None, "N", "nds-2018-12-4-1")
        within("combined-load", "sideways load", shear, 0.0, None, "N", "nds-2018-12-4-1")
    resultant = math.hypot(pull, shear)
    if resultant == 0.0:
        return 0.0
    if not (1e-9 <= withdrawal < math.inf and 1e-9 <= lateral < math.inf):
        _above_zero(withdrawal, lateral)
    held = _combined(withdrawal, lateral, math.degrees(math.atan2(pull, shear)))
    return max(resultant / held, pull / withdrawal, shear / lateral)
