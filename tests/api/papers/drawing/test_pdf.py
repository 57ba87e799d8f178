"""Labels in PDF: pieces of a text in several scripts stand one after another from the anchor on."""

import io

import pytest
from casewright.api.papers import to_pdf
from casewright.api.papers.drawing.shapes import Anchor, Sheet, Text, View
from casewright.api.papers.text import runs, width
from pypdf import PdfReader

SAID = "AB 自転車 CD"
PT = 72 / 25.4


def starts(anchor: Anchor) -> list[tuple[float, str]]:
    """Return where each piece of a text at 100 mm begins, in mm."""
    sheet = Sheet("", "", 210, 297, "mm", (View("v", (Text((100, 50), SAID, 5.0, anchor),), (0.0, 0.0), 1.0),))
    found: list[tuple[float, str]] = []

    def visit(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip():
            found.append(((cm[0] * tm[4] + cm[4]) / PT, text.strip()))

    PdfReader(io.BytesIO(to_pdf([sheet]))).pages[0].extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_pieces_follow_one_another(anchor: Anchor, share: float) -> None:
    pieces = [piece for _, piece in runs(SAID)]
    assert len(pieces) == 3
    found = starts(anchor)
    whole = width(SAID, 5.0)
    expected, x = [], 100 - share * whole
    for piece in pieces:
        expected.append(x)
        x += width(piece, 5.0)
    assert [at for at, _ in found] == pytest.approx(expected, abs=0.05)
