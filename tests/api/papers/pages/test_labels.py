"""Labels: one for each piece."""

import io
import re

from casewright.api import papers as documents
from casewright.sdk.model import Plan
from pypdf import PdfReader


def words(data: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


def test_labels_hold_every_piece(bay: Plan) -> None:
    data = documents.labels(bay, "0123456789ab")
    said = words(data)
    for part in bay.parts:
        assert said.count(f"piece {part.quantity} of {part.quantity}") > 0
        assert part.id in said.replace(" ", "")
    pieces = sum(part.quantity for part in bay.parts)
    assert len(PdfReader(io.BytesIO(data)).pages) == -(-pieces // 24)


def test_a_label_says_which_sides_each_size_lies_between(bay: Plan) -> None:
    said = words(documents.labels(bay, "0123456789ab"))
    for side in ("bottom–top", "front–back", "inside–outside", "outside–inside"):
        assert side in said, side
