"""What pieces are called on their way from stock to parts: short enough to pencil on the wood, each name for one thing.

A piece keeps its name while its edges are trimmed or straightened; a part goes by its id, and so does a blank of it,
over size or ripped. A loose piece is named by its sheet or board
and by what it becomes: `case-sheet 4: strip for tools sides`. The parts that are largest in it stand for all; a piece
that becomes one part by its next cut is that part over its length or its width. Equal pieces that become the same part
by one cut each are interchangeable and share a name.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.milling import Milled, is_under
from casewright.api.engine.work.naming import NOUNS, OVER_SIZE, joined, left_over_size, short_title
from casewright.sdk.model import CutPiece, Part, StockLayout
from casewright.sdk.model.parts import Role

__all__ = ["names_of", "parts_in", "pieces_in"]

PHRASES = 2
"""Kinds of part that the name of a piece lists at most."""
STRIP = 2
"""A piece is a strip where it is at least so many times as long as it is wide (common practice, no source)."""
HALF = (2, 3, 5)
"""A piece is a half of its sheet from 2/5 to 3/5 of its area."""

Names = Mapping[int, Mapping[str, str]]
"""What each piece is called, by the number of its layout and its label in it."""


@dataclass(frozen=True, slots=True)
class _Parts:
    """The parts that pieces become, and how many there are of each role of a cabinet."""

    by_id: Mapping[str, Part]
    every: Mapping[tuple[str, Role], int]


@dataclass(frozen=True, slots=True)
class _Named:
    """A piece to be named: the words round its number, and what tells it from others with the same words."""

    layout: int
    label: str
    word: str
    rest: str
    alike: tuple[object, ...]


def names_of(
    layouts: Sequence[StockLayout], milled: Milled, parts: Mapping[str, Part], same: Mapping[tuple[int, str], str]
) -> Names:
    """Return what each piece is called; `same` are pieces that keep the name of another, which stands before them.

    What is cut as a part and is larger than it goes by `left_over_size` until it is measured for.
    """
    every = Counter[tuple[str, Role]]()
    for part in parts.values():
        every[part.cabinet, part.role] += part.quantity
    wanted = _Parts(parts, every)
    out: dict[int, dict[str, str]] = {}
    waiting: list[_Named] = []
    for layout in layouts:
        out[layout.number] = names = {}
        for piece in pieces_in(layout.tree):
            name = "" if (layout.number, piece.label) in same else _fixed(layout, piece, milled, parts)
            if name is None:
                waiting.append(_named(layout, piece, wanted))
            else:
                names[piece.label] = name
    alike: dict[tuple[str, str], dict[tuple[object, ...], int]] = {}
    for one in waiting:
        group = alike.setdefault((one.word, one.rest), {})
        group.setdefault(one.alike, len(group) + 1)
    for one in waiting:
        group = alike[one.word, one.rest]
        which = f" {group[one.alike]}" if len(group) > 1 else ""
        out[one.layout][one.label] = f"{one.word}{which}{one.rest}"
    for (number, label), of in same.items():
        out[number][label] = out[number][of]
    return out


def pieces_in(piece: CutPiece) -> Iterator[CutPiece]:
    """Yield a piece, and every piece that comes of it."""
    yield piece
    for inside in piece.inside:
        yield from pieces_in(inside)


def _fixed(layout: StockLayout, piece: CutPiece, milled: Milled, parts: Mapping[str, Part]) -> str | None:
    """Return the name of a piece that needs no number, or `None`."""
    if piece.what == "waste":
        return ""
    if piece.what == "stock":
        return f"{layout.stock} {layout.number}"
    if (layout.number, piece.label) in milled:
        return f"{next(parts_in(piece))}, {OVER_SIZE}"
    if piece.what == "part":
        return left_over_size(piece, parts[piece.part])
    if is_under(milled, layout.number, piece.label):
        return f"{next(parts_in(piece))}, ripped"
    return None


def _named(layout: StockLayout, piece: CutPiece, parts: _Parts) -> _Named:
    sheet = f"{layout.stock} {layout.number}: "
    alone = (layout.number, piece.label)
    if piece.what == "leftover":
        return _Named(*alone, f"{sheet}leftover", "", alone)
    inside = sorted(
        (one for one in pieces_in(piece) if one.what == "part"), key=lambda one: (-one.dx * one.dy, one.part)
    )
    becomes = _becomes([parts.by_id[one.part] for one in inside], parts.every)
    shared = len({one.part for one in inside}) == 1 and all(len(one.cuts) <= 1 for one in pieces_in(piece))
    alike: tuple[object, ...] = (layout.number, inside[0].part, piece.dx, piece.dy) if shared else alone
    if len(inside) == 1:
        return _Named(*alone, f"{sheet}{becomes}", f", {_over(piece, inside[0], parts.by_id[inside[0].part])}", alike)
    word = _word(layout, piece)
    return _Named(*alone, f"{sheet}{word}", f" {'for' if word == 'strip' else 'with'} {becomes}", alike)


def _over(piece: CutPiece, inside: CutPiece, part: Part) -> str:
    """Return by what a piece is larger than the one part it becomes."""
    if piece.dx != inside.dx and piece.dy != inside.dy:
        return OVER_SIZE
    turned = inside.dx < part.length or inside.dy < part.width
    return "over width" if (piece.dx != inside.dx) is turned else "over length"


def _word(layout: StockLayout, piece: CutPiece) -> str:
    """Return what a piece is by its shape: a strip, a half of its sheet, or just a piece."""
    if max(piece.dx, piece.dy) >= STRIP * min(piece.dx, piece.dy):
        return "strip"
    low, high, of = HALF
    share = of * piece.dx * piece.dy
    return "half" if low <= share / (layout.length * layout.width) <= high else "piece"


def parts_in(piece: CutPiece) -> Iterator[str]:
    """Yield the id of every part in a piece."""
    return (one.part for one in pieces_in(piece) if one.what == "part")


def _becomes(parts: Sequence[Part], every: Mapping[tuple[str, Role], int]) -> str:
    """Return parts, the largest first, in a few words: `spares back and top`, `4 tools sides and 3 more`."""
    phrases: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        kind = part.id if part.role == "loose" else part.role
        phrases.setdefault((part.cabinet, kind), []).append(part)
    kinds = list(phrases.values())
    few = kinds[: PHRASES if len(kinds) <= PHRASES else 1]
    words = [_phrase(few[0], few[0][0].cabinet, every)]
    words += [_phrase(some, "" if some[0].cabinet == few[0][0].cabinet else some[0].cabinet, every) for some in few[1:]]
    more = len(parts) - sum(map(len, few))
    return joined([*words, f"{more} more"] if more else words)


def _phrase(some: Sequence[Part], cabinet: str, every: Mapping[tuple[str, Role], int]) -> str:
    """Return parts of one kind and cabinet; no number stands before a plural that is all there are of them."""
    names = dict.fromkeys(short_title(part) for part in some)
    several = f"{cabinet} {min(names) if len(names) == 1 else NOUNS[some[0].role]}".strip()
    if len(some) == 1:
        return several
    if len(names) == 1:
        return f"{len(some)} × {several}"
    return several if len(some) == every[some[0].cabinet, some[0].role] else f"{len(some)} {several}"
