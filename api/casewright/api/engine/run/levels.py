"""Level lines: heights struck once along the wall, so that what should line up does."""

from collections.abc import Sequence
from typing import Literal

from casewright.api.engine.run.standing import Stood, tell
from casewright.sdk.model import LENGTH, Check, LevelLine

_KINDS: tuple[Literal["bottoms", "tops", "cleat bottoms", "cleat tops"], ...] = (
    "bottoms",
    "tops",
    "cleat bottoms",
    "cleat tops",
)


def level_lines(stood: Sequence[Stood], checks: list[Check]) -> tuple[LevelLine, ...]:
    """Return the lines from the floor up, and tell where cabinets of one row need cleats at several heights."""
    names: dict[tuple[int, int], list[str]] = {}
    rows: dict[int, list[Stood]] = {}
    for one in stood:
        rows.setdefault(one.spot.z, []).append(one)
        heights = [one.spot.z, one.spot.z + one.cabinet.height, *(one.cleats or ())]
        for kind, height in enumerate(heights):
            names.setdefault((height, kind), []).append(one.name)
    for z, row in sorted(rows.items()):
        _tell_cleats(row, checks)
        _tell_floor(z, row, checks)
    return tuple([LevelLine(height, _KINDS[kind], tuple(who)) for (height, kind), who in sorted(names.items())])


def _tell_cleats(row: list[Stood], checks: list[Check]) -> None:
    hung = [(one, one.cleats) for one in row if one.cleats is not None]
    lines = {cleats for _, cleats in hung}
    if len(lines) > 1:
        first, cleats = hung[0]
        other, theirs = next((one, c) for one, c in hung if c != cleats)
        tell(
            checks,
            "cleats-not-level",
            "note",
            first.pointer,
            f"wall cleats of this row stand at different heights, as of {first.name} and {other.name}; strike a line "
            "for each",
            abs(cleats[0] - theirs[0]),
            0,
            LENGTH,
        )


def _tell_floor(z: int, row: list[Stood], checks: list[Check]) -> None:
    """Cabinets with a base stand on the floor, and the highest point of it rules."""
    standing = [one for one in row if one.cabinet.form != "wall"]
    if not standing:
        return
    if z != 0:
        tell(
            checks,
            "base-off-floor",
            "caution",
            standing[0].pointer,
            f"{standing[0].name} is made to stand on the floor but its place is above it",
            z,
            0,
            LENGTH,
        )
    tell(
        checks,
        "highest-point",
        "note",
        standing[0].pointer,
        "find the highest point of the floor under the row, strike the level line from there, and shim the others up "
        "to it: no cabinet can be let down",
    )
