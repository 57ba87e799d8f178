"""Boxes, turns and cuts on the nanometre grid.

Frames (see the model): the cabinet frame has x to the right, y back, z up, and its origin at the lower
left front corner of the case without face frame. A part frame has x along the grain or length, y across
the width, z through the thickness, and its origin at the part's datum corner. These are right-handed; the frame of a
joint need not be (see `casewright.sdk.methods`), and a `Place` carries into either kind.

An axis is written as a signed number: 1, 2, 3 for +x, +y, +z and -1, -2, -3 for the opposite ways.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Literal, NamedTuple

Axis = Literal[1, 2, 3, -1, -2, -3]
Point = tuple[int, int, int]


class Box(NamedTuple):
    """An axis-aligned box from its low corner to its high corner, in nm. Faces are shared, not overlapped."""

    x0: int
    y0: int
    z0: int
    x1: int
    y1: int
    z1: int

    @property
    def size(self) -> Point:
        """Extent along x, y and z, in nm."""
        return (self.x1 - self.x0, self.y1 - self.y0, self.z1 - self.z0)

    @property
    def volume(self) -> int:
        """Volume in cubic nm; zero where any extent is zero or negative."""
        dx, dy, dz = self.size
        return dx * dy * dz if dx > 0 and dy > 0 and dz > 0 else 0

    def low(self, axis: int) -> int:
        """Return the low bound along axis 1, 2 or 3."""
        return self[abs(axis) - 1]

    def high(self, axis: int) -> int:
        """Return the high bound along axis 1, 2 or 3."""
        return self[abs(axis) + 2]

    def meets(self, other: "Box") -> bool:
        """Return whether the two boxes share some volume."""
        return (
            self.x0 < other.x1
            and other.x0 < self.x1
            and self.y0 < other.y1
            and other.y0 < self.y1
            and self.z0 < other.z1
            and other.z0 < self.z1
        )

    def shared(self, other: "Box") -> int:
        """Return the volume that the two boxes share, in cubic nm."""
        if not self.meets(other):
            return 0
        dx = min(self.x1, other.x1) - max(self.x0, other.x0)
        dy = min(self.y1, other.y1) - max(self.y0, other.y0)
        dz = min(self.z1, other.z1) - max(self.z0, other.z0)
        return dx * dy * dz

    def cut(self, other: "Box") -> "Box":
        """Return the common box; its volume is zero where they do not meet."""
        return Box(
            max(self.x0, other.x0),
            max(self.y0, other.y0),
            max(self.z0, other.z0),
            min(self.x1, other.x1),
            min(self.y1, other.y1),
            min(self.z1, other.z1),
        )

    def around(self, other: "Box") -> "Box":
        """Return the smallest box that holds both."""
        return Box.union((self, other))

    @classmethod
    def union(cls, boxes: "Iterable[Box]") -> "Box":
        """Return the smallest box that holds every one of `boxes`, of which there is at least one."""
        x0, y0, z0, x1, y1, z1 = zip(*boxes, strict=True)
        return cls(min(x0), min(y0), min(z0), max(x1), max(y1), max(z1))

    def holds(self, other: "Box") -> bool:
        """Return whether `other` lies wholly within this box, faces included."""
        return (
            self.x0 <= other.x0
            and self.y0 <= other.y0
            and self.z0 <= other.z0
            and other.x1 <= self.x1
            and other.y1 <= self.y1
            and other.z1 <= self.z1
        )

    def moved(self, dx: int = 0, dy: int = 0, dz: int = 0) -> "Box":
        """Return the box moved by the given distances."""
        return Box(self.x0 + dx, self.y0 + dy, self.z0 + dz, self.x1 + dx, self.y1 + dy, self.z1 + dz)

    def grown(self, axis: int, by: int) -> "Box":
        """Return the box with its face on the signed `axis` side moved outward by `by` nm."""
        bounds = list(self)
        if axis > 0:
            bounds[axis + 2] += by
        else:
            bounds[-axis - 1] -= by
        return Box(*bounds)


class Cylinder(NamedTuple):
    """A round hole: mouth centre, the way it runs into the wood, diameter and depth, in nm."""

    mouth: Point
    into: Axis
    diameter: int
    depth: int

    @property
    def envelope(self) -> Box:
        """The box round the hole, outward to whole nm."""
        r = -(-self.diameter // 2)
        low, high = [c - r for c in self.mouth], [c + r for c in self.mouth]
        i = abs(self.into) - 1
        low[i] = self.mouth[i] - (self.depth if self.into < 0 else 0)
        high[i] = self.mouth[i] + (self.depth if self.into > 0 else 0)
        return Box(*low, *high)

    def meets(self, other: "Cylinder") -> bool:
        """Return whether two holes share room; of two that cross, whether their envelopes do."""
        if abs(self.into) == abs(other.into):
            across = [i for i in range(3) if i != abs(self.into) - 1]
            apart = sum((self.mouth[i] - other.mouth[i]) ** 2 for i in across)
            if 4 * apart >= (self.diameter + other.diameter) ** 2:
                return False
        return self.envelope.meets(other.envelope)


class Wedge(NamedTuple):
    """A right-triangular prism of waste: half of `box`, cut corner to corner.

    `along` is the prism's axis (1, 2 or 3). `corner` names the edge of the box, along that axis, where the
    right angle of the waste stands: a pair of signed axes (the other two), each telling which side.
    """

    box: Box
    along: Axis
    corner: tuple[Axis, Axis]

    def moved(self, dx: int = 0, dy: int = 0, dz: int = 0) -> "Wedge":
        """Return the wedge moved by the given distances."""
        return Wedge(self.box.moved(dx, dy, dz), self.along, self.corner)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a frame stands in another: `at` is its origin and `x`, `y`, `z` the ways its axes run there."""

    at: Point
    x: Axis
    y: Axis
    z: Axis

    def point(self, p: Point) -> Point:
        """Carry a point of this frame into the outer frame."""
        out = list(self.at)
        for axis, size in zip((self.x, self.y, self.z), p, strict=True):
            out[abs(axis) - 1] += size if axis > 0 else -size
        return (out[0], out[1], out[2])

    def box(self, b: Box) -> Box:
        """Carry a box of this frame into the outer frame."""
        bounds = [*self.at, *self.at]
        for axis, low, high in ((self.x, b.x0, b.x1), (self.y, b.y0, b.y1), (self.z, b.z0, b.z1)):
            if axis > 0:
                bounds[axis - 1] += low
                bounds[axis + 2] += high
            else:
                bounds[-axis - 1] -= high
                bounds[2 - axis] -= low
        return Box(*bounds)

    def axis(self, a: Axis) -> Axis:
        """Carry a signed axis of this frame into the outer frame."""
        way = (self.x, self.y, self.z)[abs(a) - 1]
        return way if a > 0 else opposite(way)

    def cylinder(self, c: Cylinder) -> Cylinder:
        """Carry a hole of this frame into the outer frame."""
        return Cylinder(self.point(c.mouth), self.axis(c.into), c.diameter, c.depth)

    def wedge(self, w: Wedge) -> Wedge:
        """Carry a wedge of this frame into the outer frame."""
        along: Axis = self.axis(w.along)
        positive: Axis = along if along > 0 else opposite(along)
        return Wedge(self.box(w.box), positive, (self.axis(w.corner[0]), self.axis(w.corner[1])))

    def inverse(self) -> "Place":
        """Return the outer frame as it stands in this frame."""
        ways: list[Axis] = [1, 2, 3]
        at = [0, 0, 0]
        for i, axis in enumerate((self.x, self.y, self.z)):
            ways[abs(axis) - 1] = _axis(i + 1 if axis > 0 else -i - 1)
            at[i] = -self.at[abs(axis) - 1] if axis > 0 else self.at[abs(axis) - 1]
        return Place((at[0], at[1], at[2]), ways[0], ways[1], ways[2])


_AXES: dict[int, Axis] = {1: 1, 2: 2, 3: 3, -1: -1, -2: -2, -3: -3}


def _axis(number: int) -> Axis:
    if number not in _AXES:
        raise ValueError(f"an axis is 1, 2, 3, -1, -2 or -3, not {number}")
    return _AXES[number]


def opposite(axis: Axis) -> Axis:
    """Return the axis that runs the other way."""
    return _axis(-axis)


def cross(a: Axis, b: Axis) -> Axis:
    """Return the third axis of a right-handed frame whose first two are `a` and `b`.

    Raises `ValueError` for two axes along one line.
    """
    third = _THIRD.get((a, b))
    if third is None:
        raise ValueError(f"axes {a} and {b} lie along one line")
    return third


_THIRD: Mapping[tuple[int, int], Axis] = {
    pair: _axis(third)
    for i, j, k in ((1, 2, 3), (2, 3, 1), (3, 1, 2))
    for s, t in product((1, -1), repeat=2)
    for pair, third in (((s * i, t * j), s * t * k), ((t * j, s * i), -s * t * k))
}
"""The third axis of a right-handed frame, by its first two."""


def seated(box: Box, length: Axis, width: Axis) -> Place:
    """Return the place of a part that fills `box` with its length and width running the given ways.

    The thickness axis follows by the right-hand rule; the origin is the corner all three start from.
    """
    thickness = cross(length, width)
    at = [0, 0, 0]
    for axis in (length, width, thickness):
        if axis > 0:
            at[axis - 1] = box[axis - 1]
        else:
            at[-axis - 1] = box[2 - axis]
    return Place((at[0], at[1], at[2]), length, width, thickness)
