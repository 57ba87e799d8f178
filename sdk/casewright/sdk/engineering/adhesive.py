"""How much glue a joint area takes, and at what pressure it is clamped. Areas in mm2, pressures in MPa."""

from casewright.sdk.engineering.limits import within
from casewright.sdk.materials import Glue

LIGHT_UP_TO = 0.45
DENSE_FROM = 0.60
"""Specific gravity (12 %) below which a wood is light and from which it is dense.

Common practice, no source.
"""


def glue_g(area_mm2: float, spread_g_per_m2: float) -> float:
    """Return the mass of glue in grams for a joint area spread on one face."""
    within("glue-area", "glue area", area_mm2, 0.0, None, "mm²", "glue-spread")
    return area_mm2 * 1e-6 * spread_g_per_m2


def clamp_pressure_mpa(glue: Glue, g_12: float) -> tuple[float, float]:
    """Return the pressure range (MPa) a glue asks for by the density of the wood (maker's guide, bands by practice)."""
    within("clamp-gravity", "specific gravity", g_12, 0.1, 1.3, "", "glue-guide")
    if g_12 < LIGHT_UP_TO:
        return glue.pressure_light_mpa
    return glue.pressure_medium_mpa if g_12 < DENSE_FROM else glue.pressure_dense_mpa
