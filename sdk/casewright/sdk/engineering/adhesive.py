"""How much glue a joint area takes."""

from casewright.sdk.engineering.limits import within


def glue_g(area_mm2: float, spread_g_per_m2: float) -> float:
    """Return the mass of glue in grams for a joint area in mm² spread on one face."""
    within("glue-area", "glue area", area_mm2, 0.0, None, "mm²", "glue-spread")
    return area_mm2 * 1e-6 * spread_g_per_m2
