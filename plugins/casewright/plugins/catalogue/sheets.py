"""Panels and glass as published; each value names its source. Moduli are in N/mm2."""

from typing import NamedTuple

from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.materials import SheetThickness, Stuff
from casewright.sdk.units import INCH, MM


class _Panel(NamedTuple):
    """A panel; `g_oven_dry` is the gravity for dowel bearing and head pull-through where one is published."""

    id: str
    title: str
    density: float
    along: float
    across: float | None
    sources: tuple[tuple[str, str], ...]
    thicknesses: tuple[SheetThickness, ...] = ()
    note: str = ""
    g_oven_dry: float | None = None
    bending_mpa: float | None = None
    to_size: bool = False


def _sheet(panel: _Panel) -> Stuff:
    return Stuff(
        id=panel.id,
        title=panel.title,
        kind="sheet",
        density_kg_m3=panel.density,
        e_along_mpa=panel.along,
        e_across_mpa=panel.across,
        g_oven_dry=panel.g_oven_dry,
        g_12=None,
        c_radial=None,
        c_tangential=None,
        holds_screws=False,
        family="panel",
        sources=(
            ("bending_mpa", "fpl-190-table-12-1"),
            *panel.sources,
            ("g_oven_dry", "nds-2018-12-3-3b"),
            ("holds_screws", "wood-journal-49-1-93"),
        ),
        thicknesses=panel.thicknesses,
        note=panel.note,
        bending_mpa=panel.bending_mpa,
        to_size=panel.to_size,
    )


class _Birch(NamedTuple):
    """A row of the birch plywood sheet: nominal thickness, plies, range of thickness in mm, density, moduli."""

    nominal_mm: float
    plies: int
    least_mm: float
    most_mm: float
    density: float
    along: float | None = None
    across: float | None = None


def _birch(row: _Birch) -> SheetThickness:
    nominal, least, most = (round(mm * MM) for mm in (row.nominal_mm, row.least_mm, row.most_mm))
    return SheetThickness(nominal, least, most, row.density, row.along, row.across, row.plies)


BIRCH_RUPTURE = 40.0
"""Birch plywood of 18 mm, N/mm2: a characteristic value, and so less than the mean (from memory)."""

_BIRCH: tuple[_Birch, ...] = (
    _Birch(4, 3, 3.5, 4.1, 660),
    _Birch(6.5, 5, 6.1, 6.9, 670),
    _Birch(9, 7, 8.8, 9.5, 710, 11395, 6105),
    _Birch(12, 9, 11.5, 12.5, 695, 10719, 6781),
    _Birch(15, 11, 14.3, 15.3, 690, 10316, 7184),
    _Birch(18, 13, 17.1, 18.1, 685, 10048, 7452),
    _Birch(21, 15, 20.0, 20.9, 680, 9858, 7642),
    _Birch(24, 17, 22.9, 23.7, 680),
    _Birch(30, 21, 28.7, 29.9, 672),
)
_BIRCH_SOURCES = (
    ("thicknesses", "birch-plywood-sheet"),
    ("density_kg_m3", "birch-plywood-sheet"),
    ("bending_mpa", "birch-plywood-stiffness"),
    ("e_along_mpa", "birch-plywood-stiffness"),
    ("e_across_mpa", "birch-plywood-stiffness"),
)


def _birch_panel(name: str, title: str, note: str, gravity: float) -> _Panel:
    rows = tuple(map(_birch, _BIRCH))
    return _Panel(name, title, 685.0, 9858.0, 6105.0, _BIRCH_SOURCES, rows, note, gravity, BIRCH_RUPTURE)


def _ps1(nominal_64: int, least_in_1000: int, most_in_1000: int) -> SheetThickness:
    """Return a PS 1 row: nominal in 64ths of an inch, range in thousandths."""
    return SheetThickness(nominal_64 * INCH // 64, least_in_1000 * 25_400, most_in_1000 * 25_400)


_PS1_ROWS: tuple[SheetThickness, ...] = (_ps1(16, 219, 281), _ps1(32, 469, 531), _ps1(46, 688, 750), _ps1(48, 719, 781))
_PS1_SOURCES = (("thicknesses", "ps-1-19"), ("density_kg_m3", "panel-mass-memory"), ("e_along_mpa", "aws-1-p279"))


def _ps1_panel(name: str, title: str, modulus_psi: float) -> _Panel:
    note = "gravity as plywood of unknown species"
    return _Panel(name, title, 565.0, modulus_psi * MPA_PER_PSI, None, _PS1_SOURCES, _PS1_ROWS, note, 0.42)


_PANELS: tuple[_Panel, ...] = (
    _birch_panel(
        "birch-plywood",
        "birch plywood",
        "thicknesses without their own modulus use the least of the table; gravity as plywood of unknown species",
        0.42,
    ),
    _birch_panel(
        "all-birch-plywood",
        "birch plywood, every ply birch by its maker's word",
        "known plies take their species' gravity, 0.71 for birch; the panel's own mass at 9 % moisture says 0.63, "
        "which is less and is used; name it only where the maker vouches for every ply",
        round(685.0 / 1.09 / 1000.0, 2),
    ),
    _ps1_panel("fir-plywood", "Douglas-fir plywood", 950_000),
    _ps1_panel("hardwood-faced-plywood", "Douglas-fir plywood with hardwood faces", 1_800_000),
    _Panel(
        "particleboard",
        "particleboard P2",
        655.0,
        1600.0,
        1600.0,
        (
            ("density_kg_m3", "en-312"),
            ("thicknesses", "en-312"),
            ("bending_mpa", "en-312"),
            ("e_along_mpa", "en-312-moe"),
            ("e_across_mpa", "en-312-moe"),
        ),
        (
            SheetThickness(16 * MM, 15_700_000, 16_300_000, 660.0),
            SheetThickness(18 * MM, 17_700_000, 18_300_000, 650.0),
            SheetThickness(19 * MM, 18_700_000, 19_300_000, 650.0),
        ),
        bending_mpa=11.0,
    ),
    _Panel(
        "mdf",
        "medium-density fibreboard",
        750.0,
        2200.0,
        2200.0,
        (("density_kg_m3", "en-622-5"), ("e_along_mpa", "en-622-5"), ("e_across_mpa", "en-622-5")),
    ),
    _Panel(
        "float-glass",
        "float glass",
        2500.0,
        70_000.0,
        70_000.0,
        (("*", "en-572-1"),),
        (),
        "for door panels held by stops; toughened or laminated where local rules ask for safety glazing",
        to_size=True,
    ),
    _Panel(
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

SHEETS: tuple[Stuff, ...] = tuple(map(_sheet, _PANELS))
"""Every panel a job's material may name."""
