"""Fasteners pulled straight out: threads from the wood, heads through the wood.

Functions ending `_lb_in` and `_lb` keep the printed inch-pound equation (G on oven-dry mass and volume, D in inches);
those ending `_n_mm` and `_n` wrap them exactly. Design values, before duration and other factors.
"""

import math

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import MM_PER_IN, N_MM_PER_LBF_IN, N_PER_LBF

G_LEAST, G_MOST = 0.31, 0.73
"""Range of oven-dry specific gravity of the withdrawal tables (12.2A to 12.2C; range from memory)."""


def _gravity(g: float, clause: str) -> float:
    return within("fastener-gravity", "specific gravity", g, G_LEAST, G_MOST, "", clause)


def screw_lb_in(g: float, diameter_in: float) -> float:
    """Return 2850 G^2 D, lb per inch of thread in the member. NDS 2018 eq. 12.2-2 (document read).

    Side grain only. Valid for No. 6 to No. 24 (0.138 to 0.372 in) and G 0.31 to 0.73.
    """
    d = within("screw-diameter", "screw diameter", diameter_in, 0.138, 0.372, "in", "nds-2018-12-2-2")
    return 2850.0 * _gravity(g, "nds-2018-12-2-2") ** 2 * d


def lag_lb_in(g: float, diameter_in: float) -> float:
    """Return 1800 G^1.5 D^0.75, lb per inch of thread without the tip. NDS 2018 eq. 12.2-1 (document read).

    Side grain. Valid for 1/4 to 1-1/4 in and G 0.31 to 0.73.
    """
    d = within("lag-diameter", "lag diameter", diameter_in, 0.25, 1.25, "in", "nds-2018-12-2-1")
    return float(1800.0 * _gravity(g, "nds-2018-12-2-1") ** 1.5 * d**0.75)


def screw_n_mm(g: float, diameter_mm: float) -> float:
    """`screw_lb_in` in newtons per millimetre of thread."""
    return screw_lb_in(g, diameter_mm / MM_PER_IN) * N_MM_PER_LBF_IN


def lag_n_mm(g: float, diameter_mm: float) -> float:
    """`lag_lb_in` in newtons per millimetre of thread."""
    return lag_lb_in(g, diameter_mm / MM_PER_IN) * N_MM_PER_LBF_IN


def head_pull_through_lb(g: float, head_in: float, thickness_in: float) -> float:
    """Return the load that draws a round head through a side member. NDS 2018 eqs 12.2-6a, 12.2-6b (document read).

    690 pi D_H G^2 t up to t = 2.5 D_H, 1725 pi D_H^2 G^2 beyond. Valid for heads 0.234 to 0.500 in and members 5/16 to
    1-1/2 in thick (Table 12.2F).
    """
    clause = "nds-2018-12-2-5"
    head = within("pull-through-head", "head diameter", head_in, 0.234, 0.500, "in", clause)
    t = within("pull-through-thickness", "member under the head", thickness_in, 0.3125, 1.5, "in", clause)
    g = _gravity(g, clause)
    if t <= 2.5 * head:
        return 690.0 * math.pi * head * g**2 * t
    return 1725.0 * math.pi * head**2 * g**2


def head_pull_through_n(g: float, head_mm: float, thickness_mm: float) -> float:
    """`head_pull_through_lb` in newtons and millimetres."""
    return head_pull_through_lb(g, head_mm / MM_PER_IN, thickness_mm / MM_PER_IN) * N_PER_LBF
