"""Cures for stock that does not yield all parts: the least to buy, grain left free or not matched, other sheets."""

from collections.abc import Iterable, Iterator
from typing import Any, ClassVar

from casewright.sdk.errors import steps_of
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import Stock, StockPiece
from casewright.sdk.patching import patch_setting
from casewright.sdk.units import INCH, MM, to_number

SOLD = {
    "in": ((96 * INCH, 48 * INCH), (60 * INCH, 60 * INCH), (120 * INCH, 60 * INCH)),
    "mm": ((2440 * MM, 1220 * MM), (2500 * MM, 1250 * MM), (3050 * MM, 1525 * MM)),
}
"""Sheets sold widely, as tried where the job lists none of a material."""

ROUNDED = {"in": INCH // 8, "mm": MM}
"""What sizes of a piece that is bought are multiples of."""

BOARD = {"in": (8 * INCH, 120 * INCH), "mm": (200 * MM, 3000 * MM)}


class StockCures(CureGenerator):
    """Cures for a material of which the stock does not suffice."""

    id: ClassVar[str] = "stock"
    title: ClassVar[str] = "What to buy, and grain that may run either way or on over no row"
    codes: ClassVar[frozenset[str]] = frozenset({"no-stock", "match"})

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield the smallest purchase, more of each piece listed, grain left free or not matched, then what is sold."""
        stock = stop.plan.job.stock
        if stop.check.code == "match" and stop.check.subject.startswith("/materials/"):
            yield from _unmatched(stop)
        if stop.check.code == "match" or stock is None:
            return
        key = steps_of(stop.check.subject)[-1]
        yield from _smallest(stop, stock, key)
        yield from _unmatched(stop)
        material = stop.plan.job.materials[key]
        listed = [piece for piece in stock.pieces if piece.material == key]
        for piece in listed:
            if piece.copies is not None and piece.kind != "board":
                yield _more(stop, stock, piece)
        units = stop.plan.job.units
        for number, part in enumerate(stop.plan.job.loose_parts):
            if part.material == key and part.grain != "free":
                words = f"the grain of {part.id} either way"
                yield Change(words, patch_setting(stop.document, (("loose_parts", number, "grain"), "free")))
        if material.kind == "sheet":
            for length, width in SOLD[units]:
                yield _sheet(stop, stock, key, (length, width))
        if material.kind == "board":
            width, length = BOARD[units]
            row = {"material": key, "width": to_number(width, units), "length": to_number(length, units)}
            yield _added(stop, "boards", {"id": _named(stock, f"{key}-board"), **row, "copies": None},
                         f"boards of {key} {stop.write.size(length)} × {stop.write.length(width)}")  # fmt: skip


def _smallest(stop: Stop, stock: Stock, key: str) -> Iterator[Change]:
    """Yield the smallest purchase that was found to end it, its sizes rounded up as it is bought."""
    plan, units = stop.plan.stock, stop.plan.job.units
    for lacking in plan.lacking if plan else ():
        if lacking.material != key or not lacking.buy or any(one.stock for one in lacking.buy):
            continue
        words, settings = [], []
        for number, one in enumerate(lacking.buy, start=1):
            up = ROUNDED[units]
            length, width = (-(-nm // up) * up for nm in (one.length, one.width))
            row: dict[str, Any] = {"id": _named(stock, f"{key}-piece-{number}"), "material": key}
            row |= {"length": to_number(length, units), "width": to_number(width, units), "copies": None}
            row |= {"surfaced": "all-sides"} if lacking.kind == "board" else {"grain": one.grain}
            settings.append((("stock", "boards" if lacking.kind == "board" else "offcuts", "-"), row))
            pieces = "a piece" if one.quantity == 1 else f"{one.quantity} pieces"
            words.append(f"{pieces} of {stop.write.size(length)} × {stop.write.length(width)}")
        yield Change(f"{' and '.join(words)}, {key}", patch_setting(stop.document, *settings))


def _unmatched(stop: Stop) -> Iterator[Change]:
    """Yield fronts of the material over which the grain need not run on, each row by itself."""
    key = steps_of(stop.check.subject)[-1]
    places = [part.matched.pointer for part in stop.plan.parts if part.matched is not None and part.material == key]
    for place in dict.fromkeys(places):
        yield Change("fronts cut from wherever they fit", patch_setting(stop.document, (steps_of(place), False)))


def _more(stop: Stop, stock: Stock, piece: StockPiece) -> Change:
    """Return as many more of a piece as are needed, bought at its cost."""
    units = stop.plan.job.units
    row: dict[str, Any] = {
        "id": _named(stock, f"{piece.id}-more"),
        "material": piece.material,
        "length": to_number(piece.length, units),
        "width": to_number(piece.width, units),
        "copies": None,
        "cost": None if piece.cost is None else float(piece.cost),
        "grain": piece.grain,
    }
    return _added(stop, "sheets", row, f"as many more of {piece.id} as are needed")


def _sheet(stop: Stop, stock: Stock, key: str, size: tuple[int, int]) -> Change:
    units = stop.plan.job.units
    row = {
        "id": _named(stock, f"{key}-sheet"),
        "material": key,
        "length": to_number(size[0], units),
        "width": to_number(size[1], units),
        "copies": None,
    }
    return _added(stop, "sheets", row, f"sheets of {key} {stop.write.size(size[0])} × {stop.write.length(size[1])}")


def _added(stop: Stop, rows: str, row: dict[str, Any], words: str) -> Change:
    return Change(words, patch_setting(stop.document, (("stock", rows, "-"), row)))


def _named(stock: Stock, name: str) -> str:
    """Return an id that no piece of the stock has."""
    taken = {piece.id for piece in stock.pieces}
    name = name[:36]
    return next(one for one in (name, *(f"{name}-{n}" for n in range(2, 999))) if one not in taken)
