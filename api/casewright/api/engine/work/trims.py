"""Which cuts of a cutting plan trim a sheet, or straighten the edge of a board, before all others."""

from collections.abc import Mapping, Sequence

from casewright.sdk.model import SawCut, StockLayout, StockPlan

__all__ = ["edge_cuts", "first_after", "trims_of"]

EDGES = 2
"""A full sheet is trimmed on so many edges: a long one and an end."""


def trims_of(layout: StockLayout) -> list[SawCut]:
    """Return the cuts that trim a full sheet: one of each piece from the whole sheet inward."""
    by_piece = {cut.piece: cut for cut in layout.cuts}
    out: list[SawCut] = []
    piece = layout.tree
    while len(out) < EDGES:
        out.append(by_piece[piece.label])
        piece = piece.inside[0]
    return out


def first_after(plan: StockPlan, trims: Mapping[int, Sequence[SawCut]]) -> dict[int, int]:
    """Return the number of the first cut after its trims of each layout that is trimmed."""
    trimmed = {cut.number for cuts in trims.values() for cut in cuts}
    return {
        layout.number: min((cut.number for cut in layout.cuts if cut.number not in trimmed), default=0)
        for layout in plan.layouts
        if layout.number in trims
    }


def edge_cuts(layout: StockLayout, depth: int) -> list[SawCut]:
    """Return the cuts that straighten an edge: so much comes off the width of each piece as wide as its board."""
    left = layout.width - depth
    by_piece = {cut.piece: cut for cut in reversed(layout.cuts)}
    return [
        by_piece[piece.label]
        for piece in (layout.tree, *layout.tree.inside)
        if piece.dy == layout.width and piece.inside and (piece.inside[0].dx, piece.inside[0].dy) == (piece.dx, left)
    ]
