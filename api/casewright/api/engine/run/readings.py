"""What level and plumb line showed of floor and walls: a straight line between readings, level beyond the last.

From it follow the packing under what stands and behind what hangs, and the wood that strips and ends need for a scribe.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from casewright.api.engine.run.placed import PRACTICE, PlacedCabinet
from casewright.sdk.model import LENGTH, Cabinet, Check, Finding, Job, Packing, ReadingOf, Wall
from casewright.sdk.writer import Writer

__all__ = ["high_spot", "packing", "packing_checks", "reach", "scribed"]

_Line = Sequence[tuple[int, int]]


def _line(wall: Wall, of: ReadingOf) -> _Line:
    return sorted((one.at, one.off) for one in wall.readings if one.of == of)


def _off_at(wall: Wall, of: ReadingOf, at: int) -> int:
    """Return how far floor or wall is off at a place, in nm; zero without readings."""
    line = _line(wall, of)
    if not line:
        return 0
    number = bisect_left([place for place, _ in line], at)
    if number == 0 or number == len(line):
        return line[min(number, len(line) - 1)][1]
    (x0, off0), (x1, off1) = line[number - 1], line[number]
    return off0 + (off1 - off0) * (at - x0) // (x1 - x0)


def reach(wall: Wall, of: ReadingOf, low: int, high: int) -> tuple[int, int]:
    """Return the least and the most that floor or wall is off between two places."""
    offs = [_off_at(wall, of, low), _off_at(wall, of, high)]
    offs += [off for at, off in _line(wall, of) if low < at < high]
    return min(offs), max(offs)


def high_spot(wall: Wall) -> int | None:
    """Return where along the wall the floor is highest, the leftmost of equals; `None` without readings of it."""
    line = _line(wall, "floor")
    return min(line, key=lambda one: (-one[1], one[0]))[0] if line else None


def scribed(job: Job) -> Job:
    """Return a job whose finished ends have wood to scribe for all that the wall behind them is out of plumb."""
    wall = job.wall
    if wall is None or not _line(wall, "back"):
        return job
    return replace(job, cabinets=tuple([_scribed(cabinet, wall) for cabinet in job.cabinets]))


def _scribed(cabinet: Cabinet, wall: Wall) -> Cabinet:
    ends = cabinet.ends
    spots = wall.cabinets_at.get(cabinet.id, ()) if "finished" in (ends.left, ends.right) else ()
    reached = [reach(wall, "back", spot.z, spot.z + cabinet.height) for spot in spots]
    needed = max([most - least for least, most in reached], default=0)
    return replace(cabinet, ends=replace(ends, scribe=max(ends.scribe, needed))) if needed else cabinet


def packing(wall: Wall, placed: Sequence[PlacedCabinet]) -> tuple[Packing, ...]:
    """Return what is packed at each standing, of those where anything is.

    What stands is packed up to the highest point of the floor; each is packed out from the wall where that stands
    farthest behind the most forward point behind it.
    """
    highest = high_spot(wall)
    top = 0 if highest is None else _off_at(wall, "floor", highest)
    rows = [_packing(wall, one, top) for one in placed]
    return tuple([one for one in rows if one != Packing(one.standing)])


def _packing(wall: Wall, one: PlacedCabinet, top: int) -> Packing:
    box = one.outline
    left = right = 0
    if one.cabinet.stands:
        left, right = (top - _off_at(wall, "floor", x) for x in (box.x0, box.x1))
    _, forward = reach(wall, "back", box.z0, box.z1)
    bottom, upper = (forward - _off_at(wall, "back", z) for z in (box.z0, box.z1))
    return Packing(one.name, left, right, bottom, upper)


def packing_checks(
    wall: Wall, placed: Sequence[PlacedCabinet], packings: Iterable[Packing], allowance: int, write: Writer
) -> Iterator[Check]:
    """Yield what is packed where, and walls farther out of plumb than is allowed for."""
    packed = {one.standing: one for one in packings}
    for one in placed:
        least, most = reach(wall, "back", one.outline.z0, one.outline.z1)
        pack = packed.get(one.name, Packing(one.name))
        if pack.left or pack.right:
            message = (
                f"{one.name} is packed up {write.length(pack.left)} at its left end and {write.length(pack.right)} at "
                "its right, to the level of the floor's highest point"
            )
            yield Check(one.pointer, Finding("packed-up", "note", message, max(pack.left, pack.right), None, LENGTH,
                                             PRACTICE))  # fmt: skip
        if most - least > allowance:
            message = (
                f"the wall behind {one.name} is farther out of plumb than is allowed for behind it: pack it out "
                f"{write.length(pack.bottom)} at the bottom and {write.length(pack.top)} at the top, or raise "
                "`shop.wall_allowance`"
            )
            finding = Finding("wall-out-of-plumb", "caution", message, most - least, allowance, LENGTH, PRACTICE)
            yield Check(one.pointer, finding)
