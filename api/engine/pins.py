"""Loose shelves and the rows of pin holes they stand on."""

from casewright.api.engine.case import Shell, front_band
from casewright.api.engine.draft import Draft, Work, require_room
from casewright.api.engine.inside import Leaf, depth_terms, width_terms
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box, Cylinder
from casewright.sdk.model import Feature, HardwareUse, Term, hole


def add_loose_shelves(work: Work, shell: Shell, leaf: Leaf, setback: int) -> None:
    """Add a leaf's loose shelves, `setback` nm behind the case front, and the pin holes in the parts beside it."""
    n = leaf.space.loose_count
    if not n:
        return
    rooms = clear_rooms(work, leaf)
    rows = {room: _rows(work, room) for room in rooms}
    tallest = max(rooms, key=lambda room: (room[1] - room[0], room[0]))
    heights = rows[tallest]
    if len(heights) < n:
        pins = work.cabinet.case.pins
        raise NoGeometryError(
            Problem(
                f"{leaf.space.pointer}/loose_shelves",
                f"each loose shelf needs a pin hole row of its own; this room has {len(heights)}",
                str(n),
                f"Ask for {len(heights)} or fewer, or make `pins.clear_ends` or `pins.pitch` "
                f"({pins.pitch / 1e6:g} mm) smaller.",
            )
        )
    _drill_rows(work, shell, leaf, [z for room in rooms for z in rows[room]], setback)
    top_of_pin = work.cabinet.case.pins.diameter // 2
    for i in range(n):
        z = heights[len(heights) * (i + 1) // (n + 1)] if n < len(heights) else heights[i]
        _add_shelf(work, shell, leaf, z + top_of_pin, setback)


def clear_rooms(work: Work, leaf: Leaf) -> list[tuple[int, int]]:
    """Return the clear heights of the leaf, low to high, as its fixed shelves divide it."""
    region = leaf.region
    shelves = [
        draft.box
        for draft in work.drafts.values()
        if draft.role == "shelf"
        and draft.box.x0 < region.x1
        and draft.box.x1 > region.x0
        and region.z0 < draft.box.z0 < region.z1
    ]
    rooms: list[tuple[int, int]] = []
    floor = region.z0
    for box in sorted(shelves, key=lambda b: b.z0):
        rooms.append((floor, box.z0))
        floor = box.z1
    rooms.append((floor, region.z1))
    return rooms


def _rows(work: Work, room: tuple[int, int]) -> list[int]:
    """Return the heights of hole centres in a room: start + n · pitch, clear of both ends."""
    pins = work.cabinet.case.pins
    first, last = room[0] + pins.clear_ends, room[1] - pins.clear_ends
    return list(range(first, last + 1, pins.pitch))


def _drill_rows(work: Work, shell: Shell, leaf: Leaf, heights: list[int], setback: int) -> None:
    pins, region = work.cabinet.case.pins, leaf.region
    front, back = setback + pins.from_front, shell.inner_back - pins.from_back
    require_room(
        back - front - pins.diameter,
        f"{work.cabinet.pointer}/case/pins",
        "the distance between the two rows of pins",
        "Make `from_front` or `from_back` smaller, or the cabinet deeper.",
    )
    sides: tuple[tuple[str, int, Axis], ...] = ((region.left, region.x0, -1), (region.right, region.x1, 1))
    for key, x, into in sides:
        for y, name in ((front, "front"), (back, "back")):
            drilled: tuple[Cylinder, ...] = tuple(
                [Cylinder((x, y, z), into, pins.diameter, pins.depth) for z in heights]
            )
            feature: Feature = hole(f"shelf pins, {name} row", *drilled)
            work.drafts[key].features.append(feature)


def _add_shelf(work: Work, shell: Shell, leaf: Leaf, z: int, setback: int) -> None:
    case, region = work.cabinet.case, leaf.region
    material = work.material(case.shelf_material)
    band = work.material(case.shelf_band).thickness if case.shelf_band else 0
    play = case.pins.shelf_play
    y0, y1 = setback + band, shell.inner_back - play
    low = region.x0 + play // 2
    high = low + region.width - play
    pointer = f"{leaf.space.pointer}/loose_shelves"
    require_room(high - low, pointer, "loose shelf length", "Make `pins.shelf_play` smaller.")
    require_room(y1 - y0, pointer, "loose shelf depth", "Make `pins.shelf_play` or the setback smaller.")
    if z + material.thickness >= region.z1:
        raise NoGeometryError(
            Problem(pointer, "a loose shelf stands under the roof", f"{z / 1e6:g} mm", "Ask for fewer loose shelves.")
        )
    key = f"loose-shelf-{1 + sum(1 for k in work.drafts if k.startswith('loose-shelf-'))}"
    box = Box(low, y0, z, high, y1, z + material.thickness)
    why = {
        1: [*width_terms(work, shell, region), Term("play at the ends", -play)],
        2: [*depth_terms(work, shell, setback, band), Term("play at the back", -play)],
    }
    draft = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, why, "loose")
    draft.bands = front_band(work, case.shelf_band, box, y0)
    work.add(draft)
    pins = tuple(
        [(x, y, z - case.pins.diameter // 2)
         for x in (region.x0, region.x1)
         for y in (setback + case.pins.from_front, shell.inner_back - case.pins.from_back)]
    )  # fmt: skip
    item, name = _pin(work)
    work.use((HardwareUse(item, name, pins),), f"{work.id}/{key}")


def _pin(work: Work) -> tuple[str, str]:
    """Return the catalogue pin that fits the holes, or a plain name where the catalogue has none."""
    size = work.cabinet.case.pins.diameter
    for pin in work.registry.catalogue.pins:
        if pin.hole_diameter == size:
            return pin.id, pin.title
    return "shelf-pin", f"shelf pin for {size / 1e6:g} mm holes"
