"""Boxes, turns and cuts on the nanometre grid.

Frames (see the model): the cabinet frame has x to the right, y back, z up, and its origin at the lower
left front corner of the case without face frame. A part frame has x along the grain or length, y across
the width, z through the thickness, and its origin at the part's datum corner. Every frame is right-handed.

An axis is written as a signed number: 1, 2, 3 for +x, +y, +z and -1, -2, -3 for the opposite ways.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Literal, NamedTuple

from casewright.sdk.records import quickly_made

Axis = Literal[1, 2, 3, -1, -2, -3]
Point = tuple[int, int, int]
_new = tuple.__new__
"""Makes a box of six numbers known to be six: a third of what the named constructor takes, and boxes are many."""


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
        x0, y0, z0, x1, y1, z1 = self
        return (x1 - x0, y1 - y0, z1 - z0)

    @property
    def volume(self) -> int:
        """Volume in cubic nm; zero where any extent is zero or negative."""
        x0, y0, z0, x1, y1, z1 = self
        dx, dy, dz = x1 - x0, y1 - y0, z1 - z0
        return dx * dy * dz if dx > 0 and dy > 0 and dz > 0 else 0

    def low(self, axis: int) -> int:
        """Return the low bound along axis 1, 2 or 3."""
        return self[abs(axis) - 1]

    def high(self, axis: int) -> int:
        """Return the high bound along axis 1, 2 or 3."""
        return self[abs(axis) + 2]

    def meets(self, other: "Box") -> bool:
        """Return whether the two boxes share some volume."""
        ax0, ay0, az0, ax1, ay1, az1 = self
        bx0, by0, bz0, bx1, by1, bz1 = other
        return ax0 < bx1 and bx0 < ax1 and ay0 < by1 and by0 < ay1 and az0 < bz1 and bz0 < az1

    def cut(self, other: "Box") -> "Box":
        """Return the common box; its volume is zero where they do not meet."""
        ax0, ay0, az0, ax1, ay1, az1 = self
        bx0, by0, bz0, bx1, by1, bz1 = other
        return _new(
            Box,
            (
                ax0 if ax0 > bx0 else bx0,
                ay0 if ay0 > by0 else by0,
                az0 if az0 > bz0 else bz0,
                ax1 if ax1 < bx1 else bx1,
                ay1 if ay1 < by1 else by1,
                az1 if az1 < bz1 else bz1,
            ),
        )

    def around(self, other: "Box") -> "Box":
        """Return the smallest box that holds both."""
        ax0, ay0, az0, ax1, ay1, az1 = self
        bx0, by0, bz0, bx1, by1, bz1 = other
        return _new(
            Box,
            (
                ax0 if ax0 < bx0 else bx0,
                ay0 if ay0 < by0 else by0,
                az0 if az0 < bz0 else bz0,
                ax1 if ax1 > bx1 else bx1,
                ay1 if ay1 > by1 else by1,
                az1 if az1 > bz1 else bz1,
            ),
        )

    @classmethod
    def union(cls, boxes: "Iterable[Box]") -> "Box":
        """Return the smallest box that holds every one of `boxes`, of which there is at least one."""
        x0, y0, z0, x1, y1, z1 = zip(*boxes, strict=True)
        return cls(min(x0), min(y0), min(z0), max(x1), max(y1), max(z1))

    def holds(self, other: "Box") -> bool:
        """Return whether `other` lies wholly within this box, faces included."""
        ax0, ay0, az0, ax1, ay1, az1 = self
        bx0, by0, bz0, bx1, by1, bz1 = other
        return ax0 <= bx0 and ay0 <= by0 and az0 <= bz0 and bx1 <= ax1 and by1 <= ay1 and bz1 <= az1

    def moved(self, dx: int = 0, dy: int = 0, dz: int = 0) -> "Box":
        """Return the box moved by the given distances."""
        x0, y0, z0, x1, y1, z1 = self
        return _new(Box, (x0 + dx, y0 + dy, z0 + dz, x1 + dx, y1 + dy, z1 + dz))

    def grown(self, axis: int, by: int) -> "Box":
        """Return the box with its face on the signed `axis` side moved outward by `by` nm."""
        bounds = list(self)
        if axis > 0:
            bounds[axis + 2] += by
        else:
            bounds[-axis - 1] -= by
        return Box(*bounds)


def box_of(corner: Point, other: Point) -> Box:
    """Return the box between two opposite corners given in any order."""
    return Box(
        min(corner[0], other[0]),
        min(corner[1], other[1]),
        min(corner[2], other[2]),
        max(corner[0], other[0]),
        max(corner[1], other[1]),
        max(corner[2], other[2]),
    )


@quickly_made
@dataclass(frozen=True, slots=True)
class Cylinder:
    """A round hole: mouth centre, the way it runs into the wood, diameter and depth, in nm."""

    mouth: Point
    into: Axis
    diameter: int
    depth: int

    @property
    def envelope(self) -> Box:
        """The box round the hole, outward to whole nm."""
        r = -(-self.diameter // 2)
        x, y, z = self.mouth
        x0, y0, z0, x1, y1, z1 = x - r, y - r, z - r, x + r, y + r, z + r
        into, depth = self.into, self.depth
        if into > 0:
            if into == 1:
                x0, x1 = x, x + depth
            elif into == 2:
                y0, y1 = y, y + depth
            else:
                z0, z1 = z, z + depth
        elif into == -1:
            x0, x1 = x - depth, x
        elif into == -2:
            y0, y1 = y - depth, y
        else:
            z0, z1 = z - depth, z
        return _new(Box, (x0, y0, z0, x1, y1, z1))


@quickly_made
@dataclass(frozen=True, slots=True)
class Wedge:
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


@quickly_made
@dataclass(frozen=True, slots=True)
class Place:
    """Where a frame stands in another: `at` is its origin and `x`, `y`, `z` the ways its axes run there."""

    at: Point
    x: Axis
    y: Axis
    z: Axis

    def point(self, p: Point) -> Point:
        """Carry a point of this frame into the outer frame."""
        sx, x, sy, y, sz, z = _TURNED[self.x, self.y, self.z]
        at = self.at
        return (at[0] + sx * p[x], at[1] + sy * p[y], at[2] + sz * p[z])

    def box(self, b: Box) -> Box:
        """Carry a box of this frame into the outer frame."""
        sx, x, sy, y, sz, z = _TURNED[self.x, self.y, self.z]
        ax, ay, az = self.at
        x0, x1 = (ax + b[x], ax + b[x + 3]) if sx > 0 else (ax - b[x + 3], ax - b[x])
        y0, y1 = (ay + b[y], ay + b[y + 3]) if sy > 0 else (ay - b[y + 3], ay - b[y])
        z0, z1 = (az + b[z], az + b[z + 3]) if sz > 0 else (az - b[z + 3], az - b[z])
        return _new(Box, (x0, y0, z0, x1, y1, z1))

    def axis(self, a: Axis) -> Axis:
        """Carry a signed axis of this frame into the outer frame."""
        if a > 0:
            return self.x if a == 1 else self.y if a == 2 else self.z
        return _AXES[-(self.x if a == -1 else self.y if a == -2 else self.z)]

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
        back = _TURNED_BACK[self.x, self.y, self.z]
        sx, x, sy, y, sz, z = _TURNED[back]
        at = self.at
        return Place((-sx * at[x], -sy * at[y], -sz * at[z]), *back)


_AXES: dict[int, Axis] = {1: 1, 2: 2, 3: 3, -1: -1, -2: -2, -3: -3}


def _axis(number: int) -> Axis:
    if number not in _AXES:
        raise ValueError(f"an axis is 1, 2, 3, -1, -2 or -3, not {number}")
    return _AXES[number]


def _sign(axis: Axis) -> int:
    return 1 if axis > 0 else -1


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


def _turned_back(x: Axis, y: Axis, z: Axis) -> tuple[Axis, Axis, Axis]:
    """Return the ways the outer axes run in a frame whose own axes run these ways outside."""
    ways: list[Axis] = [1, 2, 3]
    for number, axis in enumerate((x, y, z), start=1):
        ways[abs(axis) - 1] = _axis(number if axis > 0 else -number)
    return (ways[0], ways[1], ways[2])


_TURNED_BACK: Mapping[tuple[Axis, Axis, Axis], tuple[Axis, Axis, Axis]] = {
    (x, y, z): _turned_back(x, y, z)
    for x, y, z in product(_AXES.values(), repeat=3)
    if {abs(x), abs(y), abs(z)} == {1, 2, 3}
}
_TURNED: Mapping[tuple[Axis, Axis, Axis], tuple[int, int, int, int, int, int]] = {
    ways: (_sign(bx), abs(bx) - 1, _sign(by), abs(by) - 1, _sign(bz), abs(bz) - 1)
    for ways, (bx, by, bz) in _TURNED_BACK.items()
}
"""For a frame whose axes run these ways: the sign and the place, in a point of the frame, of each outer coordinate."""
