"""Stock with defects or a taper that a cutting plan begins: into which clean pieces each is cut, and by which cuts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.stock.request import worth_keeping
from casewright.sdk.model import ClearedStock, FirstCut, Stock, StockPiece, StockPlan

__all__ = ["Begun", "begun_of"]


@dataclass(frozen=True, slots=True)
class Begun:
    """One piece of stock that is cut into clean pieces: what it is called, and the cuts that part it.

    Names in `cuts` are those the pieces go by: a clean piece that is cut on by its id and the number of its layout, as
    any piece of stock, the others by their ids. `spare` are the clean pieces worth keeping that no part is cut from.
    """

    stock: ClearedStock
    name: str
    cuts: tuple[FirstCut, ...]
    used: frozenset[str]
    spare: tuple[StockPiece, ...]


def begun_of(stock: Stock, plan: StockPlan, keep: tuple[int, int]) -> tuple[Begun, ...]:
    """Return the stock with defects or a taper that a cutting plan begins, piece by piece.

    Clean pieces that no part is cut from are cut free where they reach the length and width the shop keeps.
    """
    layouts: dict[str, list[int]] = {}
    for layout in plan.layouts:
        layouts.setdefault(layout.stock, []).append(layout.number)
    clean: dict[str, list[StockPiece]] = {}
    for one in stock.clean:
        clean.setdefault(one.stock, []).append(one.piece)
    return tuple(
        [
            begun
            for cleared in stock.cleared
            for begun in _begun(cleared, clean.get(cleared.piece.id, ()), layouts, keep)
        ]
    )


def _begun(
    cleared: ClearedStock, clean: Sequence[StockPiece], layouts: Mapping[str, Sequence[int]], keep: tuple[int, int]
) -> Iterator[Begun]:
    """Yield each copy of a piece of stock that is begun: as many as of the clean piece that is cut on most."""
    numbers = {piece.id: layouts.get(piece.id, ()) for piece in clean}
    copies = max(map(len, numbers.values()), default=0)
    for copy in range(copies):
        used = {key: f"{key} {of[copy]}" for key, of in numbers.items() if copy < len(of)}
        spare = [piece for piece in clean if piece.id not in used and worth_keeping(piece.length, piece.width, keep)]
        names = {**{piece.id: piece.id for piece in spare}, **used}
        name = cleared.piece.id if copies == 1 else f"{cleared.piece.id} ({copy + 1} of {copies})"
        cuts = tuple(_Wanted(cleared, name, names).cuts())
        yield Begun(cleared, name, cuts, frozenset(used.values()), tuple(spare))


@dataclass(frozen=True, slots=True)
class _Wanted:
    """The first cuts of one piece of stock that free the clean pieces in `names`; all else is waste."""

    stock: ClearedStock
    name: str
    names: Mapping[str, str]

    def cuts(self) -> Iterator[FirstCut]:
        """Yield the cuts that are made, with what their pieces are called."""
        names = {self.stock.piece.id: self.name}
        for at, cut in enumerate(self.stock.cuts):
            keeps, leaves = self.called(cut.keeps, at), self.called(cut.leaves, at)
            if keeps or leaves:
                yield replace(cut, piece=names[cut.piece], keeps=keeps, leaves=leaves)
            names.update({cut.keeps: keeps, cut.leaves: leaves})

    def called(self, piece: str, before: int) -> str:
        """Return what a piece is called: as the whole where all that is wanted is in it, nothing where it is waste."""
        if piece in self.names:
            return self.names[piece]
        first, *more = [*self.within(piece, before), ""]
        if not first:
            return ""
        if len(more) == len(self.names):
            return self.name
        words = {1: first, 2: f"{first} and {more[0]}"}.get(len(more), f"{first} and {len(more) - 1} more")
        return f"{self.name}: piece for {words}"

    def within(self, piece: str, before: int) -> Iterator[str]:
        """Yield the clean pieces that are wanted of a piece, by their ids."""
        if piece in self.names:
            yield piece
            return
        for at, cut in enumerate(self.stock.cuts):
            if at > before and cut.piece == piece:
                yield from self.within(cut.keeps, at)
                yield from self.within(cut.leaves, at)
                return
