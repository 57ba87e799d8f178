"""Level lines: heights struck once along the wall, so that what should line up does."""

from collections.abc import Iterator, Sequence
from typing import Literal

from casewright.api.engine.run.placed import PRACTICE, PlacedCabinet
from casewright.sdk.model import LENGTH, Check, Finding, LevelLine

_KINDS: tuple[Literal["bottoms", "tops", "cleat-bottoms", "cleat-tops"], ...] = (
    "bottoms",
    "tops",
    "cleat-bottoms",
    "cleat-tops",
)


def level_lines(placed: Sequence[PlacedCabinet]) -> tuple[LevelLine, ...]:
    """Return the lines from the floor up."""
    names: dict[tuple[int, int], list[str]] = {}
    for one in placed:
        heights = [one.spot.z, one.spot.z + one.cabinet.height, *(one.cleats or ())]
        for kind, height in enumerate(heights):
            names.setdefault((height, kind), []).append(one.name)
    return tuple([LevelLine(height, _KINDS[kind], tuple(who)) for (height, kind), who in sorted(names.items())])


def level_checks(placed: Sequence[PlacedCabinet]) -> tuple[Check, ...]:
    """Return where cabinets of one row need cleats at several heights, and what the floor asks of those on it."""
    rows: dict[int, list[PlacedCabinet]] = {}
    for one in placed:
        rows.setdefault(one.spot.z, []).append(one)
    return tuple([check for z, row in sorted(rows.items()) for check in (*_cleats(row), *_floor(z, row))])


def _cleats(row: Sequence[PlacedCabinet]) -> Iterator[Check]:
    hung = [(one, one.cleats) for one in row if one.cleats is not None]
    if len({cleats for _, cleats in hung}) < 2:
        return
    first, cleats = hung[0]
    other, others = next((one, c) for one, c in hung if c != cleats)
    message = (
        f"wall cleats of this row stand at different heights, as of {first.name} and {other.name}; strike a line for "
        "each"
    )
    by = abs(cleats[0] - others[0])
    yield Check(first.pointer, Finding("cleats-not-level", "note", message, by, 0, LENGTH, PRACTICE))


def _floor(z: int, row: Sequence[PlacedCabinet]) -> Iterator[Check]:
    """Cabinets with a base stand on the floor, and the highest point of it rules."""
    first = next((one for one in row if one.cabinet.stands), None)
    if first is None:
        return
    if z != 0:
        message = f"{first.name} is made to stand on the floor but its place is above it"
        yield Check(first.pointer, Finding("base-off-floor", "caution", message, z, 0, LENGTH, PRACTICE))
    message = (
        "find the highest point of the floor under the row, strike the level line from there, and shim the others up "
        "to it: no cabinet can be let down"
    )
    yield Check(first.pointer, Finding("highest-point", "note", message, source=PRACTICE))
