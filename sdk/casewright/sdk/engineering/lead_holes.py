"""Which holes are bored before a screw or lag is driven through a strip into a stud, by its size and both woods."""

from dataclasses import dataclass
from math import fsum

from casewright.sdk.engineering.placement import lag_lead_hole_mm, screw_lead_hole_mm
from casewright.sdk.engineering.units import mm
from casewright.sdk.materials import Lag, Screw

DENSE = 0.6
"""Specific gravity from which a screw's holes take its full diameters."""


@dataclass(frozen=True, slots=True)
class LeadHoles:
    """The two holes of one fastener, in mm: `shank` through the strip, `thread` in the stud."""

    shank_mm: float
    thread_mm: float
    source: str


def lead_holes(fastener: Screw | Lag, g_strip: float, g_stud: float) -> LeadHoles:
    """Return the holes for a fastener loaded sideways and in withdrawal; gravities are oven-dry ones.

    Wood screws, NDS 2018 12.1.5 (document read): sideways in G >= 0.6 a shank hole of D and a thread hole of the root,
    in lighter wood 7/8 of both; in withdrawal 90 % of the root above 0.6, 70 % from 0.5: the lesser is taken. Lags,
    12.1.4: the shank's own diameter, and the middle of the range for the thread.
    """
    diameter, root = mm(fastener.diameter), mm(fastener.root)
    if isinstance(fastener, Lag):
        return LeadHoles(diameter, fsum(lag_lead_hole_mm(diameter, g_stud)) / 2.0, "nds-2018-12-1")
    sideways = root if g_stud >= DENSE else 0.875 * root
    pulled = screw_lead_hole_mm(root, g_stud)
    shank = diameter if g_strip >= DENSE else 0.875 * diameter
    return LeadHoles(shank, min(sideways, pulled) if pulled else sideways, "nds-2018-screw-lead-holes")
