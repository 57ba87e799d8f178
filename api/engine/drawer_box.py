"""The drawer box: two sides over its whole depth, front and back between them, bottom in a groove."""

from dataclasses import dataclass

from casewright.api.engine.draft import Draft, Work, require_room
from casewright.api.engine.meet import meet
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.materials import Slide
from casewright.sdk.model import Drawers, Material, Role, Term


@dataclass(frozen=True, slots=True)
class Slot:
    """The room one drawer moves in: from `x0`, `width` wide; the box begins at y `front` and stands between heights."""

    x0: int
    width: int
    front: int
    low: int
    high: int


def add_box(work: Work, drawers: Drawers, slide: Slide, key: str, slot: Slot) -> None:
    """Add the box's parts and fit its corners and bottom."""
    material, bottom = work.material(drawers.material), work.material(drawers.bottom)
    t = material.thickness
    x0, x1 = slot.x0 + slide.side_room, slot.x0 + slot.width - slide.side_room
    y0, y1 = slot.front, slot.front + slide.length
    pointer = drawers.pointer
    require_room(x1 - x0 - 2 * t, pointer, "the drawer's inside width", "Make the opening wider.")
    require_room(y1 - y0 - 2 * t, pointer, "the drawer's inside depth", "Use a longer slide.")
    inside = slot.high - slot.low - drawers.bottom_up - bottom.thickness
    require_room(inside, pointer, "the drawer's inside height", "Ask for fewer or higher drawers.")
    height = [Term("drawer slot", slot.high - slot.low)]
    for side, x in (("left", x0), ("right", x1 - t)):
        box = Box(x, y0, slot.low, x + t, y1, slot.high)
        why = {2: [Term("slide length", slide.length)], 3: list(height)}
        name = f"{key.replace('-', ' ')} {side} side"
        work.add(Draft(f"{key}/box-side-{side}", "box-side", name, material, box, 2, 3, why, key))
    width = [
        Term("opening width", slot.width),
        Term("room for slides", -2 * slide.side_room),
        Term("two box sides", -2 * t),
    ]
    _end(work, drawers, key, "front", Box(x0 + t, y0, slot.low, x1 - t, y0 + t, slot.high), material, width, height)
    _end(work, drawers, key, "back", Box(x0 + t, y1 - t, slot.low, x1 - t, y1, slot.high), material, width, height)
    z = slot.low + drawers.bottom_up
    panel = Box(x0 + t, y0 + t, z, x1 - t, y1 - t, z + bottom.thickness)
    why = {1: list(width), 2: [Term("slide length", slide.length), Term("box front and back", -2 * t)]}
    name = f"{key.replace('-', ' ')} bottom"
    draft = work.add(Draft(f"{key}/box-bottom", "box-bottom", name, bottom, panel, 1, 2, why, key))
    edges: tuple[tuple[str, Axis], ...] = (("side-left", -1), ("side-right", 1), ("front", -2), ("back", 2))
    for host, way in edges:
        meet(work, "panel", work.drafts[f"{key}/box-{host}"], draft, way, drawers.bottom_joint)


def _end(
    work: Work,
    drawers: Drawers,
    key: str,
    which: str,
    box: Box,
    material: Material,
    width: list[Term],
    height: list[Term],
) -> None:
    name = f"{key.replace('-', ' ')} box {which}"
    role: Role = "box-front" if which == "front" else "box-back"
    why = {1: list(width), 3: list(height)}
    draft = Draft(f"{key}/box-{which}", role, name, material, box, 1, 3, why, key)
    work.add(draft)
    ways: tuple[tuple[str, Axis], ...] = (("left", -1), ("right", 1))
    for side, way in ways:
        meet(work, "box", work.drafts[f"{key}/box-side-{side}"], draft, way, drawers.corner)
