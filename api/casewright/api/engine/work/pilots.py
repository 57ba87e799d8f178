"""Holes for the wood screws that a step drives, in words: which bit for the shank and the thread, and how deep."""

from collections.abc import Iterable

from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.wall_fixing import PILOT
from casewright.sdk.hardware import Screw
from casewright.sdk.model import HardwareLine
from casewright.sdk.units import NM_PER_UNIT

__all__ = ["pilot_words"]


def pilot_words(steps: Steps, lines: Iterable[HardwareLine]) -> str:
    """Return the holes of the wood screws among hardware, each kind once; nothing where there are none."""
    screws = {line.item: steps.made.screws[line.item] for line in lines if line.item in steps.made.screws}
    holes = joined([_holes(steps, screw) for screw in screws.values()]) if screws else ""
    return f"; holes first: {holes}" if holes else ""


def _holes(steps: Steps, screw: Screw) -> str:
    """Return the bits of one screw: one its shank passes through, and one its thread bites in."""
    step = int(NM_PER_UNIT[steps.job.units] * steps.job.tape)
    clear = -(-screw.diameter // step) * step
    thread, deep = steps.text(round(screw.root * PILOT)), steps.text(screw.length)
    return (
        f"for {screw.title}, a {steps.text(clear)} bit through the piece under its head, then a {thread} bit to {deep} "
        "deep in all"
    )
