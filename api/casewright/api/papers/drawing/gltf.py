"""A glTF 2.0 binary: meshes with flat normals, one material each, trees of named nodes, a scene for each tree.

Lengths are metres and y is up. The same trees always give the same bytes.
"""

import json
import struct
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
XYZ = tuple[float, float, float]
FLOAT, ARRAY_BUFFER, TRIANGLES = 5126, 34962, 4
"""Codes of the format: 32-bit floats, a buffer of vertices, separate triangles."""


@dataclass(frozen=True, slots=True)
class Mesh:
    """Triangles: three corners each, in the order that faces outward, and the material by its name."""

    corners: Floats
    material: str


@dataclass(frozen=True, slots=True)
class Node:
    """A named place in a tree: moved by `at` from its parent; the mesh that stands there, by name; what is under it."""

    name: str
    at: XYZ = (0.0, 0.0, 0.0)
    mesh: str = ""
    children: tuple["Node", ...] = ()


@dataclass(slots=True)
class _File:
    """A file as it grows."""

    data: bytearray = field(default_factory=bytearray)
    views: list[dict[str, Any]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)
    nodes: list[dict[str, Any]] = field(default_factory=list)


def glb(
    meshes: Mapping[str, Mesh], materials: Mapping[str, XYZ], scenes: Mapping[str, Sequence[Node]], first: str
) -> bytes:
    """Return a file with every mesh once. `materials` are their colours, red, green and blue from 0 to 1.

    `scenes` are the roots of each scene by its name; `first` is the one that a viewer shows.
    """
    file = _File()
    names = {name: number for number, name in enumerate(meshes)}
    kinds = {name: number for number, name in enumerate(materials)}
    made = [_mesh(file, name, mesh, kinds[mesh.material]) for name, mesh in meshes.items()]
    trees = [{"name": name, "nodes": [_node(file, root, names) for root in roots]} for name, roots in scenes.items()]
    document = {
        "asset": {"version": "2.0", "generator": "casewright"},
        "scene": list(scenes).index(first),
        "scenes": [{key: value for key, value in tree.items() if value} for tree in trees],
        "nodes": file.nodes,
        "meshes": made,
        "materials": [_material(name, colour) for name, colour in materials.items()],
        "accessors": file.accessors,
        "bufferViews": file.views,
        "buffers": [{"byteLength": len(file.data)}] if file.data else [],
    }
    text = json.dumps({key: value for key, value in document.items() if value != []}, separators=(",", ":")).encode()
    return _packed(text, bytes(file.data))


def _mesh(file: _File, name: str, mesh: Mesh, material: int) -> dict[str, Any]:
    corners = mesh.corners.reshape(-1, 3, 3)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    keep = lengths[:, 0] > 0
    corners, normals = corners[keep], normals[keep] / lengths[keep]
    points = corners.reshape(-1, 3).astype("<f4")
    attributes = {
        "POSITION": _accessor(file, points, bounded=True),
        "NORMAL": _accessor(file, np.repeat(normals, 3, axis=0).astype("<f4")),
    }
    return {"name": name, "primitives": [{"attributes": attributes, "material": material, "mode": TRIANGLES}]}


def _accessor(file: _File, rows: Floats, bounded: bool = False) -> int:
    body = rows.tobytes()
    file.views.append(
        {"buffer": 0, "byteOffset": len(file.data), "byteLength": len(body), "byteStride": 12, "target": ARRAY_BUFFER}
    )
    file.data += body
    made: dict[str, Any] = {
        "bufferView": len(file.views) - 1, "componentType": FLOAT, "count": len(rows), "type": "VEC3",
    }  # fmt: skip
    if bounded:
        made["min"] = [float(n) for n in rows.min(axis=0)]
        made["max"] = [float(n) for n in rows.max(axis=0)]
    file.accessors.append(made)
    return len(file.accessors) - 1


def _node(file: _File, node: Node, names: Mapping[str, int]) -> int:
    made: dict[str, Any] = {"name": node.name}
    if any(node.at):
        made["translation"] = list(node.at)
    if node.mesh:
        made["mesh"] = names[node.mesh]
    number = len(file.nodes)
    file.nodes.append(made)
    if node.children:
        made["children"] = [_node(file, child, names) for child in node.children]
    return number


def _material(name: str, colour: XYZ) -> dict[str, Any]:
    rough = {"baseColorFactor": [*colour, 1.0], "metallicFactor": 0.0, "roughnessFactor": 0.8}
    return {"name": name, "pbrMetallicRoughness": rough}


def _packed(text: bytes, data: bytes) -> bytes:
    """Return the two chunks of a binary file, each filled up to four bytes."""
    text += b" " * (-len(text) % 4)
    data += b"\0" * (-len(data) % 4)
    chunks = struct.pack("<I4s", len(text), b"JSON") + text
    if data:
        chunks += struct.pack("<I4s", len(data), b"BIN\0") + data
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks
