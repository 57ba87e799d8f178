"""Labels: one for each piece."""

import io
import re

import pytest
from casewright.api import papers as documents
from casewright.api.papers.drawing.inked import Label
from casewright.api.papers.drawing.marks import box_of, on_paper
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.labels import INCH, METRIC, label_sheets
from casewright.api.papers.views.page import PAPERS
from casewright.sdk.model import Plan
from pypdf import PdfReader


def words(data: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


def test_labels_hold_every_piece(bay: Plan) -> None:
    data = documents.labels(bay, "0123456789ab")
    text = words(data)
    for part in bay.parts:
        assert text.count(f"piece {part.quantity} of {part.quantity}") > 0
        assert part.id in text.replace(" ", "")
    pieces = sum(part.quantity for part in bay.parts)
    # Sheets of letter paper with labels of 2 5/8 by 1 in hold 3 by 10; A4 with 70 by 37 mm holds 3 by 8.
    assert len(PdfReader(io.BytesIO(data)).pages) == -(-pieces // 30)
    assert len(PdfReader(io.BytesIO(documents.labels(bay, "", "A4"))).pages) == -(-pieces // 24)


def test_a_label_names_the_part_its_number_where_it_goes_and_its_front_and_band(bay: Plan) -> None:
    text = words(documents.labels(bay, "0123456789ab"))
    cabinet = [part for part in bay.parts if part.cabinet == "tools"]
    for number, part in enumerate(cabinet, start=1):
        assert f"({number}) {part.name}" in text
    assert "piece 2 of 2, for tools 2" in text
    assert "↑ front edge" in text
    assert "L 33 or as measured, bottom" in text  # a frame stile, cut to what the made case measures
    assert ("band: front edge" in text) == any(part.bands for part in bay.parts)
    count = text.count("STOP: do not cut") or text.count("plan 0123456789ab")
    assert count >= sum(part.quantity for part in bay.parts)


def test_labels_stand_on_the_grid_of_their_sheet() -> None:
    # Letter: columns 2 3/4 in apart from 3/16 in on, rows of 1 in from 1/2 in under the top; A4: 70 and 37 mm, with
    # half a millimetre over the first row. Common sheets of labels, no one maker's: from memory.
    columns, rows, (left, top) = INCH.grid((215.9, 279.4))
    assert (columns, rows) == (3, 10)
    assert (left, top) == pytest.approx((4.7625, 279.4 - 12.7))
    columns, rows, (left, top) = METRIC.grid((210.0, 297.0))
    assert (columns, rows) == (3, 8)
    assert (left, top) == pytest.approx((0.0, 296.5))


def test_no_line_of_a_label_leaves_it(bay: Plan) -> None:
    facts = Facts(bay)
    for paper, form in (("letter", INCH), ("A4", METRIC)):
        columns, rows, (left, top) = form.grid(PAPERS[paper])
        for sheet in label_sheets(facts, paper, "0123456789ab"):
            for mark in on_paper(sheet):
                if isinstance(mark, Label):
                    x0, y0, x1, y1 = box_of(mark)
                    column, row = int((x0 - left) // form.pitch), int((top - y1) // form.high)
                    assert 0 <= column < columns
                    assert 0 <= row < rows
                    assert x1 <= left + column * form.pitch + form.width
                    assert y0 >= top - (row + 1) * form.high
                    # Printers leave 4.2 mm or less of the paper's edge unprinted (common practice).
                    assert min(x0, y0) > 4.2
                    assert max(x1 - sheet.width, y1 - sheet.height) < -4.2


def test_a_label_says_which_sides_each_size_lies_between(bay: Plan) -> None:
    text = words(documents.labels(bay, "0123456789ab"))
    for side in ("bottom–top", "front–back", "inside–outside", "outside–inside"):
        assert side in text, side
