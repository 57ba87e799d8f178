"""Moves of cabinets along and up their wall, as changes of the job."""

from collections.abc import Container, Iterable
from typing import Any

from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Spot
from casewright.sdk.patching import Steps, patch_setting
from casewright.sdk.units import INCH, MM, Units, to_number

STEP = {"in": INCH // 2, "mm": 10 * MM}
STEPS = {"in": 48, "mm": 60}

Setting = tuple[Steps, Any]
"""A place in the job document, and the value that it is set to."""

Move = tuple[int, int]
"""How far to the right along the wall and how far up, in nm."""


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


def moving_words(stop: Stop, by: Move) -> str:
    """Return a move in words."""
    ways = ((by[0], "to the right", "to the left"), (by[1], "higher", "lower"))
    how = [f"{stop.write.length(abs(size))} {more if size > 0 else less}" for size, more, less in ways if size]
    return f"hung {' and '.join(how)}" if stop.cabinet and not stop.cabinet.stands else f"set {' and '.join(how)}"


def moved(stop: Stop, number: int, by: Move) -> Change:
    """Return the change that moves one place of the stop's cabinet."""
    return Change(moving_words(stop, by), patch_setting(stop.document, *place_settings(stop, [(number, by)])))
