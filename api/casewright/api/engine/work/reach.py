"""Which saw of the shop makes each cut of a cutting plan, and which side of the blade is measured for it."""

from collections.abc import Collection, Mapping, Set
from dataclasses import replace
from typing import Literal

from casewright.api.engine.work.milling import Milled, is_under
from casewright.api.engine.work.pieces import pieces_in
from casewright.api.stock import Saws, StraightCut, in_place_of_a_table_saw
from casewright.sdk.model import CutPiece, Machine, SawCut, Stock, StockLayout, StockPlan

__all__ = ["OTHER", "better_saws", "saws_of_cuts", "sized_by_a_fence", "within_reach"]

AXES: Set[Literal["length", "width"]] = {"length", "width"}

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
            lacking = not saws.has(saws.machine(StraightCut(cut.run, cut.across, cut.fence)))
            cuts.append((_by_its_other_side(cut, saws) if lacking else None) or cut)
        layouts.append(replace(layout, cuts=tuple(cuts)))
    return replace(plan, layouts=tuple(layouts))


def _by_its_other_side(cut: SawCut, saws: Saws) -> SawCut | None:
    """Return a cut measured by what is beyond the blade, or `None` where nothing is or no saw of the shop does that."""
    rest = cut.across - cut.fence - cut.kerf
    if rest <= 0 or not cut.leaves or not saws.has(saws.machine(StraightCut(cut.run, cut.across, rest))):
        return None
    return replace(cut, fence=rest, rides=OTHER[cut.rides])


def sized_by_a_fence(plan: StockPlan, saws: Saws) -> tuple[StockPlan, dict[int, int]]:
    """Return a plan in which no part is as large as a bought sheet happens to be, where its own side can be measured.

    How far a sheet reaches is what it was sold as, more or less, until a cut square to that makes a piece of it. Where
    such a cut leaves a part beyond the blade, the part rides the fence instead, and what is made of the rest is beyond.
    A distance that a saw is set to for other cuts is not gone back to for that. Beside the plan, by number, what each
    cut that still leaves a part so must leave (nm).
    """
    distances = {cut.fence for layout in plan.layouts for cut in layout.cuts}
    rests: dict[int, int] = {}
    layouts = [_sized_by_a_fence(layout, saws, distances, rests) for layout in plan.layouts]
    return replace(plan, layouts=tuple(layouts)), rests


def _sized_by_a_fence(
    layout: StockLayout, saws: Saws, distances: Collection[int], rests: dict[int, int]
) -> StockLayout:
    if layout.kind != "sheet":
        return layout
    pieces = {piece.label: piece for piece in pieces_in(layout.tree)}
    unsized = {(layout.tree.label, along) for along in AXES}
    cuts = []
    for cut in layout.cuts:
        made, left = (cut.makes, cut.leaves) if cut.rides == "makes" else (cut.leaves, cut.makes)
        if (cut.piece, cut.along) in unsized and left:
            if left != cut.piece and _is_final(pieces[left], cut.along):
                other = _by_its_other_side(cut, saws)
                if other and other.fence not in distances and not _is_final(pieces[made], cut.along):
                    cut, left = other, made
                else:
                    rests[cut.number] = cut.across - cut.fence - cut.kerf
            unsized.add((left, cut.along))
        for along in AXES - {cut.along}:
            if (cut.piece, along) in unsized:
                unsized |= {(made, along), (left, along)}
        cuts.append(cut)
    return replace(layout, cuts=tuple(cuts))


def _is_final(piece: CutPiece, along: Literal["length", "width"]) -> bool:
    """Return whether a piece reaches as far across cuts along one way as a part in it does when it is done."""
    reach = piece.dy if along == "length" else piece.dx
    return any(one.what == "part" and (one.dy if along == "length" else one.dx) == reach for one in pieces_in(piece))


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
