"""DXF read back by the library that reads it: sound, in job units, lines at the plan's numbers."""

import io
import math
import os
import subprocess
import sys
from collections.abc import Callable, Iterator

import ezdxf
import pytest
import samples
from casewright.api import papers as documents
from casewright.api.papers.drawing.dxf import plain_text
from casewright.api.papers.drawing.inked import Label
from casewright.api.papers.drawing.marks import on_paper
from casewright.sdk.model import Plan

UNIT_MM = {"in": 25.4, "mm": 1.0}
INSUNITS = {"in": 1, "mm": 4}


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


def measured(entity: ezdxf.entities.Dimension) -> float:
    """Return what a dimension measures: of an ordinate the part along its own direction, which flag 64 calls x."""
    value = entity.get_measurement()
    if isinstance(value, float):
        return value
    return abs(value.x if entity.dxf.dimtype & 64 else value.y)


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "smallest"])
@pytest.mark.parametrize("view", documents.VIEWS)
def test_every_dimension_is_a_true_one_and_shows_what_the_sheet_shows(
    plan: Callable[[str], Plan], name: str, view: str
) -> None:
    made = plan(name)
    sheets = documents.draw(made, view)[:3]
    if not sheets:
        return
    unit = UNIT_MM[made.job.units] * 1_000_000
    labels = [mark for sheet in sheets for mark in on_paper(sheet) if isinstance(mark, Label) and mark.text]
    doc = read_dxf(documents.to_dxf(sheets))
    dimensions = list(doc.modelspace().query("DIMENSION"))
    wanted = sorted((mark.text, abs(mark.shows[0].nm) / unit) for mark in labels if mark.dimension)
    sizes = sorted((entity.dxf.text, measured(entity)) for entity in dimensions)
    assert [text for text, _ in sizes] == [plain_text(text) for text, _ in wanted]
    assert [value for _, value in sizes] == pytest.approx([value for _, value in wanted], abs=1e-6)
    blocks = [entity for one in dimensions for entity in doc.blocks.get(one.dxf.geometry)]
    texts = [entity for space in doc.layouts for entity in space.query("TEXT")]
    texts += [entity for entity in blocks if entity.dxftype() == "TEXT"]
    assert sorted(entity.dxf.text for entity in texts) == sorted(plain_text(mark.text) for mark in labels)


def test_the_bytes_hang_on_no_order_of_a_set() -> None:
    code = (
        "import hashlib; from casewright.api.use.examples import example_job\n"
        "from casewright.api.web import create_app\n"
        "answer = create_app().test_client().post('/v1/drawings/elevation?as=dxf', json=example_job());"
        "print(answer.status_code, hashlib.sha256(answer.data).hexdigest())"
    )
    printed = {
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "4", "7")
    }
    assert len(printed) == 1
    assert printed.pop().startswith(b"200 ")
