"""Stock with defects as the clean pieces it is cut into first: straight cuts along the edges of what is to be avoided.

Of all orders of such cuts the one is taken whose clean pieces are worth most, large ones being worth more than the same
area in small ones. What is too small to be stock is left out with the defects.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import pow

from casewright.api.job import limits
from casewright.sdk.model import CleanPiece, Defect, StockKind, StockPiece
from casewright.sdk.units import MM

__all__ = ["clean_of"]

LEAST = 10 * MM
"""The least length and width of a piece of stock."""
LARGE = 1.5
"""The power of its area that a piece is worth."""


def clean_of(piece: StockPiece, kerf: int, edge_trim: int) -> tuple[CleanPiece, ...]:
    """Return the clean pieces of one with defects, by where they lie on it, of a full sheet within its trims."""
    if not piece.defects:
        return ()
    trim = edge_trim if piece.kind == "sheet" else 0
    rooms = _Clean(piece.defects, kerf).best(_Rect(trim, trim, piece.length - trim, piece.width - trim))
    kind: StockKind = "offcut" if piece.kind == "sheet" else piece.kind
    found = []
    for number, room in enumerate(sorted(rooms, key=lambda r: (r.x0, r.y0)), start=1):
        end = f".{number}"
        name = f"{piece.id[: limits.ID_LENGTH - len(end)]}{end}"
        one = replace(piece, id=name, length=room.x1 - room.x0, width=room.y1 - room.y0, kind=kind, defects=())
        found.append(CleanPiece(piece.id, room.x0, room.y0, one))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Rect:
    x0: int
    y0: int
    x1: int
    y1: int

    @property
    def worth(self) -> float:
        return pow(float(self.x1 - self.x0) * float(self.y1 - self.y0), LARGE)


class _Clean:
    """Finds the clean rectangles of a room that are worth most together; each room is looked at once."""

    def __init__(self, defects: Sequence[Defect], kerf: int) -> None:
        self.defects, self.kerf = defects, kerf
        self.known: dict[_Rect, list[_Rect]] = {}

    def best(self, room: _Rect) -> list[_Rect]:
        """Return the clean rectangles of a room."""
        if room.x1 - room.x0 < LEAST or room.y1 - room.y0 < LEAST:
            return []
        inside = [one for one in self.defects if _meets(one, room)]
        if not inside:
            return [room]
        if room not in self.known:
            splits = ([*self.best(one), *self.best(other)] for one, other in _cuts(room, inside, self.kerf))
            self.known[room] = max(splits, key=lambda found: sum(r.worth for r in found), default=[])
        return self.known[room]


def _meets(defect: Defect, room: _Rect) -> bool:
    across = defect.x < room.x1 and defect.x + defect.length > room.x0
    return across and defect.y < room.y1 and defect.y + defect.width > room.y0


def _cuts(room: _Rect, defects: Sequence[Defect], kerf: int) -> Iterator[tuple[_Rect, _Rect]]:
    """Yield the two sides of each cut along an edge of a defect, the blade on the defect's side of it."""
    for d in defects:
        for x, low, high in _sides(d.x, d.x + d.length, kerf):
            if room.x0 < x < room.x1:
                yield replace(room, x1=max(low, room.x0)), replace(room, x0=min(high, room.x1))
        for y, low, high in _sides(d.y, d.y + d.width, kerf):
            if room.y0 < y < room.y1:
                yield replace(room, y1=max(low, room.y0)), replace(room, y0=min(high, room.y1))


def _sides(start: int, end: int, kerf: int) -> tuple[tuple[int, int, int], tuple[int, int, int]]:
    """Return the edges of a defect along one axis, each with where the blade lies: within the defect."""
    return (start, start, start + kerf), (end, end - kerf, end)
