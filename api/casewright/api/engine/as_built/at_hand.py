"""What the steps done have left: of the stock, pieces of other sizes, and blanks that are over size until measured for.

The steps done are carried out in the simulated shop. A board that blanks still to be planed come from counts as it was:
the steps that saw it are planned, and marked done, as before.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count as counting

from casewright.api.engine.work.blanks import is_blank_of
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.naming import part_of
from casewright.api.engine.work.replay_breakdown import Lot, Sawn
from casewright.api.engine.work.replay_records import Blank, Given, Order
from casewright.api.job import limits
from casewright.sdk.model import Cabinet, Job, Operation, Part, Stock, StockPiece, StockPlan

__all__ = ["AtHand", "at_hand", "blanks_for"]


@dataclass(frozen=True, slots=True)
class AtHand:
    """The stock that is left, and by the id of a part its blanks that are cut over size and milled."""

    stock: Stock
    blanks: Mapping[str, Lot]


def at_hand(job: Job, parts: Sequence[Part], plan: StockPlan, steps: Sequence[Operation]) -> AtHand | None:
    """Return what is left of a job's stock once its done steps have cut `parts` as planned.

    `None` where that is as it was, and where stock is parted into clean pieces first: that is left as it is listed.
    """
    stock, done = job.stock, frozenset(job.done)
    did = [step for step in steps if step.number in done]
    if stock is None or stock.cleared or not did:
        return None
    given = given_of(job, parts, plan)
    sawn = Sawn(given, Order.of(steps))
    sawn.carry_out(did)
    by_id = {part.id: part for part in parts}
    roots = _roots(did, given)
    there = {name: lots for name, lots in sawn.there.items() if lots}
    rough = {name for name, lots in there.items() if any(_unplaned(name, blank, by_id) for blank, _ in lots)}
    whole = {root for name in rough for root in roots.get(name, ())}
    used = {name for name in given.pieces if name not in whole and _is_begun(name, there, given)}
    if not used:
        return None
    left = {name: lots for name, lots in there.items() if name not in given.pieces or name in used}
    left = {name: lots for name, lots in left.items() if roots.get(name, frozenset()) <= used}
    blanks = {
        part.id: (lots[0][0], sum(count for _, count in lots))
        for name, lots in left.items()
        if (part := part_of(name, by_id)) is not None and name != part.id and len({blank for blank, _ in lots}) == 1
    }
    rest = {name: lots for name, lots in left.items() if part_of(name, by_id) is None}
    return AtHand(_stock_left(stock, plan, used, rest), blanks)


def blanks_for(parts: Sequence[Part], cabinets: Sequence[Cabinet], blanks: Mapping[str, Lot]) -> dict[str, Blank]:
    """Return the blanks at hand for parts of the plan round what is built, by their ids.

    Parts of a copy that comes out differently have an id of their own: each takes what is left for it, the first first.
    """
    planned = {cabinet.id: cabinet.planned or cabinet.id for cabinet in cabinets}
    left = {name: count for name, (_, count) in blanks.items()}
    out: dict[str, Blank] = {}
    for part in parts:
        name = f"{planned.get(part.cabinet, part.cabinet)}/{part.id.partition('/')[2]}"
        wanted = part.quantity - part.built
        if 0 < wanted <= left.get(name, 0) and is_blank_of(part, blanks[name][0]):
            left[name] -= wanted
            out[part.id] = blanks[name][0]
    return out


def _unplaned(name: str, blank: Blank, parts: Mapping[str, Part]) -> bool:
    part = part_of(name, parts)
    return part is not None and name != part.id and blank.thickness != part.thickness


def _is_begun(name: str, there: Mapping[str, Sequence[Lot]], given: Given) -> bool:
    """Return whether a piece of stock is sawn, or trimmed: its size is another, or it is gone."""
    lots = there.get(name)
    return lots is None or lots[0][0][:4] != given.pieces[name][:4]


def _roots(steps: Sequence[Operation], given: Given) -> Mapping[str, frozenset[str]]:
    """Return the pieces of stock that each piece comes from, by its name."""
    out: defaultdict[str, frozenset[str]] = defaultdict(frozenset)
    out.update({name: frozenset({name}) for name in given.pieces})
    for step in steps:
        for piece in step.on:
            for name in (piece.keeps, piece.leaves):
                if name and piece.piece:
                    out[name] |= out[piece.piece]
    return out


def _stock_left(stock: Stock, plan: StockPlan, used: set[str], rest: Mapping[str, Sequence[Lot]]) -> Stock:
    """Return the stock without the pieces used, and with what is left of them."""
    gone = Counter(one.stock for one in plan.layouts if f"{one.stock} {one.number}" in used)
    boards = {piece.material for piece in stock.boards}
    ids = {piece.id for piece in stock.pieces}
    pieces = [piece for name, lots in rest.items() for piece in _pieces(stock, name, lots, ids)]
    return replace(
        stock,
        sheets=tuple(_without(stock.sheets, gone)),
        offcuts=(*_without(stock.offcuts, gone), *(one for one in pieces if one.material not in boards)),
        boards=(*_without(stock.boards, gone), *(one for one in pieces if one.material in boards)),
    )


def _without(pieces: Sequence[StockPiece], gone: Mapping[str, int]) -> Iterator[StockPiece]:
    for piece in pieces:
        if piece.copies is None or not gone[piece.id]:
            yield piece
        elif piece.copies > gone[piece.id]:
            yield replace(piece, copies=piece.copies - gone[piece.id])


def _pieces(stock: Stock, name: str, lots: Sequence[Lot], ids: set[str]) -> Iterator[StockPiece]:
    """Yield what is left under one name as stock; its id says what it is called, in letters that any list takes.

    `ids` are those given so far; new ones are added to them.
    """
    board = next((one for one in stock.boards if one.material == lots[0][0].material), None)
    words = re.sub(r"[^0-9A-Za-z]+", "-", name).strip("-")
    counts: Counter[tuple[int, int, int]] = Counter()
    for blank, count in lots:
        assert blank.length is not None
        assert blank.width is not None
        assert blank.thickness is not None
        counts[blank.length, blank.width, blank.thickness] += count
    grain, material = lots[0][0].grain, lots[0][0].material
    for (length, width, thickness), count in counts.items():
        key = _free_id(words, ids)
        ids.add(key)
        if board is None:
            yield StockPiece(key, material, thickness, length, width, count, None, grain, "offcut")
        else:
            yield replace(
                board, id=key, length=length, width=width, thickness=thickness, copies=count, cost=None, taper=0,
                defects=(),
            )  # fmt: skip


def _free_id(words: str, ids: Collection[str]) -> str:
    """Return an id that begins with words, as many of their letters as an id may have, and is not yet given."""
    ends = ("" if number == 1 else f"-{number}" for number in counting(1))
    names = (f"{words[: limits.ID_LENGTH - len(end)].rstrip('-')}{end}" for end in ends)
    return next(name for name in names if name not in ids)
