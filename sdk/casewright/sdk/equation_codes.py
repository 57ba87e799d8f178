"""Codes of equations used outside of what they are good for: what it is that is outside, by code."""

from collections.abc import Mapping
from typing import Final

__all__ = ["HOLDING", "UNJUDGED"]

HOLDING: Final[Mapping[str, str]] = {
    "bearing-angle": "an angle to the grain",
    "bearing-area": "a bearing area",
    "bearing-diameter": "a fastener's diameter",
    "cleat-overhang": "a strip beyond the stud on the far side",
    "cleat-width": "a cleat below its bevel",
    "combined-angle": "an angle of load",
    "combined-capacity": "what a fastener carries",
    "combined-load": "a load on a fastener",
    "contents-pressure": "a load on a level",
    "duration-factor": "a load duration factor",
    "fastener-count": "a number of fasteners in a stud",
    "fastener-gravity": "a wood's specific gravity",
    "fastener-group": "the way a lone fastener is loaded",
    "fastener-penetration": "a fastener's depth in the stud",
    "fastener-rows": "a fastener above the turning edge",
    "fastener-spacing": "a distance between fasteners",
    "glue-area": "a glue area",
    "group-count": "a number of fasteners in a row",
    "group-spacing": "a distance in a row",
    "group-stiffness": "the stiffness of a member",
    "hanging-centre": "a centre of gravity",
    "hanging-height": "a height of fasteners",
    "hanging-weight": "a weight",
    "hook-bevel": "a bevel",
    "hook-friction": "a friction angle",
    "lag-diameter": "a lag screw's diameter",
    "pin-arm": "a load off the face",
    "pin-depth": "the depth of a pin's hole",
    "placement-diameter": "a fastener's diameter",
    "pull-through-head": "a fastener's head",
    "pull-through-thickness": "what is under a fastener's head",
    "reduction-diameter": "a fastener's diameter",
    "screw-diameter": "a screw's diameter",
    "tipping-height": "the height of a fixing",
    "tipping-margin": "a margin against tipping",
    "yield-gap": "a gap between faces",
    "yield-input": "what the yield equations take",
}
"""What of a hung or standing cabinet may be outside of what an equation is good for."""
UNJUDGED: Final[Mapping[str, str]] = {
    "beam-creep": "a creep factor",
    "beam-limit": "a sag limit",
    "beam-load": "a load",
    "beam-section": "a section",
    "beam-span": "a span",
    "beam-stiffness": "a stiffness",
    "emc-humidity": "a humidity",
    "emc-temperature": "a temperature",
    "movement-coefficient": "a coefficient of movement",
    "movement-moisture": "a moisture",
    "movement-moisture-wide": "a moisture",
    "movement-order": "the order of moistures",
    "movement-shrinkage": "a shrinkage",
    "movement-width": "a width",
    "nosing-height": "a nosing",
    "shelf-modulus": "a stiffness",
    "shelf-span": "a span",
}
"""The same of a shelf or of wood that moves, which is then only not judged."""
