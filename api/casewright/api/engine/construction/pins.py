"""Loose shelves and the rows of pin holes they stand on."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.case import Shell, front_band
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.fronts import inset_depth
from casewright.api.engine.construction.inside import Leaf, depth_terms, width_terms
from casewright.api.engine.construction.packing import GROUP as PACKING
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box, Cylinder
from casewright.sdk.joinery import Bound, check_least
from casewright.sdk.model import Band, HardwareUse, Pins, Purpose, Term, hole
from casewright.sdk.units import MM

USUAL_DEPTH = 10 * MM
"""Depth of a shelf pin hole where the job does not say (common practice, no source)."""

LEAST_WEB = Bound(3 * MM)
"""The least wood behind a pin hole (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """Where the holes of one leaf stand: the y of the front and the back row, and how deep they go."""

    front: int
    back: int
    depth: int


def add_loose_shelves(built: Construction, shell: Shell, leaf: Leaf, setback: int) -> Construction:
    """Add a leaf's loose shelves, `setback` nm behind the case front, and the pin holes in the parts beside it."""
    n = leaf.space.loose_count
    if not n:
        return built
    context, pins = built.context, built.cabinet.case.pins
    rooms = clear_rooms(built, leaf)
    heights = {room: _heights(pins, room) for room in rooms}
    tallest = max(rooms, key=lambda room: (room[1] - room[0], room[0]))
    chosen = _chosen(context, leaf, heights[tallest], n)
    _refuse_stacking(context, leaf, chosen, tallest[1])
    hosts = [built.drafts[leaf.region.left], built.drafts[leaf.region.right]]
    front, back = _row_places(context, shell)
    rows = _Rows(front, back, _depth(pins, hosts))
    _refuse_rows(context, rows, setback, hosts)
    built = _drilled(built, leaf, rows, [z for room in rooms for z in heights[room]])
    for z in chosen:
        built = _with_shelf(built, shell, leaf, z + pins.diameter // 2, setback)
    return built


def clear_of_packing(built: Construction, leaf: Leaf) -> Construction:
    """Return it with a leaf's loose shelves on other pins, where one stood in the packing behind a hinge plate.

    They are spread over the rows of their room at which they meet nothing fixed, nor one another. Raises
    `NoGeometryError` where those are too few.
    """
    region = leaf.region
    here = Box(region.x0, 0, region.z0, region.x1, built.cabinet.depth, region.z1)
    shelves = [d for d in built.drafts.values() if d.group == "loose" and d.box.meets(here)]
    near = [d for d in built.drafts.values() if d.group != "loose" and d.box.meets(here)]
    if not any(shelf.box.meets(one.box) for shelf in shelves for one in near if one.group == PACKING):
        return built
    case = built.cabinet.case
    fixed = replace(built, drafts={key: d for key, d in built.drafts.items() if d.group != "loose"})
    room = max(clear_rooms(fixed, leaf), key=lambda room: (room[1] - room[0], room[0]))
    first, over = shelves[0], case.pins.diameter // 2
    free: list[int] = []
    for z in _heights(case.pins, room):
        box = _lifted(first, z + over - first.box.z0).box
        clear = box.z1 <= room[1] and not any(box.meets(one.box) for one in near)
        if clear and (not free or free[-1] + first.thickness <= z - over):
            free.append(z)
    for shelf, z in zip(shelves, _chosen(built.context, leaf, free, len(shelves)), strict=True):
        built = _set_higher(built, shelf, z + over - shelf.box.z0)
    return built


def _set_higher(built: Construction, shelf: Draft, by: int) -> Construction:
    """Return it with a loose shelf and its pins set `by` nm higher."""
    named = f"{built.id}/{shelf.key}"
    lines = [
        replace(line, at=tuple([(x, y, z + by) for x, y, z in line.at])) if line.used_for == named else line
        for line in built.hardware
    ]
    return replace(built.with_parts(_lifted(shelf, by)), hardware=tuple(lines))


def _lifted(shelf: Draft, by: int) -> Draft:
    bands = [Band(band.material, band.box.moved(dz=by)) for band in shelf.bands]
    return replace(shelf, box=shelf.box.moved(dz=by), bands=tuple(bands))


def _chosen(context: Context, leaf: Leaf, heights: list[int], n: int) -> list[int]:
    """Return the heights of the pins under `n` shelves, spread over the rows of one room."""
    if len(heights) < n:
        pitch = context.write.length(context.cabinet.case.pins.pitch)
        rule = f"a pin hole row for each loose shelf; this room has {len(heights)}"
        fewer = f"Ask for {len(heights)} or fewer" if heights else "Ask for none"
        fix = f"{fewer}, or make `pins.clear_ends` or `pins.pitch` ({pitch}) smaller."
        raise NoGeometryError(Problem(f"{leaf.space.pointer}/loose_shelves", rule, str(n), fix))
    if n == len(heights):
        return heights
    return [heights[len(heights) * (i + 1) // (n + 1)] for i in range(n)]


def _refuse_stacking(context: Context, leaf: Leaf, heights: list[int], roof: int) -> None:
    """Refuse loose shelves that would stand in one another or in what is over them."""
    case, write = context.cabinet.case, context.write
    thick = context.material(case.shelf_material).thickness
    upper = case.pins.diameter // 2
    for z, over in zip(heights, [*(h + upper for h in heights[1:]), roof], strict=True):
        if z + upper + thick > over:
            raise NoGeometryError(
                Problem(
                    f"{leaf.space.pointer}/loose_shelves",
                    f"room over its pins for a loose shelf {write.length(thick)} thick",
                    write.length(over - z - upper),
                    "Ask for fewer loose shelves, or make `pins.pitch` or `pins.clear_ends` larger.",
                )
            )


def clear_rooms(built: Construction, leaf: Leaf) -> list[tuple[int, int]]:
    """Return the clear heights of the leaf, low to high, as its fixed shelves divide it."""
    region = leaf.region
    shelves = [
        draft.box
        for draft in built.drafts.values()
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


def _heights(pins: Pins, room: tuple[int, int]) -> list[int]:
    """Return the heights of hole centres in a room: start + n · pitch, clear of both ends."""
    first, last = room[0] + pins.clear_ends, room[1] - pins.clear_ends
    return list(range(first, last + 1, pins.pitch))


def _drilled(built: Construction, leaf: Leaf, rows: _Rows, heights: list[int]) -> Construction:
    """Drill both rows in both parts beside a leaf, and note where little wood is left behind them."""
    pins, region = built.cabinet.case.pins, leaf.region
    thinnest = min(built.drafts[key].thickness for key in (region.left, region.right))
    message = "little wood is left behind the shelf pin holes"
    webs = check_least("thin-web-behind-pins", message, thinnest - rows.depth, LEAST_WEB)
    sides: tuple[tuple[str, int, Axis], ...] = ((region.left, region.x0, -1), (region.right, region.x1, 1))
    for key, _, _ in sides:
        built = built.with_findings(f"{built.id}/{key}", *webs)
    for key, x, into in sides:
        cuts = [
            hole(
                f"shelf pins, {name} row",
                *(Cylinder((x, y, z), into, pins.diameter, rows.depth) for z in heights),
                purpose=Purpose.SHELF_PINS,
            )
            for y, name in ((rows.front, "front"), (rows.back, "back"))
        ]
        built = built.with_cuts(key, *cuts)
    return built


def _depth(pins: Pins, hosts: list[Draft]) -> int:
    """Return the depth of the holes: as given, else 10 mm or a third of the thinnest wood."""
    if pins.depth is not None:
        return pins.depth
    return min(USUAL_DEPTH, min(host.thickness for host in hosts) // 3)


def _row_places(context: Context, shell: Shell) -> tuple[int, int]:
    """Return the y of the front and the back row: from the case front (inset doors add theirs) and the back."""
    pins = context.cabinet.case.pins
    return inset_depth(context) + pins.from_front, shell.inner_back - pins.from_back


def _refuse_rows(context: Context, rows: _Rows, setback: int, hosts: list[Draft]) -> None:
    """Refuse rows that do not lie in the wood, or that a shelf would not rest on."""
    case, write = context.cabinet.case, context.write
    pins, r = case.pins, -(-case.pins.diameter // 2)
    at = f"{context.cabinet.pointer}/case"
    context.require_room(
        rows.back - rows.front - pins.diameter,
        f"{at}/pins",
        "the distance between the two rows of pins",
        "Make `from_front` or `from_back` smaller, or the cabinet deeper.",
    )
    thinnest = min(host.thickness for host in hosts)
    outside = (
        (rows.front - r < max(h.box.y0 for h in hosts), "from_front", pins.from_front, "Make it larger."),
        (rows.back + r > min(h.box.y1 for h in hosts), "from_back", pins.from_back, "Make it larger."),
        (pins.clear_ends < r, "clear_ends", pins.clear_ends, "Make it larger than half the diameter."),
        (rows.depth >= thinnest, "depth", rows.depth, f"Drill less deep than {write.length(thinnest)}."),
    )
    for broken, name, got, fix in outside:
        if broken:
            rule = "shelf pin holes within the wood"
            raise NoGeometryError(Problem(f"{at}/pins/{name}", rule, write.length(got), fix))
    band = context.material(case.shelf_band).thickness if case.shelf_band else 0
    if rows.front < setback + band:
        rule, fix = (
            "a loose shelf that rests on its front pins",
            "Set shelves back less, or make `pins.from_front` larger.",
        )
        raise NoGeometryError(Problem(f"{at}/shelf_setback", rule, write.length(case.shelf_setback), fix))


def _with_shelf(built: Construction, shell: Shell, leaf: Leaf, z: int, setback: int) -> Construction:
    context, region, case = built.context, leaf.region, built.cabinet.case
    material = context.material(case.shelf_material)
    band = context.material(case.shelf_band).thickness if case.shelf_band else 0
    play = case.pins.shelf_play
    y0, y1 = setback + band, shell.inner_back - play
    low = region.x0 + play // 2
    high = low + region.width - play
    pointer = f"{leaf.space.pointer}/loose_shelves"
    context.require_room(high - low, pointer, "loose shelf length", "Make `pins.shelf_play` smaller.")
    context.require_room(y1 - y0, pointer, "loose shelf depth", "Make `pins.shelf_play` or the setback smaller.")
    key = f"loose-shelf-{built.next_number('loose-shelf')}"
    box = Box(low, y0, z, high, y1, z + material.thickness)
    why = (
        (*width_terms(context, shell, region), Term("play at the ends", -play)),
        (*depth_terms(context, shell, setback, band), Term("play at the back", -play)),
    )
    bands = front_band(context, case.shelf_band, box)
    shelf = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, *why, "loose", bands=bands)
    under = z - case.pins.diameter // 2
    places = [(x, y, under) for x in (region.x0, region.x1) for y in _row_places(context, shell)]
    item, name = _pin(context)
    return built.with_parts(shelf).with_hardware(f"{built.id}/{key}", HardwareUse(item, name, tuple(places)))


def _pin(context: Context) -> tuple[str, str]:
    """Return the catalogue pin that fits the holes, or a plain name where the catalogue has none."""
    size = context.cabinet.case.pins.diameter
    for pin in context.registry.catalogue.pins:
        if pin.hole_diameter == size:
            return pin.id, pin.title
    return "shelf-pin", f"shelf pin for {context.write.length(size)} holes"
