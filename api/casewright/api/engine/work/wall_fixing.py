"""Words for fixing at the wall: where each screw of a cleat or a strip goes, its holes, and how a cabinet is hung."""

from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.steps import Steps
from casewright.sdk.hardware import Lag, Screw
from casewright.sdk.model import HungCabinet
from casewright.sdk.units import MM

__all__ = ["PILOT", "anti_lift_words", "cleat_words", "screw_words"]

LEAD = 0.65
"""Lead hole of a lag screw's thread as a share of its diameter: within what NDS 2018, 12.1.4.2 allows in softwood and
in hardwood, 40 to 70, 60 to 75 and 65 to 85 % (from memory)."""
PILOT = 0.7
"""Pilot hole of a wood screw as a share of its root: NDS 2018, 12.1.5.2, in softwood (from memory)."""


def cleat_words(steps: Steps, name: str, hung: HungCabinet | None) -> str:
    """Return how a wall cleat is screwed on: where it lies, and each of its screws."""
    do = f"Screw the wall cleat of {name} level to the wall"
    if hung is None:
        return f"{do}, into the studs, at the marked points"
    strip = hung.case.strip
    edge = _text(steps, hung.case.bottom_mm + strip.low_mm)
    left = _text(steps, strip.left_mm)
    place = f"bottom edge {edge} over the floor, left end {left} from the wall's left end"
    return f"{do}: {place}; {screw_words(steps, hung)}"


def screw_words(steps: Steps, hung: HungCabinet) -> str:
    """Return the screws of a strip on the wall with their places and holes."""
    case = hung.case
    places: dict[tuple[float, ...], list[str]] = {}
    ups: dict[float, list[float]] = {}
    for one in hung.fasteners:
        ups.setdefault(one.at_mm, []).append(one.up_mm)
    for at, heights in ups.items():
        places.setdefault(tuple(heights), []).append(_text(steps, at))
    where = "; ".join(
        f"at {joined(spots)} from the wall's left end, {joined([_text(steps, up) for up in heights])} up from the "
        "strip's bottom edge"
        for heights, spots in places.items()
    )
    count = len(hung.fasteners)
    if case.wall.kind == "masonry":
        return f"{count} × anchor {where}, set as their approval says"
    if case.fastener is None or not count:
        return "with the fasteners that a licensed person names"
    return f"{count} × {case.fastener.title} {where}; {_holes(steps, case.fastener)}"


def anti_lift_words(steps: Steps, hung: HungCabinet) -> str:
    """Return the fastener that stops a cabinet lifting off, and where it goes; nothing where the hook needs none."""
    fastener = hung.case.anti_lift
    if fastener is None:
        return ""
    studs = [_text(steps, at) for at in dict.fromkeys(one.at_mm for one in hung.fasteners)]
    one_of = (
        "a stud" if not studs else f"the stud at {studs[0]}" if len(studs) == 1 else f"a stud, at {' or '.join(studs)}"
    )
    return f"1 × {fastener.title} through the strip under the top into {one_of} from the wall's left end; " + _holes(
        steps, fastener
    )


def _holes(steps: Steps, fastener: Screw | Lag) -> str:
    if isinstance(fastener, Lag):
        clear, lead = steps.text(fastener.diameter), steps.text(round(fastener.diameter * LEAD))
        return (
            f"first a hole of {clear} through the strip and one of {lead} into the stud, as deep as the screw reaches"
        )
    return f"first a pilot hole of {steps.text(round(fastener.root * PILOT))}, as deep as the screw reaches"


def _text(steps: Steps, mm: float) -> str:
    return steps.text(round(mm * MM))
