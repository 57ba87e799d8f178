"""What a wall is like against the cabinets on it: obstacles, its ends, the ceiling."""

from collections.abc import Sequence
from math import isqrt

from casewright.api.engine.run.standing import Stood, tell
from casewright.sdk.geometry import Box
from casewright.sdk.model import LENGTH, Check, Obstacle, Wall

FAR = 10**12
"""A kilometre: farther than any wall reaches, in nm."""


def check_wall(wall: Wall, stood: Sequence[Stood], checks: list[Check]) -> None:
    """Tell of every cabinet that covers an obstacle, passes an end of the wall, or does not fit under the ceiling."""
    for one in stood:
        _check_ends(wall, one, checks)
        _check_ceiling(wall, one, checks)
        for obstacle in wall.obstacles:
            _check_obstacle(obstacle, one, checks)


def obstacle_box(obstacle: Obstacle) -> Box:
    """Return an obstacle with what is kept clear round it, as far out as it stands, in the wall frame."""
    clear = obstacle.keep_clear
    return Box(
        obstacle.x - clear,
        -obstacle.out,
        obstacle.z - clear,
        obstacle.x + obstacle.width + clear,
        0,
        obstacle.z + obstacle.height + clear,
    )


def _check_obstacle(obstacle: Obstacle, one: Stood, checks: list[Check]) -> None:
    kept = obstacle_box(obstacle)
    hit = [b for b in one.bodies if _covers(b.box, kept)]
    if not hit:
        return
    box = hit[0].box
    for body in hit[1:]:
        box = box.around(body.box)
    ways = (
        (box.x1 - kept.x0, "to the left"),
        (kept.x1 - box.x0, "to the right"),
        (box.z1 - kept.z0, "down"),
        (kept.z1 - box.z0, "up"),
    )
    by, way = min(ways, key=lambda w: w[0])
    kept_clear = " and what is kept clear round it" if obstacle.keep_clear else ""
    tell(
        checks,
        "obstacle-hit",
        "stop",
        one.pointer,
        f"{one.name} ({', '.join(b.name for b in hit)}) covers {obstacle.kind} {obstacle.id}{kept_clear}; the least "
        f"move that frees it is {way}, by the value",
        by,
        0,
        LENGTH,
        "dry-fit",
    )


def _covers(box: Box, kept: Box) -> bool:
    return box.x0 < kept.x1 and kept.x0 < box.x1 and box.z0 < kept.z1 and kept.z0 < box.z1


def _check_ends(wall: Wall, one: Stood, checks: list[Check]) -> None:
    past = [(-one.hull.x0, "left")]
    if wall.length is not None:
        past.append((one.hull.x1 - wall.length, "right"))
    for by, end in past:
        if by <= 0:
            continue
        corner = wall.corners in ("both", end)
        what = "runs into the wall at the corner" if corner else "stands past the wall's end"
        tell(
            checks,
            "wall-end-passed",
            "stop" if corner else "caution",
            one.pointer,
            f"{one.name} {what} on the {end}",
            by,
            0,
            LENGTH,
            "dry-fit",
        )


def _check_ceiling(wall: Wall, one: Stood, checks: list[Check]) -> None:
    if wall.ceiling is None:
        return
    if one.hull.z1 > wall.ceiling:
        message = f"{one.name} reaches through the ceiling; lower or shorten it"
        tell(checks, "ceiling-hit", "stop", one.pointer, message, one.hull.z1, wall.ceiling, LENGTH, "dry-fit")
    if one.cabinet.form == "tall":
        high, deep = one.hull.z1 - one.hull.z0, one.outline.y1 - one.outline.y0
        across = isqrt(high * high + deep * deep - 1) + 1
        if across > wall.ceiling:
            tell(
                checks,
                "no-room-to-tilt",
                "caution",
                one.pointer,
                f"{one.name} cannot be tilted up under this ceiling: its diagonal is longer than the room is high. "
                "Carry it in upright, or put it together standing",
                across,
                wall.ceiling,
                LENGTH,
                "statics",
            )


def corner_boxes(wall: Wall) -> list[tuple[str, Box]]:
    """Return the walls that stand square to this one, as boxes."""
    out = []
    if wall.corners in ("both", "left"):
        out.append(("the wall at the left corner", Box(-FAR, -FAR, -FAR, 0, FAR, FAR)))
    if wall.corners in ("both", "right") and wall.length is not None:
        out.append(("the wall at the right corner", Box(wall.length, -FAR, -FAR, FAR, FAR, FAR)))
    return out
