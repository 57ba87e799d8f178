"""Words for fixing at the wall: where each screw of a cleat or a strip goes, its holes, and how a cabinet is hung."""

from collections.abc import Sequence

from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.steps import Steps
from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase
from casewright.sdk.engineering.hanging_places import anti_lift_stud
from casewright.sdk.engineering.lead_holes import lead_holes
from casewright.sdk.hardware import Lag, Screw
from casewright.sdk.model import HungCabinet
from casewright.sdk.units import MM

__all__ = ["PILOT", "anti_lift_words", "cleat_words", "screw_words"]

PILOT = 0.7
"""Pilot hole of a wood screw as a share of its root, where its wood is not asked for: NDS 2018, 12.1.5.2 (from
memory)."""
UNKNOWN = 0.5
"""Specific gravity that holes are bored for where the wood's own is not on record: a middle one."""


def cleat_words(steps: Steps, name: str, hung: HungCabinet | None) -> str:
    """Return how a wall cleat is screwed on: where it lies, and each of its screws."""
    do = f"Screw the wall cleat of {name} level to the wall"
    if hung is None:
        return f"{do}, into the studs, at the marked points"
    strip = hung.case.strip
    edge = _text(steps, hung.case.strip_over_floor_mm)
    left = _text(steps, strip.left_mm)
    place = f"bottom edge {edge} over the floor, left end {left} from the wall's left end"
    return f"{do}: {place}; {screw_words(steps, hung.case, hung.fasteners)}"


def screw_words(steps: Steps, case: HangingCase, fasteners: Sequence[FastenerUse]) -> str:
    """Return the screws of a strip on the wall with their places and holes."""
    places: dict[tuple[float, ...], list[str]] = {}
    ups: dict[float, list[float]] = {}
    for one in fasteners:
        ups.setdefault(one.at_mm, []).append(one.up_mm)
    for at, heights in ups.items():
        places.setdefault(tuple(heights), []).append(_text(steps, at))
    where = "; ".join(
        f"at {joined(spots)} from the wall's left end, {joined([_text(steps, up) for up in heights])} up from the "
        "strip's bottom edge"
        for heights, spots in places.items()
    )
    count = len(fasteners)
    if case.wall.kind == "masonry":
        return f"{count} × anchor {where}, set as their approval says"
    if case.fastener is None or not count:
        return "with the fasteners that a licensed person names"
    return f"{count} × {case.fastener.title} {where}; {_holes(steps, case, case.fastener)}"


def anti_lift_words(steps: Steps, hung: HungCabinet) -> str:
    """Return the fastener that stops a cabinet lifting off, and where it goes; nothing where the hook needs none."""
    fastener = hung.case.anti_lift
    if fastener is None:
        return ""
    stud = anti_lift_stud(hung.case)
    where = "a stud" if stud is None else f"the stud at {_text(steps, stud)} from the wall's left end"
    return f"1 × {fastener.title} through the anti-lift strip on the top into {where}; " + _holes(
        steps, hung.case, fastener
    )


def _holes(steps: Steps, case: HangingCase, fastener: Screw | Lag) -> str:
    stud = case.wall.stud
    gravities = case.strip.stuff.g_oven_dry or UNKNOWN, (stud.g_oven_dry if stud else None) or UNKNOWN
    holes = lead_holes(fastener, *gravities)
    clear, lead = _text(steps, holes.shank_mm), _text(steps, holes.thread_mm)
    return f"first a hole of {clear} through the strip and one of {lead} into the stud, as deep as the screw reaches"


def _text(steps: Steps, mm: float) -> str:
    return steps.text(round(mm * MM))
