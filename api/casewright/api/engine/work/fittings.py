"""Words for fixing hardware at the bench: doors with hinges, plates and pulls, and the pins of loose shelves."""

from collections.abc import Sequence

from casewright.api.engine.work.fixed_on_case import counted, heights_on_case
from casewright.api.engine.work.naming import joined, title
from casewright.api.engine.work.pilots import pilot_words, thread_words
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.tilting import tilts_of
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Cabinet, DoorLeaf, HardwareLine, Part, Purpose

__all__ = [
    "door_words",
    "front_words",
    "pin_words",
    "runner_words",
]


def door_words(steps: Steps, cabinet: Cabinet, door: DoorLeaf | None, name: str) -> str:
    """Return how a door is hung: what is fixed to it and to the case, at which height, and how its gaps are set."""
    if door is None:
        return f"Fix hinges and pull, hang {name} and set its gaps"
    made = steps.made
    own = joined([counted(line, cabinet) for line in made.used(door.id)] or ["hinges"])
    words = [f"Fix {own} to {name}"]
    for key, line in made.used_on(door.id):
        packing, behind, host = key.rpartition(" behind ")
        part = made.by_id.get(f"{cabinet.id}/{host}")
        on = f"{packing}{behind}the {title(part)}" if part else key.replace("-", " ")
        beaded = cabinet.face_frame is not None and cabinet.face_frame.bead > 0
        on = f"the bead on {on}, the screws through it" if part and beaded and not packing else on
        words.append(f"{counted(line, cabinet)} to {on}, {_heights(steps, cabinet, line.at)}")
    holes = _hinge_holes(steps, cabinet, door)
    return f"{', and '.join(words)}{holes}; hang {name} and set its edges: {_edges(steps, door)}"


def _hinge_holes(steps: Steps, cabinet: Cabinet, door: DoorLeaf) -> str:
    """Return the holes of the screws of a door's hinges and plates, where wood screws fix them."""
    into = {steps.made.by_id[part].material for part in door.parts if part in steps.made.by_id}
    if cabinet.face_frame is not None:
        into.add(cabinet.face_frame.material)
    return thread_words(steps, steps.made.used(f"{door.id} hinge screws"), into)


def taper_words(steps: Steps, cabinet: Cabinet, group: str, name: str) -> str:
    """Return how a door's sides are planed to an opening out of square; nothing where it hangs square.

    It does where its gaps carry that: it is then cut to its size and not left full.
    """
    doors, made = cabinet.doors, steps.made
    leaf = next((one for one in made.doors if one.id == f"{cabinet.id}/{group}"), None)
    if doors is None or leaf is None or not cabinet.lean or doors.hang != "inset" or cabinet.face_frame is not None:
        return ""
    lean = cabinet.leaning(leaf.height)
    full = any(size.full for (part, _), (_, size) in made.waiting.sizes.items() if part in leaf.parts)
    built = all(part.built for part in made.parts if part.id in leaf.parts)
    if not full and not (built and 2 * abs(lean) > doors.gap):
        return ""
    by, first, second = steps.text(abs(lean)), *(("left", "right") if lean > 0 else ("right", "left"))
    each = f", each of the {cabinet.count} in turn," if cabinet.count > 1 else ""
    return (
        f"Hold {name} in its opening{each} with its bottom edge along the bottom's, and plane its sides to the line of "
        f"the opening: the {first} edge from nothing off at the bottom to {by} at the top, the {second} edge from {by} "
        f"at the bottom to nothing at the top, until the gaps of {steps.text(doors.gap)} are even"
    )


def _heights(steps: Steps, cabinet: Cabinet, at: Sequence[Point]) -> str:
    """Return where plates stand: how high, and how far behind or before the front edge of the case."""
    up = heights_on_case(steps, cabinet, at)
    rows = dict.fromkeys(point[1] for point in at)
    out = joined([f"{steps.text(abs(y))} {'behind' if y >= 0 else 'before'} the case's front edge" for y in rows])
    return f"their middle {up} up from the case's bottom, {out}"


def _edges(steps: Steps, door: DoorLeaf) -> str:
    """Return where the edges of a door stand, measured from the case, and how wide the gap to its neighbour is."""
    words = [
        f"left edge {_beside(steps, door.at[0])} the case's left side",
        f"bottom edge {_over(steps, door.at[2] - steps.made.bottom(door.cabinet))} the case's bottom",
    ]
    right = door.at[0] + door.width
    for other in steps.made.doors_of(door.cabinet):
        level = other.at[2] < door.at[2] + door.height and door.at[2] < other.at[2] + other.height
        if level and 0 < other.at[0] - right <= MEETING:
            words.append(f"{steps.text(other.at[0] - right)} clear of the next door")
    return ", ".join(words)


MEETING = 20_000_000
"""Doors no farther apart than this, in nm, meet: the gap between them is set, not the part between them."""


def _beside(steps: Steps, x: int) -> str:
    return "flush with" if x == 0 else f"{steps.text(abs(x))} {'from' if x > 0 else 'outside'}"


def _over(steps: Steps, z: int) -> str:
    return "flush with" if z == 0 else f"{steps.text(abs(z))} {'up from' if z > 0 else 'below'}"


def pin_words(steps: Steps, cabinet: Cabinet, shelves: Sequence[Part]) -> str:
    """Return which holes the pins of loose shelves go in, counted from the bottom of their row."""
    rows: dict[tuple[int, int], list[int]] = {}
    for part in steps.made.by_cabinet[cabinet.id]:
        holes = [hole for ft in part.features if ft.purpose is Purpose.SHELF_PINS for hole in ft.holes]
        for x, y, z in (part.place.point(hole.mouth) for hole in holes):
            rows.setdefault((x, y), []).append(z)
    levels: dict[str, list[str]] = {}
    for shelf in shelves:
        for line in steps.made.used(shelf.id):
            nth = {sum(1 for up in rows.get((x, y), ()) if up <= z) for x, y, z in line.at}
            hole = f"hole {nth.pop()} from the bottom of each row, " if len(nth) == 1 and 0 not in nth else ""
            up = heights_on_case(steps, cabinet, line.at)
            pins = f"{counted(line, cabinet)} in {hole}{up} up from the case's bottom"
            levels.setdefault(pins, []).append(title(shelf))
    where = "; ".join(
        f"for {joined(names)}{', each' if len(names) > 1 else ''}: {pins}" for pins, names in levels.items()
    )
    tilts = tilts_of(steps.made.by_cabinet[cabinet.id])
    turned: dict[int, list[str]] = {}
    for shelf in shelves:
        if shelf.id in tilts:
            turned.setdefault(tilts[shelf.id], []).append(title(shelf))
    how = "".join(
        f"; {joined(names)} with one end low, tilted {degrees} degrees, straight back past the frame, then turned level"
        for degrees, names in turned.items()
    )
    return f"Set shelf pins and loose shelves in {cabinet.id}" + (f": {where}" if where else "") + how


def runner_words(steps: Steps, cabinet: Cabinet, group: str, box: Sequence[Part], name: str) -> str:
    """Return how the runners of a drawer, which stand outside its box, are fixed and the box hung."""
    lines = [line for line in steps.made.used(f"{cabinet.id}/{group}") if _is_outside(line, box)]
    if not lines:
        return f"Hang the box of {name} on its runners; it must open fully"
    runners = joined(
        [f"{counted(line, cabinet)}, its line {heights_on_case(steps, cabinet, line.at)} up" for line in lines]
    )
    return (
        f"Screw the runners of {name} in the case, at the holes bored for them: {runners} from the case's bottom; "
        "screw what belongs to them on the box, level, and hang it; it must open fully"
    )


def _is_outside(line: HardwareLine, box: Sequence[Part]) -> bool:
    whole = Box.union([part.place.box(part.blank) for part in box])
    return bool(line.at) and all(x <= whole.x0 or x >= whole.x1 for x, _, _ in line.at)


def front_words(steps: Steps, cabinet: Cabinet, group: str, parts: Sequence[Part], name: str) -> str:
    """Return how the front of a drawer is set to its gaps and fixed, with its pull."""
    front = next((part for part in parts if part.role == "drawer-front"), None)
    box = [part for part in parts if part is not front]
    if front is None:
        return f"Set the front of {name} to its gaps, bore pilot holes and screw it on from inside"
    at = front.place.box(front.blank)
    up = _over(steps, at.z0 - steps.made.bottom(cabinet.id))
    lines = [line for line in steps.made.used(f"{cabinet.id}/{group}") if not _is_outside(line, box)]
    screws = [line for line in lines if line.item in steps.made.screws]
    others = [line for line in lines if line not in screws]
    words = joined([counted(line, cabinet) for line in screws] or ["screws"])
    do = (
        f"Set the front of {name}: left edge {_beside(steps, at.x0)} the case's left side, bottom edge {up} the case's "
        f"bottom; bore pilot holes and fix it with its {words}"
    ) + pilot_words(steps, screws, [front.material])
    return do + (f"; {_pull_words(steps, cabinet, front, box, others)}" if others else "")


def _pull_words(steps: Steps, cabinet: Cabinet, front: Part, box: Sequence[Part], pulls: Sequence[HardwareLine]) -> str:
    """Return how the pull of a drawer is fixed: through the box behind the front as well, where there is some."""
    words = joined([counted(line, cabinet) for line in pulls])
    holes = [hole for ft in front.features if ft.purpose is Purpose.PULL for hole in ft.holes]
    mouths = [front.place.point(hole.mouth) for hole in holes]
    face = front.place.box(front.blank)
    for part in box:
        behind = part.place.box(part.blank)
        if behind.y0 == face.y1 and any(behind.x0 < x < behind.x1 and behind.z0 < z < behind.z1 for x, _, z in mouths):
            through = steps.text(face.size[1] + behind.size[1])
            return f"bore on through the box at the pull's holes, and fix {words} with screws for {through} of wood"
    return f"fix {words}"
