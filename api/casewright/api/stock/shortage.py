"""Parts that found no stock, why, and what would end it: material by material."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from casewright.api.stock.choose import Effort
from casewright.api.stock.group import GroupResult, solve_group
from casewright.api.stock.purchase import parts_to_turn, parts_to_unmatch, smallest_purchase
from casewright.api.stock.request import Demand, ShopLimits, StockRequest
from casewright.api.stock.sources import serves, source_of
from casewright.sdk.model import Lacking, Shortage, ShortReason, StockPiece

QUICK = Effort.of(1)


def shortages_of(results: Sequence[GroupResult], pieces: Sequence[StockPiece]) -> tuple[Shortage, ...]:
    """Give for each group with parts left over how many of which, and why."""
    return tuple([short for result in results if result.absent for short in _short(result, pieces)])


def lacking_of(results: Sequence[GroupResult], request: StockRequest) -> tuple[Lacking, ...]:
    """Give for each group with parts left over the smallest purchase that ends it, and the turning that does."""
    pieces, lacking = request.pieces, []
    for result in results:
        if result.absent:
            absent = [result.parts[i] for i in result.absent]
            lacking.append(
                Lacking(
                    absent[0].material,
                    absent[0].thickness,
                    result.kind,
                    sum(len(part.pieces) for part in absent),
                    smallest_purchase(result.parts, absent, pieces, result.limits, request.effort),
                    parts_to_turn(result.parts, absent, pieces, result.limits),
                    parts_to_unmatch(result.parts, absent, pieces, result.limits),
                )
            )
    return tuple(lacking)


def _short(result: GroupResult, pieces: Sequence[StockPiece]) -> Iterator[Shortage]:
    absent = {result.parts[i].id: result.parts[i] for i in result.absent}
    limits = result.limits
    rows = [piece for piece in pieces if serves(piece, result.parts[0], limits)]
    for name, count in Counter(result.parts[i].id for i in result.absent).items():
        reason = _reason(absent[name], rows, limits)
        for part in absent[name].pieces:
            yield Shortage(part.id, count, part.material, part.thickness, reason)


def _reason(part: Demand, rows: Sequence[StockPiece], limits: ShopLimits) -> ShortReason:
    if not rows:
        return ShortReason.NOT_LISTED
    if any(_fits(part, piece, limits) for piece in rows):
        return ShortReason.USED_UP
    return ShortReason.ROW if part.row else ShortReason.TOO_LARGE


def _fits(part: Demand, piece: StockPiece, limits: ShopLimits) -> bool:
    source = source_of(piece, limits)
    return min(source.room) > 0 and not solve_group([part], [source], limits, QUICK).absent
