"""Labels in PDF: pieces of a text in several scripts stand one after another from the anchor on."""

import io
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from casewright.api import papers as documents
from casewright.api.papers import to_pdf
from casewright.api.papers.drawing.shapes import Anchor, Sheet, Text, View
from casewright.api.papers.text import runs, width
from casewright.sdk.model import Plan
from pypdf import PdfReader

TEXT = "AB 自転車 CD"
PT = 72 / 25.4


def starts(anchor: Anchor) -> list[tuple[float, str]]:
    """Return where each piece of a text at 100 mm begins, in mm."""
    sheet = Sheet("", "", 210, 297, "mm", (View("v", (Text((100, 50), TEXT, 5.0, anchor),), (0.0, 0.0), 1.0),))
    found: list[tuple[float, str]] = []

    def visit(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip():
            found.append(((cm[0] * tm[4] + cm[4]) / PT, text.strip()))

    PdfReader(io.BytesIO(to_pdf([sheet]))).pages[0].extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_pieces_follow_one_another(anchor: Anchor, share: float) -> None:
    pieces = [run.text for run in runs(TEXT)]
    assert len(pieces) == 3
    begun = starts(anchor)
    whole = width(TEXT, 5.0)
    expected, x = [], 100 - share * whole
    for piece in pieces:
        expected.append(x)
        x += width(piece, 5.0)
    assert [at for at, _ in begun] == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize("name", ["repair-bay", "six-bays"])
def test_template_prints_true(plan: Callable[[str], Plan], name: str, tmp_path: Path) -> None:
    """The check lines as a renderer of another make draws them are 100 mm (4 in) long within 0.1 mm."""
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm (poppler) is not installed")
    made = plan(name)
    sheet = documents.draw(made, "template", paper="A4")[0]
    (tmp_path / "t.pdf").write_bytes(documents.to_pdf([sheet]))
    dots = 600
    command = ["pdftoppm", "-r", str(dots), "-gray", "-singlefile", str(tmp_path / "t.pdf"), str(tmp_path / "t")]
    subprocess.run(command, check=True)
    picture = read_pgm((tmp_path / "t.pgm").read_bytes())
    check = next(view for view in sheet.views if view.name == "check lines")
    wanted = 101.6 if made.job.units == "in" else 100.0

    def pixel(mm: float) -> int:
        return round(mm * dots / 25.4)

    row = picture[picture.shape[0] - pixel(check.at[1] - 1.0)]
    across = centres(row[pixel(check.at[0] - 3) : pixel(check.at[0] + wanted + 3)])
    assert (across[-1] - across[0]) * 25.4 / dots == pytest.approx(wanted, abs=0.1)
    x = check.at[0] + sheet.width - 20.0 - 5.0 + 1.0
    column = picture[:, pixel(x)]
    half = picture.shape[0] // 4
    up = centres(column[half : picture.shape[0] - pixel(31)])
    assert (up[-1] - up[0]) * 25.4 / dots == pytest.approx(wanted, abs=0.1)


def read_pgm(data: bytes) -> np.ndarray:
    header = re.match(rb"P5\s+(\d+)\s+(\d+)\s+(\d+)\s", data)
    assert header is not None
    wide, high = int(header[1]), int(header[2])
    return np.frombuffer(data, np.uint8, wide * high, header.end()).reshape(high, wide)


def centres(line: np.ndarray) -> list[float]:
    """Return the middle of each dark run of a line of pixels."""
    dark = np.flatnonzero(line < 128)
    runs = np.split(dark, np.flatnonzero(np.diff(dark) > 1) + 1)
    return [float(run.mean()) for run in runs if len(run)]


def test_pdf_pages_have_the_papers_size(bay: Plan) -> None:
    page = PdfReader(io.BytesIO(documents.to_pdf(documents.draw(bay, "template", paper="A4")))).pages[0]
    assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(210, abs=0.01)
    assert float(page.mediabox.height) * 25.4 / 72 == pytest.approx(297, abs=0.01)
