"""Holes for the wood screws that a step drives, in words: which bit for the shank and the thread, and how deep."""

from collections.abc import Iterable

from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.wall_fixing import PILOT
from casewright.sdk.engineering.placement import screw_lead_hole_mm
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.hardware import Screw
from casewright.sdk.model import HardwareLine
from casewright.sdk.units import NM_PER_UNIT

__all__ = ["pilot_words"]


def pilot_words(steps: Steps, lines: Iterable[HardwareLine], into: Iterable[str]) -> str:
    """Return the holes of the wood screws among hardware, each kind once; nothing where there are none.

    `into` are keys of the materials that their threads may bite in; the densest of them decides.
    """
    screws = {line.item: steps.made.screws[line.item] for line in lines if line.item in steps.made.screws}
    gravity = max((steps.made.gravities.get(key, 0.0) for key in into), default=0.0)
    holes = joined([_holes(steps, screw, gravity) for screw in screws.values()]) if screws else ""
    return f"; holes first: {holes}" if holes else ""


def _holes(steps: Steps, screw: Screw, gravity: float) -> str:
    """Return the bits of one screw: one its shank passes through, and one its thread bites in.

    In wood that asks for no lead hole one is bored all the same, at the least share of the root.
    """
    step = int(NM_PER_UNIT[steps.job.units] * steps.job.tape)
    clear = -(-screw.diameter // step) * step
    lead = screw_lead_hole_mm(mm(screw.root), gravity) or PILOT * mm(screw.root)
    thread, deep = steps.text(round(lead * NM_PER_MM)), steps.text(screw.length)
    return (
        f"for {screw.title}, a bit of {steps.text(clear)} through the piece under its head, then one of {thread} to "
        f"{deep} deep in all"
    )
