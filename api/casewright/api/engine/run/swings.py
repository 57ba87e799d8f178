"""How far doors open at their places before they meet a neighbour, a wall, an obstacle or another door."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from casewright.api.engine.run.doors import SQUARE, DoorAtPlace, first_contact, pull_contact
from casewright.api.engine.run.obstacles import corner_boxes, obstacle_box
from casewright.api.engine.run.placed import PlacedCabinet, level_with
from casewright.sdk.geometry import Box
from casewright.sdk.model import LENGTH, Check, Finding, Level, Swing, Wall

SOURCE = "swing-fixed-axis"


@dataclass(frozen=True, slots=True)
class OpenedDoor:
    """A door at its place, how far it opens there, and the cabinets that stand near it."""

    door: DoorAtPlace
    swing: Swing
    near: tuple[PlacedCabinet, ...]


def open_doors(wall: Wall, placed: Sequence[PlacedCabinet], doors: Sequence[DoorAtPlace]) -> tuple[OpenedDoor, ...]:
    """Return how far each door opens at its place."""
    fixed = [*corner_boxes(wall), *((f"{o.kind} {o.id}", obstacle_box(o)) for o in wall.obstacles if o.out)]
    neighbours = _Neighbours(placed)
    opened = []
    for door in doors:
        near = tuple(neighbours.near(door))
        bodies = [(f"{other.name} ({body.name})", body.box) for other in near for body in other.bodies]
        targets = [(what, box) for what, box in (*bodies, *fixed) if level_with(box, door.box)]
        opened.append(OpenedDoor(door, _swing(door, targets), near))
    return tuple(opened)


def swing_checks(opened: Sequence[OpenedDoor]) -> tuple[Check, ...]:
    """Return the doors that do not open freely, or have something too near their hinge edge."""
    checks: list[Check] = []
    for one in opened:
        findings = [*_not_free(one.door, one.swing)]
        for other in one.near:
            findings += _hinge_gap(one.door, other)
        checks += [Check(one.door.one.pointer, finding) for finding in findings]
    return tuple(checks)


class _Neighbours:
    """Finds what stands near a door without trying every cabinet of a long wall."""

    def __init__(self, placed: Sequence[PlacedCabinet]) -> None:
        self.ordered = sorted(placed, key=lambda s: (s.hull.x0, s.name))
        self.lows = [s.hull.x0 for s in self.ordered]
        self.widest = max((s.hull.x1 - s.hull.x0 for s in placed), default=0)

    def near(self, door: DoorAtPlace) -> Iterator[PlacedCabinet]:
        """Yield the other cabinets within the door's reach."""
        low, high = door.box.x0 - door.reach, door.box.x1 + door.reach
        for i in range(bisect_left(self.lows, low - self.widest), bisect_left(self.lows, high)):
            if self.ordered[i] is not door.one and self.ordered[i].hull.x1 > low:
                yield self.ordered[i]


def _swing(door: DoorAtPlace, targets: Iterable[tuple[str, Box]]) -> Swing:
    full = float(door.hinge.opening_degrees)
    opens, meets = full, ""
    for what, box in targets:
        rect = door.view(box)
        for angle, how in (
            (first_contact(rect, door.radius, door.leaf.thickness), ""),
            (pull_contact(door, rect), "pull: "),
        ):
            if angle is not None and angle < opens:
                opens, meets = angle, how + what
    return Swing(door.leaf.id, door.one.name, opens, full, meets)


def _not_free(door: DoorAtPlace, swing: Swing) -> Iterator[Finding]:
    if swing.meets:
        too_little = swing.opens_deg < SQUARE
        level: Level = "stop" if too_little else "caution"
        message = (
            f"{door.name} opens only so far before it meets {swing.meets}; set a filler between, hinge it on the other "
            "side, or limit its opening"
        )
        limit = SQUARE if too_little else swing.full_deg
        yield Finding("door-swing", level, message, round(swing.opens_deg, 1), limit, "degrees", SOURCE)


def _hinge_gap(door: DoorAtPlace, other: PlacedCabinet) -> Iterator[Finding]:
    """Yield what stands too near the hinge edge: a cup hinge moves its door a little aside as it opens."""
    needed = door.hinge.least_gap(door.leaf.thickness) or 0
    for body in other.bodies:
        if not level_with(body.box, door.box):
            continue
        _, y0, x1, y1 = door.view(body.box)
        if -needed < x1 <= 0 and y0 < door.leaf.thickness and y1 > 0:
            message = f"{door.name} needs a gap at its hinge edge to {other.name} ({body.name})"
            source = door.hinge.source_code("gaps")
            yield Finding("doors-too-close", "caution", message, -x1, needed, LENGTH, source)


def door_checks(doors: Sequence[DoorAtPlace]) -> tuple[Check, ...]:
    """Return the doors of two cabinets that share room when both are open."""
    boxed = sorted(((door.envelope(), door) for door in doors), key=lambda row: (row[0].x0, row[1].name))
    alike: list[tuple[DoorAtPlace, DoorAtPlace]] = []
    checks: list[Check] = []
    for i, (first, a) in enumerate(boxed):
        for second, b in boxed[i + 1 :]:
            if second.x0 >= first.x1:
                break
            if a.one is b.one or not first.meets(second):
                continue
            left, right = (a, b) if a.box.x0 <= b.box.x0 else (b, a)
            if left.leaf.hinge_side == right.leaf.hinge_side:
                alike.append((left, right))
            else:
                checks.append(_facing(left, right))
    if alike:
        left, right = alike[0]
        message = (
            f"{left.name} and {right.name} share room when open past square, as do all the pairs counted here; open "
            "one at a time"
        )
        finding = Finding("doors-one-at-a-time", "note", message, len(alike), None, "pairs", SOURCE)
        checks.append(Check(left.one.pointer, finding))
    return tuple(checks)


def _facing(left: DoorAtPlace, right: DoorAtPlace) -> Check:
    how = (
        "have their hinges side by side and would meet if both open past square"
        if left.leaf.hinge_side == "right"
        else "pass each other so closely at their free edges that they would catch"
    )
    message = f"{left.name} and {right.name} {how}; open one at a time"
    apart = right.box.x0 - left.box.x1
    return Check(left.one.pointer, Finding("doors-meet-open", "caution", message, apart, None, LENGTH, SOURCE))
