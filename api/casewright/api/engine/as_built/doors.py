"""Doors as their frames came out: what is in them goes by that, and it is held against the opening they close."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from casewright.api.engine.as_built.outcome import Deviation, Outside, leading
from casewright.sdk.model import LENGTH, BuiltPart, BuiltSize, Cabinet, Check, Doors, Finding
from casewright.sdk.writer import Writer

WAYS: Mapping[int, Outside] = {1: Outside.WIDTH, 3: Outside.HEIGHT}


@dataclass(frozen=True, slots=True)
class DoorsOut:
    """Doors as they came out over their planned sizes, what of them was measured, and the other parts' deviations."""

    sizes: Mapping[str, BuiltPart]
    measured: tuple[tuple[str, Outside, int, BuiltSize], ...]
    others: tuple[Deviation, ...]


def doors_out(deviations: Iterable[Deviation]) -> DoorsOut:
    """Return doors as they came out: as wide and high as the least of their members, or as the room for their panel."""
    every = list(deviations)
    off: dict[tuple[str, Outside], int] = {}
    measured = []
    for (group, size), deviation in leading(every).items():
        if group:
            rooms = [one for one in deviation if one.size.measure.of_opening]
            least = min(rooms or deviation, key=lambda one: (one.off, one.part.id))
            off[group, size] = least.off
            measured.append((group, size, least.off, least.size))
    sizes = {
        group: BuiltPart(0, off.get((group, Outside.HEIGHT), 0), off.get((group, Outside.WIDTH), 0))
        for group in sorted({group for group, _ in off})
    }
    others = [_beside(one, off) for one in every if not one.size.measure.of_opening]
    return DoorsOut(sizes, tuple(measured), tuple(others))


def _beside(one: Deviation, off: Mapping[tuple[str, Outside], int]) -> Deviation:
    """Return how far a part of a door is off what the door as it came out asks for."""
    if one.leads is not None:
        return replace(one, off=one.off - off.get(one.leads, 0))
    if one.part.role != "door-panel":
        return one
    way = one.part.place.x if one.size.measure == "length" else one.part.place.y
    return replace(one, off=one.off - off.get((one.part.group, WAYS[abs(way)]), 0))


def door_checks(cabinet: Cabinet, doors: DoorsOut, write: Writer) -> Iterator[Check]:
    """Yield each door that its opening does not take as it came out."""
    if cabinet.doors is None:
        return
    room = room_round(cabinet.doors)
    for door, way, off, size in doors.measured:
        if abs(off) > room:
            what = f"{door.replace('-', ' ')} of {cabinet.id} comes out {write.length(abs(off))}"
            if off > 0:
                message = f"The {what} more in {way} than goes with its opening: trim what it is made of, or plane it."
                code = "built-too-long"
            else:
                message = f"The {what} less in {way} than goes with its opening: make it up, or make the part again."
                code = "built-too-short"
            finding = Finding(code, "stop", message, size.nm, size.nm - off, LENGTH, "common-practice")
            yield Check(size.pointer, finding)


def room_round(doors: Doors) -> int:
    """Return how far a door may be off in all: its gaps or laps from half to one and a half of what is planned.

    Common practice, no source.
    """
    return min(doors.overlay if doors.hang == "overlay" else doors.gap, doors.meeting_gap)
