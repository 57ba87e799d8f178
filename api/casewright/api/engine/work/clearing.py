"""Stock with defects or a taper cut into its clean pieces, before all else is cut.

A full sheet is trimmed along one edge and one end when it comes to the saw.
"""

from collections.abc import Mapping, Sequence
from itertools import groupby

from casewright.api.engine.work.machines import sawn_at
from casewright.api.stock import Begun, Saws, StraightCut, caution_texts, in_place_of_a_table_saw, straight_cautions
from casewright.sdk.model import FirstCut, FirstCutFor, Stock, StockPiece
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece

__all__ = ["clearing"]

LAID: Mapping[FirstCutFor, tuple[str, ...]] = {
    "edge": (),
    "taper": ("Measure from the straight edge: what is not parallel to it comes off.",),
    "defect": ("Lay it so that the defect lies beyond the blade, not on the side that is measured.",),
}
"""How a piece is laid for a cut, by what the cut is for."""


def clearing(stock: Stock, begun: Sequence[Begun], saws: Saws) -> list[Operation]:
    """Return the operations that cut stock into its clean pieces, unnumbered: like copies at one setting together."""
    out = []
    for _, copies in groupby(begun, key=lambda one: (one.stock, [(cut.along, cut.fence) for cut in one.cuts])):
        alike = tuple(copies)
        if alike[0].stock.piece.kind == "sheet" and stock.edge_trim:
            setting = Setting(depth=stock.edge_trim, kerf=stock.kerf)
            on = tuple([Workpiece(piece=one.name, keeps=one.name) for one in alike])
            out.append(Operation(0, Stage.CUT, Machine.TRACK_SAW, Action.TRIM, setting, on))
        together = zip(*[one.cuts for one in alike], strict=True)
        out += [_cut(stock, alike[0].stock.piece, cuts, saws) for cuts in together]
    return out


def _cut(stock: Stock, piece: StockPiece, cuts: Sequence[FirstCut], saws: Saws) -> Operation:
    """Return one first cut of like pieces. A board with rough edges has none to ride a fence: a track is laid on it."""
    cut, rip = cuts[0], cuts[0].along == "length"
    better = in_place_of_a_table_saw(piece, cut.run, cut.across) if rip and piece.kind == "board" else ()
    straight = StraightCut(cut.run, cut.across, cut.fence, better)
    rough = piece.kind == "board" and piece.surfaced != "all-sides"
    saw = Machine.TRACK_SAW if rip and rough else saws.machine(straight)
    on = tuple([Workpiece(piece=one.piece, keeps=one.keeps, leaves=one.leaves) for one in cuts])
    cautions = caution_texts((caution, one.piece) for caution in straight_cautions(straight, saw) for one in on)
    return Operation(
        number=0,
        stage=Stage.CUT,
        machine=saw,
        action=Action.RIP if rip else Action.CROSSCUT,
        setting=sawn_at(saw, cut.fence, stock.kerf),
        on=on,
        cautions=(*LAID[cut.purpose], *cautions),
    )
