"""Parts as blocks in DXF: closed outlines of the plan's sizes, cuts on layers that say kind and depth, dimensions."""

import io
from collections.abc import Callable

import ezdxf
import pytest
import samples
from casewright.api import papers
from casewright.sdk.model import Plan

UNIT = {"in": 25_400_000, "mm": 1_000_000}


def read(plan: Plan) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(papers.outlines(plan).decode("utf-8")))


@pytest.mark.parametrize("name", samples.JOBS)
def test_every_part_is_a_block_with_a_closed_outline_of_its_size(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    doc = read(made)
    assert not doc.audit().errors
    unit = UNIT[made.job.units]
    inserted = [entity.dxf.name for entity in doc.modelspace().query("INSERT")]
    assert sorted(inserted) == sorted(part.id.replace("/", "-") for part in made.parts)
    for part in made.parts:
        block = doc.blocks.get(part.id.replace("/", "-"))
        rings = list(block.query('LWPOLYLINE[layer=="outline"]'))
        assert rings
        assert all(ring.closed for ring in block.query("LWPOLYLINE"))
        points = [point for ring in rings for point in ring.get_points("xy")]
        if not part.bands:
            long, wide = (max(p[i] for p in points) - min(p[i] for p in points) for i in (0, 1))
            assert (long, wide) == pytest.approx((part.length / unit, part.width / unit), abs=2e-6)


def test_dimensions_are_true_and_measure_the_part(bay: Plan) -> None:
    doc = read(bay)
    sizes = sorted(round(n / UNIT["in"], 6) for part in bay.parts for n in (part.length, part.width))
    measured = sorted(round(entity.get_measurement(), 6) for entity in doc.modelspace().query("DIMENSION"))
    assert measured == pytest.approx(sizes, abs=1e-5)


def test_layers_say_how_deep_a_cut_is_and_bores_stand_where_they_are(bay: Plan) -> None:
    doc = read(bay)
    part = next(p for p in bay.parts if any(f.kind == "groove" for f in p.features))
    block = doc.blocks.get(part.id.replace("/", "-"))
    for feature in part.features:
        if feature.kind == "groove" and abs(feature.entry) == 3:
            deep = min(box.z1 - box.z0 for box in feature.boxes) / UNIT["in"]
            assert any(
                entity.dxf.layer.startswith("groove-")
                and float(entity.dxf.layer.split("-")[2]) == pytest.approx(deep, abs=5.1e-4)  # rounded to a thousandth
                for entity in block.query("LWPOLYLINE")
            )
    for part in bay.parts:
        mouths = sorted(
            round(hole.mouth[0] / UNIT["in"], 6)
            for feature in part.features for hole in feature.holes if abs(hole.into) == 3
        )  # fmt: skip
        circles = doc.blocks.get(part.id.replace("/", "-")).query("CIRCLE")
        assert sorted(round(circle.dxf.center.x, 6) for circle in circles) == pytest.approx(mouths, abs=1e-5)


def test_no_two_parts_overlap_and_the_bytes_stay_the_same(bay: Plan) -> None:
    doc = read(bay)
    boxes = []
    for entity in doc.modelspace().query("INSERT"):
        part = next(p for p in bay.parts if p.id.replace("/", "-") == entity.dxf.name)
        x, y = entity.dxf.insert.x, entity.dxf.insert.y
        boxes.append((x, y, x + part.length / UNIT["in"], y + part.width / UNIT["in"]))
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
    assert papers.outlines(bay) == papers.outlines(bay)
