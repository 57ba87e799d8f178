"""What pieces are called on their way from stock to parts: in few words by what they become, each name for one thing.

A sheet keeps its name while its edges are trimmed; a part goes by its id. A piece that becomes one or two kinds of part
is named by them, any other by its number on its piece of stock. Equal pieces that become the same part by one cut are
interchangeable and share a name.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.milling import Milled, is_under
from casewright.api.engine.work.naming import NOUNS, summed_up, totals
from casewright.sdk.model import CutPiece, Part, StockLayout
from casewright.sdk.model.parts import Role

__all__ = ["names_of", "parts_in"]

ROLES_NAMED = 2
"""Kinds of part that the name of a piece lists at most."""

Names = Mapping[int, Mapping[str, str]]
"""What each piece is called, by the number of its layout and its label in it."""


@dataclass(frozen=True, slots=True)
class _Parts:
    """The parts that pieces become, how many each cabinet has of a role, and which blanks of them are milled."""

    by_id: Mapping[str, Part]
    every: Mapping[tuple[str, Role], int]
    milled: Milled


@dataclass(frozen=True, slots=True)
class _Named:
    """A piece to be named: the words round its number, and what tells it from others with the same words."""

    layout: int
    label: str
    word: str
    rest: str
    alike: tuple[object, ...]


def names_of(
    layouts: Sequence[StockLayout], milled: Milled, parts: Mapping[str, Part], trimmed: Collection[tuple[int, str]]
) -> Names:
    """Return what each piece is called; `trimmed` are the labels of the sheets that trim cuts leave, by layout."""
    wanted = _Parts(parts, totals(parts.values()), milled)
    out: dict[int, dict[str, str]] = {}
    waiting: list[_Named] = []
    for layout in layouts:
        out[layout.number] = names = {}
        for piece, above in _pieces(layout.tree, None):
            name = _fixed(layout, piece, milled, trimmed)
            if name is None:
                waiting.append(_named(layout, piece, above, wanted))
            else:
                names[piece.label] = name
    alike: dict[tuple[str, str], dict[tuple[object, ...], int]] = {}
    for one in waiting:
        group = alike.setdefault((one.word, one.rest), {})
        group.setdefault(one.alike, len(group) + 1)
    for one in waiting:
        group = alike[one.word, one.rest]
        number = f"{one.word} {group[one.alike]}" if len(group) > 1 else one.word
        out[one.layout][one.label] = f"{number} {one.rest}"
    return out


def _pieces(piece: CutPiece, above: CutPiece | None) -> Iterator[tuple[CutPiece, CutPiece | None]]:
    yield piece, above
    for inside in piece.inside:
        yield from _pieces(inside, piece)


def _fixed(layout: StockLayout, piece: CutPiece, milled: Milled, trimmed: Collection[tuple[int, str]]) -> str | None:
    """Return the name of a piece that needs no number, or `None`."""
    if piece.what == "waste":
        return ""
    if piece.what == "stock" or (layout.number, piece.label) in trimmed:
        return f"{layout.stock} {layout.number}"
    blank = (layout.number, piece.label) in milled
    if piece.what == "part" and not blank:
        return piece.part
    if not blank and is_under(milled, layout.number, piece.label):
        return f"{next(parts_in(piece))}, ripped"
    return None


def _named(layout: StockLayout, piece: CutPiece, above: CutPiece | None, parts: _Parts) -> _Named:
    here = f"of {layout.stock} {layout.number}"
    alone = (layout.number, piece.label)
    if piece.what == "leftover":
        return _Named(*alone, "leftover", here, alone)
    held = list(parts_in(piece))
    if (layout.number, piece.label) in parts.milled:
        same: tuple[object, ...] = (held[0], piece.dx, piece.dy, layout.thickness)
        return _Named(*alone, "blank", f"for {_becomes(held, parts)}", same)
    word = "strip" if above is not None and piece.dx == above.dx else "piece"
    becomes = _becomes(held, parts)
    shared = len(held) == 1 and all(len(inner.cuts) <= 1 for inner, _ in _pieces(piece, None))
    alike = (held[0], piece.dx, piece.dy) if shared else alone
    return _Named(*alone, word, f"for {becomes}" if becomes else here, alike)


def parts_in(piece: CutPiece) -> Iterator[str]:
    """Yield the id of every part in a piece."""
    if piece.what == "part":
        yield piece.part
    for inside in piece.inside:
        yield from parts_in(inside)


def _becomes(held: Sequence[str], parts: _Parts) -> str:
    """Return the parts a piece becomes in a few words, `both sides of tools`; nothing where that takes many."""
    some = [parts.by_id[one] for one in held]
    roles = {one.role for one in some}
    if len(roles) > ROLES_NAMED or ("loose" in roles and len(set(held)) > ROLES_NAMED):
        return ""
    if len({one.cabinet for one in some}) == 1:
        return summed_up(some, parts.every)
    return f"{len(some)} {NOUNS[some[0].role]}" if len(roles) == 1 else ""
