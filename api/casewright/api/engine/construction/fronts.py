"""Doors: sizes from openings, made by their style, and set in front of the case."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.draft import Draft, Work, ask, require_room
from casewright.api.engine.construction.face_frame import Opening
from casewright.api.engine.construction.faults import look_over_door, look_over_reach, look_over_thickness
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Box, Place, Point
from casewright.sdk.methods import DoorDesign, DoorRequest
from casewright.sdk.model import Doors, Joint, JointSpec, Material, PartSpec, Term
from casewright.sdk.writer import writer

Hand = Literal["left", "right"]
_SIDE = {1: "right", -1: "left", 2: "back", -2: "front", 3: "upper", -3: "lower"}


@dataclass(frozen=True, slots=True)
class Hung:
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
class _Leafing:
    """One door to be made: its hand, where its low edge lies, its width and the reason for it."""

    hand: Hand
    x: int
    width: int
    why: tuple[Term, ...]
    partner: int | None


_Designs = dict[tuple[int, int, tuple[Term, ...], tuple[Term, ...]], DoorDesign]
"""The doors of one cabinet made so far, by width, height and the reasons for them: doors alike are made once."""


def front_setback(work: Work) -> int:
    """Return how far inside parts must stand behind the case front to clear its doors, in nm."""
    return max(inset_depth(work, with_stand_off=True), _behind(work))


def inset_depth(work: Work, *, with_stand_off: bool = False) -> int:
    """Return how far the back of an inset door stands behind the case front, in nm; zero for other doors."""
    doors, frame = work.cabinet.doors, work.cabinet.face_frame
    if doors is None or doors.hang != "inset" or not _has_doors(work):
        return 0
    frame_thick = work.material(frame.material).thickness if frame else 0
    return max(0, _thickness(work, doors) + (doors.stand_off if with_stand_off else 0) - frame_thick)


def _behind(work: Work) -> int:
    """Return how far anything of a closed door stands behind the case front (battens, say), in nm."""
    doors, frame = work.cabinet.doors, work.cabinet.face_frame
    if doors is None or not _has_doors(work):
        return 0
    style, material = work.registry.doors[doors.style], work.material(doors.material)
    options = MappingProxyType(doors.options)
    reach: int = ask(work, "doors", doors.style, doors.pointer, lambda: style.reach_behind(material, options))
    look_over_reach(work, doors.style, reach)
    if not reach:
        return 0
    frame_thick = work.material(frame.material).thickness if frame else 0
    face = _thickness(work, doors) if doors.hang == "inset" else -doors.stand_off
    return max(0, face + reach - frame_thick)


def _has_doors(work: Work) -> bool:
    stack = [work.cabinet.space]
    while stack:
        space = stack.pop()
        if space.division is None and space.front in ("door", "door-pair"):
            return True
        stack.extend(space.parts)
    return False


def _thickness(work: Work, doors: Doors) -> int:
    style = work.registry.doors[doors.style]
    panel = work.material(doors.panel) if doors.panel else None
    frame = work.material(doors.material)
    size: int = ask(
        work,
        "doors",
        doors.style,
        doors.pointer,
        lambda: style.thickness(frame, panel, MappingProxyType(doors.options)),
    )
    look_over_thickness(work, doors.style, size)
    return size


def hang_doors(work: Work, shell: Shell, openings: list[Opening]) -> list[Hung]:
    """Make and place every door of the cabinet and add its parts and joints."""
    hung: list[Hung] = []
    designs: _Designs = {}
    for opening in openings:
        space = opening.leaf.space
        if space.front not in ("door", "door-pair"):
            continue
        doors = work.cabinet.doors
        if doors is None:
            raise NoGeometryError(
                Problem(
                    f"{space.pointer}/front",
                    "a front with doors needs `doors` in its cabinet",
                    space.front,
                    "Add `doors` to the cabinet, or make this front open.",
                )
            )
        hung += _fill(work, shell, doors, opening, len(hung), designs)
    return hung


def _fill(work: Work, shell: Shell, doors: Doors, opening: Opening, before: int, designs: _Designs) -> list[Hung]:
    pointer = doors.pointer
    sign = 1 if doors.hang == "overlay" else -1
    past = doors.overlay if sign > 0 else doors.gap
    word = "overlay" if sign > 0 else "gap round the inset door"
    height = opening.height + 2 * sign * past
    whole = opening.width + 2 * sign * past
    fix = "Make the opening larger, or the gap smaller."
    require_room(height, pointer, "the door's height", fix)
    require_room(whole, pointer, "the door's width", fix)
    why_height = (Term("opening height", opening.height), Term(f"{word} below and above", 2 * sign * past))
    base = (Term("opening width", opening.width), Term(f"{word} left and right", 2 * sign * past))
    left_x = opening.x0 - sign * past
    thick = _thickness(work, doors)
    y = -shell.frame - doors.stand_off - thick if sign > 0 else -shell.frame
    z = opening.z0 - sign * past
    hung: list[Hung] = []
    for leafing in _leafings(doors, opening, base, whole, left_x):
        asked = (leafing.width, height, leafing.why, why_height)
        if asked not in designs:
            designs[asked] = _design(work, doors, *asked)
        design = designs[asked]
        number = before + len(hung) + 1
        partner = f"door-{before + 1 + leafing.partner}" if leafing.partner is not None else None
        door = Hung(f"door-{number}", (leafing.x, y, z), leafing.width, height, leafing.hand, design, opening, partner)
        _add_parts(work, doors, door)
        hung.append(door)
    return hung


def _leafings(doors: Doors, opening: Opening, base: tuple[Term, ...], whole: int, left_x: int) -> list[_Leafing]:
    space = opening.leaf.space
    if space.front == "door":
        return [_Leafing(space.hinge_side, left_x, whole, base, None)]
    both = whole - doors.meeting_gap
    require_room(both // 2, f"{doors.pointer}/meeting_gap", "the width of a door of the pair", "Make the gap smaller.")
    width, odd = divmod(both, 2)
    why = [*base, Term("meeting gap", -doors.meeting_gap)]
    if odd:
        why.append(Term("left over from equal division, added to the meeting gap", -odd))
    why.append(Term("the other door", -width))
    return [
        _Leafing("left", left_x, width, tuple(why), 1),
        _Leafing("right", left_x + width + doors.meeting_gap + odd, width, tuple(why), 0),
    ]


def _design(
    work: Work, doors: Doors, width: int, height: int, why_width: tuple[Term, ...], why_height: tuple[Term, ...]
) -> DoorDesign:
    frame = work.material(doors.material)
    panel: Material | None = work.material(doors.panel) if doors.panel else None
    request = DoorRequest(
        width=width,
        height=height,
        why_width=why_width,
        why_height=why_height,
        frame=frame,
        frame_stuff=work.stuff(frame),
        panel=panel,
        panel_stuff=work.stuff(panel) if panel else None,
        fit=work.job.shop.fit,
        catalogue=work.registry.catalogue,
        laps=doors.overlay if doors.hang == "overlay" else 0,
        write=writer(work.job.units),
    )
    style = work.registry.doors[doors.style]
    design: DoorDesign = ask(
        work, "doors", doors.style, doors.pointer, lambda: style.build(request, MappingProxyType(doors.options))
    )
    look_over_door(work, doors.style, design, _thickness(work, doors))
    return design


def _add_parts(work: Work, doors: Doors, door: Hung) -> None:
    place = Place(door.at, 1, 2, 3)
    for spec in door.design.assembly.parts:
        add_spec(work, spec, place, door.key, f"{door.key}/", f"{door.key.replace('-', ' ')} ")
    for joint in door.design.assembly.joints:
        add_joint(work, joint, place, f"{door.key}/")
    work.use(tuple([u.carried(place) for u in door.design.assembly.hardware]), f"{work.id}/{door.key}")
    for finding in door.design.assembly.findings:
        work.find(f"{work.id}/{door.key}", finding)


def add_spec(work: Work, spec: PartSpec, place: Place, group: str, prefix: str, name_prefix: str) -> None:
    """Add one part of an assembly that stands at `place` in the cabinet frame."""
    length, width = place.axis(spec.length_axis), place.axis(spec.width_axis)
    work.add(
        Draft(
            f"{prefix}{spec.key}",
            spec.role,
            f"{name_prefix}{spec.name}",
            work.material(spec.material),
            place.box(spec.box),
            length,
            width,
            {abs(length): list(spec.why_length), abs(width): list(spec.why_width)},
            group,
            spec.grain,
            [f.carried(place) for f in spec.features],
        )
    )


def add_joint(work: Work, spec: JointSpec, place: Place, prefix: str) -> None:
    """Add one joint of an assembly that stands at `place` in the cabinet frame."""
    host, guest = f"{work.id}/{prefix}{spec.host}", f"{work.id}/{prefix}{spec.guest}"
    joint_id = f"{guest}+{prefix}{spec.host}/{_SIDE[spec.press]}"
    work.joints.append(
        Joint(
            joint_id,
            work.id,
            spec.method,
            spec.kind,
            host,
            guest,
            place.axis(spec.press),
            spec.seat,
            spec.clearance,
            spec.glue_area_mm2,
        )
    )
