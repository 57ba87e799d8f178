"""Which saw of the shop makes each cut of a cutting plan, and which side of the blade is measured for it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from casewright.api.stock import Saws, StraightCut
from casewright.sdk.model import Machine, StockPlan

__all__ = ["OTHER", "saws_of_cuts", "within_reach"]

OTHER: Mapping[Literal["makes", "leaves"], Literal["makes", "leaves"]] = {"makes": "leaves", "leaves": "makes"}
"""The side that rides a fence where the other does not."""


def within_reach(plan: StockPlan, saws: Saws) -> StockPlan:
    """Return a plan in which a cut that no saw of the shop reaches is measured by its other side, where one then does.

    What is beyond the blade then rides the fence, and what is kept is beyond it.
    """
    layouts = []
    for layout in plan.layouts:
        cuts = []
        for cut in layout.cuts:
            rest = cut.across - cut.fence - cut.kerf
            lacking = not saws.has(saws.machine(StraightCut(cut.run, cut.across, cut.fence)))
            if lacking and rest > 0 and cut.leaves and saws.has(saws.machine(StraightCut(cut.run, cut.across, rest))):
                cut = replace(cut, fence=rest, rides=OTHER[cut.rides])
            cuts.append(cut)
        layouts.append(replace(layout, cuts=tuple(cuts)))
    return replace(plan, layouts=tuple(layouts))


def saws_of_cuts(plan: StockPlan, saws: Saws) -> dict[int, Machine]:
    """Return the saw that makes each cut, by its number: for all cuts of a piece as it lies before the first."""
    out = {}
    for layout in plan.layouts:
        across: dict[str, int] = {}
        for cut in layout.cuts:
            across[cut.piece] = max(across.get(cut.piece, 0), cut.across)
        for cut in layout.cuts:
            out[cut.number] = saws.machine(StraightCut(cut.run, across[cut.piece], cut.fence))
    return out
