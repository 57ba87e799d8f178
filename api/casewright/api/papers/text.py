"""Text made safe for paper, and measured with the metrics of the fonts that will draw it.

Text sizes are cap heights in mm, as ISO 3098 counts them. The fonts come with the package (see `fonts/`): plain, bold,
one for East Asian characters, and those of `shaping`. What none of them can draw is drawn as a box, never dropped.
"""

import unicodedata
from functools import lru_cache
from math import fsum

from casewright.api.papers import shaping
from casewright.api.papers.shaping import JOINERS, Run
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

PLAIN, BOLD, EAST_ASIAN = "casewright-plain", "casewright-bold", "casewright-east-asian"
MISSING = "□"
"""Stands for a character that no font here can draw."""

CAP = 0.729
"""Cap height of the plain and bold fonts as a share of the font size (their OS/2 table)."""

_FILES = {PLAIN: "plain.ttf", BOLD: "bold.ttf", EAST_ASIAN: "east-asian.ttf"}
_KEPT_MARKS = frozenset({"Mn", "Mc"})


def clean(text: object, limit: int = 400) -> str:
    """Return text on one line without control, format, private or unpaired characters, in composed form.

    Longer text than `limit` characters is cut and ends in an ellipsis.
    """
    whole = str(text)
    kept = JOINERS if shaping.is_shaped(whole) else ""
    made = unicodedata.normalize("NFC", "".join(c if c in kept else _safe(c) for c in whole))
    made = " ".join(made.split())
    return made if len(made) <= limit else made[: limit - 1].rstrip() + "…"


def _safe(char: str) -> str:
    kind = unicodedata.category(char)
    if kind in ("Cc", "Zl", "Zp", "Zs"):
        return " "
    return "" if kind in ("Cf", "Cs", "Co", "Cn") else char


@lru_cache(maxsize=len(_FILES) + len(shaping.SCRIPTS))
def font(name: str) -> TTFont:
    """Return a font, read from the package and made known to the PDF library the first time it is asked for."""
    made = TTFont(name, str(shaping.FONTS / _FILES.get(name, f"{name}.ttf")))
    pdfmetrics.registerFont(made)
    return made


@lru_cache(maxsize=4096)
def _font_of(char: str, bold: bool) -> str:
    """Return the font that draws a character, nothing if none does."""
    script = shaping.script_of(char)
    if script:
        return script if shaping.has(script, char) else ""
    if ord(char) in font(BOLD if bold else PLAIN).face.charToGlyph:
        return BOLD if bold else PLAIN
    if ord(char) > 0x2E00 and ord(char) in font(EAST_ASIAN).face.charToGlyph:
        return EAST_ASIAN
    return ""


def runs(text: str, bold: bool = False) -> list[Run]:
    """Return a line from left to right in runs of one font; what cannot be drawn has become a box."""
    out: list[Run] = []
    for run in shaping.runs(text) if shaping.is_shaped(text) else [Run(text)]:
        for char in run.text:
            name = _font_of(char, bold) or (run.font if char in JOINERS else "")
            if not name:
                if char in JOINERS or (out and unicodedata.category(char) in _KEPT_MARKS):
                    continue
                name, char = BOLD if bold else PLAIN, MISSING
            left = run.leftward and name == run.font
            if out and (out[-1].font, out[-1].leftward) == (name, left):
                out[-1] = Run(out[-1].text + char, name, left)
            else:
                out.append(Run(char, name, left))
    return out


def cannot_draw(text: str) -> bool:
    """Return whether some of the text would be drawn as boxes."""
    return any(not _font_of(char, False) for char in text if char not in JOINERS)


@lru_cache(maxsize=8192)
def width(text: str, height: float, bold: bool = False) -> float:
    """Return how long text of a cap height (mm) is, in mm."""
    size = height / CAP
    return fsum(long(run) * size for run in runs(text, bold))


def long(run: Run) -> float:
    """Return how long a run of one font is, in shares of the font size."""
    if run.font in shaping.SCRIPTS:
        return shaping.shape(run).length
    return float(font(run.font).stringWidth(run.text, 1))


SHORT = 12
"""Characters of a plan's fingerprint that papers carry."""


def short(fingerprint: str) -> str:
    """Return a fingerprint as short as papers carry it."""
    return clean(fingerprint)[:SHORT]


def fitted_end(text: str, height: float, room: float) -> str:
    """Return the text, cut at its beginning where it is longer than `room` mm: ids differ at their end."""
    if width(text, height) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high) // 2
        if width("…" + text[middle:].lstrip(), height) <= room:
            high = middle
        else:
            low = middle + 1
    return "…" + text[low:].lstrip()


def fitted(text: str, height: float, room: float, bold: bool = False) -> str:
    """Return the text, cut with an ellipsis where it is longer than `room` mm."""
    if width(text, height, bold) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width(text[:middle].rstrip() + "…", height, bold) <= room:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def fitted_cell(text: str, height: float, room: float) -> str:
    """Return the text, cut where it is longer than `room` mm: an id at its beginning, other words at their end."""
    cut = fitted_end if "/" in text and " " not in text else fitted
    return cut(text, height, room)


def wrapped(text: str, height: float, room: float, lines: int, bold: bool = False) -> list[str]:
    """Return text broken into at most `lines` lines: at spaces, else after a stroke or hyphen."""
    out: list[str] = []
    left = text
    while left and len(out) < lines - 1 and width(left, height, bold) > room:
        at = _break(left, height, room, bold)
        out.append(left[:at].rstrip())
        left = left[at:].lstrip()
    if left:
        out.append(fitted(left, height, room, bold))
    return out


def _break(text: str, height: float, room: float, bold: bool) -> int:
    low, high = 1, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width(text[:middle], height, bold) <= room:
            low = middle
        else:
            high = middle - 1
    space = text.rfind(" ", 0, low + 1)
    if space > 0:
        return space
    stroke = max(text.rfind(mark, 0, low) for mark in "/-_")
    return stroke + 1 if stroke > 0 else low
