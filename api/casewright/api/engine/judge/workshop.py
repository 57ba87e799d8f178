"""What a cabinet asks of the workshop beside cutting: glue, band and finish."""

from math import fsum

from casewright.api.engine.construction.construction import Construction
from casewright.sdk.engineering import adhesive
from casewright.sdk.model import Workshop

GLUE = "pva"
NM2_PER_MM2 = 1e12


def workshop_of(built: Construction) -> Workshop:
    """Return glue, band and finish of one cabinet."""
    area = fsum(joint.glue_area_mm2 for joint in built.joints)
    glue = built.registry.catalogue.glue(GLUE)
    return Workshop(
        built.id,
        area,
        adhesive.glue_g(area, glue.spread_g_m2),
        sum(max(band.box.size) for d in built.drafts.values() for band in d.bands),
        sum(_surface(d.box.size) for d in built.drafts.values() if not d.material.to_size) / NM2_PER_MM2,
    )


def _surface(size: tuple[int, int, int]) -> int:
    a, b, c = size
    return 2 * (a * b + b * c + a * c)
