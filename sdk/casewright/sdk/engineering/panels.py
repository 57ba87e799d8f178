"""Sheet goods as bought: measured thickness against the published range, and mass."""

from dataclasses import dataclass

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import mm
from casewright.sdk.materials import Stuff


@dataclass(frozen=True, slots=True)
class ThicknessVerdict:
    """Whether a measured sheet is what its label says.

    Lengths in nm, `nominal` the sold size it is nearest to.
    """

    nominal: int
    least: int
    most: int
    inside: bool
    source: str


def thickness_verdict(stuff: Stuff, thickness: int) -> ThicknessVerdict | None:
    """Compare a measured thickness (nm) with the published range of the nearest sold size.

    None without a table.
    """
    row = stuff.sheet(thickness)
    if row is None:
        return None
    inside = row.least <= thickness <= row.most
    return ThicknessVerdict(row.nominal, row.least, row.most, inside, stuff.source_of("thicknesses").code)


def ps1_thickness_range_in(label_in: float, *, sanded: bool = False) -> tuple[float, float]:
    """Return the range a PS 1 panel may measure, from its nominal thickness in inches.

    PS 1-19: unsanded and touch-sanded 1/32 in either way to 13/16 in, 5 % above; sanded 1/64 in to 3/4 in, 3
    % above. Valid for nominal sizes from 1/4 to 1-1/4 in.
    """
    t = within("ps1-thickness", "nominal thickness", label_in, 0.25, 1.25, "in", "ps-1-19")
    slack = (1.0 / 64.0 if t <= 0.75 else 0.03 * t) if sanded else (1.0 / 32.0 if t <= 0.8125 else 0.05 * t)
    return t - slack, t + slack


def en315_least_mm(nominal_mm: float) -> float:
    """Return the least thickness of a sanded plywood sheet.

    T - (0.4 + 0.03 t), EN 315 (from memory), in mm.
    """
    t = within("en315-thickness", "nominal thickness", nominal_mm, 3.0, 50.0, "mm", "birch-plywood-sheet")
    return t - (0.4 + 0.03 * t)


def mass_kg(volume_mm3: float, density_kg_m3: float) -> float:
    """Return the mass of a volume in mm3."""
    within("mass-volume", "volume", volume_mm3, 0.0, None, "mm³", "statics")
    return volume_mm3 * density_kg_m3 * 1e-9


def board_density_kg_m3(g_12: float, moisture: float = 12.0) -> float:
    """Return 1000 G (1 + M/100), Wood Handbook FPL-GTR-282 eq.

    4-6 (from memory), G on volume at that moisture.
    """
    within("density-gravity", "specific gravity", g_12, 0.1, 1.3, "", "fpl-282-eq-4-6")
    within("density-moisture", "moisture", moisture, 0.0, 30.0, "%", "fpl-282-eq-4-6")
    return 1000.0 * g_12 * (1.0 + moisture / 100.0)


def piece_mass_kg(stuff: Stuff, length: int, width: int, thickness: int) -> float:
    """Return the mass in kg of a plain rectangular piece, sizes in nm, at the density of its thickness."""
    return mass_kg(mm(length) * mm(width) * mm(thickness), stuff.density_at(thickness))


def finish_area_mm2(length: int, width: int, thickness: int, *, edges: bool = True) -> float:
    """Return the area to finish of a plain piece (sizes in nm): both faces, and the four edges unless told not to."""
    long, wide, thick = mm(length), mm(width), mm(thickness)
    return 2.0 * long * wide + (2.0 * thick * (long + wide) if edges else 0.0)
