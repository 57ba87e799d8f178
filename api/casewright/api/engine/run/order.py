"""The order cabinets are set in: tall ones fix the height, wall cabinets go up before base cabinets are in the way."""

from collections.abc import Sequence
from typing import assert_never

from casewright.api.engine.run.placed import PlacedCabinet
from casewright.sdk.model import Form, Wall


def order_of_setting(wall: Wall, placed: Sequence[PlacedCabinet]) -> tuple[str, ...]:
    """Return names in working order: within a form and a row, from the corner (or the left end) along the wall.

    Cabinets that share some height are one row. Rows go from the top down, so that nothing stands under a lift.
    """
    way = -1 if wall.corners == "right" else 1
    turns: dict[int, list[PlacedCabinet]] = {}
    for one in placed:
        turns.setdefault(_turn(one.cabinet.form), []).append(one)
    names: list[str] = []
    for turn in sorted(turns):
        for row in _rows(turns[turn]):
            names += [one.name for one in sorted(row, key=lambda s: (way * s.outline.x0, -s.outline.z0, s.name))]
    return tuple(names)


def _turn(form: Form) -> int:
    """Return which forms are set first: the lower number."""
    match form:
        case "tall":
            return 0
        case "wall":
            return 1
        case "base":
            return 2
        case _:
            assert_never(form)


def _rows(placed: Sequence[PlacedCabinet]) -> list[list[PlacedCabinet]]:
    rows: list[list[PlacedCabinet]] = []
    floor = 0
    for one in sorted(placed, key=lambda s: (-s.outline.z1, s.name)):
        if rows and one.outline.z1 > floor:
            rows[-1].append(one)
            floor = min(floor, one.outline.z0)
        else:
            rows.append([one])
            floor = one.outline.z0
    return rows
