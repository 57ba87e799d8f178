"""Sizes of stock as the packer sees them: which serve a part, what room is on each, and what one counts as bought."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from casewright.api.stock.request import Demand, ShopLimits, minor_units
from casewright.sdk.model import Grade, StockPiece

WORTH: dict[Grade, int] = {"face": 10, "hidden": 9}
"""Whole pieces on hand cost so many times their area, offcuts theirs: better boards are kept for what needs them."""


@dataclass(frozen=True, slots=True)
class Source:
    """A size of stock as the packer sees it: its full size, its usable size, and what stands behind it.

    A board is ripped and then crosscut or, `across`, crosscut and then ripped.
    """

    piece: StockPiece
    room: tuple[int, int]
    trim: int
    across: bool = False

    @property
    def area(self) -> int:
        """Give the full area in square nm."""
        return self.piece.length * self.piece.width

    @property
    def cost(self) -> int | None:
        """Give the cost of one in minor units."""
        return minor_units(self.piece.cost)


def source_of(piece: StockPiece, limits: ShopLimits) -> Source:
    """Give a piece of stock with the room that is left on it once its edges are trimmed or made straight."""
    if piece.kind == "board":
        edge = piece.taper + (0 if piece.surfaced == "all-sides" else limits.board_edge)
        return Source(piece, (piece.length, piece.width - edge), edge)
    trim = 0 if piece.kind == "offcut" else limits.edge_trim
    return Source(piece, (piece.length - 2 * trim, piece.width - 2 * trim), trim)


def serves(piece: StockPiece, part: Demand, limits: ShopLimits) -> bool:
    """Whether a piece is of the stuff a part is cut from.

    A board must be thick enough to plane down to the part once it is flat: what it is cupped and twisted by is lost in
    making one face flat, and its other face is still to be planed then.
    """
    if piece.material != part.material or (piece.kind == "board") != (part.kind == "board"):
        return False
    if part.kind == "board":
        flat = piece.thickness - piece.crooked
        return flat >= part.thickness + limits.mill_thickness and (flat > part.thickness or not piece.crooked)
    return piece.thickness == part.thickness


def usable_sources(part: Demand, pieces: Iterable[StockPiece], limits: ShopLimits) -> list[Source]:
    """Give the pieces that a part's group is cut from: those of its stuff that are there and have room on them."""
    sources = [source_of(piece, limits) for piece in pieces if serves(piece, part, limits)]
    return [source for source in sources if source.piece.copies != 0 and min(source.room) > 0]


def crosscut_first(sources: Sequence[Source]) -> list[Source]:
    """Give sources of which rough boards are crosscut before they are ripped."""
    return [replace(source, across=source.piece.rough) for source in sources]


def prices_of(sources: Sequence[Source]) -> tuple[list[int], int]:
    """Prices in one whole number: what is bought first, then area of whole sheets on hand, then area of offcuts.

    The second value is how much of the price one unit bought is.
    """
    costs = [cost_of(s, sources) for s in sources]
    areas = [max(1, s.area // 10**10) for s in sources]
    top = 10 * (1 + sum(a * min(s.piece.copies or 50, 50) for a, s in zip(areas, sources, strict=True)))
    prices = []
    for cost, area, source in zip(costs, areas, sources, strict=True):
        prices.append(cost * top + (area if source.piece.kind == "offcut" else area * WORTH[source.piece.grade]))
    return prices, top


def measured_by_area(sources: Sequence[Source]) -> bool:
    """Whether what is bought counts by area: some size that can be bought has no cost."""
    return any(s.piece.copies is None and s.piece.cost is None for s in sources)


def cost_of(source: Source, sources: Sequence[Source]) -> int:
    """Give what one piece counts as bought: its cost, or its area in mm² when some size has none; 0 when on hand."""
    if source.piece.copies is None and measured_by_area(sources):
        return max(1, source.area // 10**12)
    return source.cost or 0


def bought_of(used: Sequence[Source], sources: Sequence[Source]) -> int:
    """Return what some of the sources, those that are cut, count as bought."""
    return sum(cost_of(source, sources) for source in used)
