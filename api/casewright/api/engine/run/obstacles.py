"""What a wall is like against the cabinets on it: obstacles, its ends, the ceiling."""

from collections.abc import Iterator, Sequence
from math import isqrt

from casewright.api.engine.run.placed import PlacedCabinet
from casewright.api.engine.run.readings import reach
from casewright.sdk.geometry import Box
from casewright.sdk.model import LENGTH, Check, Finding, Level, Obstacle, Wall

FAR = 10**12
"""A kilometre: farther than any wall reaches, in nm."""


def wall_checks(wall: Wall, placed: Sequence[PlacedCabinet]) -> tuple[Check, ...]:
    """Return every cabinet that covers an obstacle, passes an end of the wall, or does not fit under the ceiling."""
    return tuple([Check(one.pointer, finding) for one in placed for finding in _against(wall, one)])


def _against(wall: Wall, one: PlacedCabinet) -> Iterator[Finding]:
    yield from _ends(wall, one)
    yield from _ceiling(wall, one)
    for obstacle in wall.obstacles:
        yield from _obstacle(obstacle, one)


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


def _obstacle(obstacle: Obstacle, one: PlacedCabinet) -> Iterator[Finding]:
    kept = obstacle_box(obstacle)
    hit = [b for b in one.bodies if _covers(b.box, kept)]
    if not hit:
        return
    box = Box.union([body.box for body in hit])
    ways = (
        (box.x1 - kept.x0, "to the left"),
        (kept.x1 - box.x0, "to the right"),
        (box.z1 - kept.z0, "down"),
        (kept.z1 - box.z0, "up"),
    )
    by, way = min(ways, key=lambda w: w[0])
    kept_clear = " and what is kept clear round it" if obstacle.keep_clear else ""
    message = (
        f"{one.name} ({', '.join(b.name for b in hit)}) covers {obstacle.kind} {obstacle.id}{kept_clear}; the least "
        f"move that frees it is {way}, by the value"
    )
    yield Finding("obstacle-hit", "stop", message, by, 0, LENGTH, "dry-fit")


def _covers(box: Box, kept: Box) -> bool:
    return box.x0 < kept.x1 and kept.x0 < box.x1 and box.z0 < kept.z1 and kept.z0 < box.z1


def _ends(wall: Wall, one: PlacedCabinet) -> Iterator[Finding]:
    heights = one.hull.z0, one.hull.z1
    past = [(reach(wall, "left", *heights)[1] - one.hull.x0, "left")]
    if wall.length is not None:
        past.append((one.hull.x1 + reach(wall, "right", *heights)[1] - wall.length, "right"))
    for by, end in past:
        if by > 0:
            level: Level = "stop" if wall.corners in ("both", end) else "caution"
            what = "runs into the wall at the corner" if level == "stop" else "stands past the wall's end"
            narrower = ", or make it narrower," if end == "right" else ""  # its place is where its left side is
            message = f"{one.name} {what} on the {end}; move it the other way{narrower} by the value"
            yield Finding("wall-end-passed", level, message, by, 0, LENGTH, "dry-fit")


def _ceiling(wall: Wall, one: PlacedCabinet) -> Iterator[Finding]:
    if wall.ceiling is None:
        return
    if one.hull.z1 > wall.ceiling:
        message = f"{one.name} reaches through the ceiling; lower or shorten it"
        yield Finding("ceiling-hit", "stop", message, one.hull.z1, wall.ceiling, LENGTH, "dry-fit")
    if one.cabinet.is_tall:
        high, deep = one.hull.z1 - one.hull.z0, one.outline.y1 - one.outline.y0
        across = isqrt(high * high + deep * deep - 1) + 1
        if across > wall.ceiling:
            message = (
                f"{one.name} cannot be tilted up under this ceiling: its diagonal is longer than the room is high. "
                "Carry it in upright, or put it together standing"
            )
            yield Finding("no-room-to-tilt", "caution", message, across, wall.ceiling, LENGTH, "statics")


def corner_boxes(wall: Wall) -> list[tuple[str, Box]]:
    """Return the walls that stand square to this one, as boxes."""
    out = []
    if wall.corners in ("both", "left"):
        out.append(("the wall at the left corner", Box(-FAR, -FAR, -FAR, 0, FAR, FAR)))
    if wall.corners in ("both", "right") and wall.length is not None:
        out.append(("the wall at the right corner", Box(wall.length, -FAR, -FAR, FAR, FAR, FAR)))
    return out
