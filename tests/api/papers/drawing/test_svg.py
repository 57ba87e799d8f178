"""SVG against the PDF of the same sheet, and its text where the sheet says."""

import io
import re
from collections.abc import Callable
from xml.etree import ElementTree

import pytest
from casewright.api import papers as documents
from casewright.api.papers.drawing.shapes import Sheet
from casewright.sdk.model import Plan
from pypdf import PdfReader

SVG = "{http://www.w3.org/2000/svg}"


def paths_of_svg(text: str) -> set[tuple[float, float]]:
    root = ElementTree.fromstring(text)
    points: set[tuple[float, float]] = set()
    for path in root.iter(f"{SVG}path"):
        for sub in re.findall(r"M[^M]*", path.attrib["d"]):
            if "A" not in sub:
                for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", sub):
                    points.add((round(float(x), 2), round(float(y), 2)))
    return points


def paths_of_pdf(data: bytes, height: float) -> set[tuple[float, float]]:
    content = PdfReader(io.BytesIO(data)).pages[0].get_contents()
    assert content is not None
    points: set[tuple[float, float]] = set()
    sub: list[tuple[float, float]] = []
    round_one = False
    for operands, operator in content.operations:
        if operator == b"m":
            if sub and not round_one:
                points.update(sub)
            sub, round_one = [], False
        if operator in (b"m", b"l"):
            sub.append((round(float(operands[0]), 2), round(height - float(operands[1]), 2)))
        elif operator == b"c":
            round_one = True
        elif operator in (b"S", b"f", b"f*", b"n", b"B") and sub:
            if not round_one:
                points.update(sub)
            sub = []
    return points


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "smallest"])
@pytest.mark.parametrize("view", documents.VIEWS)
def test_svg_and_pdf_agree(plan: Callable[[str], Plan], name: str, view: str) -> None:
    for sheet in documents.draw(plan(name), view)[:3]:
        svg, pdf = documents.to_svg(sheet), documents.to_pdf([sheet])
        ours, theirs = paths_of_svg(svg), paths_of_pdf(pdf, sheet.height)
        strange = {p for p in ours ^ theirs if not _near(p, theirs if p in ours else ours)}
        assert len(ours) > 4
        assert not strange, sorted(strange)[:5]
        assert texts_of_svg(svg, sheet) == pytest.approx(texts_of_pdf(pdf))


def _near(p: tuple[float, float], others: set[tuple[float, float]]) -> bool:
    return any(
        (round(p[0] + dx, 2), round(p[1] + dy, 2)) in others for dx in (-0.01, 0, 0.01) for dy in (-0.01, 0, 0.01)
    )


def texts_of_svg(text: str, sheet: Sheet) -> dict[str, float]:
    """Return the number of characters other than blanks by kind, as the writer set them."""
    root = ElementTree.fromstring(text)
    return _counted("".join(node.text or "" for node in root.iter(f"{SVG}text")))


def texts_of_pdf(data: bytes) -> dict[str, float]:
    return _counted(PdfReader(io.BytesIO(data)).pages[0].extract_text())


def _counted(text: str) -> dict[str, float]:
    written = re.sub(r"[^0-9A-Za-z/×.]", "", text)
    return {c: float(written.count(c)) for c in sorted(set(written))}


def test_svg_text_stands_where_the_sheet_says(bay: Plan) -> None:
    for sheet in documents.draw(bay, "elevation"):
        root = ElementTree.fromstring(documents.to_svg(sheet))
        page = PdfReader(io.BytesIO(documents.to_pdf([sheet]))).pages[0]
        found: list[tuple[str, float, float]] = []

        def keep(text: str, cm: list[float], tm: list[float], *_: object, found: list[object] = found) -> None:
            if text.strip():
                x, y = tm[4] * cm[0] + tm[5] * cm[2] + cm[4], tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
                found.append((text.strip(), x * 25.4 / 72, y * 25.4 / 72))

        page.extract_text(visitor_text=keep)
        level = [n for n in root.iter(f"{SVG}text") if "transform" not in n.attrib]
        assert len(level) > 8
        for node in level:
            share = {"middle": 0.5, "end": 1.0}.get(node.attrib.get("text-anchor", ""), 0.0)
            x = float(node.attrib["x"]) - share * float(node.attrib["textLength"])
            y = sheet.height - float(node.attrib["y"])
            assert any(
                written == node.text and abs(px - x) < 0.05 and abs(py - y) < 0.05 for written, px, py in found
            ), (
                node.text,
                x,
                y,
            )
