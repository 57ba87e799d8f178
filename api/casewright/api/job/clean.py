"""Stock with defects or a taper as the clean pieces it is cut into first, by straight cuts along what is to be avoided.

Of all orders of such cuts the one is taken whose clean pieces are worth most, large ones being worth more than the same
area in small ones. What is too small to be stock is left out with the defects.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import pow
from typing import Literal

from casewright.api.job import limits
from casewright.sdk.model import CleanPiece, ClearedStock, Defect, FirstCut, FirstCutFor, StockKind, StockPiece
from casewright.sdk.units import MM

__all__ = ["Cleared", "cleared_of"]

LEAST = 10 * MM
"""The least length and width of a piece of stock."""
LARGE = 1.5
"""The power of its area that a piece is worth."""


@dataclass(frozen=True, slots=True)
class Cleared:
    """The clean pieces of some stock, by where they lie on it, and the stock itself with the cuts that part it."""

    pieces: tuple[CleanPiece, ...]
    stock: ClearedStock


def cleared_of(piece: StockPiece, kerf: int, edge_trim: int) -> Cleared | None:
    """Return the clean pieces of one with defects or a taper, of a full sheet within its trims; `None` for others.

    One edge and one end of a full sheet are trimmed when it comes to the saw, so the cuts that are given begin with its
    other edge and end. A board's taper is not cut off here but where its edge is made straight.
    """
    taper = piece.taper if piece.kind == "offcut" else 0
    if not piece.defects and not taper:
        return None
    trim = edge_trim if piece.kind == "sheet" else 0
    room = _Rect(trim, trim, piece.length - trim, piece.width - trim - taper)
    tree = _Clean(piece.defects, kerf).best(room)
    rooms = sorted(tree.clean, key=lambda r: (r.x0, r.y0))
    if not rooms:
        return Cleared((), ClearedStock(piece, ()))
    kind: StockKind = "offcut" if piece.kind == "sheet" else piece.kind
    cleared, names = [], {}
    for number, one in enumerate(rooms, start=1):
        end = f".{number}"
        name = names[one] = f"{piece.id[: limits.ID_LENGTH - len(end)]}{end}"
        clean = replace(piece, id=name, kind=kind, defects=(), taper=piece.taper - taper)
        clean = replace(clean, length=one.x1 - one.x0, width=one.y1 - one.y0)
        cleared.append(CleanPiece(piece.id, one.x0, one.y0, clean))
    named = _Named(piece.id, names, taper > 0)
    outer = replace(room, x1=piece.length, y1=piece.width)
    return Cleared(tuple(cleared), ClearedStock(piece, (*named.outer(outer, tree), *named.cuts(tree))))


@dataclass(frozen=True, slots=True)
class _Rect:
    x0: int
    y0: int
    x1: int
    y1: int

    @property
    def worth(self) -> float:
        return pow(float(self.x1 - self.x0) * float(self.y1 - self.y0), LARGE)

    def sizes(self, along: Literal["length", "width"]) -> tuple[int, int]:
        """Return the size along a cut and the size across it."""
        length, width = self.x1 - self.x0, self.y1 - self.y0
        return (length, width) if along == "length" else (width, length)


@dataclass(frozen=True, slots=True)
class _Tree:
    """A room, the clean rectangles it is cut into, and the two sides of its first cut, the measured one before."""

    room: _Rect
    clean: tuple[_Rect, ...] = ()
    along: Literal["length", "width"] = "length"
    sides: tuple[_Tree, ...] = ()


class _Clean:
    """Finds the clean rectangles of a room that are worth most together; each room is looked at once."""

    def __init__(self, defects: Sequence[Defect], kerf: int) -> None:
        self.defects, self.kerf = defects, kerf
        self.known: dict[_Rect, _Tree] = {}

    def best(self, room: _Rect) -> _Tree:
        """Return how a room is cut into clean rectangles."""
        if room.x1 - room.x0 < LEAST or room.y1 - room.y0 < LEAST:
            return _Tree(room)
        inside = [one for one in self.defects if _meets(one, room)]
        if not inside:
            return _Tree(room, (room,))
        if room not in self.known:
            trees = [
                _Tree(room, (*kept.clean, *left.clean), cut.along, (kept, left))
                for cut in _cuts(room, inside, self.kerf)
                for kept, left in [(self.best(cut.kept), self.best(cut.left))]
            ]
            self.known[room] = max(trees, key=lambda tree: sum(r.worth for r in tree.clean), default=_Tree(room))
        return self.known[room]


@dataclass(frozen=True, slots=True)
class _Cut:
    """A cut of a room: the side of the blade that is measured, and what lies beyond."""

    along: Literal["length", "width"]
    kept: _Rect
    left: _Rect


def _meets(defect: Defect, room: _Rect) -> bool:
    across = defect.x < room.x1 and defect.x + defect.length > room.x0
    return across and defect.y < room.y1 and defect.y + defect.width > room.y0


def _cuts(room: _Rect, defects: Sequence[Defect], kerf: int) -> Iterator[_Cut]:
    """Yield each cut along an edge of a defect, the blade on the defect's side of it; what lies clear is measured."""
    for d in defects:
        if room.x0 < d.x < room.x1:
            yield _Cut("width", replace(room, x1=d.x), replace(room, x0=min(d.x + kerf, room.x1)))
        if room.x0 < d.x + d.length < room.x1:
            end = d.x + d.length
            yield _Cut("width", replace(room, x0=end), replace(room, x1=max(end - kerf, room.x0)))
        if room.y0 < d.y < room.y1:
            yield _Cut("length", replace(room, y1=d.y), replace(room, y0=min(d.y + kerf, room.y1)))
        if room.y0 < d.y + d.width < room.y1:
            end = d.y + d.width
            yield _Cut("length", replace(room, y0=end), replace(room, y1=max(end - kerf, room.y0)))


@dataclass(frozen=True, slots=True)
class _Named:
    """The cuts of one piece of stock, and what tells the pieces they part: the stock's id as long as all is in it."""

    stock: str
    names: Mapping[_Rect, str]
    tapered: bool

    def outer(self, outer: _Rect, tree: _Tree) -> Iterator[FirstCut]:
        """Yield the cuts that take what lies about the room to be cleared off two sides of the stock."""
        room = tree.room
        if room.y1 < outer.y1:
            name = self.stock if room.x1 < outer.x1 else self.name(tree)
            purpose: FirstCutFor = "taper" if self.tapered else "edge"
            yield FirstCut(self.stock, "length", room.y1 - room.y0, name, "", *outer.sizes("length"), purpose)
        if room.x1 < outer.x1:
            across = replace(outer, y1=room.y1).sizes("width")
            yield FirstCut(self.stock, "width", room.x1 - room.x0, self.name(tree), "", *across, "edge")

    def cuts(self, tree: _Tree) -> Iterator[FirstCut]:
        """Yield the cuts that part a room, each before those of its sides."""
        if not tree.sides:
            return
        kept, left = tree.sides
        run, across = tree.room.sizes(tree.along)
        fence = kept.room.sizes(tree.along)[1]
        yield FirstCut(self.name(tree), tree.along, fence, self.name(kept), self.name(left), run, across)
        yield from self.cuts(kept)
        yield from self.cuts(left)

    def name(self, tree: _Tree) -> str:
        """Return what tells a piece from others: the id of a clean one, of others those of all they become, or ""."""
        if not tree.clean or not tree.sides:
            return self.names[tree.room] if tree.clean else ""
        if len(tree.clean) == len(self.names):
            return self.stock
        return f"{self.stock}: {' + '.join(sorted(self.names[one] for one in tree.clean))}"
