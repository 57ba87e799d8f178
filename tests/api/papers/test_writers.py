"""SVG, DXF and PDF of the same sheets: sound, true to size, alike, and deaf to hostile text."""

import io
import math
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
import samples
from casewright.api import papers as documents
from casewright.api.papers.drawing.shapes import Sheet
from casewright.sdk.model import Plan
from pypdf import PdfReader

SVG = "{http://www.w3.org/2000/svg}"
UNIT_MM = {"in": 25.4, "mm": 1.0}
INSUNITS = {"in": 1, "mm": 4}
"""DXF reference, header variable $INSUNITS: 1 inches, 4 millimetres (from memory)."""


def read_dxf(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def dxf_numbers(doc: ezdxf.document.Drawing) -> Iterator[float]:
    for layout in doc.layouts:
        for entity in layout:
            for value in entity.dxfattribs().values():
                if isinstance(value, float):
                    yield value
                elif hasattr(value, "xyz"):
                    yield from value.xyz
            if entity.dxftype() == "LWPOLYLINE":
                for point in entity.get_points():
                    yield from point
            if entity.dxftype() == "CIRCLE":
                assert entity.dxf.radius > 0


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("view", documents.VIEWS)
def test_dxf_is_sound(plan: Callable[[str], Plan], name: str, view: str) -> None:
    made = plan(name)
    sheets = documents.draw(made, view)[:6]
    if not sheets:
        return
    doc = read_dxf(documents.to_dxf(sheets))
    audit = doc.audit()
    assert not audit.errors, audit.errors
    assert doc.dxfversion == "AC1024"  # R2010
    assert doc.header["$INSUNITS"] == INSUNITS[made.job.units]
    assert all(math.isfinite(n) and abs(n) < 1e6 for n in dxf_numbers(doc))


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "smallest"])
def test_dxf_lines_end_at_the_plans_numbers(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    unit = UNIT_MM[made.job.units] * 1_000_000
    for part in made.parts:
        sheets = documents.draw(made, "part", subject=part.id)[:1]
        model = read_dxf(documents.to_dxf(sheets)).modelspace()
        ends = [(p.x, p.y) for line in model.query('LINE[layer=="outlines"]') for p in (line.dxf.start, line.dxf.end)]
        face = [p for p in ends if p[0] <= part.length / unit + 1e-6]
        heights = {y for _, y in face}
        assert max(x for x, _ in face) == pytest.approx(part.length / unit, abs=1e-9)
        assert min(x for x, _ in face) == pytest.approx(0, abs=1e-9)
        assert any(abs(y) < 1e-9 for y in heights)
        assert any(abs(y - part.width / unit) < 1e-9 for y in heights)
        if not part.bands:
            assert max(heights) - min(heights) == pytest.approx(part.width / unit, abs=1e-9)
        for feature in part.features:
            if abs(feature.entry) == 3 and feature.kind in ("groove", "rabbet"):
                for x in {x for box in feature.boxes for x in (box.x0, box.x1)} - {0, part.length}:
                    assert any(abs(end[0] - x / unit) < 1e-9 for end in face), (part.id, x / unit)


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
    said = re.sub(r"[^0-9A-Za-z/×.]", "", text)
    return {c: float(said.count(c)) for c in sorted(set(said))}


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
            assert any(said == node.text and abs(px - x) < 0.05 and abs(py - y) < 0.05 for said, px, py in found), (
                node.text,
                x,
                y,
            )


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
    found = re.match(rb"P5\s+(\d+)\s+(\d+)\s+(\d+)\s", data)
    assert found is not None
    wide, high = int(found[1]), int(found[2])
    return np.frombuffer(data, np.uint8, wide * high, found.end()).reshape(high, wide)


def centres(line: np.ndarray) -> list[float]:
    """Return the middle of each dark run of a line of pixels."""
    dark = np.flatnonzero(line < 128)
    runs = np.split(dark, np.flatnonzero(np.diff(dark) > 1) + 1)
    return [float(run.mean()) for run in runs if len(run)]


def test_pdf_pages_have_the_papers_size(bay: Plan) -> None:
    page = PdfReader(io.BytesIO(documents.to_pdf(documents.draw(bay, "template", paper="A4")))).pages[0]
    assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(210, abs=0.01)
    assert float(page.mediabox.height) * 25.4 / 72 == pytest.approx(297, abs=0.01)


@pytest.mark.parametrize("view", documents.VIEWS)
def test_hostile_text_does_nothing(plan: Callable[[str], Plan], view: str) -> None:
    for sheet in documents.draw(plan("hostile"), view, fingerprint="<b>&\x07")[:3]:
        text = documents.to_svg(sheet)
        root = ElementTree.fromstring(text)
        assert {node.tag.removeprefix(SVG) for node in root.iter()} <= {"svg", "title", "rect", "g", "path", "text"}
        assert not any(name.startswith("on") or "href" in name for node in root.iter() for name in node.attrib)
        assert not re.search("[\x00-\x08\x0b-\x1f\u202e]", text)
        doc = read_dxf(documents.to_dxf(sheet))
        assert not doc.audit().errors
        for layout in doc.layouts:
            assert not any("%%" in e.dxf.text or "^" in e.dxf.text for e in layout.query("TEXT"))
        pdf = documents.to_pdf([sheet])
        for word in (b"/JavaScript", b"/JS", b"/URI", b"/Launch", b"/OpenAction"):
            assert word not in pdf


@pytest.mark.parametrize("write", [documents.to_dxf, documents.to_pdf, lambda s: documents.to_svg(s[0]).encode()])
def test_same_sheets_same_bytes(bay: Plan, write: Callable[[tuple[Sheet, ...]], bytes]) -> None:
    first, second = documents.draw(bay, "section"), documents.draw(bay, "section")
    assert write(first) == write(second)


def test_unknown_subjects_and_papers_are_refused(bay: Plan) -> None:
    with pytest.raises(documents.UnknownSubjectError, match="tools/side-left"):
        documents.draw(bay, "part", subject="tools/side")
    with pytest.raises(ValueError, match="letter"):
        documents.draw(bay, "part", paper="B5")
    for view in documents.VIEWS:
        for subject in documents.subjects(bay, view):
            assert documents.draw(bay, view, subject=subject)
