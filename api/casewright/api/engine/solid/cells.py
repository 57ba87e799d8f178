"""Solids as disjoint convex cells: exact boxes where every face is square, clipped prisms where a face slants.

Contact is no overlap: a cell is the open room within its faces.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import product
from math import gcd, lcm
from typing import NamedTuple

from casewright.api.engine.solid.convex import FACES, Corner, Face, Number, clipped, slope
from casewright.sdk.geometry import Box, Wedge

__all__ = ["Cell", "Number", "Span", "cells", "moved", "overlap"]

Vector = tuple[Number, Number, Number]


class Span(NamedTuple):
    """The distances, from over `low` to under `high`, at which a moving cell overlaps another that stays."""

    low: Number
    high: Number


class Cell(NamedTuple):
    """A convex cell: the box round it and, where a face slants, its corners, face normals and edge directions."""

    box: tuple[Number, ...]
    corners: tuple[Corner, ...] = ()
    normals: tuple[Vector, ...] = ()
    edges: tuple[Vector, ...] = ()


def moved(cell: Cell, axis: int, by: Number) -> Cell:
    """Return a cell moved along axis 1, 2 or 3 by `by` nm."""
    i = axis - 1
    box = tuple(bound + by if at % 3 == i else bound for at, bound in enumerate(cell.box))
    corners = tuple((c[0] + by * (i == 0), c[1] + by * (i == 1), c[2] + by * (i == 2)) for c in cell.corners)
    return Cell(box, corners, cell.normals, cell.edges)


def cells(wood: Iterable[Box], waste: Sequence[Box], wedges: Sequence[Wedge] = ()) -> tuple[Cell, ...]:
    """Return the disjoint cells that fill `wood` boxes less `waste` boxes and wedges. All in nm, in one frame."""
    out: list[Cell] = []
    for block in wood:
        pieces = [block]
        for cut in waste:
            pieces = [rest for piece in pieces for rest in parted(piece, cut)[0]]
        if wedges:
            for piece in pieces:
                out += _less_wedges(piece, [w for w in wedges if w.box.meets(piece)])
        else:
            out += map(Cell, pieces)
    return tuple(out)


def parted(box: Box, cut: Box) -> tuple[list[Box], Box | None]:
    """Return up to six boxes that fill `box` outside `cut`, and what lies inside it, if they meet."""
    if not box.meets(cut):
        return [box], None
    rest: list[Box] = []
    bounds = list(box)
    for low in range(3):
        high = low + 3
        if bounds[low] < cut[low]:
            before = bounds.copy()
            before[high] = bounds[low] = cut[low]
            rest.append(Box(*before))
        if cut[high] < bounds[high]:
            beyond = bounds.copy()
            beyond[low] = bounds[high] = cut[high]
            rest.append(Box(*beyond))
    return rest, Box(*bounds)


def _less_wedges(piece: Box, wedges: Sequence[Wedge]) -> list[Cell]:
    """Return the cells of a box less wedges, each of which reaches into it."""
    if not wedges:
        return [Cell(piece)]
    first, rest = wedges[0], wedges[1:]
    outside, inside = parted(piece, first.box)
    out = [cell for box in outside for cell in _less_wedges(box, [w for w in rest if w.box.meets(box)])]
    if inside is None:
        return out
    # Within the wedge's box the others are taken whole where they cover it, and divide it further where they do not.
    for box in _covered(inside, rest):
        faces = _faces(box)
        for wedge in wedges:
            if wedge.box.meets(box):
                faces = clipped(faces, slope(wedge))
        if faces:
            out.append(_convex(faces))
    return out


def _covered(box: Box, wedges: Sequence[Wedge]) -> list[Box]:
    """Return boxes that fill `box`, each of which every wedge's box covers wholly or not at all."""
    pieces = [box]
    for wedge in wedges:
        divided: list[Box] = []
        for piece in pieces:
            outside, inside = parted(piece, wedge.box)
            divided += [*outside, *([inside] if inside else [])]
        pieces = divided
    return pieces


def _faces(box: Box) -> list[Face]:
    corners = [(x, y, z) for z, y, x in product((box.z0, box.z1), (box.y0, box.y1), (box.x0, box.x1))]
    return [[corners[i] for i in face] for face in FACES]


def _convex(faces: list[Face]) -> Cell:
    corners = tuple(dict.fromkeys(corner for face in faces for corner in face))
    low = [min(c[i] for c in corners) for i in range(3)]
    high = [max(c[i] for c in corners) for i in range(3)]
    sides = (_less(q, p) for face in faces for p, q in zip(face, [*face[1:], face[0]], strict=True))
    return Cell((*low, *high), corners, _directions(map(_normal, faces)), _directions(sides))


def _directions(vectors: Iterable[Vector]) -> tuple[Vector, ...]:
    """Return the shortest whole vector along each line that a vector lies on, each once: which way does not count."""
    return tuple(dict.fromkeys(_direction(one) for one in vectors if any(one)))


def _direction(vector: Vector) -> Vector:
    shared = lcm(*(Fraction(one).denominator for one in vector))
    x, y, z = (int(one * shared) for one in vector)
    by = gcd(x, y, z) * (-1 if (x or y or z) < 0 else 1)
    return (x // by, y // by, z // by)


def _less(q: Corner, p: Corner) -> Vector:
    return (q[0] - p[0], q[1] - p[1], q[2] - p[2])


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _normal(face: Face) -> Vector:
    return _cross(_less(face[1], face[0]), _less(face[2], face[1]))


def overlap(moving: Cell, still: Cell, axis: int) -> Span | None:
    """Return how far `moving` goes along axis 1, 2 or 3 while it overlaps `still`, or nothing where it passes by.

    Distances are signed, in nm: below zero is the opposite way. Exact.
    """
    i, j, k = axis - 1, axis % 3, (axis + 1) % 3
    a, b = moving.box, still.box
    if not (a[j] < b[j + 3] and b[j] < a[j + 3] and a[k] < b[k + 3] and b[k] < a[k + 3]):
        return None
    span = Span(b[i] - a[i + 3], b[i + 3] - a[i])
    return span if not moving.corners and not still.corners else _slanted(moving, still, i, span)


_AXES: tuple[Vector, ...] = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


def _slanted(moving: Cell, still: Cell, i: int, span: Span) -> Span | None:
    """Return the overlap of two convex cells by the planes that may part them: faces, and edge against edge."""
    edges_a, edges_b = moving.edges or _AXES, still.edges or _AXES
    across = _directions(_cross(p, q) for p in edges_a for q in edges_b)
    planes = dict.fromkeys([*moving.normals, *still.normals, *across])
    corners_a, corners_b = _corners(moving), _corners(still)
    low, high = span
    for n in planes:
        of_a = [n[0] * c[0] + n[1] * c[1] + n[2] * c[2] for c in corners_a]
        of_b = [n[0] * c[0] + n[1] * c[1] + n[2] * c[2] for c in corners_b]
        least, most, speed = min(of_b) - max(of_a), max(of_b) - min(of_a), n[i]
        if speed == 0:
            if least >= 0 or most <= 0:
                return None
            continue
        ends = sorted((Fraction(least) / speed, Fraction(most) / speed))
        low, high = max(low, ends[0]), min(high, ends[1])
        if low >= high:
            return None
    return Span(low, high)


def _corners(cell: Cell) -> Sequence[Corner]:
    if cell.corners:
        return cell.corners
    x0, y0, z0, x1, y1, z1 = cell.box
    return [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
