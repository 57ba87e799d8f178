"""The cabinets as a glTF binary: every copy at its place on the wall, and in a second scene taken apart.

Cuts are made by manifold3d, which is imported only when a model is asked for. glTF counts in metres with y up; the
wall's left end on the floor is its origin, and what stands before the wall has z over 0.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

import numpy as np
from casewright.api.papers.drawing.gltf import XYZ, Floats, Mesh, Node, glb
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import wall_face
from casewright.api.papers.views.isometric import offset
from casewright.api.papers.views.wall import spots
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.model import Cabinet, Part, Plan

SIDES = 32
"""Sides of the prism that stands for a round hole."""

NEEDED = 48 * 1024 * 1024
"""Bytes that must be left for manifold3d: with some 8 MiB its threads end the process. Over 32 MiB malloc maps anew."""

ROOM = 300.0
"""Between one thing without a place of its own and the next, mm."""

WHOLE, APART = "put together", "taken apart"

WIDER = 2.4
"""How much wider a cabinet that is taken apart stands than whole."""

COLOURS: dict[str, XYZ] = {"sheet": (0.85, 0.74, 0.55), "board": (0.66, 0.46, 0.28), "band": (0.5, 0.33, 0.2)}
"""Colours of materials by their kind, red, green, blue; each further material of a kind is a little darker."""

_TURNS = {3: (0, 0, 0), -3: (180, 0, 0), 1: (0, 90, 0), -1: (0, -90, 0), 2: (-90, 0, 0), -2: (90, 0, 0)}


def model(plan: Plan, exploded: bool = False) -> bytes:
    """Return every copy of every cabinet and the loose parts as GLB, in two scenes: put together and taken apart.

    Cabinets hang under their names, groups of parts under theirs, parts under their ids. `exploded` says that a
    viewer opens the second scene.
    """
    facts = Facts(plan)
    meshes = {part.id: Mesh(_corners(part), part.material) for part in plan.parts}
    scenes = {WHOLE: list(_roots(facts, False)), APART: list(_roots(facts, True))}
    return glb(meshes, _colours(facts), scenes, APART if exploded else WHOLE)


def _colours(facts: Facts) -> dict[str, XYZ]:
    out: dict[str, XYZ] = {}
    counts: dict[str, int] = {}
    for name, material in facts.job.materials.items():
        kind = material.kind if material.kind in COLOURS else "board"
        darker = 0.88 ** counts.get(kind, 0)
        counts[kind] = counts.get(kind, 0) + 1
        red, green, blue = COLOURS[kind]
        out[name] = (round(red * darker, 4), round(green * darker, 4), round(blue * darker, 4))
    return out


def _roots(facts: Facts, apart: bool) -> Iterator[Node]:
    """Yield a node for each copy of each cabinet, at its place on the wall or after the others, and the loose parts."""
    spread = WIDER if apart else 1.0
    placed = list(spots(facts))
    places = {(cabinet.id, copy): spot for cabinet, copy, spot in placed}
    free = max([0.0, *(mm(spot.x + cabinet.width) * spread + ROOM for cabinet, _, spot in placed)])
    for cabinet in facts.cabinets.values():
        for copy in range(cabinet.count):
            spot = places.get((cabinet.id, copy))
            if spot is not None:
                x, up = mm(spot.x) * spread, mm(spot.z)
            else:
                x, up = free, 0.0
                free += mm(cabinet.width) * spread + ROOM
            at = _metres((x, -wall_face(facts, cabinet), up))
            yield Node(cabinet.copy_name(copy), at, children=tuple(_groups(facts, cabinet, apart)))
    for part in facts.plan.parts:
        if part.cabinet not in facts.cabinets:
            yield Node(part.id, _metres((free, 0.0, 0.0)), part.id)
            free += mm(part.length) + ROOM


def _groups(facts: Facts, cabinet: Cabinet, apart: bool) -> Iterator[Node]:
    parts = sorted(enumerate(facts.of(cabinet.id)), key=lambda one: (one[1].group, one[0]))
    for group, members in groupby((part for _, part in parts), key=lambda part: part.group):
        yield Node(
            f"{cabinet.id}: {group}" if group else cabinet.id,
            children=tuple(
                Node(part.id, _metres(offset(part, cabinet)) if apart else (0.0, 0.0, 0.0), part.id) for part in members
            ),
        )


def _metres(at: XYZ) -> XYZ:
    """Return a place of the cabinet frame, mm, as glTF has it."""
    return (at[0] / 1000 + 0.0, at[2] / 1000 + 0.0, -at[1] / 1000 + 0.0)


def _corners(part: Part) -> Floats:
    """Return the corners of a part's triangles in its cabinet's frame, three after another, as glTF has them."""
    mesh = wood(part).to_mesh()
    local = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    turn, at = np.zeros((3, 3)), np.array(part.place.at, dtype=np.float64) / 1e6
    for column, axis in enumerate((part.place.x, part.place.y, part.place.z)):
        turn[abs(axis) - 1, column] = 1.0 if axis > 0 else -1.0
    placed = local @ turn.T + at
    metres = np.stack([placed[:, 0], placed[:, 2], -placed[:, 1]], axis=1) / 1000
    rings = np.asarray(mesh.tri_verts)
    if np.linalg.det(turn) < 0:  # a mirrored frame turns outsides in
        rings = rings[:, ::-1]
    corners: Floats = metres[rings].reshape(-1, 3).astype(np.float32)
    return corners


def wood(part: Part, bored: bool = True) -> Any:
    """Return a part in its own frame as a manifold3d solid, mm; without its round holes where it is not `bored`.

    Raises `MemoryError` where manifold3d would find too little to load or to start its threads, and end the process.
    """
    bytes(NEEDED)  # a mapping of its own, of which no page is touched
    made = _box(part.blank)
    for band in part.bands:
        made = made + _box(band.box)
    for feature in part.features:
        for box in feature.boxes:
            made = made - _box(box)
        for hole in feature.holes if bored else ():
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
