"""Doors against one another: pairs that must close without touching, and neighbours at the hinge side."""

from collections.abc import Sequence
from itertools import combinations
from math import isqrt

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.sdk.materials import Hinge
from casewright.sdk.model import LENGTH, Check, Finding, Level

APPROXIMATE = Finding(
    "swing-approximate",
    "caution",
    "door swing is judged by a fixed axis at the hinge edge, not by the hinge's own path; try one door first",
    source="common-practice",
)


def overreach(width: int, thickness: int) -> int:
    """Return how far, in nm, a door's meeting edge reaches past its closed place as it swings.

    A fixed axis anywhere in the door's thickness at its hinge edge: the far corner runs on a circle of radius
    √(w² + t²), so it passes the closed edge by √(w² + t²) − w at most, rounded outward. Own derivation; a cup
    hinge carries the door aside first, so this is on the safe side.
    """
    square = width * width + thickness * thickness
    root = isqrt(square)
    return root + (root * root < square) - width


def check_swings(built: Construction, placed: Sequence[PlacedDoor]) -> tuple[Check, ...]:
    """Return checks of every pair, every two doors that stand side by side, and each door in its opening."""
    doors = built.cabinet.doors
    if doors is None or not placed:
        return ()
    hinge = built.registry.catalogue.hinge(doors.hinge)
    by_key = {door.key: door for door in placed}
    findings: list[tuple[str, Finding | None]] = [
        (door.key, _pair(hinge, door, by_key[door.partner]))
        for door in placed
        if door.hinge == "left" and door.partner is not None
    ]
    findings += [_neighbours(hinge, a, b) for a, b in combinations(placed, 2) if a.partner != b.key]
    if doors.hang == "inset":
        findings += [(door.key, _inset(hinge, door, doors.gap)) for door in placed]
    findings += [(door.key, _past_cabinet(built, door)) for door in placed]
    checks = [Check(f"{built.id}/{key}", finding) for key, finding in findings if finding is not None]
    return (*checks, Check(built.id, APPROXIMATE))


def _pair(hinge: Hinge, left: PlacedDoor, right: PlacedDoor) -> Finding:
    gap = right.box.x0 - left.box.x1
    needed = overreach(left.width, left.design.thickness) + overreach(right.width, right.design.thickness)
    level: Level
    if gap > needed:
        level, message = "note", "the pair closes without touching"
    elif gap > 0 and gap + 2 * hinge.side_adjustment > needed:
        level, message = (
            "caution",
            (
                "the pair closes clear only by using the hinges' side adjustment, which is meant as a reserve; "
                "make the meeting gap larger than the limit"
            ),
        )
    else:
        level, message = "stop", "the pair meets in the middle; make the meeting gap larger than the limit"
    return Finding("pair-gap", level, message, gap, needed, LENGTH, "swing-fixed-axis")


def _neighbours(hinge: Hinge, first: PlacedDoor, second: PlacedDoor) -> tuple[str, Finding | None]:
    """Return the door to name and what is wrong: doors side by side need the hinge's least gap between them."""
    left, right = (first, second) if first.box.x0 <= second.box.x0 else (second, first)
    if left.box.z0 >= right.box.z1 or right.box.z0 >= left.box.z1:
        return first.key, _stacked(first, second)
    gap = right.box.x0 - left.box.x1
    edges = ((left, left.hinge == "right"), (right, right.hinge == "left"))
    needed = max((_beside_hinge(hinge, door) for door, hinged in edges if hinged), default=0)
    needed += sum(overreach(door.width, door.design.thickness) for door, hinged in edges if not hinged)
    if gap >= needed and gap > 0:
        return left.key, None
    message = f"{left.key} and {right.key} need a gap between them; make the overlay smaller or the member wider"
    level: Level = "stop" if gap <= 0 else "caution"
    return left.key, Finding("doors-too-close", level, message, gap, needed, LENGTH, hinge.source_code("gaps"))


def _beside_hinge(hinge: Hinge, door: PlacedDoor) -> int:
    """Return the least gap beside a door's hinge edge: the hinge's own, or the corner's overreach where unknown."""
    stated = hinge.least_gap(door.design.thickness)
    return overreach(door.width, door.design.thickness) if stated is None else stated


def _stacked(first: PlacedDoor, second: PlacedDoor) -> Finding | None:
    a, b = first.box, second.box
    gap = max(a.z0 - b.z1, b.z0 - a.z1)
    if a.x0 >= b.x1 or b.x0 >= a.x1 or gap > 0:
        return None
    message = f"{first.key} and {second.key} meet one over the other; make the overlay smaller or the rail wider"
    return Finding("doors-too-close", "stop", message, gap, 0, LENGTH, "common-practice")


def _inset(hinge: Hinge, door: PlacedDoor, gap: int) -> Finding | None:
    """Return what is wrong unless an inset door clears the jamb its free edge passes and keeps the hinge's gap.

    A pair's free edges meet one another instead, which the pair's own check judges.
    """
    swung = 0 if door.partner is not None else overreach(door.width, door.design.thickness)
    beside = _beside_hinge(hinge, door)
    if gap > swung and gap >= beside:
        return None
    needed = max(swung, beside)
    if gap > 0 and gap + hinge.side_adjustment > needed:
        message = "the door clears its opening only by the hinges' side adjustment; make the gap larger than the limit"
        return Finding("inset-gap", "caution", message, gap, needed, LENGTH, "swing-fixed-axis")
    message = "the door binds in its opening; make the gap larger than the limit"
    return Finding("inset-gap", "stop", message, gap, needed, LENGTH, "swing-fixed-axis")


def _past_cabinet(built: Construction, door: PlacedDoor) -> Finding | None:
    """Return how far an overlay door reaches past the cabinet's outside, where it does."""
    frame = built.cabinet.face_frame
    out = frame.overhang if frame else 0
    left, right = -out, built.cabinet.width - out
    past = max(left - door.box.x0, door.box.x1 - right, -door.box.z0, door.box.z1 - built.cabinet.height)
    if past <= 0:
        return None
    message = (
        "the door reaches past the cabinet's outside and may meet a neighbour, wall or ceiling; make its overlay less "
        "there, or see that nothing stands so near"
    )
    return Finding("door-past-cabinet", "caution", message, past, 0, LENGTH, "common-practice")
