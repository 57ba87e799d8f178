"""Masses with their centres: parts make doors, doors and parts make a cabinet.

Coordinates in mm in the cabinet frame (x right, y back, z up, origin at the lower left front corner of the case).
"""

from collections.abc import Iterable
from dataclasses import dataclass

from casewright.sdk.engineering.limits import OutsideLimits, within
from casewright.sdk.engineering.units import N_PER_LBF, PA_PER_PSF, weight_n

LIGHT_SHELF_PA = 15.0 * PA_PER_PSF
"""ANSI/KCMA A161.1 5.1, 15 psf (718 Pa) on shelves and bottoms."""
GENERAL_SHELF_PA = 40.0 * PA_PER_PSF
HEAVY_SHELF_PA = 50.0 * PA_PER_PSF
"""AWS 1st ed. (2009) p. 253: 40 psf, and 50 psf in schools, hospitals, libraries."""
SHELF_MOST_N = 200.0 * N_PER_LBF
"""AWS 1st ed. (2009) p. 253: 200 lb at most on one shelf."""


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass in kg and its centre in mm."""

    kg: float
    x_mm: float
    y_mm: float
    z_mm: float


def together(masses: Iterable[Mass]) -> Mass:
    """Return the sum of masses and their common centre; refuses a sum of nothing."""
    parts = tuple(masses)
    total = sum(part.kg for part in parts)
    if total <= 0.0:
        raise OutsideLimits("mass-total", "total mass", total, 1e-9, None, "kg", "statics")
    return Mass(
        total,
        sum(part.kg * part.x_mm for part in parts) / total,
        sum(part.kg * part.y_mm for part in parts) / total,
        sum(part.kg * part.z_mm for part in parts) / total,
    )


def hands(kg: float) -> int:
    """Return how many people should lift a mass overhead: one up to 15 kg, two up to 40 kg, three above.

    Common practice, no source; local rules may ask for more, and a lift is better than three people.
    """
    return 1 if kg <= 15.0 else 2 if kg <= 40.0 else 3


def door_at_right_angles(closed: Mass, hinge_x_mm: float, hinge_y_mm: float) -> Mass:
    """Return a door's mass opened to 90 degrees about a fixed axis at (x, y).

    Its centre stands in front of the hinge.
    """
    reach = abs(closed.x_mm - hinge_x_mm)
    return Mass(closed.kg, hinge_x_mm, hinge_y_mm - reach, closed.z_mm)


def assumed_contents_kg(
    inside_width_mm: float, inside_depth_mm: float, levels: int, pressure_pa: float = LIGHT_SHELF_PA
) -> float:
    """Return contents where the job gives none: a uniform load on the bottom and each shelf, 200 lb a level at most.

    The default 15 psf is the shelf test load of ANSI/KCMA A161.1 5.1, used here as an assumption; the cap is AWS 1st
    ed. p. 253. `levels` counts the bottom and the shelves.
    """
    within("contents-pressure", "load on a level", pressure_pa, 0.0, 10_000.0, "Pa", "aws-1-p253")
    area_m2 = inside_width_mm * inside_depth_mm * 1e-6
    return levels * min(area_m2 * pressure_pa, SHELF_MOST_N) / weight_n(1.0)
