"""`plan_stock`: parts, stock and a shop in; layouts, settings, purchases, leftovers and cautions out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from casewright.api.stock.answer import Answer
from casewright.api.stock.group import GroupResult, Sheet, Source, solve_group
from casewright.api.stock.model import (
    MAX_DEMANDS,
    MAX_LENGTH,
    MAX_PARTS,
    MAX_STOCK_ROWS,
    Board,
    Demand,
    ShopLimits,
    StockLimitError,
    StockPiece,
    StockPlan,
)
from casewright.api.stock.search import TWENTIETHS
from casewright.api.stock.settings import Job, order_of
from casewright.api.stock.tasks import WorkingOrder
from casewright.api.stock.tidy import Sawn, Tidier, first_choice

TURNS = (1, 3, 4, 4, 4)
TRIALS = (150, 1_500, 4_000, 8_000, 20_000)
STATES = (100, 250, 600, 4_000, 20_000)


def untold(stage: str, done: int, of: int) -> None:
    """Tell nobody."""


def plan_stock(
    demands: Sequence[Demand],
    pieces: Sequence[StockPiece],
    boards: Sequence[Board] = (),
    limits: ShopLimits | None = None,
    effort: int = 2,
    prefer_fewer_settings: bool = True,
    progress: Callable[[str, int, int], None] = untold,
) -> StockPlan:
    """Say how to cut the parts from the stock, buy least, and visit each saw setting once where that is possible.

    Lengths are nm. `effort` 1 to 5 bounds the work by counted steps; the same call always gives the same answer.
    Parts that no stock can give are `short` in the answer, never an error. `StockLimitError` is raised when a request
    is larger than MAX_PARTS, MAX_DEMANDS, MAX_STOCK_ROWS or MAX_LENGTH, `ValueError` when a size is not positive.
    `prefer_fewer_settings=False` leaves out the rule that chooses among equally good layouts (used to measure it).
    `progress` is told a stage (`cutting`: twentieths of each material; `settings`: turns at choosing), how much of it
    is done and how much there is at most; it never changes the answer.
    """
    limits = limits or ShopLimits()
    effort = min(5, max(1, effort))
    _check(demands, pieces, boards, limits)
    results: list[tuple[GroupResult, bool]] = []
    todo = _groups(demands)

    def heard(group: int, twentieths: int) -> None:
        progress("cutting", TWENTIETHS * group + twentieths, TWENTIETHS * len(todo))

    for key, rows in todo.items():
        heard(len(results), 0)
        kind, material, thickness = key
        sources = (
            _sheet_sources(pieces, material, thickness, limits)
            if kind == "sheet"
            else _board_sources(boards, material, thickness, limits)
        )
        parts = [d for d in rows for _ in range(d.quantity)]
        board = kind == "board"
        told = partial(heard, len(results))
        results.append((solve_group(parts, sources, limits, effort, board, told, len(todo)), board))
        heard(len(results), 0)
    groups = [result for result, _ in results]
    flags = [board for _, board in results]
    sawn = first_choice(groups)
    job, order = _ordered(sawn, flags, limits, effort)
    if sawn and prefer_fewer_settings:
        cuts = sum(len(s.bin.items) for s in sawn)
        first = sawn
        trials = max(2, TRIALS[effort - 1] * 60 // max(60, cuts))
        turns = TURNS[effort - 1] if cuts <= 400 else 1
        for turn in range(turns):
            progress("settings", turn, turns)
            tidy = Tidier(groups, first, turn).run(trials)
            other = _ordered(tidy, flags, limits, effort)
            if (other[1].returns, len(other[1].visits)) <= (order.returns, len(order.visits)):
                sawn, (job, order) = tidy, other
            if not order.returns:
                break
        progress("settings", turns, turns)
    blocks = [s.block for s in sawn]
    sheets = [
        (Sheet(results[s.group][0].sources[s.bin.size], s.block), results[s.group][0].parts, results[s.group][1])
        for s in sawn
    ]
    return Answer(limits, effort, list(pieces), list(boards)).build(results, sheets, blocks, job, order)


def _ordered(sawn: Sequence[Sawn], flags: Sequence[bool], limits: ShopLimits, effort: int) -> tuple[Job, WorkingOrder]:
    return order_of(
        [s.block for s in sawn], [flags[s.group] for s in sawn], limits, STATES[effort - 1], either_side=True
    )


def _check(
    demands: Sequence[Demand], pieces: Sequence[StockPiece], boards: Sequence[Board], limits: ShopLimits
) -> None:
    parts = sum(max(0, d.quantity) for d in demands)
    rows: list[Demand | StockPiece | Board] = [*demands, *pieces, *boards]
    for name, value, got in (
        ("demands", MAX_DEMANDS, len(demands)),
        ("parts", MAX_PARTS, parts),
        ("stock rows", MAX_STOCK_ROWS, len(pieces) + len(boards)),
        ("length", MAX_LENGTH, max((max(r.length, r.width) for r in rows), default=0)),
    ):
        if got > value:
            raise StockLimitError(name, value, got)
    for row in rows:
        if row.length <= 0 or row.width <= 0 or row.thickness <= 0:
            raise ValueError(f"{row.id}: length, width and thickness must be more than zero")
    if limits.kerf < 0 or limits.edge_trim < 0:
        raise ValueError("kerf and edge trim must not be negative")


def _groups(demands: Sequence[Demand]) -> dict[tuple[str, str, int], list[Demand]]:
    found: dict[tuple[str, str, int], list[Demand]] = {}
    for demand in demands:
        if demand.quantity > 0:
            found.setdefault((demand.kind, demand.material, demand.thickness), []).append(demand)
    return dict(sorted(found.items()))


def _sheet_sources(pieces: Sequence[StockPiece], material: str, thickness: int, limits: ShopLimits) -> list[Source]:
    found = []
    for piece in pieces:
        if piece.material != material or piece.thickness != thickness or piece.copies == 0:
            continue
        trim = 0 if piece.offcut else limits.edge_trim
        room = (piece.length - 2 * trim, piece.width - 2 * trim)
        if min(room) > 0:
            found.append(Source(piece, room, trim, piece.grain))
    return found


def _board_sources(boards: Sequence[Board], material: str, thickness: int, limits: ShopLimits) -> list[Source]:
    """Boards thick enough to plane down to the part."""
    fit = [b for b in boards if b.material == material and b.thickness >= thickness + limits.mill_thickness]
    return [
        Source(b, (b.length, b.width - limits.board_edge), limits.board_edge, "along-length")
        for b in fit
        if b.copies != 0 and b.width > limits.board_edge
    ]
