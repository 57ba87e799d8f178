"""Parts that found no stock, and the one purchase that would cure it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from casewright.api.stock.choose import Effort
from casewright.api.stock.group import GroupResult, serves, solve_group, source_of
from casewright.api.stock.request import Demand, ShopLimits
from casewright.sdk.model import Purchase, Shortage, StockPiece
from casewright.sdk.units import INCH, MM

COMMON_SHEETS = ((96 * INCH, 48 * INCH), (2440 * MM, 1220 * MM), (3050 * MM, 1525 * MM), (2800 * MM, 2070 * MM))
"""Sheet sizes sold widely (sources E), offered only when the stock list has no size that would do."""

QUICK = Effort(1)


def shortages_of(
    results: Sequence[GroupResult], pieces: Sequence[StockPiece], limits: ShopLimits
) -> tuple[Shortage, ...]:
    """For each group with parts left over: how many of which, why, and what single purchase would hold them all."""
    found = []
    for result in results:
        if not result.absent:
            continue
        parts = [result.parts[i] for i in result.absent]
        first = parts[0]
        rows = [piece for piece in pieces if serves(piece, first, limits)]
        cure = _cure(parts, rows, limits)
        if cure is None and result.kind == "sheet":
            common = [StockPiece("", first.material, first.thickness, *size) for size in COMMON_SHEETS]
            cure = _cure(parts, common, limits)
        for demand, count in Counter(part.id for part in parts).items():
            part = next(p for p in parts if p.id == demand)
            if not rows:
                reason = "no stock of this material and thickness is listed"
            elif not any(_fits(part, piece, limits) for piece in rows):
                reason = "larger than every piece of stock listed, as its grain must lie"
            else:
                reason = "the stock on hand is used up"
            found.append(Shortage(demand, count, reason, cure))
    return tuple(found)


def _fits(part: Demand, piece: StockPiece, limits: ShopLimits) -> bool:
    source = source_of(piece, limits)
    return min(source.room) > 0 and not solve_group([part], [source], limits, QUICK).absent


def _cure(parts: Sequence[Demand], rows: Sequence[StockPiece], limits: ShopLimits) -> Purchase | None:
    """Give the cheapest number of one size that holds all the parts, by cost where every size has one, else by area."""
    priced = all(row.cost is not None for row in rows)
    best: tuple[int, Purchase] | None = None
    seen: set[tuple[int, int, int]] = set()
    for row in rows:
        key = (row.length, row.width, row.thickness)
        if row.kind == "offcut" or key in seen:
            continue
        seen.add(key)
        source = source_of(replace(row, copies=None), limits)
        if min(source.room) <= 0:
            continue
        result = solve_group(list(parts), [source], limits, QUICK)
        if result.absent:
            continue
        count = len(result.bins)
        cost = None if source.cost is None else source.cost * count
        measure = (cost or 0) if priced else row.length * row.width * count
        purchase = Purchase(row.id, row.material, row.thickness, row.length, row.width, count, cost)
        if best is None or measure < best[0]:
            best = (measure, purchase)
    return best[1] if best else None
