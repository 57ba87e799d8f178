"""Parts that found no stock, and the one purchase that would cure it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from casewright.api.stock.group import GroupResult, Source, solve_group
from casewright.api.stock.model import INCH, MM, Board, Demand, Purchase, ShopLimits, Short, StockPiece

COMMON_SHEETS = ((96 * INCH, 48 * INCH), (2440 * MM, 1220 * MM), (3050 * MM, 1525 * MM), (2800 * MM, 2070 * MM))
"""Sheet sizes sold widely (sources E), offered only when the stock list has no size that would do."""


def shorts_of(
    results: Sequence[tuple[GroupResult, bool]],
    pieces: Sequence[StockPiece],
    boards: Sequence[Board],
    limits: ShopLimits,
) -> tuple[Short, ...]:
    """For each group with parts left over: how many of which, why, and what single purchase would hold them all."""
    found = []
    for result, board in results:
        if not result.absent:
            continue
        parts = [result.parts[i] for i in result.absent]
        first = parts[0]
        rows: list[StockPiece | Board] = [
            row
            for row in (boards if board else pieces)
            if row.material == first.material
            and (
                row.thickness >= first.thickness + limits.mill_thickness if board else row.thickness == first.thickness
            )
        ]
        cure = _cure(parts, rows, limits, board)
        if cure is None and not board:
            common: list[StockPiece | Board] = [
                StockPiece("", first.material, first.thickness, length, width) for length, width in COMMON_SHEETS
            ]
            cure = _cure(parts, common, limits, board)
        sources = [_source(row, limits) for row in rows]
        for demand, count in Counter(part.id for part in parts).items():
            part = next(p for p in parts if p.id == demand)
            if not rows:
                reason = "no stock of this material and thickness is listed"
            elif not any(_holds(source, part, limits) for source in sources):
                reason = "larger than every piece of stock listed, as its grain must lie"
            else:
                reason = "the stock on hand is used up"
            found.append(Short(demand, count, reason, cure))
    return tuple(found)


def _source(row: StockPiece | Board, limits: ShopLimits) -> Source:
    if isinstance(row, Board):
        return Source(row, (row.length, row.width - limits.board_edge), limits.board_edge, "along-length")
    trim = 0 if row.offcut else limits.edge_trim
    return Source(row, (row.length - 2 * trim, row.width - 2 * trim), trim, row.grain)


def _holds(source: Source, part: Demand, limits: ShopLimits) -> bool:
    result = solve_group([part], [source], limits, 1, part.kind == "board") if min(source.room) > 0 else None
    return result is not None and not result.absent


def _cure(
    parts: Sequence[Demand], rows: Sequence[StockPiece | Board], limits: ShopLimits, board: bool
) -> Purchase | None:
    """Give the cheapest number of one size that holds all the parts, by cost where every size has one, else by area."""
    priced = all(row.cost is not None for row in rows)
    best: tuple[int, Purchase] | None = None
    seen: set[tuple[int, int, int, bool]] = set()
    for row in rows:
        offcut = isinstance(row, StockPiece) and row.offcut
        key = (row.length, row.width, row.thickness, offcut)
        if offcut or key in seen:
            continue
        seen.add(key)
        source = _source(replace(row, copies=None), limits)
        if min(source.room) <= 0:
            continue
        result = solve_group(list(parts), [source], limits, 1, board)
        if result.absent:
            continue
        count = len(result.bins)
        cost = None if row.cost is None else row.cost * count
        measure = (cost or 0) if priced else row.length * row.width * count
        purchase = Purchase(row.id, row.material, row.thickness, row.length, row.width, count, cost)
        if best is None or measure < best[0]:
            best = (measure, purchase)
    return best[1] if best else None
