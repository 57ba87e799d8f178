"""The cut tree of one piece of stock, its pieces numbered and laid out in the order they are cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import Literal

from casewright.api.stock.forest import Block
from casewright.api.stock.request import Demand, ShopLimits, worth_keeping
from casewright.api.stock.saw_settings import MadeCut
from casewright.sdk.model import CutKind, CutPiece, PlacedPart, SawCut


class CutTree:
    """Collects the parts placed, the cuts made and the rests left of one piece of stock.

    `made` gives the cuts of each parted block, by the block's identity, in working order.
    """

    def __init__(
        self, kind: CutKind, parts: Sequence[Demand], made: Mapping[int, list[MadeCut]], limits: ShopLimits
    ) -> None:
        self.kind, self.parts, self.made, self.limits = kind, parts, made, limits
        self.cuts: list[SawCut] = []
        self.placed: list[PlacedPart] = []
        self.rests: list[CutPiece] = []

    def draw(self, block: Block, label: str, x: int, y: int, what: Literal["stock", "piece"] = "piece") -> CutPiece:
        """Give the piece of a block with its lower left corner at x, y."""
        if block.item >= 0:
            part = self.parts[block.item].id
            self.placed.append(PlacedPart(part, x, y, block.dx, block.dy, block.turned))
            return CutPiece(label, "part", x, y, block.dx, block.dy, part)
        made = self.made[id(block)]
        places = [cut.place for cut in made]
        places += [i for i in range(len(block.kids)) if i not in set(places)]
        axis, inside, at = block.axis, [], 0
        starts = self._starts(block)
        for turn, place in enumerate(places):
            kid = block.kids[place]
            start = starts[place] if block.in_order else at
            corner = (x + start, y) if axis == 0 else (x, y + start)
            inside.append(self.draw(kid, f"{label}.{turn + 1}", *corner))
            if turn < len(made):
                self.cuts.append(self._cut(block, label, turn, at))
            at += kid.size(axis) + self.limits.kerf
        if block.rest:
            corner = (x + at, y) if axis == 0 else (x, y + at)
            rest = self._rest(block, _rest_label(block, label), *corner)
            inside.append(rest)
            self.rests.append(rest)
        numbers = tuple(cut.number for cut in made)
        return CutPiece(label, what, x, y, block.dx, block.dy, cuts=numbers, inside=tuple(inside))

    def _starts(self, block: Block) -> list[int]:
        """Give where each kid of a block begins, in the order they are listed."""
        steps = [kid.size(block.axis) + self.limits.kerf for kid in block.kids]
        return list(accumulate(steps, initial=0))[:-1]

    def _cut(self, block: Block, label: str, turn: int, at: int) -> SawCut:
        """Give the cut of a block that is made as the `turn`-th, `at` nm of the block being off by then."""
        made = self.made[id(block)]
        cut, axis = made[turn], block.axis
        _, negative, tool, _ = cut.key
        if turn < len(made) - 1:
            leaves = label
        elif block.exact:
            leaves = f"{label}.{turn + 2}"
        else:
            leaves = _rest_label(block, label) if block.rest else ""
        size = block.kids[cut.place].size(axis)
        own = -negative == size
        return SawCut(
            number=cut.number,
            piece=label,
            makes=f"{label}.{turn + 1}",
            leaves=leaves,
            along="width" if axis == 0 else "length",
            tool=tool,
            fence=-negative,
            rides="makes" if own else "leaves",
            kerf=self.limits.kerf,
            run=block.size(1 - axis),
            across=block.size(axis) - at,
            setting=cut.visit,
        )

    def _rest(self, block: Block, label: str, x: int, y: int) -> CutPiece:
        dx, dy = (block.rest, block.dy) if block.axis == 0 else (block.dx, block.rest)
        kept = not block.milled and worth_keeping(dx, dy, self.limits.keep_offcut)
        return CutPiece(label, "leftover" if kept else "waste", x, y, dx, dy)


def _rest_label(block: Block, label: str) -> str:
    return f"{label}.{len(block.kids) + 1}"
