"""What to mind at the saw. Common practice, no source, unless a line says otherwise; local rules come first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum
from typing import assert_never

from casewright.api.stock.request import SMALL_PIECE
from casewright.sdk.model import SawCut, StockLayout

__all__ = ["SawCaution", "caution_texts", "cautions_of"]

FULL_SHEET = 1_200_000_000
"""A sheet longer than this is first broken down with a track or a helper."""

NAMED = 3
"""Pieces that a caution names before it says how many more there are."""


class SawCaution(StrEnum):
    """What there is to mind at one cut."""

    FIRST_CUT = "first-cut"
    ROUGH_EDGE = "rough-edge"
    BEYOND_RIP_CAPACITY = "beyond-rip-capacity"
    BEYOND_CROSSCUT_CAPACITY = "beyond-crosscut-capacity"
    USE_SLED = "use-sled"
    SMALL_PIECE = "small-piece"
    NARROW_STRIP = "narrow-strip"


MESSAGES: Mapping[SawCaution, str] = {
    SawCaution.FIRST_CUT: "First cut of a full sheet: use a track saw, or a helper and outfeed support",
    SawCaution.ROUGH_EDGE: "Joint one face and one edge of a rough board before it meets the fence",
    SawCaution.BEYOND_RIP_CAPACITY: "Wider than the fence reaches: cut with a track, or a helper",
    SawCaution.BEYOND_CROSSCUT_CAPACITY: "Wider than the cross-cut saw reaches: use a track or a wider sled",
    SawCaution.USE_SLED: "Longer across than along the fence: use a cross-cut sled, not the fence alone",
    SawCaution.SMALL_PIECE: "Too short to ride the fence safely: use a sled with a clamp or a hand saw",
    SawCaution.NARROW_STRIP: "Narrow strip beside the fence: use a push block, or cut it on the far side",
}


def cautions_of(layout: StockLayout, cut: SawCut, crosscut_capacity: int | None) -> Iterator[SawCaution]:
    """Yield what to mind at a cut of a piece of stock."""
    if cut.piece == layout.tree.label:
        opening = cut.number == min(one.number for one in layout.cuts)
        if layout.kind == "board" and opening:
            yield SawCaution.ROUGH_EDGE
        elif opening and cut.tool != "track" and max(layout.length, layout.width) > FULL_SHEET:
            yield SawCaution.FIRST_CUT
    match cut.tool:
        case "track":
            yield SawCaution.BEYOND_RIP_CAPACITY
        case "stop":
            if crosscut_capacity is not None and cut.run > crosscut_capacity:
                yield SawCaution.BEYOND_CROSSCUT_CAPACITY
        case "fence":
            if cut.run < SMALL_PIECE:
                yield SawCaution.SMALL_PIECE
            elif cut.run < cut.across:
                yield SawCaution.USE_SLED
            if cut.fence < SMALL_PIECE // 3:
                yield SawCaution.NARROW_STRIP
        case _:
            assert_never(cut.tool)


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
