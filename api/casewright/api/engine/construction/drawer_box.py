"""The drawer box: two sides over its whole depth, front and back between them, bottom in a groove."""

from dataclasses import dataclass

from casewright.api.engine.construction.draft import Draft, Work, require_room
from casewright.api.engine.construction.meet import joint_method, meet
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.materials import Slide
from casewright.sdk.model import Drawers, Material, Role, Term

_SIDES: tuple[tuple[str, Axis], ...] = (("left", -1), ("right", 1))
_ENDS: tuple[tuple[str, Axis], ...] = (("front", -2), ("back", 2))


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
    whole = Box(x0, y0, slot.low, x1, y1, slot.high)
    across = [Term("opening width", slot.width), Term("room for slides", -2 * slide.side_room)]
    along = [Term("slide length", slide.length)]
    sides_enter = joint_method(work.registry, drawers.corner, "box").box_guest == "side"
    _walls(work, key, whole, material, across, along, sides_enter)
    z = slot.low + drawers.bottom_up
    crossed = ((z - work.job.shop.fit, z + bottom.thickness + work.job.shop.fit),)
    for end, out in _ENDS:
        for side, way in _SIDES:
            one, other = work.drafts[f"{key}/box-{end}"], work.drafts[f"{key}/box-side-{side}"]
            if sides_enter:
                meet(work, "box", one, other, out, drawers.corner, crossed)
            else:
                meet(work, "box", other, one, way, drawers.corner, crossed)
    panel = Box(x0 + t, y0 + t, z, x1 - t, y1 - t, z + bottom.thickness)
    why = {1: [*across, Term("two box sides", -2 * t)], 2: [*along, Term("box front and back", -2 * t)]}
    name = f"{key.replace('-', ' ')} bottom"
    draft = work.add(Draft(f"{key}/box-bottom", "box-bottom", name, bottom, panel, 1, 2, why, key))
    for side, way in _SIDES:
        meet(work, "panel", work.drafts[f"{key}/box-side-{side}"], draft, way, drawers.bottom_joint)
    for end, out in _ENDS:
        meet(work, "panel", work.drafts[f"{key}/box-{end}"], draft, out, drawers.bottom_joint)


def _walls(
    work: Work, key: str, whole: Box, material: Material, across: list[Term], along: list[Term], sides_enter: bool
) -> None:
    """Add the four walls as they stand before their corners: the guests between the hosts."""
    t, said = material.thickness, key.replace("-", " ")
    height = whole.z1 - whole.z0
    inset_x, inset_y = (0, t) if sides_enter else (t, 0)
    for side, x in (("left", whole.x0), ("right", whole.x1 - t)):
        box = Box(x, whole.y0 + inset_y, whole.z0, x + t, whole.y1 - inset_y, whole.z1)
        shorter = [Term("box front and back", -2 * t)] if sides_enter else []
        why = {2: [*along, *shorter], 3: [Term("drawer slot", height)]}
        work.add(Draft(f"{key}/box-side-{side}", "box-side", f"{said} {side} side", material, box, 2, 3, why, key))
    roles: tuple[tuple[str, Role, int], ...] = (("front", "box-front", whole.y0), ("back", "box-back", whole.y1 - t))
    for end, role, y in roles:
        box = Box(whole.x0 + inset_x, y, whole.z0, whole.x1 - inset_x, y + t, whole.z1)
        narrower = [] if sides_enter else [Term("two box sides", -2 * t)]
        why = {1: [*across, *narrower], 3: [Term("drawer slot", height)]}
        work.add(Draft(f"{key}/box-{end}", role, f"{said} box {end}", material, box, 1, 3, why, key))
