"""What slants along several axes leave of a box: a convex solid clipped plane by plane, in exact fractions."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise, product

from casewright.sdk.geometry import Box, Wedge

Number = Fraction | int
Corner = tuple[Number, Number, Number]
Face = list[Corner]
Plane = tuple[Number, Number, Number, Number]

FACES = ((0, 4, 6, 2), (1, 3, 7, 5), (0, 1, 5, 4), (2, 6, 7, 3), (0, 2, 3, 1), (4, 5, 7, 6))
"""Corners of each face of a box, numbered x + 2y + 4z, all turning one way seen from outside."""


def convex_left(cell: Box, wedges: Sequence[Wedge]) -> Number:
    """Return the volume, in cubic nm, of a box beyond the slanting face of every wedge.

    Each wedge is taken to cover the whole box along its own axis and across.
    """
    corners = [(x, y, z) for z, y, x in product((cell.z0, cell.z1), (cell.y0, cell.y1), (cell.x0, cell.x1))]
    faces: list[Face] = [[corners[i] for i in face] for face in FACES]
    for wedge in wedges:
        faces = clipped(faces, slope(wedge))
    return _volume(faces)


def slope(wedge: Wedge) -> Plane:
    """Return a, b, c, d of the slanting face: a·x + b·y + c·z >= d holds for what stays."""
    plane: list[Number] = [0, 0, 0, 0]
    sizes = {abs(axis): wedge.box.high(axis) - wedge.box.low(axis) for axis in wedge.corner}
    first, second = (abs(axis) for axis in wedge.corner)
    for axis, other in zip(wedge.corner, (second, first), strict=True):
        # Distance from the right angle, weighed by the other leg: the slope is where both sum to leg times leg.
        sign = -1 if axis > 0 else 1
        corner = wedge.box.high(axis) if axis > 0 else wedge.box.low(axis)
        plane[abs(axis) - 1] = sign * sizes[other]
        plane[3] += sign * sizes[other] * corner
    plane[3] += sizes[first] * sizes[second]
    return (plane[0], plane[1], plane[2], plane[3])


def _beyond(plane: Plane, p: Corner) -> Number:
    return plane[0] * p[0] + plane[1] * p[1] + plane[2] * p[2] - plane[3]


def clipped(faces: list[Face], plane: Plane) -> list[Face]:
    """Return the faces of a convex solid cut by a plane, with the new face that closes it."""
    sides = [_beyond(plane, p) for face in faces for p in face]
    if all(side >= 0 for side in sides):
        return faces
    if all(side <= 0 for side in sides):
        return []
    kept: list[Face] = []
    rim: dict[Corner, Corner] = {}
    for face in faces:
        cut = _cut(face, plane)
        if len(cut) < 3:
            continue
        kept.append(cut)
        edges = zip(cut, [*cut[1:], cut[0]], strict=True)
        rim.update({q: p for p, q in edges if _beyond(plane, p) == 0 == _beyond(plane, q)})
    start = at = next(iter(rim))
    cap = [start]
    while rim[at] != start:
        at = rim[at]
        cap.append(at)
    return [*kept, cap]


def _cut(face: Face, plane: Plane) -> Face:
    """Return the part of a convex polygon on the kept side of a plane, without repeated corners."""
    out: Face = []
    for p, q in zip(face, [*face[1:], face[0]], strict=True):
        fp, fq = _beyond(plane, p), _beyond(plane, q)
        if fp >= 0:
            out.append(p)
        if (fp > 0 > fq) or (fp < 0 < fq):
            share = Fraction(fp) / Fraction(fp - fq)
            out.append((p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share, p[2] + (q[2] - p[2]) * share))
    return out


def _volume(faces: list[Face]) -> Number:
    """Return the volume of a closed solid as the sum of tetrahedra over its faces."""
    six: Number = 0
    for face in faces:
        a = face[0]
        for b, c in pairwise(face[1:]):
            six += (
                a[0] * (b[1] * c[2] - b[2] * c[1])
                + a[1] * (b[2] * c[0] - b[0] * c[2])
                + a[2] * (b[0] * c[1] - b[1] * c[0])
            )
    return abs(Fraction(six) / 6)
