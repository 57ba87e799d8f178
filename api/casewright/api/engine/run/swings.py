"""How far doors open at their places before they meet a neighbour, a wall, an obstacle or another door.

Seen from above, a door turns about the front corner of its hinge edge. In the door's own view x runs from the hinge
edge to the free edge, y from its front face to the wall; a door hinged on the right is seen in a mirror. What it
sweeps, opened by an angle, lies within the circle of its far corner. A target is met first at the least angle of any
of its points inside that circle (own derivation, `swing-fixed-axis`). Targets behind the door's back cannot be met.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, isqrt, sqrt

from casewright.api.engine.run.obstacles import corner_boxes, obstacle_box
from casewright.api.engine.run.standing import Stood, level_with, tell
from casewright.sdk.geometry import Box
from casewright.sdk.hardware import Hinge
from casewright.sdk.loader import Registry
from casewright.sdk.model import LENGTH, Check, DoorLeaf, Swing, Wall

SQUARE = 90.0
"""A door that does not reach this is no use (common practice, no source)."""

SOURCE = "swing-fixed-axis"


@dataclass(frozen=True, slots=True)
class _Hung:
    """A door at its place: its closed box, its hinge, and the tip of its pull, as (from the hinge edge, projection)."""

    leaf: DoorLeaf
    one: Stood
    box: Box
    hinge: Hinge
    pull: tuple[int, int] | None

    @property
    def name(self) -> str:
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
    found = degrees(atan2(-y, x))
    return found if found > -SQUARE else found + 360.0


def judge_swings(wall: Wall, stood: Sequence[Stood], registry: Registry, checks: list[Check]) -> tuple[Swing, ...]:
    """Return how far each door opens at its place; doors that do not open freely become checks."""
    hung = [door for one in stood for door in _doors(one, registry)]
    if not hung:
        return ()
    fixed = [*corner_boxes(wall), *((f"{o.kind} {o.id}", obstacle_box(o)) for o in wall.obstacles if o.out)]
    around_ = _Near(stood)
    swings: list[Swing] = []
    for door in hung:
        near = list(around_.near(door))
        others = [
            (f"{other.name} ({body.name})", body.box)
            for other in near
            for body in other.bodies
            if level_with(body.box, door.box)
        ]
        swings.append(
            _judge(door, [*others, *((what, box) for what, box in fixed if level_with(box, door.box))], checks)
        )
        for other in near:
            _tell_hinge_gap(door, other, checks)
    _tell_doors(hung, checks)
    return tuple(swings)


class _Near:
    """Finds what stands near a door without trying every cabinet of a long wall."""

    def __init__(self, stood: Sequence[Stood]) -> None:
        self.ordered = sorted(stood, key=lambda s: (s.hull.x0, s.name))
        self.lows = [s.hull.x0 for s in self.ordered]
        self.widest = max((s.hull.x1 - s.hull.x0 for s in stood), default=0)

    def near(self, door: _Hung) -> Iterator[Stood]:
        """Yield the other cabinets within the door's reach."""
        low, high = door.box.x0 - door.reach, door.box.x1 + door.reach
        for i in range(bisect_left(self.lows, low - self.widest), bisect_left(self.lows, high)):
            if self.ordered[i] is not door.one and self.ordered[i].hull.x1 > low:
                yield self.ordered[i]


def _doors(one: Stood, registry: Registry) -> Iterator[_Hung]:
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
        yield _Hung(leaf, one, box, hinge, tip)


def _judge(door: _Hung, targets: Iterable[tuple[str, Box]], checks: list[Check]) -> Swing:
    full = float(door.hinge.opening_degrees)
    opens, meets = full, ""
    for what, box in targets:
        rect = door.view(box)
        for angle, how in (
            (first_contact(rect, door.radius, door.leaf.thickness), ""),
            (_pull_contact(door, rect), "pull: "),
        ):
            if angle is not None and angle < opens:
                opens, meets = angle, how + what
    if meets:
        tell(
            checks,
            "door-swing",
            "stop" if opens < SQUARE else "caution",
            door.one.pointer,
            f"{door.name} opens only so far before it meets {meets}; set a filler between, hinge it on the other side, "
            "or limit its opening",
            round(opens, 1),
            SQUARE if opens < SQUARE else full,
            "degrees",
            SOURCE,
        )
    return Swing(door.leaf.id, door.one.name, round(opens, 1), full, meets)


def _pull_contact(door: _Hung, rect: tuple[int, int, int, int]) -> float | None:
    """Return the opening angle at which the pull's tip may meet a rectangle."""
    if door.pull is None:
        return None
    along, out = door.pull
    x0, y0, x1, y1 = rect
    if max(hypot(x, y) for x in (x0, x1) for y in (y0, y1)) < along:
        return None
    met = first_contact(rect, isqrt(along * along + out * out) + 1, 0)
    return None if met is None else max(0.0, met - degrees(atan2(out, along)))


def _tell_hinge_gap(door: _Hung, other: Stood, checks: list[Check]) -> None:
    """Tell of what stands too near the hinge edge: a cup hinge moves its door a little aside as it opens."""
    needed = door.hinge.least_gap(door.leaf.thickness) or 0
    for body in other.bodies:
        if not level_with(body.box, door.box):
            continue
        _, y0, x1, y1 = door.view(body.box)
        if -needed < x1 <= 0 and y0 < door.leaf.thickness and y1 > 0:
            tell(
                checks,
                "doors-too-close",
                "caution",
                door.one.pointer,
                f"{door.name} needs a gap at its hinge edge to {other.name} ({body.name})",
                -x1,
                needed,
                LENGTH,
                "hinge-planning-pages",
            )


def _tell_doors(hung: Sequence[_Hung], checks: list[Check]) -> None:
    """Tell of doors of two cabinets that share room when both are open."""
    boxed = sorted(((door.envelope(), door) for door in hung), key=lambda row: (row[0].x0, row[1].name))
    like: list[tuple[_Hung, _Hung]] = []
    for i, (first, a) in enumerate(boxed):
        for second, b in boxed[i + 1 :]:
            if second.x0 >= first.x1:
                break
            if a.one is b.one or not first.meets(second):
                continue
            left, right = (a, b) if a.box.x0 <= b.box.x0 else (b, a)
            if left.leaf.hinge_side == right.leaf.hinge_side:
                like.append((left, right))
            else:
                _tell_facing(left, right, checks)
    if like:
        left, right = like[0]
        tell(
            checks,
            "doors-one-at-a-time",
            "note",
            left.one.pointer,
            f"{left.name} and {right.name} share room when open past square, as do all the pairs counted here; open "
            "one at a time",
            len(like),
            None,
            "pairs",
            SOURCE,
        )


def _tell_facing(left: _Hung, right: _Hung, checks: list[Check]) -> None:
    hinges_meet = left.leaf.hinge_side == "right"
    tell(
        checks,
        "doors-meet-open",
        "caution",
        left.one.pointer,
        f"{left.name} and {right.name} "
        + (
            "have their hinges side by side and would meet if both open past square"
            if hinges_meet
            else "pass each other so closely at their free edges that both cannot move at once"
        ),
        right.box.x0 - left.box.x1,
        None,
        LENGTH,
        SOURCE,
    )
