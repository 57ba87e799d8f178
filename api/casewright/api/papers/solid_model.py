"""The cabinets as a glTF binary, put together or taken apart, every part a named node with its cuts in it.

Cuts are made by manifold3d and the file is written by trimesh; both are imported only when a model is asked for.
glTF counts in metres with y up.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.isometric import offset
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.model import Part, Plan

SIDES = 32
"""Sides of the prism that stands for a round hole."""

ROOM = 300.0
"""Between one cabinet and the next, mm."""

_TURNS = {3: (0, 0, 0), -3: (180, 0, 0), 1: (0, 90, 0), -1: (0, -90, 0), 2: (-90, 0, 0), -2: (90, 0, 0)}


def model(plan: Plan, exploded: bool = False) -> bytes:
    """Return every cabinet of a plan side by side as GLB, then the loose parts; `exploded` takes cabinets apart."""
    import trimesh

    facts = Facts(plan)
    scene = trimesh.Scene()
    left = 0.0
    for cabinet in facts.cabinets.values():
        for part in facts.of(cabinet.id):
            shift = offset(part, cabinet) if exploded else (0.0, 0.0, 0.0)
            made = trimesh.Trimesh(*_mesh(part, (left + shift[0], shift[1], shift[2])), process=False)
            scene.add_geometry(made, node_name=part.id, geom_name=part.id)
        left += cabinet.width / 1e6 * (2.2 if exploded else 1.0) + ROOM
    for part in facts.plan.parts:
        if part.cabinet not in facts.cabinets:
            made = trimesh.Trimesh(*_mesh(part, (left, 0.0, 0.0)), process=False)
            scene.add_geometry(made, node_name=part.id, geom_name=part.id)
            left += part.length / 1e6 + ROOM
    write: Any = scene.export
    data = write(file_type="glb", include_normals=False)
    return bytes(data)


def _mesh(part: Part, shift: Sequence[float]) -> tuple[Any, Any]:
    mesh = wood(part).to_mesh()
    local = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    turn, at = np.zeros((3, 3)), np.array(part.place.at, dtype=np.float64) / 1e6
    for column, axis in enumerate((part.place.x, part.place.y, part.place.z)):
        turn[abs(axis) - 1, column] = 1.0 if axis > 0 else -1.0
    placed = local @ turn.T + at + np.array(shift)
    metres = np.stack([placed[:, 0], placed[:, 2], -placed[:, 1]], axis=1) / 1000
    return metres, np.asarray(mesh.tri_verts)


def wood(part: Part) -> Any:
    """Return a part in its own frame as a manifold3d solid, mm."""
    made = _box(part.blank)
    for band in part.bands:
        made = made + _box(band.box)
    for feature in part.features:
        for box in feature.boxes:
            made = made - _box(box)
        for hole in feature.holes:
            made = made - _cylinder(hole)
        for wedge in feature.wedges:
            made = made - _wedge(wedge)
    return made


def _box(box: Box) -> Any:
    from manifold3d import Manifold

    return Manifold.cube([n / 1e6 for n in box.size]).translate([box.x0 / 1e6, box.y0 / 1e6, box.z0 / 1e6])


def _cylinder(hole: Cylinder) -> Any:
    from manifold3d import Manifold

    r = hole.diameter / 2e6
    made = Manifold.cylinder(hole.depth / 1e6, r, r, SIDES)
    return made.rotate(list(_TURNS[hole.into])).translate([c / 1e6 for c in hole.mouth])


def _wedge(wedge: Wedge) -> Any:
    """Return the waste of a bevel as the convex hull of its six corners."""
    from manifold3d import Manifold

    b = wedge.box
    (u, su), (v, sv) = [(abs(a) - 1, a > 0) for a in wedge.corner]
    w = abs(wedge.along) - 1
    cu, fu = (b[u + 3], b[u]) if su else (b[u], b[u + 3])
    cv, fv = (b[v + 3], b[v]) if sv else (b[v], b[v + 3])
    corners = []
    for pu, pv in ((cu, cv), (fu, cv), (cu, fv)):
        for pw in (b[w], b[w + 3]):
            point = [0.0, 0.0, 0.0]
            point[u], point[v], point[w] = pu / 1e6, pv / 1e6, pw / 1e6
            corners.append(point)
    return Manifold.hull_points(corners)
