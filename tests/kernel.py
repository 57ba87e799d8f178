"""An independent solid kernel's view of a plan: the same parts built with manifold3d (a test dependency).

Cylinders are n-sided prisms, so that volumes can be compared with the same prisms counted by hand.
"""

from collections.abc import Sequence
from math import pi, sin
from typing import Any

from casewright.sdk.geometry import Box, Cylinder, Place, Wedge
from casewright.sdk.model import Part

SIDES = 48
"""Sides of the prism that stands for a round hole."""


def prism_volume_mm3(hole: Cylinder, sides: int = SIDES) -> float:
    """Return the volume in cubic mm of the prism inscribed in a hole."""
    r = hole.diameter / 2e6
    return sides / 2 * r * r * sin(2 * pi / sides) * hole.depth / 1e6


def solid(part: Part, sides: int = SIDES) -> Any:
    """Return a part as a manifold3d solid in the cabinet frame, mm."""
    return _wood(part, sides).transform(_matrix(part.place))


def part_volume_mm3(part: Part, sides: int = SIDES) -> float:
    """Return a part's volume in cubic mm, by manifold3d."""
    return float(_wood(part, sides).volume())


def interference(parts: Sequence[Part]) -> list[tuple[str, str, float]]:
    """Return each pair of parts that share volume by manifold3d, with the volume in cubic mm."""
    made = [(part, solid(part)) for part in parts]
    bounds = [s.bounding_box() for _, s in made]
    overlaps = []
    for i, (first, a) in enumerate(made):
        for j in range(i + 1, len(made)):
            second, b = made[j]
            if first.cabinet == second.cabinet and _near(bounds[i], bounds[j]):
                volume = float((a ^ b).volume())
                if volume > 1e-6:
                    overlaps.append((first.id, second.id, volume))
    return overlaps


def _near(a: Sequence[float], b: Sequence[float]) -> bool:
    return all(a[k] < b[k + 3] - 1e-9 and b[k] < a[k + 3] - 1e-9 for k in range(3))


def _wood(part: Part, sides: int) -> Any:
    wood = _box(part.blank)
    for band in part.bands:
        wood = wood + _box(band.box)
    for feature in part.features:
        for box in feature.boxes:
            wood = wood - _box(box)
        for hole in feature.holes:
            wood = wood - _cylinder(hole, sides)
        for wedge in feature.wedges:
            wood = wood - _wedge(wedge)
    return wood


def _box(box: Box) -> Any:
    from manifold3d import Manifold

    size = [n / 1e6 for n in box.size]
    return Manifold.cube(size).translate([box.x0 / 1e6, box.y0 / 1e6, box.z0 / 1e6])


def _cylinder(hole: Cylinder, sides: int) -> Any:
    from manifold3d import Manifold

    r = hole.diameter / 2e6
    made = Manifold.cylinder(hole.depth / 1e6, r, r, sides)
    turn = {3: [0, 0, 0], -3: [180, 0, 0], 1: [0, 90, 0], -1: [0, -90, 0], 2: [-90, 0, 0], -2: [90, 0, 0]}
    return made.rotate(turn[hole.into]).translate([c / 1e6 for c in hole.mouth])


def _wedge(wedge: Wedge) -> Any:
    """Return the waste prism from its six corners, as their convex hull."""
    from manifold3d import Manifold

    signs = {abs(a): a > 0 for a in wedge.corner}
    corners = []
    for u_far in (False, True):
        for v_far in (False, True):
            if u_far and v_far:
                continue
            for end in (False, True):
                point = [0.0, 0.0, 0.0]
                u, v = sorted(signs)
                for axis, far in ((u, u_far), (v, v_far)):
                    high = signs[axis] != far
                    point[axis - 1] = (wedge.box.high(axis) if high else wedge.box.low(axis)) / 1e6
                along = wedge.along
                point[along - 1] = (wedge.box.high(along) if end else wedge.box.low(along)) / 1e6
                corners.append(point)
    return Manifold.hull_points(corners)


def _matrix(place: Place) -> list[list[float]]:
    rows = [[0.0, 0.0, 0.0, place.at[i] / 1e6] for i in range(3)]
    for column, axis in enumerate((place.x, place.y, place.z)):
        rows[abs(axis) - 1][column] = 1.0 if axis > 0 else -1.0
    return rows
