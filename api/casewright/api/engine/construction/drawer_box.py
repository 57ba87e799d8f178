"""The drawer box: two sides over its whole depth, front and back between them, bottom in a groove."""

from dataclasses import dataclass

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.meet import Joining, joint_method, meet
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.materials import Slide
from casewright.sdk.model import Drawers, Role, Term

_SIDES: tuple[tuple[str, Axis], ...] = (("left", -1), ("right", 1))
_ENDS: tuple[tuple[str, Axis], ...] = (("front", -2), ("back", 2))


@dataclass(frozen=True, slots=True)
class Slot:
    """The room one drawer moves in: from `x0`, `width` wide; the box begins at y `front` and stands between heights.

    `drawer` begins the keys of its parts.
    """

    drawer: str
    x0: int
    width: int
    front: int
    low: int
    high: int
    why_width: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class _Outside:
    """The box's outside in the cabinet frame, and the reasons for its width, depth and height."""

    box: Box
    across: tuple[Term, ...]
    along: tuple[Term, ...]
    upright: tuple[Term, ...]


def add_box(built: Construction, drawers: Drawers, slide: Slide, slot: Slot) -> Construction:
    """Add the box's parts and fit its corners and bottom."""
    key = slot.drawer
    outside = _outside(built.context, drawers, slide, slot)
    sides_enter = joint_method(built.registry, drawers.corner, "box").box_guest == "side"
    built = built.with_parts(*_walls(built.context, drawers, key, outside, sides_enter))
    bottom, fit = built.material(drawers.bottom), built.job.shop.fit
    z = slot.low + drawers.bottom_up
    corner = Joining("box", drawers.corner, ((z - fit, z + bottom.thickness + fit),))
    for end, out in _ENDS:
        for side, way in _SIDES:
            across, along = f"{key}/box-{end}", f"{key}/box-side-{side}"
            host, guest, into = (across, along, out) if sides_enter else (along, across, way)
            built = meet(built, corner, host, guest, into)
    _refuse_behind(built, drawers)
    panel = _bottom(built.context, drawers, key, outside)
    built = built.with_parts(panel)
    groove = Joining("panel", drawers.bottom_joint, inset_field="bottom_up")
    for side, way in _SIDES:
        built = meet(built, groove, f"{key}/box-side-{side}", panel.key, way)
    for end, out in _ENDS:
        built = meet(built, groove, f"{key}/box-{end}", panel.key, out)
    return built


def _refuse_behind(built: Construction, drawers: Drawers) -> None:
    """Refuse a bottom that would lie under the walls: they stand as low as the slot allows."""
    choice = drawers.bottom_joint
    if joint_method(built.registry, choice, "panel").panel_sits == "behind":
        rule = "a drawer's bottom between its walls"
        got = f"the method {choice.method}, whose panel lies on their edges"
        fix = "Use the method housed-groove with `bottom_up` of 6 mm or more, or the method rabbet with `bottom_up` 0."
        raise NoGeometryError(Problem(f"{choice.pointer}/method", rule, got, fix))


def _outside(context: Context, drawers: Drawers, slide: Slide, slot: Slot) -> _Outside:
    """Return the box's outside. Raises `NoGeometryError` where it leaves no inside."""
    t, bottom = context.material(drawers.material).thickness, context.material(drawers.bottom).thickness
    x0, x1 = slot.x0 + slide.side_room, slot.x0 + slot.width - slide.side_room
    y0, y1 = slot.front, slot.front + slide.length
    pointer, height = drawers.pointer, slot.high - slot.low
    context.require_room(x1 - x0 - 2 * t, pointer, "the drawer's inside width", "Make the opening wider.")
    context.require_room(y1 - y0 - 2 * t, pointer, "the drawer's inside depth", "Use a longer slide.")
    inside = height - drawers.bottom_up - bottom
    context.require_room(inside, pointer, "the drawer's inside height", "Ask for fewer or higher drawers.")
    return _Outside(
        Box(x0, y0, slot.low, x1, y1, slot.high),
        across=(*slot.why_width, Term("room for slides", -2 * slide.side_room)),
        along=(Term("slide length", slide.length),),
        upright=(Term("drawer slot", height),),
    )


def _walls(context: Context, drawers: Drawers, key: str, outside: _Outside, sides_enter: bool) -> list[Draft]:
    """Return the four walls as they stand before their corners: the guests between the hosts."""
    material, whole, drawer = context.material(drawers.material), outside.box, key.replace("-", " ")
    t = material.thickness
    inset_x, inset_y = (0, t) if sides_enter else (t, 0)
    shorter = (Term("box front and back", -2 * t),) if sides_enter else ()
    narrower = () if sides_enter else (Term("two box sides", -2 * t),)
    walls = []
    for side, x in (("left", whole.x0), ("right", whole.x1 - t)):
        box = Box(x, whole.y0 + inset_y, whole.z0, x + t, whole.y1 - inset_y, whole.z1)
        why = ((*outside.along, *shorter), outside.upright)
        walls.append(
            Draft(f"{key}/box-side-{side}", "box-side", f"{drawer} {side} side", material, box, 2, 3, *why, key)
        )
    roles: tuple[tuple[str, Role, int], ...] = (("front", "box-front", whole.y0), ("back", "box-back", whole.y1 - t))
    for end, role, y in roles:
        box = Box(whole.x0 + inset_x, y, whole.z0, whole.x1 - inset_x, y + t, whole.z1)
        why = ((*outside.across, *narrower), outside.upright)
        walls.append(Draft(f"{key}/box-{end}", role, f"{drawer} box {end}", material, box, 1, 3, *why, key))
    return walls


def _bottom(context: Context, drawers: Drawers, key: str, outside: _Outside) -> Draft:
    """Return the bottom as it stands between the walls, before it grows into their grooves."""
    t, material, whole = context.material(drawers.material).thickness, context.material(drawers.bottom), outside.box
    z = whole.z0 + drawers.bottom_up
    box = Box(whole.x0 + t, whole.y0 + t, z, whole.x1 - t, whole.y1 - t, z + material.thickness)
    why = ((*outside.across, Term("two box sides", -2 * t)), (*outside.along, Term("box front and back", -2 * t)))
    name = f"{key.replace('-', ' ')} bottom"
    return Draft(f"{key}/box-bottom", "box-bottom", name, material, box, 1, 2, *why, key)
