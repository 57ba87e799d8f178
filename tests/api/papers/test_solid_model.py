"""The solid model stands in metres with y up, as glTF 2.0 (from memory) has it: places worked by hand."""

import copy
import io
import json
import struct
from itertools import pairwise

import pytest
import samples
import trimesh
from casewright.api import papers
from casewright.api import papers as documents
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.model import Plan
from kernel import part_volume_mm3
from worked import SHELF


def bounds(plan, exploded=False):
    """Return the least and greatest corner of every part, mm."""
    scene = trimesh.load(io.BytesIO(papers.model(plan, exploded)), file_type="glb")
    return {name: (mesh.bounds * 1000).round(3).tolist() for name, mesh in scene.geometry.items()}


@pytest.fixture(scope="module")
def plan(registry):
    return make_plan(read_job(SHELF, registry), registry)


def test_parts_stand_where_the_plan_has_them(plan):
    # x to the right, up is y, the depth runs away from the eye along -z: the shelf from 12, 369, 0 to 588, 387, 320.
    found = bounds(plan)
    assert found["patch/shelf-1"] == [[12, 369, -320], [588, 387, 0]]
    assert found["patch/side-left"] == [[0, 0, -320], [18, 720, 0]]
    assert found["patch/strip-top"] == [[18, 622, -320], [582, 702, -302]]


def test_taken_apart_every_part_moves_its_own_way(plan):
    whole, apart = bounds(plan), bounds(plan, exploded=True)
    moved = {name: [b - a for a, b in zip(whole[name][0], apart[name][0], strict=True)] for name in whole}
    left, right = moved["patch/side-left"], moved["patch/side-right"]
    assert left[0] < 0 < right[0]
    assert left[0] == pytest.approx(-right[0])
    assert moved["patch/top"][1] > 0 > moved["patch/bottom"][1]
    assert moved["patch/strip-top"][2] < 0
    assert moved["patch/shelf-1"] == [0, 0, 0]
    for name, way in moved.items():
        assert sum(abs(n) > 1e-6 for n in way) <= 1, name


def test_cabinets_stand_side_by_side(registry):
    job = copy.deepcopy(SHELF)
    job["cabinets"].append({**copy.deepcopy(SHELF["cabinets"][0]), "id": "spokes"})
    job["wall"]["cabinets_at"]["spokes"] = [{"x": 800, "z": 1400}]
    found = bounds(make_plan(read_job(job, registry), registry))
    first, second = found["patch/side-left"], found["spokes/side-left"]
    assert second[0][0] >= first[0][0] + 600
    assert second[0][1:] == first[0][1:]


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


def test_a_job_of_loose_parts_alone_has_a_model_in_which_none_meets_the_next() -> None:
    import trimesh

    made = samples.plan("loose-only")
    scene = trimesh.load(io.BytesIO(documents.model(made)), file_type="glb")
    boxes = sorted(tuple(scene.geometry[part.id].bounds[:, 0]) for part in made.parts)
    assert len(boxes) == 12
    assert all(low[1] < high[0] for low, high in pairwise(boxes))


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
