"""Text of scripts that join, stack or run from right to left: in the order it is read, each glyph in its place."""

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import Literal

import uharfbuzz  # type: ignore[import-untyped]
from bidi.algorithm import get_display  # type: ignore[import-untyped]

XY = tuple[float, float]

_BLOCKS: tuple[tuple[str, tuple[tuple[int, int], ...]], ...] = (
    ("hebrew", ((0x0590, 0x05FF), (0xFB1D, 0xFB4F))),
    ("arabic", ((0x0600, 0x06FF), (0x0750, 0x077F), (0x08A0, 0x08FF), (0xFB50, 0xFDFF), (0xFE70, 0xFEFE))),
    ("devanagari", ((0x0900, 0x097F), (0xA8E0, 0xA8FF), (0x1CD0, 0x1CFF))),
    ("bengali", ((0x0980, 0x09FF),)),
    ("gurmukhi", ((0x0A00, 0x0A7F),)),
    ("gujarati", ((0x0A80, 0x0AFF),)),
    ("oriya", ((0x0B00, 0x0B7F),)),
    ("tamil", ((0x0B80, 0x0BFF),)),
    ("telugu", ((0x0C00, 0x0C7F),)),
    ("kannada", ((0x0C80, 0x0CFF),)),
    ("malayalam", ((0x0D00, 0x0D7F),)),
    ("sinhala", ((0x0D80, 0x0DFF),)),
    ("thai", ((0x0E00, 0x0E7F),)),
)
"""Blocks of Unicode by the font that draws them."""

SCRIPTS = tuple(name for name, _ in _BLOCKS)
"""Fonts whose text is shaped."""

LEFTWARD = frozenset({"hebrew", "arabic"})
"""Those of them that run from right to left."""

JOINERS = "\u200c\u200d"
"""Zero-width non-joiner and joiner: no letters, but they say how those beside them join."""

_KEPT = str.maketrans(JOINERS, "\ufe00\ufe01")
"""The bidirectional algorithm drops joiners, so they go through it as marks of the letter before them."""

_BACK = str.maketrans("\ufe00\ufe01", JOINERS)


FONTS = Path(__file__).parent / "fonts"

Kind = Literal["move", "line", "curve", "close"]


@dataclass(frozen=True, slots=True)
class Run:
    """Characters of one script in the order of speech: the font that draws them, if chosen, and their way."""

    text: str
    font: str = ""
    leftward: bool = False


@dataclass(frozen=True, slots=True)
class Move:
    """A move of an outline, in shares of the font size: a curve has two handles and its end."""

    kind: Kind
    points: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class Glyph:
    """A glyph's outline with its place from the run's left end, in shares of the font size."""

    at: XY
    outline: tuple[Move, ...]


@dataclass(frozen=True, slots=True)
class Shaped:
    """A run as glyphs from left to right, its length in shares of the font size, and its characters as they lie."""

    glyphs: tuple[Glyph, ...]
    length: float
    text: str


@lru_cache(maxsize=4096)
def script_of(char: str) -> str:
    """Return the font of the scripts here whose block a character is in, nothing for any other character."""
    code = ord(char)
    if code < _BLOCKS[0][1][0][0]:
        return ""
    return next((name for name, ranges in _BLOCKS if any(low <= code <= high for low, high in ranges)), "")


def is_shaped(text: str) -> bool:
    """Return whether some of a text is of a script that is shaped."""
    return not text.isascii() and any(script_of(char) for char in text)


def as_read(text: str) -> str:
    """Return a line's characters from left to right, brackets turned, by the Unicode bidirectional algorithm (UAX 9).

    The line runs from left to right unless every letter of it runs the other way.
    """
    ways = {unicodedata.bidirectional(char) for char in text}
    return str(get_display(text.translate(_KEPT), base_dir="L" if "L" in ways else "R")).translate(_BACK)


def runs(text: str) -> Iterator[Run]:
    """Yield a line from left to right in runs of one script."""
    line = as_read(text)
    kinds = [_kind(char) for char in line]
    for i, char in enumerate(line):
        if char in JOINERS:
            kinds[i] = next((one for one in (*kinds[i + 1 : i + 2], *kinds[i - 1 : i][:i]) if one[0]), kinds[i])
    for (name, left), run in groupby(zip(kinds, line, strict=True), key=lambda pair: pair[0]):
        chars = "".join(char for _, char in run)
        yield Run(chars[::-1] if left else chars, name, left)


def _kind(char: str) -> tuple[str, bool]:
    name = script_of(char)
    return name, name in LEFTWARD and unicodedata.bidirectional(char) in ("R", "AL", "NSM")


@lru_cache(maxsize=len(_BLOCKS))
def _font(name: str) -> uharfbuzz.Font:
    return uharfbuzz.Font(uharfbuzz.Face((FONTS / f"{name}.ttf").read_bytes()))


def has(name: str, char: str) -> bool:
    """Return whether a script's font has a character."""
    return _font(name).get_nominal_glyph(ord(char)) is not None


@lru_cache(maxsize=2048)
def shape(run: Run) -> Shaped:
    """Return a run of a script that is shaped as glyphs."""
    font = _font(run.font)
    buffer = uharfbuzz.Buffer()
    buffer.add_str(run.text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if run.leftward else "ltr"
    uharfbuzz.shape(font, buffer)
    whole = font.face.upem
    x, out = 0, []
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        at = ((x + place.x_offset) / whole, place.y_offset / whole)
        out.append(Glyph(at, _outline(run.font, info.codepoint)))
        x += place.x_advance
    return Shaped(tuple(out), x / whole, run.text[::-1] if run.leftward else run.text)


@lru_cache(maxsize=2048)
def _outline(name: str, glyph: int) -> tuple[Move, ...]:
    font = _font(name)
    pen = _Pen(font.face.upem)
    font.draw_glyph_with_pen(glyph, pen)
    return tuple(pen.moves)


class _Pen:
    """Takes an outline as the font library draws it; its methods have the names that library calls."""

    def __init__(self, whole: int) -> None:
        self.whole, self.moves, self.last = whole, list[Move](), (0.0, 0.0)

    def _add(self, kind: Kind, *points: XY) -> None:
        self.last = points[-1] if points else self.last
        self.moves.append(Move(kind, tuple((x / self.whole, y / self.whole) for x, y in points)))

    def moveTo(self, point: XY) -> None:  # noqa: N802
        """Begin an outline."""
        self._add("move", point)

    def lineTo(self, point: XY) -> None:  # noqa: N802
        """Go straight."""
        self._add("line", point)

    def curveTo(self, *points: XY) -> None:  # noqa: N802
        """Go by a cubic curve."""
        self._add("curve", *points)

    def qCurveTo(self, by: XY, to: XY) -> None:  # noqa: N802
        """Go by a quadratic curve, which is a cubic one with both handles two thirds of the way to `by`."""
        start = self.last
        handles = [(e[0] + 2 / 3 * (by[0] - e[0]), e[1] + 2 / 3 * (by[1] - e[1])) for e in (start, to)]
        self._add("curve", *handles, to)

    def closePath(self) -> None:  # noqa: N802
        """Close an outline."""
        self._add("close")
