"""Woods as published; each value names its source.

Moduli of species are Table 5-3b (million psi, 12 % moisture, centre loaded).
"""

from typing import Literal, NamedTuple

from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.hardware import Sources
from casewright.sdk.materials import Stuff

_READ = "fpl-190-table-13-5"
_LAW = "shrinkage-law"
_RECALL = "fpl-190-table-13-5-memory"
_PINES = "agr-handbook-72"


def _moves_and_holds(movement: str) -> Sources:
    """Return where a wood's coefficients of movement are from, and that it holds screws."""
    return ("c_radial", movement), ("c_tangential", movement), ("holds_screws", "nds-2018-12-2-2")


class _Species(NamedTuple):
    """A species of Table 5-3b; `movement` is the source of its coefficients of movement."""

    id: str
    title: str
    family: Literal["hardwood", "softwood"]
    g_12: float
    moe_mpsi: float
    g_oven_dry: float | None
    c_radial: float | None
    c_tangential: float | None
    movement: str
    note: str = ""


_RUPTURE_PSI = {
    "yellow-poplar": 10_100,
    "red-oak": 14_300,
    "white-oak": 15_200,
    "hard-maple": 15_800,
    "red-maple": 13_400,
    "yellow-birch": 16_600,
    "black-cherry": 12_300,
    "black-walnut": 14_600,
    "white-ash": 15_400,
    "red-alder": 9_800,
    "douglas-fir": 12_400,
    "loblolly-pine": 12_800,
    "shortleaf-pine": 13_100,
    "longleaf-pine": 14_500,
    "slash-pine": 16_300,
    "black-spruce": 10_800,
    "red-spruce": 10_800,
    "engelmann-spruce": 9_300,
    "lodgepole-pine": 9_400,
    "balsam-fir": 9_200,
    "spruce-pine-fir": 9_200,
    "spruce-pine-fir-south": 9_200,
    "douglas-fir-larch": 12_400,
    "southern-pine": 12_800,
}
"""Modulus of rupture of Table 5-3b, at 12 % moisture; of a lumber group that of its weakest species there."""


def _board(wood: _Species) -> Stuff:
    """Return a species of Table 5-3b; density by eq. 4-6 at 12 % moisture."""
    return Stuff(
        id=wood.id,
        title=wood.title,
        kind="board",
        density_kg_m3=round(1000.0 * wood.g_12 * 1.12, 1),
        e_along_mpa=wood.moe_mpsi * 1e6 * MPA_PER_PSI,
        e_across_mpa=None,
        g_oven_dry=wood.g_oven_dry,
        g_12=wood.g_12,
        c_radial=wood.c_radial,
        c_tangential=wood.c_tangential,
        holds_screws=True,
        family=wood.family,
        sources=(
            ("density_kg_m3", "fpl-282-eq-4-6"),
            ("e_along_mpa", "fpl-282-table-5-3b"),
            ("g_oven_dry", "nds-2018-12-3-3a"),
            ("g_12", "fpl-282-table-5-3b"),
            ("bending_mpa", "fpl-282-table-5-3b"),
            *_moves_and_holds(wood.movement),
        ),
        note=wood.note,
        bending_mpa=_RUPTURE_PSI[wood.id] * MPA_PER_PSI,
    )


class _Group(NamedTuple):
    """A lumber group of the NDS; its wood moves as `movement_as` does, by the source `movement`."""

    id: str
    title: str
    g_oven_dry: float
    moe_mpsi: float
    c_radial: float | None
    c_tangential: float | None
    movement: str
    movement_as: str


def _group(wood: _Group) -> Stuff:
    """Return a lumber group that has no Handbook row: NDS gravity and No. 2 modulus, density at 12 %."""
    density = 1000.0 * wood.g_oven_dry / (1.0 + 0.009 * wood.g_oven_dry * 12.0) * 1.12
    return Stuff(
        id=wood.id,
        title=wood.title,
        kind="board",
        density_kg_m3=round(density, 1),
        e_along_mpa=wood.moe_mpsi * 1e6 * MPA_PER_PSI,
        e_across_mpa=None,
        g_oven_dry=wood.g_oven_dry,
        g_12=None,
        c_radial=wood.c_radial,
        c_tangential=wood.c_tangential,
        holds_screws=True,
        family="softwood",
        sources=(
            ("density_kg_m3", "nds-2018-supplement-density"),
            ("e_along_mpa", "nds-2018-supplement-4a"),
            ("g_oven_dry", "nds-2018-12-3-3a"),
            ("bending_mpa", "fpl-282-table-5-3b"),
            *_moves_and_holds(wood.movement),
        ),
        note=f"a lumber group, not a Handbook row; movement as {wood.movement_as}",
        bending_mpa=_RUPTURE_PSI[wood.id] * MPA_PER_PSI if wood.id in _RUPTURE_PSI else None,
    )


_MAPLES = "NDS gravity is that of the mixed maple group"
_BIRCHES = "NDS gravity is that of the beech-birch-hickory group"
_NO_GROUP = "no NDS specific gravity is on record here: screws into it are not computed"

_SPECIES: tuple[_Species, ...] = (
    _Species("yellow-poplar", "yellow-poplar", "hardwood", 0.42, 1.58, 0.43, 0.00158, 0.00289, _LAW),
    _Species("red-oak", "red oak", "hardwood", 0.63, 1.82, 0.67, 0.00158, 0.00369, _READ),
    _Species("white-oak", "white oak", "hardwood", 0.68, 1.78, 0.73, 0.00180, 0.00365, _READ),
    _Species("hard-maple", "sugar (hard) maple", "hardwood", 0.63, 1.83, 0.55, 0.00165, 0.00353, _READ, _MAPLES),
    _Species("red-maple", "red maple", "hardwood", 0.54, 1.64, 0.58, 0.00137, 0.00289, _READ),
    _Species("yellow-birch", "yellow birch", "hardwood", 0.62, 2.01, 0.71, 0.00256, 0.00338, _READ, _BIRCHES),
    _Species("black-cherry", "black cherry", "hardwood", 0.50, 1.49, None, 0.00126, 0.00248, _READ, _NO_GROUP),
    _Species("black-walnut", "black walnut", "hardwood", 0.55, 1.68, None, 0.00190, 0.00274, _READ, _NO_GROUP),
    _Species("white-ash", "white ash", "hardwood", 0.60, 1.74, None, 0.00169, 0.00274, _READ, _NO_GROUP),
    _Species("red-alder", "red alder", "hardwood", 0.41, 1.38, None, 0.00151, 0.00256, _READ, _NO_GROUP),
    _Species("douglas-fir", "Douglas-fir, coast", "softwood", 0.48, 1.95, 0.50, 0.00165, 0.00267, _LAW),
    _Species("loblolly-pine", "loblolly pine", "softwood", 0.51, 1.79, 0.55, 0.00165, 0.00259, _RECALL),
    _Species("shortleaf-pine", "shortleaf pine", "softwood", 0.51, 1.75, 0.55, 0.00158, 0.00271, _RECALL),
    _Species("longleaf-pine", "longleaf pine", "softwood", 0.59, 1.98, 0.55, 0.00176, 0.00263, _RECALL),
    _Species("slash-pine", "slash pine", "softwood", 0.59, 1.98, 0.55, 0.00187, 0.00267, _RECALL),
    _Species("black-spruce", "black spruce", "softwood", 0.42, 1.61, None, 0.00141, 0.00237, _RECALL, _NO_GROUP),
    _Species("red-spruce", "red spruce", "softwood", 0.40, 1.66, None, 0.00130, 0.00274, _RECALL, _NO_GROUP),
    _Species(
        "engelmann-spruce", "Engelmann spruce", "softwood", 0.35, 1.30, None, 0.00130, 0.00248, _RECALL, _NO_GROUP
    ),
    _Species("lodgepole-pine", "lodgepole pine", "softwood", 0.41, 1.34, None, None, None, _RECALL, _NO_GROUP),
    _Species("balsam-fir", "balsam fir", "softwood", 0.35, 1.45, None, None, None, _RECALL, _NO_GROUP),
)

_GROUPS: tuple[_Group, ...] = (
    _Group("spruce-pine-fir", "spruce-pine-fir", 0.42, 1.4, None, 0.00263, _RECALL, "Sitka spruce"),
    _Group("spruce-pine-fir-south", "spruce-pine-fir (south)", 0.36, 1.1, None, 0.00263, _RECALL, "Sitka spruce"),
    _Group("douglas-fir-larch", "Douglas fir-larch", 0.50, 1.6, 0.00165, 0.00267, _LAW, "coast Douglas-fir"),
    _Group("hem-fir", "hem-fir", 0.43, 1.3, 0.00112, 0.00245, _LAW, "white fir"),
    _Group("southern-pine", "southern pine", 0.55, 1.4, None, 0.00265, _PINES, "the southern pine group"),
)

BOARDS: tuple[Stuff, ...] = (*map(_board, _SPECIES), *map(_group, _GROUPS))
"""Every wood a job's material may name."""
