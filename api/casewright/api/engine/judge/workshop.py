"""What a cabinet asks of the workshop beside cutting: glue, clamps, band and finish."""

from casewright.api.engine.construction.construction import Construction
from casewright.sdk.engineering import adhesive
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.model import Workshop

GLUE = "pva"
NM2_PER_MM2 = 1e12

DENSITY_AT_G_ONE = 1120.0
"""kg/m3 of wood of specific gravity 1 at 12 % moisture (Wood Handbook eq. 4-6, from memory)."""


def workshop_of(built: Construction) -> Workshop:
    """Return glue, clamp force, band and finish of one cabinet."""
    area = sum(joint.glue_area_mm2 for joint in built.joints)
    glue = built.registry.catalogue.glue(GLUE)
    case = [d for d in built.drafts.values() if d.group == "case"]
    stuff = built.stuff(case[0].material)
    gravity = stuff.g_12 or stuff.density_at(case[0].material.thickness) / DENSITY_AT_G_ONE
    case_area = sum(
        j.glue_area_mm2
        for j in built.joints
        if j.kind in ("corner", "tee") and not j.guest.startswith(f"{built.id}/door-")
    )
    try:
        clamps = adhesive.clamping(case_area, glue, gravity)
        force = (clamps.force_low_n, clamps.force_high_n)
    except OutsideLimits:
        force = (0.0, 0.0)
    return Workshop(
        built.id,
        area,
        adhesive.glue_g(area, glue.spread_g_m2),
        force,
        sum(max(band.box.size) for d in built.drafts.values() for band in d.bands),
        sum(_surface(d.box.size) for d in built.drafts.values()) / NM2_PER_MM2,
    )


def _surface(size: tuple[int, int, int]) -> int:
    a, b, c = size
    return 2 * (a * b + b * c + a * c)
