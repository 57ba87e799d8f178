"""How a loose shelf gets past a face frame narrower than itself: one end lowered, through the opening, and levelled.

The shelf goes in aslant, one end low, straight back past the frame, and is turned level behind it. In the plane of the
frame it is a rectangle of its length and thickness: turned by an angle, it is `length * cos + thickness * sin` wide and
`length * sin + thickness * cos` high, and on its way to level it is never wider than its diagonal. Whole degrees are
tried, the least first; what none of them brings in is not proved to go in, nor proved not to.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, cos, hypot, radians, sin

from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Box
from casewright.sdk.model import Check, Part
from casewright.sdk.writer import Writer

__all__ = ["Tilt", "shelf_checks", "tilted_in", "tilts_of"]

STEEPEST = 85
"""The most degrees from level that are tried."""


@dataclass(frozen=True, slots=True)
class Tilt:
    """How a shelf is tilted: degrees from level, and the least room it has to spare on its way, in nm."""

    degrees: int
    spare: int


def tilted_in(shelf: tuple[int, int], opening: tuple[int, int], room: tuple[int, int]) -> Tilt | None:
    """Return the least tilt that brings a shelf (length, thickness) through an opening into a room (width, height).

    0 degrees is straight in. All in nm; nothing where no tilt tried does.
    """
    length, thick = shelf
    for degrees in range(STEEPEST + 1):
        angle = radians(degrees)
        wide = ceil(length * cos(angle) + thick * sin(angle))
        high = ceil(length * sin(angle) + thick * cos(angle))
        turned = ceil(hypot(length, thick)) if degrees else length
        spare = min(opening[0] - wide, min(opening[1], room[1]) - high, room[0] - turned)
        if spare >= 0:
            return Tilt(degrees, spare)
    return None


def tilts_of(parts: Sequence[Part]) -> dict[str, int]:
    """Return by how many degrees each loose shelf is tilted, of those that are longer than their frame is open."""
    return {part.id: tilt.degrees for part, tilt in _behind_frames(parts) if tilt is not None}


def shelf_checks(parts: Sequence[Part], write: Writer) -> tuple[Check, ...]:
    """Return how each loose shelf behind a face frame narrower than itself goes in, or that this is not proved."""
    return tuple([check for part, tilt in _behind_frames(parts) for check in _checks(part, tilt, write)])


def _behind_frames(parts: Sequence[Part]) -> Iterator[tuple[Part, Tilt | None]]:
    """Yield each loose shelf that goes straight through no opening of its frame, and its tilt where one is proved."""
    for cabinet in dict.fromkeys(part.cabinet for part in parts if part.group == "loose"):
        mine = [part for part in parts if part.cabinet == cabinet]
        frame = [_box(part) for part in mine if part.group == "face-frame"]
        case = [_box(part) for part in mine if part.group == "case" and part.role not in ("back", "strip")]
        for part in mine if frame else ():
            if part.group != "loose":
                continue
            shelf = _box(part)
            room = _clear(shelf, [box for box in case if box.y0 < shelf.y1 and shelf.y0 < box.y1])
            openings = list(_openings(frame, room))
            if any(wide >= part.length and high >= part.thickness for wide, high in openings):
                continue
            size, inside = (part.length, part.thickness), (room[1] - room[0], room[3] - room[2])
            tilts = [tilt for one in openings if (tilt := tilted_in(size, one, inside)) is not None]
            yield part, min(tilts, key=lambda one: (one.degrees, -one.spare), default=None)


def _checks(part: Part, tilt: Tilt | None, write: Writer) -> Iterator[Check]:
    """Yield the note or the caution for one shelf."""
    if tilt is None:
        message = (
            f"{part.name} is {write.length(part.length)} long, longer than the frame's opening is wide, and no tilt "
            f"up to {STEEPEST} degrees is proved to bring it in and level: give it more play at its ends "
            "(`pins.shelf_play`), set it in before the frame goes on, or make it in two"
        )
        yield Check(part.id, Finding("shelf-behind-frame", "caution", message, part.length, None, LENGTH, "dry-fit"))
        return
    message = (
        f"{part.name} is longer than the frame's opening is wide: set it in with one end low, tilted {tilt.degrees} "
        f"degrees, straight back past the frame, then turn it level; {write.length(tilt.spare)} to spare on its way"
    )
    yield Check(part.id, Finding("shelf-behind-frame", "note", message, tilt.spare, None, LENGTH, "dry-fit"))


def _clear(shelf: Box, around: Sequence[Box]) -> tuple[int, int, int, int]:
    """Return the room round a shelf: left, right, floor and roof, by the parts that stand nearest on each side."""
    beside = [box for box in around if box.z0 < shelf.z1 and shelf.z0 < box.z1]
    over = [box for box in around if box.x0 < shelf.x1 and shelf.x0 < box.x1]
    return (
        max((box.x1 for box in beside if box.x1 <= shelf.x0), default=shelf.x0),
        min((box.x0 for box in beside if box.x0 >= shelf.x1), default=shelf.x1),
        max((box.z1 for box in over if box.z1 <= shelf.z0), default=shelf.z0),
        min((box.z0 for box in over if box.z0 >= shelf.z1), default=shelf.z1),
    )


def _openings(frame: Sequence[Box], room: tuple[int, int, int, int]) -> Iterator[tuple[int, int]]:
    """Yield width and height of what the frame leaves open before a room: between its upright and level members."""
    x0, x1, z0, z1 = room
    before = [box for box in frame if box.x0 < x1 and x0 < box.x1 and box.z0 < z1 and z0 < box.z1]
    xs = _gaps([(b.x0, b.x1) for b in before if _upright(b)], x0, x1)
    zs = _gaps([(b.z0, b.z1) for b in before if not _upright(b)], z0, z1)
    for low, high in xs:
        for floor, roof in zs:
            yield high - low, roof - floor


def _upright(box: Box) -> bool:
    return box.z1 - box.z0 > box.x1 - box.x0


def _gaps(taken: Sequence[tuple[int, int]], low: int, high: int) -> list[tuple[int, int]]:
    """Return what is left of a span beside what is taken of it."""
    out = []
    at = low
    for start, end in sorted(taken):
        if start > at:
            out.append((at, min(start, high)))
        at = max(at, end)
    return [*out, (at, high)] if at < high else out


def _box(part: Part) -> Box:
    return part.place.box(part.blank)
