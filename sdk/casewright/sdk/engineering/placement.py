"""Where a fastener may stand and how deep it must go. Lengths in mm unless the name says otherwise; D is nominal."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import MM_PER_IN

SMALL_MM = 0.25 * MM_PER_IN
Kind = Literal["screw", "lag", "nail"]


def least_penetration_mm(kind: Kind, diameter_mm: float) -> float:
    """Return the least penetration: 6 D with the tip (screw, nail), 4 D without it (lag).

    NDS 2018 12.1.5.6, 12.1.6.4, 12.1.4.6 (document read).
    """
    return (4.0 if kind == "lag" else 6.0) * diameter_mm


def bearing_length_mm(penetration_mm: float, tip_mm: float) -> float:
    """Return l_m = p - E/2, E the tapered tip (2 D for wood screws and nails). Source: `nds-2018-12-3-5`."""
    return penetration_mm - tip_mm / 2.0


@dataclass(frozen=True, slots=True)
class Spacing:
    """Least distances in mm: `end` along the grain to the end, `edge` across it, `in_row` along the load.

    `end` and `in_row` are for full value, `end_least` and `in_row_least` what must be kept in any case, `loaded_edge`
    the edge the load pushes toward. `advisory` marks figures that are guidance, not clause.
    """

    end: float
    end_least: float
    edge: float
    loaded_edge: float
    in_row: float
    in_row_least: float
    advisory: bool
    source: str


@lru_cache(maxsize=64)
def spacing(diameter_mm: float, *, softwood: bool = True, along_grain: bool = False) -> Spacing:
    """Return placement distances.

    From 1/4 in: NDS 2018 12.5.1 (document read): end 7 D softwood or 5 D hardwood along the grain, 4 D across, never
    under half of it; in a row 4 D and never under 3 D; edge 1.5 D, loaded edge 4 D across. Below 1/4 in the clause only
    says "no splitting"; the figures then are the commentary's for lead holes (from memory): end 10 D along, 5 D across,
    edge 2.5 D, in a row along the grain 10 D; under 5 D of EN 1995-1-1 Table 8.2 for lead holes (from memory) none is
    placed.
    """
    d = within("placement-diameter", "diameter", diameter_mm, 1.0, MM_PER_IN, "mm", "nds-2018-12-5-1")
    if d < SMALL_MM:
        end = 10.0 if along_grain else 5.0
        return Spacing(end * d, end * d, 2.5 * d, 2.5 * d, 10.0 * d, 5.0 * d, True, "nds-2018-commentary-placement")
    end = (7.0 if softwood else 5.0) if along_grain else 4.0
    loaded = 1.5 if along_grain else 4.0
    return Spacing(end * d, end * d / 2.0, 1.5 * d, loaded * d, 4.0 * d, 3.0 * d, False, "nds-2018-12-5-1")


def row_factor(apart_mm: float, diameter_mm: float) -> float:
    """Return C_Δ for the distance within a row: 1 below 1/4 in; else actual over 4 D, refused under 3 D.

    NDS 2018 12.5.1.2 and Table 12.5.1B (document read); below 1/4 in refused under 5 D (see `spacing`).
    """
    room = spacing(diameter_mm)
    within("fastener-spacing", "distance within a row", apart_mm, room.in_row_least, None, "mm", room.source)
    return 1.0 if room.advisory else min(1.0, apart_mm / room.in_row)


def screw_lead_hole_mm(root_mm: float, g: float) -> float:
    """Return the lead hole a screw in withdrawal wants; 0 where none is needed.

    90 % of root for G > 0.6, 70 % for 0.5 < G <= 0.6, optional at and below 0.5: NDS 2018 (from memory).
    """
    if g > 0.6:
        return 0.9 * root_mm
    return 0.7 * root_mm if g > 0.5 else 0.0


def lag_lead_hole_mm(diameter_mm: float, g: float) -> tuple[float, float]:
    """Return the range of the lead hole for a lag's thread. NDS 2018 12.1.4 (document read).

    65-85 % of D for G > 0.6, 60-75 % for 0.5 < G <= 0.6, 40-70 % at and below 0.5.
    """
    low, high = (0.65, 0.85) if g > 0.6 else (0.60, 0.75) if g > 0.5 else (0.40, 0.70)
    return low * diameter_mm, high * diameter_mm
