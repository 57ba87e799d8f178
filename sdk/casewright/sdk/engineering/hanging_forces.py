"""The free body of a hung cabinet: from its weight to the load on each fastener. Newtons, millimetres, degrees.

All own derivation from statics; the page `worked-hanging` works one case by hand.
"""

import math
from collections.abc import Sequence

from casewright.sdk.engineering.limits import within

BEVEL_LEAST, BEVEL_MOST = 20.0, 60.0
"""Bevels from horizontal that the hook rules are used for: common practice, no source."""

_NO_TWIST = 1e-6
"""A twist in N·mm that is none."""

_TWIST = "the twist on a lone fastener by a load to one side of it, which two over one another in the stud would take,"


def overturning_pull_n(weight_n: float, centre_out_mm: float, height_mm: float) -> float:
    """Return W e/h: the inward pull that keeps a cabinet from tipping off the wall.

    `centre_out_mm` e from the wall's face, `height_mm` h of the pull above the lowest bearing. The upward force's own
    arm is left out, which is safe.
    """
    within("hanging-weight", "weight", weight_n, 0.0, None, "N", "statics")
    within("hanging-centre", "centre of gravity from the wall", centre_out_mm, 0.0, None, "mm", "statics")
    within("hanging-height", "fasteners above the lowest bearing", height_mm, 1.0, None, "mm", "statics")
    return weight_n * centre_out_mm / height_mm


def hook_pull_n(weight_n: float, bevel_deg: float, friction_deg: float = 0.0) -> float:
    """Return W tan(b - φ): the inward pull a bevel b from horizontal gives under a weight; 0 where friction takes all.

    φ = 0 is the most the weight alone makes the bevel pull on the fasteners. Valid for bevels of 20 to 60 degrees and
    friction angles to 45.
    """
    within("hanging-weight", "weight", weight_n, 0.0, None, "N", "statics")
    b = within("hook-bevel", "bevel", bevel_deg, BEVEL_LEAST, BEVEL_MOST, "°", "common-practice")
    f = within("hook-friction", "friction angle", friction_deg, 0.0, 45.0, "°", "statics")
    return weight_n * math.tan(math.radians(max(0.0, b - f)))


def ride_up_pull_n(weight_n: float, bevel_deg: float, friction_deg: float = 0.0) -> float:
    """Return W tan(b + φ): the pull away from the wall at which a hooked cabinet rides up a bevel b from horizontal.

    Friction resists riding up, so φ = 0 is what the hook surely holds. Infinite where b + φ reaches 90 degrees.
    """
    hook_pull_n(weight_n, bevel_deg, friction_deg)
    slope = bevel_deg + friction_deg
    return weight_n * math.tan(math.radians(slope)) if slope < 90.0 else math.inf


def hold_down_n(weight_n: float, needed_n: float, bevel_deg: float) -> float:
    """Return the downward force that lets a frictionless bevel hold `needed_n`."""
    return max(0.0, needed_n / hook_pull_n(1.0, bevel_deg) - weight_n)


def flat_zone_mm(width_mm: float, thickness_mm: float, bevel_deg: float) -> float:
    """Return how much of a wall cleat's height has its full thickness: w - t tan b."""
    zone = width_mm - thickness_mm * math.tan(math.radians(bevel_deg))
    return within("cleat-width", "height of the cleat below its bevel", zone, 1.0, None, "mm", "statics")


def cleat_moment_n_mm(pull_n: float, weight_n: float, width_mm: float, thickness_mm: float, bevel_deg: float) -> float:
    """Return the moment that turns a wall cleat outward about its lower back edge.

    The bevels lie flat, so the load acts at the bevel's middle: the pull at height w - (t tan b)/2, the weight t/2 out.
    """
    middle = width_mm - thickness_mm * math.tan(math.radians(bevel_deg)) / 2.0
    return pull_n * middle + weight_n * thickness_mm / 2.0


def row_pulls_n(pull_n: float, moment_n_mm: float, rows_up_mm: Sequence[float]) -> tuple[float, ...]:
    """Return the pull on each row of fasteners: M d_i/Σd², never less than an even share of the pull (prying).

    `rows_up_mm` are the rows' heights above the edge that the strip turns about.
    """
    squares = math.fsum(d * d for d in rows_up_mm)
    within("fastener-rows", "fastener above the turning edge", min(rows_up_mm), 1e-6, None, "mm", "statics")
    even = pull_n / len(rows_up_mm)
    return tuple(max(even, moment_n_mm * d / squares) for d in rows_up_mm)


def column_shares(columns_mm: Sequence[float], load_at_mm: float, left_mm: float, right_mm: float) -> tuple[float, ...]:
    """Return each column's share of a pull that acts at `load_at_mm` along the strip.

    One column: the strip pries about its far end, 1 + x/a. More: 1/n + x dx/Σdx² about their middle; what would push
    is left to the wall. The shares add to 1 or more.
    """
    middle = math.fsum(columns_mm) / len(columns_mm)
    offset = load_at_mm - middle
    if len(columns_mm) == 1:
        arm = middle - left_mm if offset > 0 else right_mm - middle
        within("cleat-overhang", "strip beyond the stud on the far side", arm, 1.0, None, "mm", "statics")
        return (1.0 + abs(offset) / arm,)
    squares = math.fsum((x - middle) ** 2 for x in columns_mm)
    return tuple(max(0.0, 1.0 / len(columns_mm) + offset * (x - middle) / squares) for x in columns_mm)


def shear_vectors_n(
    weight_n: float, load_at_mm: float, points_mm: Sequence[tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    """Return (sideways, down) on each fastener: the weight shared evenly, and its twist about the group's middle.

    `points_mm` are (x, z), x right and z up. For two fasteners one over the other, s apart, each carries
    sqrt((W/2)² + (W x/s)²). One fastener alone can take no twist.
    """
    n = len(points_mm)
    mid_x = math.fsum(x for x, _ in points_mm) / n
    mid_z = math.fsum(z for _, z in points_mm) / n
    twist = weight_n * (load_at_mm - mid_x)
    polar = math.fsum((x - mid_x) ** 2 + (z - mid_z) ** 2 for x, z in points_mm)
    if polar == 0.0:
        if not abs(twist) <= _NO_TWIST:  # what is no number is outside too
            within("fastener-group", _TWIST, abs(twist), None, 0.0, "N·mm", "statics")
        return tuple((0.0, weight_n / n) for _ in points_mm)
    return tuple((twist * (z - mid_z) / polar, weight_n / n + twist * (x - mid_x) / polar) for x, z in points_mm)
