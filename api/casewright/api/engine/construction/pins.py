"""Loose shelves and the rows of pin holes they stand on."""

from casewright.api.engine.construction.case import Shell, front_band
from casewright.api.engine.construction.draft import Draft, Work, require_room
from casewright.api.engine.construction.fronts import inset_depth
from casewright.api.engine.construction.inside import Leaf, depth_terms, width_terms
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box, Cylinder
from casewright.sdk.joinery import Bound, check_least
from casewright.sdk.model import Feature, HardwareUse, Pins, Term, hole
from casewright.sdk.units import MM

USUAL_DEPTH = 10 * MM
"""Depth of a shelf pin hole where the job does not say (common practice, no source)."""


def add_loose_shelves(work: Work, shell: Shell, leaf: Leaf, setback: int) -> None:
    """Add a leaf's loose shelves, `setback` nm behind the case front, and the pin holes in the parts beside it."""
    n = leaf.space.loose_count
    if not n:
        return
    rooms = clear_rooms(work, leaf)
    rows = {room: _rows(work, room) for room in rooms}
    tallest = max(rooms, key=lambda room: (room[1] - room[0], room[0]))
    heights = _chosen_rows(work, leaf, rows[tallest], n)
    _check_stacking(work, leaf, heights, tallest[1])
    _drill_rows(work, shell, leaf, [z for room in rooms for z in rows[room]], setback)
    for z in heights:
        _add_shelf(work, shell, leaf, z + work.cabinet.case.pins.diameter // 2, setback)


def _chosen_rows(work: Work, leaf: Leaf, heights: list[int], n: int) -> list[int]:
    """Return the heights of the pins under `n` shelves, spread over the rows of one room."""
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
    if n == len(heights):
        return heights
    return [heights[len(heights) * (i + 1) // (n + 1)] for i in range(n)]


def _check_stacking(work: Work, leaf: Leaf, heights: list[int], roof: int) -> None:
    """Refuse loose shelves that would stand in one another or in what is over them."""
    thick = work.material(work.cabinet.case.shelf_material).thickness
    upper = work.cabinet.case.pins.diameter // 2
    for z, over in zip(heights, [*(h + upper for h in heights[1:]), roof], strict=True):
        if z + upper + thick > over:
            raise NoGeometryError(
                Problem(
                    f"{leaf.space.pointer}/loose_shelves",
                    f"a loose shelf {thick / 1e6:g} mm thick has room over its pins",
                    f"{(over - z - upper) / 1e6:g} mm",
                    "Ask for fewer loose shelves, or make `pins.pitch` or `pins.clear_ends` larger.",
                )
            )


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
    front, back = _row_places(work, shell)
    sides: tuple[tuple[str, int, Axis], ...] = ((region.left, region.x0, -1), (region.right, region.x1, 1))
    hosts = [work.drafts[key] for key, _, _ in sides]
    _check_rows(work, shell, front, back, setback, hosts)
    depth = _depth(pins, hosts)
    for key, x, into in sides:
        for y, name in ((front, "front"), (back, "back")):
            drilled: tuple[Cylinder, ...] = tuple([Cylinder((x, y, z), into, pins.diameter, depth) for z in heights])
            feature: Feature = hole(f"shelf pins, {name} row", *drilled)
            work.drafts[key].features.append(feature)


def _depth(pins: Pins, hosts: list[Draft]) -> int:
    """Return the depth of the holes: as given, else 10 mm or a third of the thinnest wood."""
    if pins.depth is not None:
        return pins.depth
    return min(USUAL_DEPTH, min(h.box.size[h.thickness_axis - 1] for h in hosts) // 3)


def _row_places(work: Work, shell: Shell) -> tuple[int, int]:
    """Return the y of the front and the back row: from the case front (inset doors add theirs) and the back."""
    pins = work.cabinet.case.pins
    return inset_depth(work) + pins.from_front, shell.inner_back - pins.from_back


def _check_rows(work: Work, shell: Shell, front: int, back: int, setback: int, hosts: list[Draft]) -> None:
    """Refuse rows that do not lie in the wood, or that a shelf would not rest on."""
    case = work.cabinet.case
    pins, r = case.pins, -(-case.pins.diameter // 2)
    band = work.material(case.shelf_band).thickness if case.shelf_band else 0
    at = f"{work.cabinet.pointer}/case"
    require_room(
        back - front - pins.diameter,
        f"{at}/pins",
        "the distance between the two rows of pins",
        "Make `from_front` or `from_back` smaller, or the cabinet deeper.",
    )
    _refuse(front - r < max(h.box.y0 for h in hosts), f"{at}/pins/from_front", pins.from_front, "Make it larger.")
    _refuse(back + r > min(h.box.y1 for h in hosts), f"{at}/pins/from_back", pins.from_back, "Make it larger.")
    _refuse(pins.clear_ends < r, f"{at}/pins/clear_ends", pins.clear_ends, "Make it larger than half the diameter.")
    thinnest = min(h.box.size[h.thickness_axis - 1] for h in hosts)
    depth = _depth(pins, hosts)
    _refuse(depth >= thinnest, f"{at}/pins/depth", depth, f"Drill less deep than {thinnest / 1e6:g} mm.")
    if front < setback + band:
        fix = "Set shelves back less, or make `pins.from_front` larger."
        raise NoGeometryError(
            Problem(
                f"{at}/shelf_setback", "a loose shelf rests on its front pins", f"{case.shelf_setback / 1e6:g} mm", fix
            )
        )
    for host in hosts:
        message = "little wood is left behind the shelf pin holes"
        for finding in check_least("thin-web-behind-pins", message, thinnest - depth, Bound(3 * MM)):
            work.find(f"{work.id}/{host.key}", finding)


def _refuse(broken: bool, pointer: str, got: int, fix: str) -> None:
    if broken:
        raise NoGeometryError(Problem(pointer, "shelf pin holes lie within the wood", f"{got / 1e6:g} mm", fix))


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
         for y in _row_places(work, shell)]
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
