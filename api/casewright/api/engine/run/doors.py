"""A door at its place on the wall, seen from above: what it sweeps as it opens, and what it meets first.

Seen from above, a door turns about the front corner of its hinge edge. In the door's own view x runs from the hinge
edge to the free edge, y from its front face to the wall; a door hinged on the right is seen in a mirror. What it
sweeps, opened by an angle, lies within the circle of its far corner. A target is met first at the least angle of any
of its points inside that circle (own derivation, `swing-fixed-axis`). Targets behind the door's back cannot be met.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, isqrt, sqrt

from casewright.api.engine.run.placed import PlacedCabinet
from casewright.sdk.geometry import Box
from casewright.sdk.hardware import Hinge
from casewright.sdk.loader import Registry
from casewright.sdk.model import DoorLeaf

SQUARE = 90.0
"""A door that does not reach this is no use (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class DoorAtPlace:
    """A door at its place: its closed box, its hinge, and the tip of its pull, as (from the hinge edge, projection)."""

    leaf: DoorLeaf
    one: PlacedCabinet
    box: Box
    hinge: Hinge
    pull: tuple[int, int] | None

    @property
    def name(self) -> str:
        """What to call it."""
        return f"{self.leaf.id} at {self.one.name}"

    @property
    def radius(self) -> int:
        """Radius of the far corner's circle, rounded outward."""
        square = self.leaf.width**2 + self.leaf.thickness**2
        return isqrt(square - 1) + 1

    @property
    def reach(self) -> int:
        """How far from the hinge edge anything of the door may come."""
        return max(self.radius, isqrt(self.pull[0] ** 2 + self.pull[1] ** 2) + 1 if self.pull else 0)

    def view(self, target: Box) -> tuple[int, int, int, int]:
        """Return a target in the door's own view: x0, y0, x1, y1."""
        y0, y1 = target.y0 - self.box.y0, target.y1 - self.box.y0
        if self.leaf.hinge_side == "left":
            return target.x0 - self.box.x0, y0, target.x1 - self.box.x0, y1
        return self.box.x1 - target.x1, y0, self.box.x1 - target.x0, y1

    def envelope(self) -> Box:
        """Return the box round all the door sweeps as its hinge lets it."""
        r, past = self.radius, max(0.0, self.hinge.opening_degrees - SQUARE)
        behind = r if past >= SQUARE else int(r * past * 355 / (113 * 180)) + 1  # sin a < a
        left, right = (behind, r) if self.leaf.hinge_side == "left" else (r, behind)
        axis = self.box.x0 if self.leaf.hinge_side == "left" else self.box.x1
        return Box(axis - left, self.box.y0 - r, self.box.z0, axis + right, self.box.y1, self.box.z1)


def first_contact(rect: tuple[int, int, int, int], radius: int, thickness: int) -> float | None:
    """Return the opening angle in degrees at which a door first meets a rectangle, or `None` if it never does.

    `rect` is in the door's own view; `radius` the far corner's circle; what lies behind the door's back (`thickness`)
    is left out. Angles run from the closed door outward; lengths in nm.
    """
    x0, y0, x1, y1 = rect
    y1 = min(y1, thickness)
    if y0 >= y1 or x0 >= x1:
        return None
    nearest = (min(max(0, x0), x1), min(max(0, y0), y1))
    if nearest[0] ** 2 + nearest[1] ** 2 >= radius**2:
        return None
    if nearest == (0, 0) and x0 < 0 < x1 and y0 < 0:
        return 0.0
    return max(0.0, min(_angle(x, y) for x, y in _rim(x0, y0, x1, y1, radius)))


def _rim(x0: int, y0: int, x1: int, y1: int, radius: int) -> Iterator[tuple[float, float]]:
    """Yield the corners inside the circle and where the edges cross it."""
    for x in (x0, x1):
        for y in (y0, y1):
            if x * x + y * y <= radius * radius:
                yield x, y
        if abs(x) <= radius:
            half = sqrt(radius * radius - x * x)
            yield from ((x, y) for y in (-half, half) if y0 <= y <= y1)
    for y in (y0, y1):
        if abs(y) <= radius:
            half = sqrt(radius * radius - y * y)
            yield from ((x, y) for x in (-half, half) if x0 <= x <= x1)


def _angle(x: float, y: float) -> float:
    """Return the angle of a point from the closed door, opening outward, over -90 up to 270 degrees."""
    angle = degrees(atan2(-y, x))
    return angle if angle > -SQUARE else angle + 360.0


def placed_doors(placed: Sequence[PlacedCabinet], registry: Registry) -> tuple[DoorAtPlace, ...]:
    """Return every door of every cabinet at its place."""
    return tuple([door for one in placed for door in _doors(one, registry)])


def _doors(one: PlacedCabinet, registry: Registry) -> Iterator[DoorAtPlace]:
    doors = one.cabinet.doors
    if doors is None:
        return
    hinge = registry.catalogue.hinge(doors.hinge)
    pull = registry.catalogue.pull(doors.pull.item) if doors.pull else None
    tips = {line.used_for: line.at for line in one.built.hardware if pull and line.item == pull.id}
    for leaf in one.doors:
        at = leaf.at
        box = Box(*at, at[0] + leaf.width, at[1] + leaf.thickness, at[2] + leaf.height).moved(*one.at)
        tip = None
        if pull and tips.get(leaf.id):
            x = tips[leaf.id][0][0] - at[0]
            tip = (x if leaf.hinge_side == "left" else leaf.width - x, pull.projection)
        yield DoorAtPlace(leaf, one, box, hinge, tip)


def pull_contact(door: DoorAtPlace, rect: tuple[int, int, int, int]) -> float | None:
    """Return the opening angle at which the pull's tip may meet a rectangle."""
    if door.pull is None:
        return None
    along, out = door.pull
    x0, y0, x1, y1 = rect
    if max(hypot(x, y) for x in (x0, x1) for y in (y0, y1)) < along:
        return None
    met = first_contact(rect, isqrt(along * along + out * out) + 1, 0)
    return None if met is None else max(0.0, met - degrees(atan2(out, along)))
