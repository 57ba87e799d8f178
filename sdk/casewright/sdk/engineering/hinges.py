"""Doors on cup hinges: how many, where, and what a racking test would do.

Lengths that enter geometry in nm.
"""

from dataclasses import dataclass

from casewright.sdk.engineering.limits import OutsideLimits, within
from casewright.sdk.engineering.units import N_PER_LBF, weight_n
from casewright.sdk.materials import Hinge

RACKING_LOAD_N = 65.0 * N_PER_LBF
RACKING_ARM_MM = 254.0
"""ANSI/KCMA A161.1 6.1: 65 lb at 10 in from the hinge line."""


@dataclass(frozen=True, slots=True)
class HingeCount:
    """Hinges for a door: `count` is the larger of the two rules, plus one for a wide door."""

    count: int
    by_height: int
    by_mass: int
    for_width: int


def count(hinge: Hinge, height: int, width: int, mass_kg: float) -> HingeCount:
    """Return the hinges a door needs: the larger of the height rule and the mass rule, one more for a wide door.

    `height` and `width` in nm. The tables are the hinge's own data (makers' charts disagree). Raises
    `OutsideLimits` for a door heavier than the mass table reaches.
    """
    within("hinge-mass", "door mass", mass_kg, 0.0, hinge.count_by_mass[-1].up_to_kg, "kg", "hinge-planning-pages")
    by_height = next(row.count for row in hinge.count_by_height if row.up_to is None or height <= row.up_to)
    by_mass = next(row.count for row in hinge.count_by_mass if mass_kg <= row.up_to_kg)
    for_width = 1 if width > hinge.wide_door_from else 0
    return HingeCount(max(by_height, by_mass) + for_width, by_height, by_mass, for_width)


def places(hinge: Hinge, height: int, number: int) -> tuple[int, ...]:
    """Return hinge centres from the door's lower end (nm): the outer two `from_door_end` in, the others between evenly.

    Common practice. Equal spaces take the floor; the last space takes the remainder.
    """
    low, high = hinge.from_door_end, height - hinge.from_door_end
    if number < 2:
        raise OutsideLimits("hinge-number", "hinges", number, 2, None, "", "common-practice")
    if high - low < (number - 1) * hinge.screw_spacing:
        shortest = 2 * hinge.from_door_end + (number - 1) * hinge.screw_spacing
        raise OutsideLimits(
            "hinge-door-height", "door height", height / 1e6, shortest / 1e6, None, "mm", "hinge-planning-pages"
        )
    step = (high - low) // (number - 1)
    return (*(low + step * k for k in range(number - 1)), high)


def pull_on_top_hinge_n(mass_kg: float, width_mm: float, apart_mm: float) -> float:
    """Return the horizontal pull on the top hinge of a closed door: m g (w/2) / s. Statics, own derivation.

    The outer hinges stand `apart_mm` apart and carry the couple alone.
    """
    within("hinge-apart", "distance between outer hinges", apart_mm, 1.0, None, "mm", "statics")
    return weight_n(mass_kg) * (width_mm / 2.0) / apart_mm


def racking_moment_n_mm(load_n: float = RACKING_LOAD_N, arm_mm: float = RACKING_ARM_MM) -> float:
    """Return the racking moment of the door test, 65 lb × 10 in = 650 in·lb.

    ANSI/KCMA A161.1 6.1 (document read).
    """
    return load_n * arm_mm


def racking_pull_n(apart_mm: float, mass_kg: float, width_mm: float) -> float:
    """Return the pull on the top hinge under the racking test load and the door's own mass together."""
    within("hinge-apart", "distance between outer hinges", apart_mm, 1.0, None, "mm", "statics")
    return racking_moment_n_mm() / apart_mm + pull_on_top_hinge_n(mass_kg, width_mm, apart_mm)
