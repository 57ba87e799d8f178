"""Doors: sizes from openings, made by their style, and set in front of the case."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from casewright.api.engine.construction.answers import validate_door, validate_reach, validate_thickness
from casewright.api.engine.construction.assemblies import Standing, add_assembly
from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.frame_layout import Opening
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Box, Place, Point
from casewright.sdk.methods import DoorDesign, DoorRequest
from casewright.sdk.model import Doors, Overlays, Space, Term

Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class PlacedDoor:
    """One door as set in place: its lower left front corner in the cabinet frame and its design."""

    key: str
    at: Point
    width: int
    height: int
    hinge: Hand
    design: DoorDesign
    opening: Opening
    partner: str | None

    @property
    def box(self) -> Box:
        """The closed door's box in the cabinet frame."""
        x, y, z = self.at
        return Box(x, y, z, x + self.width, y + self.design.thickness, z + self.height)


@dataclass(frozen=True, slots=True)
class _Size:
    """A door to be made: its size, the reasons for it, and the most that an edge laps. Doors alike are made once."""

    width: int
    height: int
    why_width: tuple[Term, ...]
    why_height: tuple[Term, ...]
    laps: int


@dataclass(frozen=True, slots=True)
class _Door:
    """One door as it is to hang: its key, hand, low left corner, size, and the other door of its pair."""

    key: str
    hand: Hand
    at: Point
    size: _Size
    opening: Opening
    partner: str | None


def front_setback(context: Context) -> int:
    """Return how far inside parts must stand behind the case front to clear its doors, in nm."""
    return max(inset_depth(context, with_stand_off=True), _behind(context))


def inset_depth(context: Context, *, with_stand_off: bool = False) -> int:
    """Return how far the back of an inset door stands behind the case front, in nm; zero for other doors."""
    doors = context.cabinet.doors
    if doors is None or doors.hang != "inset" or not _has_doors(context.cabinet.space):
        return 0
    return max(0, _thickness(context, doors) + (doors.stand_off if with_stand_off else 0) - _frame_thickness(context))


def _behind(context: Context) -> int:
    """Return how far anything of a closed door stands behind the case front (battens, say), in nm."""
    doors = context.cabinet.doors
    if doors is None or not _has_doors(context.cabinet.space):
        return 0
    style, material = context.registry.doors[doors.style], context.material(doors.material)
    options = MappingProxyType(doors.options)
    reach = context.call("doors", doors.style, doors.pointer, lambda: style.reach_behind(material, options))
    validate_reach(context, doors.style, reach)
    if not reach:
        return 0
    face = _thickness(context, doors) if doors.hang == "inset" else -doors.stand_off
    return max(0, face + reach - _frame_thickness(context))


def _frame_thickness(context: Context) -> int:
    frame = context.cabinet.face_frame
    return context.material(frame.material).thickness if frame else 0


def _has_doors(space: Space) -> bool:
    if space.division is None:
        return space.front in ("door", "door-pair")
    return any(_has_doors(part) for part in space.parts)


def _thickness(context: Context, doors: Doors) -> int:
    style = context.registry.doors[doors.style]
    panel = context.material(doors.panel) if doors.panel else None
    frame, options = context.material(doors.material), MappingProxyType(doors.options)
    size = context.call("doors", doors.style, doors.pointer, lambda: style.thickness(frame, panel, options))
    validate_thickness(context, doors.style, size)
    return size


def hang_doors(
    built: Construction, shell: Shell, openings: tuple[Opening, ...]
) -> tuple[Construction, tuple[PlacedDoor, ...]]:
    """Make and place every door of the cabinet and add its parts and joints."""
    placed: list[PlacedDoor] = []
    designs: Mapping[_Size, DoorDesign] = {}
    for opening in openings:
        space = opening.leaf.space
        if space.front not in ("door", "door-pair"):
            continue
        doors = built.cabinet.doors
        if doors is None:
            rule = "`doors` in the cabinet of a front with doors"
            fix = "Add `doors` to the cabinet, or make this front open."
            raise NoGeometryError(Problem(f"{space.pointer}/front", rule, space.front, fix))
        for door in _doors_of(built.context, shell, doors, opening, len(placed)):
            if door.size not in designs:
                designs = {**designs, door.size: _design(built.context, doors, door.size)}
            design = designs[door.size]
            place = Standing(Place(door.at, 1, 2, 3), door.key, f"{door.key}/", f"{door.key.replace('-', ' ')} ")
            built = add_assembly(built, design.assembly, place)
            width, height = door.size.width, door.size.height
            placed.append(PlacedDoor(door.key, door.at, width, height, door.hand, design, opening, door.partner))
    return built, tuple(placed)


@dataclass(frozen=True, slots=True)
class _Past:
    """How far a front reaches past each edge of its opening, in nm; less than nothing for an inset one."""

    word: str
    left: int
    right: int
    below: int
    above: int

    @property
    def laps(self) -> int:
        """The most that it laps at an edge; 0 for an inset one."""
        return max(0, self.left, self.right, self.below, self.above)

    def why(self, *edges: tuple[str, int]) -> tuple[Term, ...]:
        """Return the terms of two edges: one for both where they are alike."""
        (first, by), (second, other) = edges
        if by == other:
            return (Term(f"{self.word} {first} and {second}", by + other),)
        return (Term(f"{self.word} {first}", by), Term(f"{self.word} {second}", other))


def _past(doors: Doors, space: Space) -> _Past:
    """Return how far the doors of a space reach past its opening. Raises `NoGeometryError`."""
    if doors.hang == "overlay":
        own = space.overlays or Overlays()
        edges = [doors.overlay if one is None else one for one in (own.left, own.right, own.bottom, own.top)]
        return _Past("overlay", *edges)
    if space.overlays is not None:
        fix = "Leave out `overlays`, or hang the doors overlay."
        raise NoGeometryError(
            Problem(f"{space.pointer}/overlays", "no overlays of inset doors, which lap nothing", "overlays", fix)
        )
    return _Past("gap round the inset door", *[-doors.gap] * 4)


def _doors_of(context: Context, shell: Shell, doors: Doors, opening: Opening, before: int) -> list[_Door]:
    """Return the door or the pair that closes an opening; `before` doors were made for others."""
    overlay = doors.hang == "overlay"
    past = _past(doors, opening.leaf.space)
    height, whole = opening.height + past.below + past.above, opening.width + past.left + past.right
    fix = "Make the opening larger, or the gap smaller."
    context.require_room(height, doors.pointer, "the door's height", fix)
    context.require_room(whole, doors.pointer, "the door's width", fix)
    why_height = (*opening.why_height, *past.why(("below", past.below), ("above", past.above)))
    why_width = (*opening.why_width, *past.why(("left", past.left), ("right", past.right)))
    thick = _thickness(context, doors)
    x, z = opening.x0 - past.left, opening.z0 - past.below
    y = -shell.frame - doors.stand_off - thick if overlay else -shell.frame
    first, second = f"door-{before + 1}", f"door-{before + 2}"
    if opening.leaf.space.front == "door":
        size = _Size(whole, height, why_width, why_height, past.laps)
        return [_as_built(context, _Door(first, opening.leaf.space.hinge_side, (x, y, z), size, opening, None))]
    both = whole - doors.meeting_gap
    context.require_room(
        both // 2, f"{doors.pointer}/meeting_gap", "the width of a door of the pair", "Make the gap smaller."
    )
    width, odd = divmod(both, 2)
    left_over = (Term("left over from equal division, added to the meeting gap", -odd),) if odd else ()
    why_half = (*why_width, Term("meeting gap", -doors.meeting_gap), *left_over, Term("the other door", -width))
    size = _Size(width, height, why_half, why_height, past.laps)
    right_x = x + width + doors.meeting_gap + odd
    left = _Door(first, "left", (x, y, z), size, opening, second)
    right = _Door(second, "right", (right_x, y, z), size, opening, first)
    return [_as_built(context, left), _as_built(context, right)]


def _as_built(context: Context, door: _Door) -> _Door:
    """Return a door as its frame came out, in the middle of where it was to hang."""
    out = context.cabinet.built.get(door.key)
    if out is None or not (out.width or out.length):
        return door
    (x, y, z), size = door.at, door.size
    sized = replace(
        size,
        width=size.width + out.width,
        height=size.height + out.length,
        why_width=(*size.why_width, Term("its frame came out so, as measured", out.width)),
        why_height=(*size.why_height, Term("its frame came out so, as measured", out.length)),
    )
    return replace(door, at=(x - out.width // 2, y, z - out.length // 2), size=sized)


def _design(context: Context, doors: Doors, size: _Size) -> DoorDesign:
    frame = context.material(doors.material)
    panel = context.material(doors.panel) if doors.panel else None
    request = DoorRequest(
        width=size.width,
        height=size.height,
        why_width=size.why_width,
        why_height=size.why_height,
        frame=frame,
        frame_stuff=context.stuff(frame),
        panel=panel,
        panel_stuff=context.stuff(panel) if panel else None,
        fit=context.job.shop.fit,
        catalogue=context.registry.catalogue,
        laps=size.laps,
        write=context.write,
    )
    style, options = context.registry.doors[doors.style], MappingProxyType(doors.options)
    design = context.call("doors", doors.style, doors.pointer, lambda: style.build(request, options))
    validate_door(context, doors.style, design, _thickness(context, doors), (size.width, size.height))
    return design
