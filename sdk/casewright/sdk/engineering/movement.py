"""How far solid wood swells and shrinks across the grain, and the room a panel needs in its groove.

Widths in mm, moisture in percent, growth positive.
"""

from dataclasses import dataclass

from casewright.sdk.engineering.limits import OutsideLimits, within

LOWEST_LINEAR = 6.0
HIGHEST_LINEAR = 14.0
FIBRE_SATURATION = 30.0


def change_mm(width_mm: float, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """Return the change of width: D C (M_F - M_I).

    Wood Handbook FPL-GTR-190 (2010) ch. 13 with C_R or C_T of Table 13-5 (document read). Valid for both
    moistures between 6 and 14 %.
    """
    for name, value in (("first moisture", moisture_from), ("last moisture", moisture_to)):
        within("movement-moisture", name, value, LOWEST_LINEAR, HIGHEST_LINEAR, "%", "fpl-190-eq-13-2")
    within("movement-width", "width", width_mm, 0.0, None, "mm", "fpl-190-eq-13-2")
    return width_mm * coefficient * (moisture_to - moisture_from)


def change_by_shrinkage_mm(
    width_mm: float, shrinkage_percent: float, moisture_from: float, moisture_to: float
) -> float:
    """Return the change of width from the total shrinkage S (green to oven-dry, percent).

    D (M_F - M_I) / (30·100/S - 30 + M_I): Wood Handbook FPL-GTR-190 (2010) ch. 13, for moistures outside 6
    to 14 % (from memory). Valid from 0 to 30 % (fibre saturation).
    """
    for name, value in (("first moisture", moisture_from), ("last moisture", moisture_to)):
        within("movement-moisture-wide", name, value, 0.0, FIBRE_SATURATION, "%", "fpl-190-eq-13-3")
    within("movement-shrinkage", "total shrinkage", shrinkage_percent, 0.1, 25.0, "%", "fpl-190-eq-13-3")
    within("movement-width", "width", width_mm, 0.0, None, "mm", "fpl-190-eq-13-3")
    return width_mm * (moisture_to - moisture_from) / (3000.0 / shrinkage_percent - 30.0 + moisture_from)


def shrinkage_from_coefficient(coefficient: float) -> float:
    """Return S = 3000 C / (1 + 20 C), the inverse of `coefficient_from_shrinkage`."""
    c = within("movement-coefficient", "coefficient", coefficient, 0.0, 0.02, "per %", "shrinkage-law")
    return 3000.0 * c / (1.0 + 20.0 * c)


def change_over_mm(width_mm: float, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """Return the change of width over any moisture from 0 to 30 %.

    The linear rule inside 6 to 14 %, the shrinkage rule outside it with S taken back from the coefficient.
    """
    try:
        return change_mm(width_mm, coefficient, moisture_from, moisture_to)
    except OutsideLimits as problem:
        if problem.check_code != "movement-moisture":
            raise
    shrinkage = shrinkage_from_coefficient(coefficient)
    return change_by_shrinkage_mm(width_mm, shrinkage, moisture_from, moisture_to)


@dataclass(frozen=True, slots=True)
class PanelRoom:
    """What a panel loose in grooves does over the year, in mm.

    `grows_mm` and `shrinks_mm` are both positive. `gap_each_side_mm` must stand between panel edge and
    groove bottom when the panel is fitted; `hold_each_side_mm` is what the groove still holds at the driest;
    negative means out.
    """

    grows_mm: float
    shrinks_mm: float
    gap_each_side_mm: float
    hold_each_side_mm: float


def panel_room(
    panel_mm: float,
    coefficient: float,
    fitted_moisture: float,
    driest_moisture: float,
    dampest_moisture: float,
    groove_mm: float,
    gap_mm: float | None = None,
) -> PanelRoom:
    """Return the room a solid panel needs in two facing grooves.

    `panel_mm` is the panel's width across the grain as fitted, `groove_mm` the depth of each groove,
    `gap_mm` the gap left at each groove bottom (None: just what growth needs). The panel is centred; the
    frame is taken as not moving (its stiles move much less over their narrow width).
    """
    within("movement-order", "driest moisture", driest_moisture, None, dampest_moisture, "%", "fpl-190-eq-13-2")
    grows = max(0.0, change_over_mm(panel_mm, coefficient, fitted_moisture, dampest_moisture))
    shrinks = max(0.0, -change_over_mm(panel_mm, coefficient, fitted_moisture, driest_moisture))
    gap = grows / 2.0 if gap_mm is None else gap_mm
    return PanelRoom(
        grows_mm=grows,
        shrinks_mm=shrinks,
        gap_each_side_mm=grows / 2.0,
        hold_each_side_mm=groove_mm - gap - shrinks / 2.0,
    )
