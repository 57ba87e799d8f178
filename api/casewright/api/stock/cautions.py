"""What to mind at the saw. Common practice, no source, unless a line says otherwise; local rules come first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum

from casewright.api.stock.request import SMALL_PIECE
from casewright.api.stock.saws import StraightCut
from casewright.sdk.model import Machine, SawCut, StockLayout

__all__ = ["SawCaution", "caution_texts", "cautions_of", "straight_cautions"]

FULL_SHEET = 1_200_000_000
"""A sheet or piece of one longer than this is broken down with a helper, where no track is laid over it."""

NAMED = 3
"""Pieces that a caution names before it says how many more there are."""


class SawCaution(StrEnum):
    """What there is to mind at one cut."""

    FIRST_CUT = "first-cut"
    SMALL_PIECE = "small-piece"
    NARROW_STRIP = "narrow-strip"
    ROCKS = "rocks"


MESSAGES: Mapping[SawCaution, str] = {
    SawCaution.FIRST_CUT: "Large: a helper, and support on the outfeed side",
    SawCaution.SMALL_PIECE: "Short piece: clamp it down, or cut it with a hand saw",
    SawCaution.NARROW_STRIP: "Narrow strip beside the fence: use a push block, or cut it on the far side",
    SawCaution.ROCKS: "Cupped or twisted, so it rocks on the table and the blade can throw it: make its face flat and "
    "its edge straight first, by hand where no machine does, or rip it at a band saw",
}


def cautions_of(
    layout: StockLayout, cut: SawCut, saw: Machine, better: tuple[Machine, ...] = ()
) -> Iterator[SawCaution]:
    """Yield what to mind at a cut of a piece of stock with a saw; `better` are saws it is better made with."""
    opening = cut.piece == layout.tree.label and cut.number == min(one.number for one in layout.cuts)
    if (
        opening
        and layout.kind == "sheet"
        and saw is Machine.TABLE_SAW
        and max(layout.length, layout.width) > FULL_SHEET
    ):
        yield SawCaution.FIRST_CUT
    yield from straight_cautions(StraightCut(cut.run, cut.across, cut.fence, better), saw)


def straight_cautions(cut: StraightCut, saw: Machine) -> Iterator[SawCaution]:
    """Yield what to mind at any straight cut with a saw."""
    if saw is Machine.TABLE_SAW and cut.kept < SMALL_PIECE // 3:
        yield SawCaution.NARROW_STRIP
    if saw is Machine.TABLE_SAW and cut.better:
        yield SawCaution.ROCKS
    if saw is not Machine.TABLE_SAW and max(cut.run, min(cut.kept, cut.across)) < SMALL_PIECE:
        yield SawCaution.SMALL_PIECE


def caution_texts(pieces: Iterable[tuple[SawCaution, str]]) -> tuple[str, ...]:
    """Return a sentence for each caution, with the pieces it is about."""
    about: dict[SawCaution, list[str]] = {}
    for caution, piece in pieces:
        about.setdefault(caution, []).append(piece)
    return tuple(f"{MESSAGES[one]} ({_listed(about[one])})." for one in SawCaution if one in about)


def _listed(pieces: list[str]) -> str:
    names = list(dict.fromkeys(pieces))
    more = len(names) - NAMED
    return ", ".join(names[:NAMED]) + (f" and {more} more" if more > 0 else "")
