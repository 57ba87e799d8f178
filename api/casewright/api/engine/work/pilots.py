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

__all__ = ["pilot_words", "thread_words"]


def pilot_words(steps: Steps, lines: Iterable[HardwareLine], into: Iterable[str]) -> str:
    """Return the holes of the wood screws among hardware, each kind once; nothing where there are none.

    `into` are keys of the materials that their threads may bite in; the densest of them decides.
    """
    step = int(NM_PER_UNIT[steps.job.units] * steps.job.tape)
    gravity = _gravity(steps, into)
    screws = _screws(steps, lines)
    holes = [
        f"{f'for {screw.title}, ' if len(screws) > 1 else ''}a bit of {steps.text(-(-screw.diameter // step) * step)} "
        f"through the piece under its head, then one of {_thread(steps, screw, gravity)} to "
        f"{steps.text(screw.length)} deep in all"
        for screw in screws
    ]
    return f"; holes first: {joined(holes)}" if holes else ""


def thread_words(steps: Steps, lines: Iterable[HardwareLine], into: Iterable[str]) -> str:
    """Return the holes of wood screws that pass through hardware with holes of its own; nothing where there are none.

    None is deeper than three quarters of its screw, so that the bit does not come through what the screw does not.
    """
    gravity = _gravity(steps, into)
    holes = [
        f"; for {screw.title}, bore {_thread(steps, screw, gravity)}, {steps.text(screw.length * 3 // 4)} deep"
        for screw in _screws(steps, lines)
    ]
    return "".join(holes)


def _screws(steps: Steps, lines: Iterable[HardwareLine]) -> list[Screw]:
    """Return the wood screws among hardware, each kind once."""
    kinds = dict.fromkeys(line.item for line in lines)
    return [steps.made.screws[kind] for kind in kinds if kind in steps.made.screws]


def _gravity(steps: Steps, into: Iterable[str]) -> float:
    return max((steps.made.gravities.get(key, 0.0) for key in into), default=0.0)


def _thread(steps: Steps, screw: Screw, gravity: float) -> str:
    """Return the bit for a screw's thread.

    In wood that asks for no lead hole one is bored all the same, at the least share of the root.
    """
    lead = screw_lead_hole_mm(mm(screw.root), gravity) or PILOT * mm(screw.root)
    return steps.text(round(lead * NM_PER_MM))
