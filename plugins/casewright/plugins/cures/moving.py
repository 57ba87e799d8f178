"""Moves of cabinets along and up their wall, as changes of the job."""

from collections.abc import Container, Iterable, Sequence
from typing import Any

from casewright.sdk.geometry import Box
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Spot, Wall
from casewright.sdk.patching import Steps, patch_setting
from casewright.sdk.units import INCH, MM, Units, to_number

STEP = {"in": INCH // 2, "mm": 10 * MM}
STEPS = {"in": 48, "mm": 60}
FAR = 300
"""Steps within which a place is looked for where nothing is in the way."""

Setting = tuple[Steps, Any]
"""A place in the job document, and the value that it is set to."""

Move = tuple[int, int]
"""How far to the right along the wall and how far up, in nm."""

Place = tuple[str, int]
"""A cabinet's id and the number of one of its places on the wall."""


def shifts(units: Units) -> list[int]:
    """Return moves along the wall in nm, the least first, to both sides: to 24 in by half inches, or 600 mm by 10."""
    return [sign * n * STEP[units] for n in range(1, STEPS[units] + 1) for sign in (1, -1)]


def place_settings(stop: Stop, moves: Iterable[tuple[int, Move]], cabinet: str | None = None) -> tuple[Setting, ...]:
    """Return what sets places of a cabinet, by number, to where they are moved; of the stop's own without `cabinet`."""
    wall, units = stop.plan.job.wall, stop.plan.job.units
    name = cabinet or (stop.cabinet.id if stop.cabinet else "")
    assert wall is not None
    settings: list[Setting] = []
    for number, (right, up) in moves:
        spot = wall.cabinets_at[name][number]
        at = ("wall", "cabinets_at", name, number)
        if right:
            settings.append(((*at, "x"), to_number(spot.x + right, units)))
        if up:
            settings.append(((*at, "z"), to_number(spot.z + up, units)))
    return tuple(settings)


def row_settings(stop: Stop, by: int, spots: Container[Spot]) -> tuple[Setting, ...]:
    """Return what sets all of these places on the wall so far to the right."""
    wall = stop.plan.job.wall
    assert wall is not None
    settings: list[Setting] = []
    for name, places in wall.cabinets_at.items():
        settings += place_settings(stop, [(at, (by, 0)) for at, spot in enumerate(places) if spot in spots], name)
    return tuple(settings)


def set_out(stop: Stop, sign: int, apart: int) -> dict[Place, int] | None:
    """Return how far each place is moved so that none hits another or an obstacle: the first stays, the next follow.

    From the left to the right (1) or from the right to the left (-1), each no farther than it must go, those that would
    hit one another set `apart`. None where nothing has to be moved, or where the wall is too short.
    """
    wall, step = stop.plan.job.wall, STEP[stop.plan.job.units]
    assert wall is not None
    places = {(name, number): spot for name, spots in wall.cabinets_at.items() for number, spot in enumerate(spots)}
    boxes, obstacles = dict(zip(places, [box for _, box in _boxes(stop)], strict=True)), _obstacles(wall)
    moves: dict[Place, int] = {}
    out: list[Box] = []
    for place in sorted(places, key=lambda one: (boxes[one].x0 if sign > 0 else -boxes[one].x1, one)):
        box = boxes[place]
        beside = [one for one in out if one.z0 < box.z1 and box.z0 < one.z1]
        ends = [one.x1 + apart - box.x0 if sign > 0 else box.x1 + apart - one.x0 for one in beside]
        least = max([0, *ends])
        ways = (sign * (least + n * step) for n in range(FAR))
        by = next((by for by in ways if _is_open(wall, [box.moved(by)], obstacles)), None)
        if by is None:
            return None
        moves[place] = by
        out.append(box.moved(by))
    return moves if any(moves.values()) else None


def moving_words(stop: Stop, by: Move) -> str:
    """Return a move in words."""
    ways = ((by[0], "to the right", "to the left"), (by[1], "higher", "lower"))
    how = [f"{stop.write.cut(abs(size))} {more if size > 0 else less}" for size, more, less in ways if size]
    return f"hung {' and '.join(how)}" if stop.cabinet and not stop.cabinet.stands else f"set {' and '.join(how)}"


def moved(stop: Stop, number: int, by: Move) -> Change:
    """Return the change that moves one place of the stop's cabinet."""
    return Change(moving_words(stop, by), patch_setting(stop.document, *place_settings(stop, [(number, by)])))


def least_free(stop: Stop, spots: Container[Spot], sign: int) -> int | None:
    """Return the least move of these places to the right (1) or left (-1) at which none of them hits anything.

    By the cabinets' outside sizes: obstacles with what is kept clear round them, the wall's ends, cabinets that stay.
    """
    wall, step = stop.plan.job.wall, STEP[stop.plan.job.units]
    assert wall is not None
    boxes, things = [box for spot, box in _boxes(stop) if spot in spots], _things(stop, wall, spots)
    ways = (sign * n * step for n in range(1, FAR + 1))
    return next((by for by in ways if _is_open(wall, [box.moved(by) for box in boxes], things)), None)


def is_free(stop: Stop, spots: Container[Spot], by: int) -> bool:
    """Return whether these places, moved so far to the right, hit nothing."""
    return is_open(stop, [box.moved(by) for spot, box in _boxes(stop) if spot in spots], spots)


def is_open(stop: Stop, boxes: Sequence[Box], gone: Container[Spot] = ()) -> bool:
    """Return whether boxes on the wall (x along it, z up) hit nothing, the cabinets of some places gone from there."""
    wall = stop.plan.job.wall
    assert wall is not None
    return _is_open(wall, boxes, _things(stop, wall, gone))


def _is_open(wall: Wall, boxes: Sequence[Box], things: Sequence[Box]) -> bool:
    """Return whether boxes lie within the wall's ends and hit none of the things on it."""
    within = all(box.x0 >= 0 and (wall.length is None or box.x1 <= wall.length) for box in boxes)
    return within and not any(box.meets(thing) for box in boxes for thing in things)


def _things(stop: Stop, wall: Wall, gone: Container[Spot]) -> list[Box]:
    """Return what is on the wall, the cabinets of some places gone from there."""
    return [*[box for spot, box in _boxes(stop) if spot not in gone], *_obstacles(wall)]


def _obstacles(wall: Wall) -> list[Box]:
    """Return the obstacles on the wall with what is kept clear round them."""
    return [
        Box(one.x - clear, 0, one.z - clear, one.x + one.width + clear, 1, one.z + one.height + clear)
        for one in wall.obstacles
        for clear in (one.keep_clear,)
    ]


def _boxes(stop: Stop) -> Iterable[tuple[Spot, Box]]:
    """Yield each place on the wall with the box that its cabinet takes there."""
    wall = stop.plan.job.wall
    sizes = {one.id: (one.width, one.height) for one in stop.plan.job.cabinets}
    for name, places in wall.cabinets_at.items() if wall else ():
        width, height = sizes[name]
        for spot in places:
            yield spot, Box(spot.x, 0, spot.z, spot.x + width, 1, spot.z + height)
