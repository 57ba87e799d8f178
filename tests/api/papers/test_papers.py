"""Booklet, labels, workbook and solid model."""

import io
import json
import re
import struct
import time
import zipfile
from collections.abc import Callable

import openpyxl
import pytest
import samples
from casewright.api import papers as documents
from casewright.api.papers.facts import Facts
from casewright.api.papers.text import MISSING, cannot_draw, clean, fitted, runs, width
from casewright.sdk.model import Plan
from casewright.sdk.testing.kernel import part_volume_mm3
from pypdf import PdfReader


def words(data: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


@pytest.fixture(scope="module")
def booklet(bay: Plan) -> str:
    return words(documents.booklet(bay, "0123456789ab"))


def test_booklet_is_quick(bay: Plan) -> None:
    documents.booklet(bay, "x")
    start = time.perf_counter()
    documents.booklet(bay, "0123456789ab")
    assert time.perf_counter() - start < 2.0


def test_booklet_names_every_part_and_its_size(bay: Plan, booklet: str) -> None:
    tight = booklet.replace(" ", "")
    facts = Facts(bay)
    for part in bay.parts:
        assert part.id in tight
        assert facts.size(part).replace(" ", "") in tight, part.id


@pytest.mark.parametrize(
    "heading",
    ["Cut list", "Stock", "Saw settings in working order", "Joints by setting", "Dry fit", "Glue-up gates",
     "Hardware and shopping list", "Drilling", "Hanging", "Checks and their sources", "Print at 100 %"],
)  # fmt: skip
def test_booklet_has_its_sections(booklet: str, heading: str) -> None:
    assert heading in booklet


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "loose-only"])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_every_page_carries_title_fingerprint_and_number(plan: Callable[[str], Plan], name: str, paper: str) -> None:
    pages = PdfReader(io.BytesIO(documents.booklet(plan(name), "0123456789ab", paper))).pages
    for number, page in enumerate(pages, start=1):
        said = re.sub(r"\s+", " ", page.extract_text())
        assert f"page {number} of {len(pages)}" in said
        assert "plan 0123456789ab" in said


@pytest.mark.parametrize("name", ["repair-bay", "smallest", "loose-only"])
def test_fonts_are_embedded(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    papers = [documents.booklet(made, "x"), documents.labels(made)]
    papers += [documents.to_pdf(s) for v in documents.VIEWS if (s := documents.draw(made, v)[:2])]
    for data in papers:
        for page in PdfReader(io.BytesIO(data)).pages:
            for font in page["/Resources"].get("/Font", {}).values():
                assert "/FontFile2" in font.get_object()["/FontDescriptor"], font.get_object()["/BaseFont"]


def test_absent_sections_say_so(plan: Callable[[str], Plan]) -> None:
    said = words(documents.booklet(plan("bays-framed"), ""))
    assert "gives no stock" in said
    said = words(documents.booklet(plan("loose-only"), ""))
    assert "No joints are cut." in said
    assert "Nothing is glued." in said
    assert "loose/panel-11" in said


def test_other_scripts_are_drawn_or_boxed(plan: Callable[[str], Plan]) -> None:
    assert not cannot_draw("Żółw Ωμέγα Щука 自転車 자전거 ½ ⌀ ☐ −")
    assert cannot_draw("ورشة")
    assert "".join(piece for _, piece in runs("a ورشة")) == "a " + 4 * MISSING
    assert "自転車修理場" in words(documents.booklet(plan("smallest"), ""))


def test_text_is_cleaned_and_fitted() -> None:
    assert clean("a\x00\x1b[31m\u202eb\ud800\n c") == "a [31mb c"
    said = fitted("a long line of text that does not fit", 2.5, 20.0)
    assert said.endswith("…")
    assert width(said, 2.5) <= 20.0
    assert len(clean("x" * 900)) == 400


def test_labels_hold_every_piece(bay: Plan) -> None:
    data = documents.labels(bay, "0123456789ab")
    said = words(data)
    for part in bay.parts:
        assert said.count(f"piece {part.quantity} of {part.quantity}") > 0
        assert part.id in said.replace(" ", "")
    pieces = sum(part.quantity for part in bay.parts)
    assert len(PdfReader(io.BytesIO(data)).pages) == -(-pieces // 24)


@pytest.mark.parametrize("name", samples.JOBS)
def test_workbook_cells(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    book = openpyxl.load_workbook(io.BytesIO(documents.workbook(made)))
    assert book.sheetnames == ["Parts", "Hardware", "Settings", "Leftovers"]
    unit = {"in": 25_400_000, "mm": 1_000_000}[made.job.units]
    sheet = book["Parts"]
    for part, row in zip(made.parts, sheet.iter_rows(min_row=2), strict=True):
        assert (row[1].value, row[4].value) == (part.id, part.quantity)
        for cell, nm in zip(row[6:9], (part.length, part.width, part.thickness), strict=True):
            assert cell.data_type == "n"
            assert cell.value == pytest.approx(nm / unit, abs=1e-3)
    for sheet in book:
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.print_title_rows == "$1:$1"
        assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)


def test_workbook_takes_no_text_for_a_formula(plan: Callable[[str], Plan]) -> None:
    from dataclasses import replace

    made = plan("smallest")
    hostile = [replace(p, name=f"{c}1+1") for p, c in zip(made.parts, ("=", "+", "-", "@", "\x07="), strict=False)]
    data = documents.workbook(replace(made, parts=tuple(hostile)))
    assert b"<f>" not in zipfile.ZipFile(io.BytesIO(data)).read("xl/worksheets/sheet1.xml")
    cells = [row[2] for row in openpyxl.load_workbook(io.BytesIO(data))["Parts"].iter_rows(min_row=2)]
    assert [c.value for c in cells] == ["=1+1", "+1+1", "-1+1", "@1+1", "=1+1"]
    assert all(c.data_type == "s" and c.quotePrefix for c in cells)


def test_workbook_knows_no_clock(bay: Plan) -> None:
    data = documents.workbook(bay)
    archive = zipfile.ZipFile(io.BytesIO(data))
    assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert archive.read("docProps/core.xml").count(b"2000-01-01T00:00:00Z") == 2
    assert data == documents.workbook(bay)


def gltf(data: bytes) -> dict[str, object]:
    """Read a GLB's JSON chunk by the glTF 2.0 layout: magic, version, length, then chunks."""
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack("<I4s", data[12:20])
    assert kind == b"JSON"
    found: dict[str, object] = json.loads(data[20 : 20 + size])
    return found


@pytest.mark.parametrize("exploded", [False, True])
def test_model_holds_every_part(bay: Plan, exploded: bool) -> None:
    data = documents.model(bay, exploded)
    found = gltf(data)
    names = {node.get("name") for node in found["nodes"]}  # type: ignore[attr-defined]
    assert {part.id for part in bay.parts} <= names
    assert data == documents.model(bay, exploded)


def test_model_is_true_to_size(bay: Plan) -> None:
    import trimesh

    scene = trimesh.load(io.BytesIO(documents.model(bay)), file_type="glb")
    for part in bay.parts:
        mesh = scene.geometry[part.id]
        box = part.place.box(part.blank)
        size = sorted((box.x1 - box.x0, box.y1 - box.y0, box.z1 - box.z0))
        assert sorted(mesh.extents * 1e9) == pytest.approx(size, rel=1e-5)
        if not any(feature.holes for feature in part.features):
            mesh.merge_vertices()
            assert abs(mesh.volume) * 1e9 == pytest.approx(part_volume_mm3(part), rel=1e-4)
