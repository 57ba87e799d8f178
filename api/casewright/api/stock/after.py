"""The pile after a cutting: what was not begun, and what is left over and worth keeping, as stock for the next job."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import count

from casewright.api.job import limits
from casewright.api.stock.begun import begun_of
from casewright.sdk.model import Leftover, Stock, StockKind, StockLayout, StockPiece, StockPlan

__all__ = ["leftover_ids", "pieces_after", "pile_after"]

LEFT_BEFORE = re.compile(r"(?<=.)(-\d+-left-\d+)+$")
"""What the id of a piece ends with that was left over itself."""


def pile_after(stock: Stock, plan: StockPlan, keep: tuple[int, int]) -> tuple[StockPiece, ...]:
    """Return the pieces on hand once a cutting plan is carried out.

    Stock with defects or a taper that is not begun is as it was; of what is begun, the clean pieces that reach the
    length and width the shop keeps are cut free.
    """
    clean = {one.piece.id for one in stock.clean}
    begun = begun_of(stock, plan, keep)
    gone = Counter(one.stock.piece.id for one in begun)
    spare = Counter(piece for one in begun for piece in one.spare)
    marred = [one.piece for one in stock.cleared]
    return (
        *(one for one in pieces_after(stock.pieces, plan.layouts) if one.id not in clean),
        *(
            replace(one, copies=one.copies - gone[one.id])
            for one in marred
            if one.copies is not None and one.copies > gone[one.id]
        ),
        *(replace(one, copies=count, cost=None) for one, count in spare.items()),
    )


def pieces_after(pieces: Sequence[StockPiece], layouts: Sequence[StockLayout]) -> tuple[StockPiece, ...]:
    """Return the pieces on hand once the layouts are cut: those not begun, then the leftovers that are kept."""
    begun = Counter(layout.stock for layout in layouts)
    whole = [
        replace(piece, copies=piece.copies - begun[piece.id])
        for piece in pieces
        if piece.copies is not None and piece.copies > begun[piece.id]
    ]
    return (*whole, *_kept(pieces, layouts))


def _kept(pieces: Sequence[StockPiece], layouts: Sequence[StockLayout]) -> Iterator[StockPiece]:
    rows = {piece.id: piece for piece in pieces}
    for layout in layouts:
        ids = leftover_ids(layout, rows)
        for left in layout.leftovers:
            if left.keep:
                kind: StockKind = "board" if layout.kind == "board" else "offcut"
                was = rows[layout.stock]
                yield replace(was, id=ids[left], length=left.length, width=left.width, copies=1, cost=None, kind=kind)


def leftover_ids(layout: StockLayout, listed: Collection[str]) -> dict[Leftover, str]:
    """Return what each leftover of a layout that is kept is called from now on: after its piece, layout and turn.

    A leftover of a leftover is called after the piece that was first cut, so that ids do not grow from job to job. No
    id that is `listed` in the job's stock is given again, as that piece may still be there.
    """
    ids: dict[Leftover, str] = {}
    turns = count(1)
    for left in layout.leftovers:
        if left.keep:
            names = (_left_id(layout, turn) for turn in turns)
            ids[left] = next(name for name in names if name not in listed)
    return ids


def _left_id(layout: StockLayout, turn: int) -> str:
    end = f"-{layout.number}-left-{turn}"
    first = LEFT_BEFORE.sub("", layout.stock)
    return f"{first[: limits.ID_LENGTH - len(end)]}{end}"
