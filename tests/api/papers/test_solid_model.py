"""The solid model stands in metres with y up, as glTF 2.0 (from memory) has it: places worked by hand."""

import copy
import io
import json
import struct
import subprocess
import sys
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
import samples
import trimesh
from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.model import Plan
from kernel import part_volume_mm3
from worked import SHELF


def bounds(plan, exploded=False):
    """Return the least and greatest corner of every part where it stands, mm."""
    scene = trimesh.load(io.BytesIO(papers.model(plan, exploded)), file_type="glb")
    out = {}
    for node in scene.graph.nodes_geometry:
        turn, name = scene.graph[node]
        corners = trimesh.transform_points(scene.geometry[name].bounds, turn) * 1000
        out.setdefault(name, corners.round(3).tolist())
    return out


@pytest.fixture(scope="module")
def plan(registry):
    return make_plan(read_job(SHELF, registry), registry)


def test_parts_stand_where_they_hang(plan):
    # x to the right from the wall's left end, y up from the floor, z out of the wall. The case hangs at 120 and 1400:
    # the shelf from 12 to 588 in it and from 369 to 387 up, over the whole depth of 320.
    boxes = bounds(plan)
    assert boxes["patch/shelf-1"] == [[132, 1769, 0], [708, 1787, 320]]
    assert boxes["patch/side-left"] == [[120, 1400, 0], [138, 2120, 320]]
    assert boxes["patch/strip-top"] == [[138, 2022, 0], [702, 2102, 18]]


def test_taken_apart_every_part_moves_its_own_way(plan):
    whole, apart = bounds(plan), bounds(plan, exploded=True)
    # The shelf stays in the middle of its cabinet, which stands further along the wall.
    middle = [b - a for a, b in zip(whole["patch/shelf-1"][0], apart["patch/shelf-1"][0], strict=True)]
    moved = {
        name: [b - a - m for a, b, m in zip(whole[name][0], apart[name][0], middle, strict=True)] for name in whole
    }
    left, right = moved["patch/side-left"], moved["patch/side-right"]
    assert left[0] < 0 < right[0]
    assert left[0] == pytest.approx(-right[0])
    assert moved["patch/top"][1] > 0 > moved["patch/bottom"][1]
    assert moved["patch/strip-top"][2] < 0
    for name, way in moved.items():
        assert sum(abs(n) > 1e-3 for n in way) <= 1, name


def test_cabinets_stand_side_by_side(registry):
    job = copy.deepcopy(SHELF)
    job["cabinets"].append({**copy.deepcopy(SHELF["cabinets"][0]), "id": "spokes"})
    job["wall"]["cabinets_at"]["spokes"] = [{"x": 800, "z": 1400}]
    boxes = bounds(make_plan(read_job(job, registry), registry))
    first, second = boxes["patch/side-left"], boxes["spokes/side-left"]
    assert second[0][0] >= first[0][0] + 600
    assert second[0][1:] == first[0][1:]


def gltf(data: bytes) -> dict[str, object]:
    """Read a GLB's JSON chunk by the glTF 2.0 layout: magic, version, length, then chunks."""
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack("<I4s", data[12:20])
    assert kind == b"JSON"
    document: dict[str, object] = json.loads(data[20 : 20 + size])
    return document


@pytest.mark.parametrize("exploded", [False, True])
def test_model_holds_every_part(bay: Plan, exploded: bool) -> None:
    data = papers.model(bay, exploded)
    document = gltf(data)
    names = {node.get("name") for node in document["nodes"]}  # type: ignore[attr-defined]
    assert {part.id for part in bay.parts} <= names
    assert data == papers.model(bay, exploded)


def test_the_tree_names_every_copy_its_groups_and_parts_in_both_scenes(bay: Plan) -> None:
    document: Any = gltf(papers.model(bay))
    nodes = document["nodes"]
    assert [scene["name"] for scene in document["scenes"]] == ["put together", "taken apart"]
    assert document["scene"] == 0
    assert gltf(papers.model(bay, exploded=True))["scene"] == 1
    for scene in document["scenes"]:
        roots = {nodes[i]["name"]: nodes[i] for i in scene["nodes"]}
        assert set(roots) == {"tools 1", "tools 2"}
        for root in roots.values():
            groups = [nodes[i] for i in root["children"]]
            assert {group["name"] for group in groups} >= {"tools: case", "tools: face-frame", "tools: door-1"}
            parts = [nodes[i]["name"] for group in groups for i in group["children"]]
            assert sorted(parts) == sorted(part.id for part in bay.parts)
    # The sample hangs its copies at 2 and 30 in, both 54 in over the floor.
    places = [nodes[i]["translation"] for i in document["scenes"][0]["nodes"]]
    assert [place[0] for place in places] == pytest.approx([2 * 0.0254, 30 * 0.0254])
    assert [place[1] for place in places] == pytest.approx([54 * 0.0254] * 2)


def test_meshes_have_their_material_and_normals_of_length_one(bay: Plan) -> None:
    data = papers.model(bay)
    document: Any = gltf(data)
    materials = [material["name"] for material in document["materials"]]
    by_mesh = {mesh["name"]: mesh["primitives"][0] for mesh in document["meshes"]}
    blob = data[20 + struct.unpack("<I", data[12:16])[0] + 8 :]

    def rows(number: int) -> Any:
        accessor = document["accessors"][number]
        view = document["bufferViews"][accessor["bufferView"]]
        raw = blob[view["byteOffset"] : view["byteOffset"] + view["byteLength"]]
        return np.frombuffer(raw, dtype="<f4").reshape(accessor["count"], 3)

    for part in bay.parts:
        primitive = by_mesh[part.id]
        assert materials[primitive["material"]] == part.material
        normals = rows(primitive["attributes"]["NORMAL"])
        points = rows(primitive["attributes"]["POSITION"]).reshape(-1, 3, 3)
        assert np.allclose(np.linalg.norm(normals, axis=1), 1, atol=1e-5)
        # Counter-clockwise corners face outward (glTF 2.0, 3.7.2.1, from memory): each normal is its triangle's own.
        own = np.cross(points[:, 1] - points[:, 0], points[:, 2] - points[:, 0])
        assert (np.einsum("ij,ij->i", own, normals[::3]) > 0).all()


def test_a_job_of_loose_parts_alone_has_a_model_in_which_none_meets_the_next() -> None:
    made = samples.plan("loose-only")
    boxes = sorted((low[0], high[0]) for low, high in bounds(made).values())
    assert len(boxes) == 12
    assert all(low[1] < high[0] for low, high in pairwise(boxes))


def test_model_is_true_to_size(bay: Plan) -> None:
    scene = trimesh.load(io.BytesIO(papers.model(bay)), file_type="glb")
    for part in bay.parts:
        mesh = scene.geometry[part.id]
        box = part.place.box(part.blank)
        size = sorted((box.x1 - box.x0, box.y1 - box.y0, box.z1 - box.z0))
        assert sorted(mesh.extents * 1e9) == pytest.approx(size, rel=1e-5)
        if not any(feature.holes for feature in part.features):
            mesh.merge_vertices()
            assert mesh.volume * 1e9 == pytest.approx(part_volume_mm3(part), rel=1e-4)


LITTLE_MEMORY = """
import pathlib, resource, sys
from casewright.api.papers.solid_model import wood
from casewright.sdk.geometry import Box
slot = type("Slot", (), {"boxes": (Box(1, 1, 1, 2, 2, 9),), "holes": (), "wedges": ()})
part = type("Board", (), {"blank": Box(0, 0, 0, 9, 9, 9), "bands": (), "features": (slot,)})
has = int(pathlib.Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
resource.setrlimit(resource.RLIMIT_AS, (has + int(sys.argv[1]) * 2**20,) * 2)
try:
    wood(part).to_mesh()
except MemoryError:
    print("too little")
else:
    print("made")
"""


@pytest.mark.parametrize(("mib", "comes"), [(2, "too little"), (8, "too little"), (400, "made")])
def test_too_little_memory_for_a_model_does_not_end_the_process(mib, comes):
    """With 2 MiB left its library cannot be loaded, an `ImportError`; with 8 its threads end the process."""
    ran = subprocess.run([sys.executable, "-c", LITTLE_MEMORY, str(mib)], capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stdout.strip()) == (0, comes), ran.stderr
