"""Mistakes a shop makes with a part that has its size, and the least that puts each right.

What is said is common practice, no source, but for what geometry decides: whether a part is another's mirror image,
whether a door may be turned upside down, what wood a filled groove leaves, how thick the lip behind a groove is.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import assert_never

from casewright.api.engine.cabinet import CabinetPlan
from casewright.sdk.geometry import Box, Place
from casewright.sdk.materials import Hinge
from casewright.sdk.model import BuiltMistake, DoorLeaf, Joint, Mistake, Part, Purpose, Repair
from casewright.sdk.units import MM
from casewright.sdk.writer import Writer

__all__ = ["repairs_of"]

LEAST_WEB = 6 * MM
"""Wood left between a groove that is filled and one cut behind it (common practice, no source)."""
PLANED = 10
"""A stile may lose such a share of its width, where it is planed (common practice, no source)."""

Shape = frozenset[tuple[int, ...]]


def repairs_of(
    mistakes: Iterable[BuiltMistake], plan: CabinetPlan, hinges: Mapping[str, Hinge], write: Writer
) -> Iterator[Repair]:
    """Yield the least repair of each mistake made with a cabinet."""
    made = list(mistakes)
    turned = {one.part for one in made if one.mistake is Mistake.WRONG_FACE}
    for mistake in made:
        do, again = _repair(mistake, plan, hinges, write)
        if mistake.mistake is Mistake.WRONG_FACE and not again:
            do = _swapped(_part(plan, mistake.part), plan, turned) or do
        yield Repair(mistake.pointer, plan.id, mistake.part, mistake.mistake, do, again)


def _repair(
    mistake: BuiltMistake, plan: CabinetPlan, hinges: Mapping[str, Hinge], write: Writer
) -> tuple[str, tuple[str, ...]]:
    match mistake.mistake:
        case Mistake.PANEL_FORGOTTEN:
            return _from_behind(_parts(plan, mistake.part.partition("/")[0]), plan.construction.joints, write)
        case Mistake.MEETS_NEIGHBOUR:
            doors = plan.construction.cabinet.doors
            hinge = hinges.get(doors.hinge) if doors else None
            return _cleared(mistake, _parts(plan, mistake.part), hinge, write)
        case Mistake.WRONG_FACE:
            return _other_face(_part(plan, mistake.part), plan, write)
        case Mistake.WRONG_SIDE:
            return _other_side(_leaf(plan, mistake.part), _parts(plan, mistake.part))
        case _:
            assert_never(mistake.mistake)


def _parts(plan: CabinetPlan, group: str) -> list[Part]:
    return [part for part in plan.parts if part.group == group]


def _part(plan: CabinetPlan, key: str) -> Part:
    return next(part for part in plan.parts if part.id.partition("/")[2] == key)


def _leaf(plan: CabinetPlan, key: str) -> DoorLeaf:
    return next(leaf for leaf in plan.doors if leaf.id.partition("/")[2] == key)


def _from_behind(door: list[Part], joints: Iterable[Joint], write: Writer) -> tuple[str, tuple[str, ...]]:
    """Return how a panel gets into a glued frame: from behind, where the lip behind its groove is taken off."""
    panel = next((part for part in door if part.role == "door-panel"), None)
    members = {part.id: part for part in door if part.role in ("door-stile", "door-rail")}
    seats = [joint for joint in joints if panel is not None and joint.guest == panel.id and joint.host in members]
    if panel is None or not seats:
        return "There is no panel in a frame: make the door again", tuple([part.id for part in door])
    frame, box = _box(members[seats[0].host]), _box(panel)
    lip, deep = frame.y1 - box.y1, max(joint.seat + joint.clearance for joint in seats)
    return (
        f"Rout the lip behind the groove off the back all round, {write.length(lip)} thick and {write.length(deep)} "
        "deep, and square the corners with a chisel; lay the panel in from behind and hold it with strips "
        f"{write.length(lip)} thick, bradded into the frame and never into the panel, which has to move",
        (),
    )


def _cleared(
    mistake: BuiltMistake, door: list[Part], hinge: Hinge | None, write: Writer
) -> tuple[str, tuple[str, ...]]:
    """Return how a door gets clear of what is beside it: by its hinges, planed, or made again."""
    more = write.length(mistake.value)
    if hinge is not None and mistake.value <= hinge.side_adjustment:
        return f"Move it {more} to its hinge side by the side screw of each hinge, which has " \
               f"{write.length(hinge.side_adjustment)} either way", ()  # fmt: skip
    edges = [part for part in door if part.role in ("door-stile", "door")]
    width = min((part.width if part.role == "door-stile" else part.width // 2 for part in edges), default=0)
    if mistake.value <= width // PLANED:
        return (
            f"Plane {more} off its closing edge, and ease the arris: {write.length(width - mistake.value)} are left",
            (),
        )
    return f"No hinge moves it {more}, nor is there so much to plane off: make it again", tuple([p.id for p in door])


def _other_face(part: Part, plan: CabinetPlan, write: Writer) -> tuple[str, tuple[str, ...]]:
    """Return what becomes of a part with its joinery in the other face: its twin, one with a filled groove, waste."""
    twin = _twin(part, plan)
    if twin is not None:
        return (
            f"It is the {twin.name} now: mark it so, and make the {part.name} of the piece that was to be the "
            f"{twin.name}",
            (),
        )
    cuts = [one.envelope() for one in part.features if one.purpose is Purpose.JOINERY]
    deep = max((box.z1 - box.z0 for box in cuts), default=0)
    if part.thickness - 2 * deep >= LEAST_WEB:
        return (
            f"Glue a strip into the groove, {write.length(deep)} deep, plane it flush when the glue has held, and cut "
            f"the groove into the right face: {write.length(part.thickness - 2 * deep)} of wood are left between",
            (),
        )
    return "Too little wood would be left between the two: make it again", (part.id,)


def _swapped(part: Part, plan: CabinetPlan, turned: Collection[str]) -> str:
    """Return what two parts become that are mirror images and were both cut into the other face; nothing for others."""
    twin = _twin(part, plan)
    if twin is None or twin.id.partition("/")[2] not in turned:
        return ""
    return f"It is the {twin.name} now, and the {twin.name}, cut so too, is the {part.name}: mark both so"


def _twin(part: Part, plan: CabinetPlan) -> Part | None:
    """Return the part that is not cut yet and that a part with its joinery in the other face is, if there is one."""
    turned = _mirrored(part)
    others = (one for one in plan.parts if one.id != part.id and one.material == part.material and not one.built)
    return next((one for one in others if one.blank == part.blank and turned & _standings(one)), None)


def _shape(part: Part, place: Place) -> Shape:
    """Return the waste of a part's joinery, carried by a place."""
    boxes = [box for one in part.features if one.purpose is Purpose.JOINERY for box in (*one.boxes, one.envelope())]
    return frozenset(tuple(place.box(box)) for box in boxes)


def _mirrored(part: Part) -> frozenset[Shape]:
    """Return the waste of a part as it is with its joinery cut into the other face."""
    return frozenset({_shape(part, Place((0, 0, part.thickness), 1, 2, -3))})


def _standings(part: Part) -> frozenset[Shape]:
    """Return the waste of a part laid each way that a blank can be turned onto itself."""
    x, y, z = part.length, part.width, part.thickness
    turns = (
        Place((0, 0, 0), 1, 2, 3),
        Place((0, y, z), 1, -2, -3),
        Place((x, 0, z), -1, 2, -3),
        Place((x, y, 0), -1, -2, 3),
    )
    return frozenset(_shape(part, turn) for turn in turns)


def _other_side(leaf: DoorLeaf, door: list[Part]) -> tuple[str, tuple[str, ...]]:
    """Return what becomes of a door bored at the other edge: turned upside down where it is the same, else plugged."""
    ends = sorted(leaf.hinges)
    even = [leaf.height - at for at in reversed(ends)] == ends
    rails = {part.width for part in door if part.role == "door-rail"}
    if even and len(rails) <= 1:
        return "Turn it upside down: rails and hinges are alike at both ends, so the cups come to the right side; " \
               "bore for the pull only then", ()  # fmt: skip
    return "Turn or buy plugs of the same wood, glue them into the cups with their grain along the stile's, plane " \
           "them flush when the glue has held, and bore at the right edge", ()  # fmt: skip


def _box(part: Part) -> Box:
    return part.place.box(part.blank)
