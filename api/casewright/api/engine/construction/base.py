"""What a cabinet stands on and what lies on it: toe recess, plinth, levelling feet, counter."""

from dataclasses import replace
from typing import assert_never

from casewright.api.engine.construction.case import LEFT, RIGHT, Shell, case_width_terms, inside_width_terms
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.model import Band, Base, Feature, HardwareUse, Joint, Purpose, Term
from casewright.sdk.units import MM

FOOT_APART = 900 * MM
"""Levelling feet stand no farther apart than this along the front (common practice, no source)."""

FOOT_INSET = 60 * MM

SCREW_GAUGE = 8
"""Of a plinth's screws, which are two to three times as long as what they pass through (common practice, no source)."""

THIN = 12 * MM
"""Stuff thinner than this takes no such screw in its edge (common practice, no source)."""


def add_base(built: Construction, shell: Shell) -> Construction:
    """Add the base the cabinet stands on, if it has one, and its counter."""
    base = built.cabinet.base
    if base is not None:
        room = shell.depth - base.setback - built.material(base.material).thickness
        pointer = f"{built.cabinet.pointer}/base/setback"
        built.context.require_room(room, pointer, "the depth behind the toe board", "Set it back less.")
        match base.kind:
            case "toe-recess":
                built = _toe_recess(built, shell, base)
            case "plinth":
                built = _plinth(built, shell, base)
            case "feet":
                built = _feet(built, shell, base)
            case _:
                assert_never(base.kind)
    return _counter(built, shell)


def _toe_recess(built: Construction, shell: Shell, base: Base) -> Construction:
    """Notch both sides and set a board between them behind the notch."""
    for key in (LEFT, RIGHT):
        side = built.drafts[key]
        waste = Box(side.box.x0, side.box.y0, 0, side.box.x1, base.setback, base.height)
        if waste.volume > 0:
            bands = tuple([Band(band.material, _above(band.box, base.height)) for band in side.bands])
            notch = Feature("notch", "toe recess", -2, boxes=(waste,), run=1, purpose=Purpose.SHAPE)
            built = built.with_parts(replace(side.cut(notch), bands=bands))
    t, y = built.material(base.material).thickness, base.setback
    box = Box(shell.side, y, 0, shell.width - shell.side, y + t, base.height)
    board = _board(built.context, base, "toe-board", box, inside_width_terms(built.context, shell))
    return _butted(built.with_parts(board), "toe-board", (LEFT, -1), (RIGHT, 1))


def _above(box: Box, height: int) -> Box:
    return Box(box.x0, box.y0, max(box.z0, height), box.x1, box.y1, box.z1)


def _plinth(built: Construction, shell: Shell, base: Base) -> Construction:
    """Add a frame of its own: front and back over the whole width, two ends between them."""
    context, material = built.context, built.material(base.material)
    t, w = material.thickness, shell.width
    front, rear = base.setback, shell.depth
    across = case_width_terms(context)
    built = built.with_parts(
        _board(context, base, "plinth-front", Box(0, front, 0, w, front + t, base.height), across),
        _board(context, base, "plinth-back", Box(0, rear - t, 0, w, rear, base.height), across),
    )
    deep = rear - front - 2 * t
    pointer = f"{context.cabinet.pointer}/base/setback"
    context.require_room(deep, pointer, "the plinth's inside depth", "Set it back less.")
    why_depth = (
        Term("case depth", shell.depth),
        Term("set back from the front", -front),
        Term("plinth front and back", -2 * t),
    )
    why_height = (Term("base height", base.height),)
    for side, x in (("left", 0), ("right", w - t)):
        box = Box(x, front + t, 0, x + t, rear - t, base.height)
        key = f"plinth-end-{side}"
        end = Draft(key, "plinth", f"{side} plinth end", material, box, 2, 3, why_depth, why_height, "base")
        built = _butted(built.with_parts(end), key, ("plinth-front", -2), ("plinth-back", 2))
        built = _screwed(built, end, ("plinth-front", -2), ("plinth-back", 2))
    return built


def _screwed(built: Construction, end: Draft, *boards: tuple[str, Axis]) -> Construction:
    """Drive two screws through each board into an edge of a plinth's end; none where no screw of the catalogue fits."""
    box, t = end.box, end.material.thickness
    screw = screw_within(built.registry.catalogue, SCREW_GAUGE, 3 * t, least=2 * t)
    if screw is None or t < THIN:
        return built
    for board, way in boards:
        outside = built.drafts[board].box
        y = outside.y0 if way < 0 else outside.y1
        points = tuple([((box.x0 + box.x1) // 2, y, box.z1 * part // 4) for part in (1, 3)])
        use = HardwareUse(screw.id, screw.title, points, -way, where=f"through the {board.replace('-', ' ')}")
        built = built.with_hardware(f"{built.id}/{end.key}+{board}", use)
    return built


def _feet(built: Construction, shell: Shell, base: Base) -> Construction:
    """Add levelling feet at the corners (and between, under a wide case) and a board clipped before them."""
    t = built.material(base.material).thickness
    box = Box(0, base.setback, 0, shell.width, base.setback + t, base.height)
    span = shell.width - 2 * FOOT_INSET
    columns = 2 + (span - 1) // FOOT_APART
    xs = [FOOT_INSET + span * i // (columns - 1) for i in range(columns)]
    ys = (base.setback + t + FOOT_INSET // 2, shell.depth - FOOT_INSET)
    points = tuple([(x, y, base.height) for x in xs for y in ys])
    name = f"levelling foot for {built.write.length(base.height)}, with clip"
    board = _board(built.context, base, "toe-board", box, case_width_terms(built.context))
    use = HardwareUse("levelling-foot", name, points, -3)
    return built.with_parts(board).with_hardware(f"{built.id}/base", use)


def _board(context: Context, base: Base, key: str, box: Box, why: tuple[Term, ...]) -> Draft:
    height = (Term("base height", base.height),)
    material = context.material(base.material)
    return Draft(key, "plinth", key.replace("-", " "), material, box, 1, 3, why, height, "base")


def _butted(built: Construction, guest: str, *hosts: tuple[str, Axis]) -> Construction:
    """Return it with glued butts: the guest just touches each host, the signed axis leads to it."""
    return built.with_joints(
        *(
            Joint(
                id=f"{built.id}/{guest}+{host}",
                cabinet=built.id,
                method="butt",
                kind="butt",
                host=f"{built.id}/{host}",
                guest=f"{built.id}/{guest}",
                press=way,
                seat=0,
                clearance=0,
            )
            for host, way in hosts
        )
    )


def _counter(built: Construction, shell: Shell) -> Construction:
    """Lay a counter on the case, standing out as the job says; it is no part of the cabinet's own size."""
    counter = built.cabinet.counter
    if counter is None:
        return built
    material = built.material(counter.material)
    x0, x1 = -counter.left, shell.width + counter.right
    y0 = -shell.frame - counter.front
    box = Box(x0, y0, shell.height, x1, shell.depth, shell.height + material.thickness)
    across = case_width_terms(built.context)
    if counter.left or counter.right:
        across += (Term("stands out at the ends", counter.left + counter.right),)
    deep = (Term("cabinet depth", built.cabinet.depth), Term("stands out at the front", counter.front))
    return built.with_parts(Draft("counter", "top", "counter", material, box, 1, 2, across, deep, "counter"))
