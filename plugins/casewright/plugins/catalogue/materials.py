"""Woods and sheets, as published; each value names its source.

Board moduli are Table 5-3b (million psi, 12 % moisture, centre loaded); panel moduli are given in N/mm2.
"""

from typing import Literal

from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.materials import SheetThickness, Stuff
from casewright.sdk.units import INCH, MM

_READ = "fpl-190-table-13-5"
_LAW = "shrinkage-law"
_RECALL = "fpl-190-table-13-5-memory"


def _board(
    item_id: str,
    title: str,
    family: Literal["hardwood", "softwood"],
    g_12: float,
    moe_mpsi: float,
    g_oven_dry: float | None,
    c_radial: float | None,
    c_tangential: float | None,
    movement: str,
    note: str = "",
) -> Stuff:
    """Return a species of Table 5-3b; density by eq. 4-6 at 12 % moisture."""
    return Stuff(
        id=item_id,
        title=title,
        kind="board",
        density_kg_m3=round(1000.0 * g_12 * 1.12, 1),
        e_along_mpa=moe_mpsi * 1e6 * MPA_PER_PSI,
        e_across_mpa=None,
        g_oven_dry=g_oven_dry,
        g_12=g_12,
        c_radial=c_radial,
        c_tangential=c_tangential,
        holds_screws=True,
        family=family,
        sources=(
            ("density_kg_m3", "fpl-282-eq-4-6"),
            ("e_along_mpa", "fpl-282-table-5-3b"),
            ("g_oven_dry", "nds-2018-12-3-3a"),
            ("g_12", "fpl-282-table-5-3b"),
            ("c_radial", movement),
            ("c_tangential", movement),
            ("holds_screws", "nds-2018-12-2-2"),
        ),
        note=note,
    )


def _group(
    item_id: str,
    title: str,
    g_oven_dry: float,
    moe_mpsi: float,
    c_radial: float | None,
    c_tangential: float | None,
    movement: str,
    movement_as: str,
) -> Stuff:
    """Return a lumber group that has no Handbook row: NDS gravity and No. 2 modulus, density at 12 %."""
    density = 1000.0 * g_oven_dry / (1.0 + 0.009 * g_oven_dry * 12.0) * 1.12
    return Stuff(
        id=item_id,
        title=title,
        kind="board",
        density_kg_m3=round(density, 1),
        e_along_mpa=moe_mpsi * 1e6 * MPA_PER_PSI,
        e_across_mpa=None,
        g_oven_dry=g_oven_dry,
        g_12=None,
        c_radial=c_radial,
        c_tangential=c_tangential,
        holds_screws=True,
        family="softwood",
        sources=(
            ("density_kg_m3", "nds-2018-supplement-density"),
            ("e_along_mpa", "nds-2018-supplement-4a"),
            ("g_oven_dry", "nds-2018-12-3-3a"),
            ("c_radial", movement),
            ("c_tangential", movement),
            ("holds_screws", "nds-2018-12-2-2"),
        ),
        note=f"a lumber group, not a Handbook row; movement as {movement_as}",
    )


_NO_GROUP = "no NDS specific gravity is on record here: screws into it are not computed"

_BOARDS: tuple[Stuff, ...] = (
    _board("yellow-poplar", "yellow-poplar", "hardwood", 0.42, 1.58, 0.43, 0.00158, 0.00289, _LAW),
    _board("red-oak", "red oak", "hardwood", 0.63, 1.82, 0.67, 0.00158, 0.00369, _READ),
    _board("white-oak", "white oak", "hardwood", 0.68, 1.78, 0.73, 0.00180, 0.00365, _READ),
    _board(
        "hard-maple",
        "sugar (hard) maple",
        "hardwood",
        0.63,
        1.83,
        0.55,
        0.00165,
        0.00353,
        _READ,
        "NDS gravity is that of the mixed maple group",
    ),
    _board("red-maple", "red maple", "hardwood", 0.54, 1.64, 0.58, 0.00137, 0.00289, _READ),
    _board(
        "yellow-birch",
        "yellow birch",
        "hardwood",
        0.62,
        2.01,
        0.71,
        0.00256,
        0.00338,
        _READ,
        "NDS gravity is that of the beech-birch-hickory group",
    ),
    _board("black-cherry", "black cherry", "hardwood", 0.50, 1.49, None, 0.00126, 0.00248, _READ, _NO_GROUP),
    _board("black-walnut", "black walnut", "hardwood", 0.55, 1.68, None, 0.00190, 0.00274, _READ, _NO_GROUP),
    _board("white-ash", "white ash", "hardwood", 0.60, 1.74, None, 0.00169, 0.00274, _READ, _NO_GROUP),
    _board("red-alder", "red alder", "hardwood", 0.41, 1.38, None, 0.00151, 0.00256, _READ, _NO_GROUP),
    _board("douglas-fir", "Douglas-fir, coast", "softwood", 0.48, 1.95, 0.50, 0.00165, 0.00267, _LAW),
    _board("loblolly-pine", "loblolly pine", "softwood", 0.51, 1.79, 0.55, 0.00165, 0.00259, _RECALL),
    _board("shortleaf-pine", "shortleaf pine", "softwood", 0.51, 1.75, 0.55, 0.00158, 0.00271, _RECALL),
    _board("longleaf-pine", "longleaf pine", "softwood", 0.59, 1.98, 0.55, 0.00176, 0.00263, _RECALL),
    _board("slash-pine", "slash pine", "softwood", 0.59, 1.98, 0.55, 0.00187, 0.00267, _RECALL),
    _board("black-spruce", "black spruce", "softwood", 0.42, 1.61, None, 0.00141, 0.00237, _RECALL, _NO_GROUP),
    _board("red-spruce", "red spruce", "softwood", 0.40, 1.66, None, 0.00130, 0.00274, _RECALL, _NO_GROUP),
    _board(
        "engelmann-spruce",
        "Engelmann spruce",
        "softwood",
        0.35,
        1.30,
        None,
        0.00130,
        0.00248,
        _RECALL,
        _NO_GROUP,
    ),
    _board("lodgepole-pine", "lodgepole pine", "softwood", 0.41, 1.34, None, None, None, _RECALL, _NO_GROUP),
    _board("balsam-fir", "balsam fir", "softwood", 0.35, 1.45, None, None, None, _RECALL, _NO_GROUP),
    _group("spruce-pine-fir", "spruce-pine-fir", 0.42, 1.4, None, 0.00263, _RECALL, "Sitka spruce"),
    _group("spruce-pine-fir-south", "spruce-pine-fir (south)", 0.36, 1.1, None, 0.00263, _RECALL, "Sitka spruce"),
    _group("douglas-fir-larch", "Douglas fir-larch", 0.50, 1.6, 0.00165, 0.00267, _LAW, "coast Douglas-fir"),
    _group("hem-fir", "hem-fir", 0.43, 1.3, 0.00112, 0.00245, _LAW, "white fir"),
    _group(
        "southern-pine",
        "southern pine",
        0.55,
        1.4,
        None,
        0.00265,
        "agr-handbook-72",
        "the southern pine group",
    ),
)


def _sheet(
    item_id: str,
    title: str,
    density: float,
    along: float,
    across: float | None,
    sources: tuple[tuple[str, str], ...],
    thicknesses: tuple[SheetThickness, ...] = (),
    note: str = "",
    g_oven_dry: float | None = None,
) -> Stuff:
    """Return a panel; `g_oven_dry` is the gravity for dowel bearing and head pull-through where one is published."""
    return Stuff(
        id=item_id,
        title=title,
        kind="sheet",
        density_kg_m3=density,
        e_along_mpa=along,
        e_across_mpa=across,
        g_oven_dry=g_oven_dry,
        g_12=None,
        c_radial=None,
        c_tangential=None,
        holds_screws=False,
        family="panel",
        sources=(*sources, ("g_oven_dry", "nds-2018-12-3-3b"), ("holds_screws", "wood-journal-49-1-93")),
        thicknesses=thicknesses,
        note=note,
    )


def _birch(
    nominal_mm: float,
    plies: int,
    least_mm: float,
    most_mm: float,
    density: float,
    along: float | None = None,
    across: float | None = None,
) -> SheetThickness:
    return SheetThickness(
        round(nominal_mm * MM), round(least_mm * MM), round(most_mm * MM), density, along, across, plies
    )


_BIRCH_ROWS: tuple[SheetThickness, ...] = (
    _birch(4, 3, 3.5, 4.1, 660),
    _birch(6.5, 5, 6.1, 6.9, 670),
    _birch(9, 7, 8.8, 9.5, 710, 11395, 6105),
    _birch(12, 9, 11.5, 12.5, 695, 10719, 6781),
    _birch(15, 11, 14.3, 15.3, 690, 10316, 7184),
    _birch(18, 13, 17.1, 18.1, 685, 10048, 7452),
    _birch(21, 15, 20.0, 20.9, 680, 9858, 7642),
    _birch(24, 17, 22.9, 23.7, 680),
    _birch(30, 21, 28.7, 29.9, 672),
)


def _ps1(nominal_64: int, least_in_1000: int, most_in_1000: int) -> SheetThickness:
    """Return a PS 1 row: nominal in 64ths of an inch, range in thousandths."""
    return SheetThickness(nominal_64 * INCH // 64, least_in_1000 * 25_400, most_in_1000 * 25_400)


_PS1_ROWS: tuple[SheetThickness, ...] = (
    _ps1(16, 219, 281),
    _ps1(32, 469, 531),
    _ps1(46, 688, 750),
    _ps1(48, 719, 781),
)
_PS1_SOURCES = (
    ("thicknesses", "ps-1-19"),
    ("density_kg_m3", "panel-mass-memory"),
    ("e_along_mpa", "aws-1-p279"),
)

_SHEETS: tuple[Stuff, ...] = (
    _sheet(
        "birch-plywood",
        "birch plywood",
        685.0,
        9858.0,
        6105.0,
        (
            ("thicknesses", "birch-plywood-sheet"),
            ("density_kg_m3", "birch-plywood-sheet"),
            ("e_along_mpa", "birch-plywood-stiffness"),
            ("e_across_mpa", "birch-plywood-stiffness"),
        ),
        _BIRCH_ROWS,
        "thicknesses without their own modulus use the least of the table; gravity as plywood of unknown species",
        0.42,
    ),
    _sheet(
        "fir-plywood",
        "Douglas-fir plywood",
        565.0,
        950_000 * MPA_PER_PSI,
        None,
        _PS1_SOURCES,
        _PS1_ROWS,
        "gravity as plywood of unknown species",
        0.42,
    ),
    _sheet(
        "hardwood-faced-plywood",
        "Douglas-fir plywood with hardwood faces",
        565.0,
        1_800_000 * MPA_PER_PSI,
        None,
        _PS1_SOURCES,
        _PS1_ROWS,
        "gravity as plywood of unknown species",
        0.42,
    ),
    _sheet(
        "particleboard",
        "particleboard P2",
        655.0,
        1600.0,
        1600.0,
        (("density_kg_m3", "en-312"), ("e_along_mpa", "en-312-moe"), ("e_across_mpa", "en-312-moe")),
        (
            SheetThickness(16 * MM, 15_700_000, 16_300_000, 660.0),
            SheetThickness(18 * MM, 17_700_000, 18_300_000, 650.0),
            SheetThickness(19 * MM, 18_700_000, 19_300_000, 650.0),
        ),
    ),
    _sheet(
        "mdf",
        "medium-density fibreboard",
        750.0,
        2200.0,
        2200.0,
        (("density_kg_m3", "en-622-5"), ("e_along_mpa", "en-622-5"), ("e_across_mpa", "en-622-5")),
    ),
    _sheet(
        "float-glass",
        "float glass",
        2500.0,
        70_000.0,
        70_000.0,
        (("*", "en-572-1"),),
        (),
        "for door panels held by stops; toughened glass where local rules ask for safety glazing",
    ),
    _sheet(
        "strand-board",
        "oriented strand board",
        650.0,
        4410.0,
        None,
        (("e_along_mpa", "fpl-190-table-12-3"), ("density_kg_m3", "panel-mass-memory")),
        (),
        "modulus is the least of the printed range",
        0.50,
    ),
)

STUFFS: tuple[Stuff, ...] = (*_BOARDS, *_SHEETS)
"""Every stuff a job's material may name."""
