"""Which saw of the shop makes each cut of a cutting plan, and which side of the blade is measured for it."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from casewright.api.engine.work.milling import Milled, is_under
from casewright.api.stock import Saws, StraightCut, in_place_of_a_table_saw
from casewright.sdk.model import Machine, Stock, StockLayout, StockPlan

__all__ = ["OTHER", "better_saws", "saws_of_cuts", "within_reach"]

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


def better_saws(plan: StockPlan, stock: Stock, milled: Milled) -> dict[int, tuple[Machine, ...]]:
    """Return what is better than a table saw for each rip of a board that is not flat yet, by the number of the cut."""
    boards = {piece.id: piece for piece in stock.boards if piece.crooked}
    out = {}
    for layout in plan.layouts:
        if layout.stock in boards:
            across = _across(layout)
            rips = [cut for cut in layout.cuts if cut.along == "length"]
            for cut in rips:
                if not is_under(milled, layout.number, cut.piece):
                    out[cut.number] = in_place_of_a_table_saw(boards[layout.stock], cut.run, across[cut.piece])
    return out


def saws_of_cuts(plan: StockPlan, saws: Saws, better: Mapping[int, tuple[Machine, ...]]) -> dict[int, Machine]:
    """Return the saw that makes each cut, by its number: for all cuts of a piece as it lies before the first.

    `better` are the saws that some cuts are better made with than with a table saw.
    """
    out = {}
    for layout in plan.layouts:
        across = _across(layout)
        for cut in layout.cuts:
            out[cut.number] = saws.machine(
                StraightCut(cut.run, across[cut.piece], cut.fence, better.get(cut.number, ()))
            )
    return out


def _across(layout: StockLayout) -> dict[str, int]:
    """Return how far each piece of a layout reaches across its cuts as it lies before the first of them."""
    across: dict[str, int] = {}
    for cut in layout.cuts:
        across[cut.piece] = max(across.get(cut.piece, 0), cut.across)
    return across
