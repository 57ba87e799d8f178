"""The smallest purchase after which parts of one material can all be cut, and the parts whose turning would do.

A strip or an offcut comes before a whole sheet: the piece looked for is any rectangle that can be sawn from a size
that is listed or sold widely. What is proposed was tried: with it, every part of the material has a place.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations_with_replacement

from casewright.api.stock.choose import Effort
from casewright.api.stock.fill import fill_one
from casewright.api.stock.group import lying, solve_group, space_of
from casewright.api.stock.request import Demand, ShopLimits
from casewright.api.stock.search import SCORERS, StepBudget, orders
from casewright.api.stock.sources import serves, source_of, usable_sources
from casewright.sdk.model import Purchase, StockPiece
from casewright.sdk.units import INCH, MM

COMMON_SHEETS = ((96 * INCH, 48 * INCH), (2440 * MM, 1220 * MM), (3050 * MM, 1525 * MM), (2800 * MM, 2070 * MM))
"""Sheet sizes sold widely (sources E)."""
COMMON_BOARD = (16 * 12 * INCH, 12 * INCH)
"""The longest and widest board that is looked for where none is listed (common practice, no source)."""
WIDTHS = 24
"""Widths of a piece that are tried."""
HALVINGS = 8
"""Times the length of a piece of one width is halved in on."""
SMALLER = 6
"""Pieces for single parts that are tried before the piece for all that have no place."""
EACH = 3
"""Parts without a place for which a piece each is tried, where none for all of them does it."""
SPARE = 1
"""Whole pieces that are tried beyond those that the parts without a place take by themselves."""
QUICK = Effort.of(1)
TRIED = Effort(2, 400_000)
"""How hard it is tried whether what is bought ends it, where that is not sure."""


def smallest_purchase(
    parts: Sequence[Demand],
    absent: Sequence[Demand],
    pieces: Sequence[StockPiece],
    limits: ShopLimits,
    effort: int = 2,
) -> tuple[Purchase, ...]:
    """Give the smallest purchase found with which all parts of one material can be cut; none where none does it.

    `parts` are all of the material, one entry a piece; `absent` those of them that `pieces` do not yield at an
    `effort` of 1 to 5. What is bought beside a listed size has no stock id and is the least size that will do.
    """
    rows = [piece for piece in pieces if serves(piece, absent[0], limits)]
    whole = list(_sold(absent[0], rows, limits))
    for bought, sure in _candidates(parts, absent, whole, limits):
        if _ends(parts, [*rows, *bought], limits, Effort.of(effort) if sure else TRIED):
            return tuple([_purchase(piece) for piece in bought])
    return ()


def parts_to_turn(
    parts: Sequence[Demand], absent: Sequence[Demand], pieces: Sequence[StockPiece], limits: ShopLimits
) -> tuple[str, ...]:
    """Give the ids of the fewest parts whose grain may run either way, and with which, so freed, all can be cut."""
    rows = [piece for piece in pieces if serves(piece, absent[0], limits)]
    without = {part.id for part in absent if part.may_turn and part.grain != "free"}
    every = {part.id for part in parts if part.may_turn and part.grain != "free"}
    for freed in (without, every):
        turned = [replace(part, grain="free") if part.id in freed else part for part in parts]
        if freed and _ends(turned, rows, limits, TRIED):
            return tuple(sorted(freed))
    return ()


def parts_to_unmatch(
    parts: Sequence[Demand], absent: Sequence[Demand], pieces: Sequence[StockPiece], limits: ShopLimits
) -> tuple[str, ...]:
    """Give the ids of the parts of the rows without a place where all can be cut once these need not be one piece."""
    rows = {part.id: part.row for part in absent if part.row}
    apart = [one for part in parts for one in (part.pieces if part.id in rows else (part,))]
    sources = [piece for piece in pieces if serves(piece, absent[0], limits)]
    if rows and _ends(apart, sources, limits, TRIED):
        return tuple(one.id for row in rows.values() for one in row)
    return ()


def least_piece(parts: Sequence[Demand], like: StockPiece, limits: ShopLimits) -> StockPiece | None:
    """Give the smallest piece found that yields all parts and can be sawn from one `like`; None where none can."""
    best: StockPiece | None = None
    area = sum(part.length * part.width for part in parts)
    for width in _widths(parts, like, limits):
        high, low = like.length, max(area // width, 1)
        for _ in range(HALVINGS):
            if best is not None and low * width >= best.length * best.width:
                break
            trial = replace(like, length=high if high == like.length else (low + high) // 2, width=width)
            got = _used_of(parts, trial, limits)
            if got is None:
                if trial.length == like.length:
                    break
                low = trial.length
                continue
            high = got.length if got.length < like.length else like.length - 1
            if best is None or got.length * got.width < best.length * best.width:
                best = got
    return best


def _candidates(
    parts: Sequence[Demand], absent: Sequence[Demand], whole: Sequence[StockPiece], limits: ShopLimits
) -> Iterator[tuple[list[StockPiece], bool]]:
    """Yield purchases to try: of each size sold in turn a piece, small ones first, then as many as there must be.

    The flag says that the parts without a place lie on it for sure, the others staying where they are.
    """
    kinds = {(part.length, part.width, part.grain): part for part in parts}
    for like in whole:
        single = least_piece(absent, like, limits)
        if single is not None:
            room = single.length * single.width
            pieces = [one for part in kinds.values() if (one := least_piece([part], like, limits))]
            smaller = sorted((p for p in pieces if p.length * p.width < room), key=lambda p: p.length * p.width)
            yield from (([piece], False) for piece in smaller[-SMALLER:])
            yield [single], True
            each = [least_piece([part], like, limits) for part in absent[:EACH]]
            if 1 < len(absent) <= EACH and all(each):
                yield [one for one in each if one is not None], False
        count = _count(absent, like, limits)
        if count is None:
            continue
        last = least_piece([absent[i] for i in count[1]], like, limits)
        if count[0] > 1 and last is not None:
            yield [replace(like, copies=count[0] - 1), last], True
        for more in range(SPARE + 1):
            yield [replace(like, copies=count[0] + more)], False


def _count(absent: Sequence[Demand], like: StockPiece, limits: ShopLimits) -> tuple[int, list[int]] | None:
    """Give how many of one size all absent parts take, and which lie on the emptiest; None where some fit none."""
    result = solve_group(list(absent), [source_of(like, limits)], limits, QUICK)
    if result.absent or not result.bins:
        return None
    emptiest = max(result.bins, key=lambda b: b.free)
    return len(result.bins), [result.fit[i] for i in emptiest.items]


def _sold(part: Demand, rows: Sequence[StockPiece], limits: ShopLimits) -> Iterator[StockPiece]:
    """Yield the sizes that a piece may be sawn from, smallest first: those listed, then those sold widely."""
    grain = rows[0].grain if rows else "along-length"
    kind = part.kind
    thickness = part.thickness + (limits.mill_thickness if kind == "board" else 0)
    surfaced = rows[0].surfaced if rows else "all-sides"
    sizes = (COMMON_BOARD,) if kind == "board" else COMMON_SHEETS
    listed = [row for row in rows if row.kind == kind]
    yield from sorted((replace(row, copies=None) for row in listed), key=lambda row: row.length * row.width)
    for length, width in sizes:
        yield StockPiece("", part.material, thickness, length, width, None, None, grain, kind, surfaced)


def _widths(parts: Sequence[Demand], like: StockPiece, limits: ShopLimits) -> list[int]:
    """Give the widths of a piece to try: what one to three parts take side by side, and the whole width."""
    extra = limits.mill_width if like.kind == "board" else 0
    across = {lying(part, turned)[1] + extra for part in parts for turned in (False, True)}
    sums = {
        sum(row) + limits.kerf * (len(row) - 1)
        for count in range(1, min(3, len(parts)) + 1)
        for row in combinations_with_replacement(sorted(across)[:WIDTHS], count)
    }
    trim = source_of(like, limits).trim if like.kind == "board" else 0
    fit = sorted(w for w in sums if w + trim <= like.width)
    fit = [fit[i * len(fit) // WIDTHS] for i in range(WIDTHS)] if len(fit) > WIDTHS else fit
    return [*[w + trim for w in fit], like.width]


def _used_of(parts: Sequence[Demand], piece: StockPiece, limits: ShopLimits) -> StockPiece | None:
    """Give what of one piece the parts take up, as a piece untrimmed; None where they find no place on it."""
    sawn = replace(piece, id="", kind="board" if piece.kind == "board" else "offcut", copies=1, cost=None)
    source = source_of(sawn, limits)
    space, unit, _ = space_of(parts, [source], limits)
    if not all(space.options[0]):
        return None
    for order in orders(space):
        for scorer in SCORERS:
            filled, left = fill_one(space, 0, order, StepBudget(10**9), scorer)
            if not left and filled.root is not None:
                length = filled.root.w * unit - limits.kerf
                return replace(sawn, length=length, width=filled.root.h * unit - limits.kerf + source.trim)
    return None


def _ends(parts: Sequence[Demand], pieces: Sequence[StockPiece], limits: ShopLimits, effort: Effort) -> bool:
    """Whether every part has a place on the pieces."""
    return not solve_group(list(parts), usable_sources(parts[0], pieces, limits), limits, effort).absent


def _purchase(piece: StockPiece) -> Purchase:
    count = piece.copies or 1
    cost = source_of(piece, ShopLimits()).cost
    total = None if cost is None else cost * count
    return Purchase(piece.id, piece.material, piece.thickness, piece.length, piece.width, count, total, piece.grain)
