"""How many people lift a cabinet, and what it may hold where the job does not say."""

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import N_PER_LBF, PA_PER_PSF, weight_n

LIGHT_SHELF_PA = 15.0 * PA_PER_PSF
"""ANSI/KCMA A161.1 5.1, 15 psf (718 Pa) on shelves and bottoms."""
SHELF_MOST_N = 200.0 * N_PER_LBF
"""AWS 1st ed. (2009) p. 253: 200 lb at most on one shelf."""


def hands(kg: float) -> int:
    """Return how many people should lift a mass overhead: one up to 15 kg, two up to 40 kg, three above.

    Common practice, no source; local rules may ask for more, and a lift is better than three people.
    """
    return 1 if kg <= 15.0 else 2 if kg <= 40.0 else 3


def assumed_contents_kg(
    inside_width_mm: float, inside_depth_mm: float, levels: int, pressure_pa: float = LIGHT_SHELF_PA
) -> float:
    """Return contents where the job gives none: a uniform load on the bottom and each shelf.

    The default 15 psf is the shelf test load of ANSI/KCMA A161.1 5.1, used here as an assumption; of it a level takes
    200 lb at most (AWS 1st ed. p. 253). A greater pressure is a job's own word and is not capped. `levels` counts the
    bottom and the shelves; pressures from zero up.
    """
    within("contents-pressure", "load on a level", pressure_pa, 0.0, None, "Pa", "aws-1-p253")
    level_n = inside_width_mm * inside_depth_mm * 1e-6 * pressure_pa
    if pressure_pa <= LIGHT_SHELF_PA:
        level_n = min(level_n, SHELF_MOST_N)
    return levels * level_n / weight_n(1.0)
