"""Doors on cup hinges: how many, where, and what a racking test would do: the one rule that plans follow.

Lengths that enter geometry in nm.
"""

from dataclasses import dataclass

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import N_PER_LBF, weight_n
from casewright.sdk.materials import Hinge, HingeArm

RACKING_LOAD_N = 65.0 * N_PER_LBF
RACKING_ARM_MM = 254.0
"""ANSI/KCMA A161.1 6.1: 65 lb at 10 in from the hinge line."""


LEAST_HINGES = 2

LEAST_SPACING = 60_000_000
"""Hinge centres closer than this (60 mm, in nm) leave no room for cup and screws (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class HingeCount:
    """Hinges for a door: `count` is the larger of the two rules, plus one for a wide door.

    `too_heavy` marks a door heavier than the mass table reaches: one hinge more than the table's last is no promise.
    """

    count: int
    by_height: int
    by_mass: int
    for_width: int
    too_heavy: bool


def count_hinges(hinge: Hinge, height: int, width: int, mass_kg: float) -> HingeCount:
    """Return the hinges a door needs: the larger of the height rule and the mass rule, one more for a wide door.

    `height` and `width` in nm. The tables are the hinge's own data (makers' charts disagree); beyond the last row of
    either one hinge more is counted.
    """
    tallest, heaviest = hinge.count_by_height[-1], hinge.count_by_mass[-1]
    heights = (row.count for row in hinge.count_by_height if row.up_to is None or height <= row.up_to)
    by_height = next(heights, tallest.count + 1)
    by_mass = next((row.count for row in hinge.count_by_mass if mass_kg <= row.up_to_kg), heaviest.count + 1)
    for_width = 1 if width > hinge.wide_door_from else 0
    count = max(LEAST_HINGES, by_height, by_mass) + for_width
    return HingeCount(count, by_height, by_mass, for_width, mass_kg > heaviest.up_to_kg)


@dataclass(frozen=True, slots=True)
class ArmAndPlate:
    """The arm and the plate that a door is hung by, and what the hinge's own adjustment must make up, in nm."""

    arm: HingeArm
    plate_height: int
    adjust: int


def pick_arm(hinge: Hinge, overlay: int, edge: int) -> ArmAndPlate | None:
    """Return the arm and plate whose overlay comes nearest to a door's (nm; less than nothing for an inset one).

    Overlay = the arm's constant + `edge`, the bore's edge distance, less the plate's height (hinge-planning-pages). Of
    equals the lower plate. None for a hinge without arms on record.
    """
    ways = [
        ArmAndPlate(arm, height, overlay - (arm.constant + edge - height))
        for arm in hinge.arms
        for height in hinge.plate_heights
    ]
    return min(ways, key=lambda way: (abs(way.adjust), way.plate_height), default=None)


def most_hinges(hinge: Hinge, height: int) -> int:
    """Return how many hinges a door's height (nm) takes with their centres `LEAST_SPACING` apart, two at least."""
    between = height - 2 * min(hinge.from_door_end, height // 4)
    return max(LEAST_HINGES, 1 + between // LEAST_SPACING)


def place_hinges(hinge: Hinge, height: int, count: int) -> tuple[int, ...]:
    """Return hinge centres from the door's lower end (nm): the outer two `from_door_end` in, the others between evenly.

    Common practice. On a short door the outer two stand a quarter of its height in. Takes two hinges or more.
    """
    first = min(hinge.from_door_end, height // 4)
    between = height - 2 * first
    return tuple([first + between * k // (count - 1) for k in range(count)])


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
