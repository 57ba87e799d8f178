"""How every sub-assembly goes together: its parts as solids, and the order and ways that leave them free to move.

Nothing here knows what a back or a panel is. Loose pieces that bridge a joint (tenons, dowels) are the two pockets of
the joint that meet face to face, and stand with the guest. Holes of other purposes hold nothing and are left filled.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.solid.cells import Cell, cells
from casewright.api.engine.work.assembly import AssemblyOrder, assembly_order
from casewright.api.engine.work.naming import joined
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Check, Finding, HardwareLine, Joint, Part

__all__ = ["Assemblies", "Known", "Together", "left_apart", "locked_parts", "put_together"]

KINDS = ("case", "face-frame", "door-", "drawer-", "base")
"""How the groups of parts begin that are put together; doors and drawers are numbered."""
APART = frozenset({"drawer-front"})
"""Roles that are fixed on after the sub-assembly is made."""


@dataclass(frozen=True, slots=True)
class Together:
    """A sub-assembly: its parts, how they go together, the joints between them and the hardware in those."""

    parts: tuple[Part, ...]
    order: AssemblyOrder
    joints: tuple[Joint, ...] = ()
    hardware: tuple[HardwareLine, ...] = ()

    @property
    def glued(self) -> tuple[Joint, ...]:
        """The joints that take glue."""
        return tuple([joint for joint in self.joints if joint.glue_area_mm2 > 0])

    @property
    def jointed(self) -> "Together":
        """It without the parts that no joint holds, such as beads, which are fixed on when the rest stands."""
        names = {name for joint in self.joints for name in (joint.host, joint.guest)}
        insertions = tuple([one for one in self.order.insertions if not names.isdisjoint(one.parts)])
        if not names or len(insertions) == len(self.order.insertions):
            return self
        going = {name for one in insertions for name in one.parts}
        there = {self.order.first, *self.order.locked, *going}
        parts = tuple([part for part in self.parts if part.id in there])
        return replace(self, parts=parts, order=replace(self.order, insertions=insertions))


Assemblies = Mapping[tuple[str, str], Together]
"""Sub-assemblies by cabinet and group."""
Known = dict[object, AssemblyOrder]
"""Orders worked out already, by all that decides them."""


def put_together(
    parts: Iterable[Part], joints: Sequence[Joint], hardware: Iterable[HardwareLine], known: Known
) -> dict[tuple[str, str], Together]:
    """Return how the parts of each sub-assembly go together, by cabinet and group.

    Of those that are alike one is worked out and put into `known`, which may be handed on from cabinet to cabinet.
    """
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        if part.group.startswith(KINDS) and part.role not in APART:
            groups.setdefault((part.cabinet, part.group), []).append(part)
    home = {part.id: key for key, group in groups.items() for part in group}
    within: dict[tuple[str, str], list[Joint]] = {}
    for joint in joints:
        key = home.get(joint.guest)
        if key is not None and key == home.get(joint.host):
            within.setdefault(key, []).append(joint)
    used: dict[str, list[HardwareLine]] = {}
    for line in hardware:
        used.setdefault(line.used_for, []).append(line)
    out: dict[tuple[str, str], Together] = {}
    for key, group in groups.items():
        own = within.get(key, [])
        lines = tuple([line for joint in own for line in used.get(joint.id, ())])
        bridged = frozenset(line.used_for for line in lines)
        out[key] = Together(tuple(group), _order(group, own, bridged, known), tuple(own), lines)
    return out


def _order(parts: Sequence[Part], joints: Sequence[Joint], bridged: frozenset[str], known: Known) -> AssemblyOrder:
    """Return the order of a group, from one worked out already where the parts and how they stand are the same."""
    if len(parts) < 2:
        return AssemblyOrder(parts[0].id, ())
    number = {part.id: f"{at:03}" for at, part in enumerate(parts)}
    bored = [joint for joint in joints if joint.id in bridged]
    glued = [joint for joint in joints if joint.glue_area_mm2 > 0] or joints
    pairs = [frozenset((number[joint.host], number[joint.guest])) for joint in glued]
    x, y, z = parts[0].place.at
    alike = (
        tuple([_shape(part, (x, y, z)) for part in parts]),
        tuple([(number[one.host], number[one.guest], one.press, _let_in(parts, one)) for one in bored]),
        tuple(pairs),
    )
    order = known.get(alike)
    if order is None:
        order = known[alike] = _worked_out(parts, bored, pairs)
    ids = {number: part for part, number in number.items()}
    return order.renamed(ids)


def _shape(part: Part, origin: Point) -> tuple[object, ...]:
    """Return all of a part that decides how it goes together with others: its wood, and where that stands."""
    place, (x, y, z) = part.place, part.place.at
    at = (x - origin[0], y - origin[1], z - origin[2])
    waste = tuple([(*feature.boxes, *feature.wedges) for feature in part.features if feature.boxes or feature.wedges])
    return at, place.x, place.y, place.z, part.blank, waste


def _let_in(parts: Sequence[Part], joint: Joint) -> tuple[object, ...]:
    """Return what is cut for a joint in the parts it joins."""
    cut = [feature for part in parts for feature in part.features if feature.joint == joint.id]
    return tuple([(feature.boxes, feature.holes) for feature in cut])


def _worked_out(parts: Sequence[Part], bored: Sequence[Joint], pairs: Sequence[frozenset[str]]) -> AssemblyOrder:
    """Return the order of parts by their numbers: by the waste that parts stand in, and by all of it if need be."""
    placed = [_waste(part) for part in parts]
    rooms: dict[str, list[Box]] = {}
    by_id = {part.id: (part, waste) for part, (_, waste) in zip(parts, placed, strict=True)}
    for joint in bored:
        (host, holes), (guest, _) = by_id[joint.host], by_id[joint.guest]
        let_in = _bridges(host, guest, joint)
        holes += let_in
        rooms.setdefault(joint.guest, []).extend(let_in)
    fills = [(wood, rooms.get(part.id, ())) for part, (wood, _) in zip(parts, placed, strict=True)]

    def solids(full: bool) -> dict[str, tuple[Cell, ...]]:
        return {
            f"{at:03}": _solid(part, waste, fills[at], None if full else [*fills[:at], *fills[at + 1 :]])
            for at, (part, (_, waste)) in enumerate(zip(parts, placed, strict=True))
        }

    filled = solids(full=False)
    quick = assembly_order(filled, pairs)
    if not quick.locked and all(len(step.parts) == len(step.legs) == 1 for step in quick.insertions):
        return quick
    whole = solids(full=True)
    return quick if whole == filled else assembly_order(whole, pairs)


def _waste(part: Part) -> tuple[Box, list[Box]]:
    carry = part.place.box
    return carry(part.blank), [carry(box) for feature in part.features for box in feature.boxes]


Fill = tuple[Box, Sequence[Box]]
"""The wood of a part, and what stands fast in it of other parts' pockets."""


def _solid(part: Part, waste: Sequence[Box], fill: Fill, others: Sequence[Fill] | None) -> tuple[Cell, ...]:
    """Return a part as cells, without waste that none of the `others` stands in: filled in, it only hinders more."""
    wood, fast = fill
    wedges = [part.place.wedge(wedge) for ft in part.features for wedge in ft.wedges]
    if others is not None:
        near = [box for other, rooms in others for box in (other, *rooms) if box.meets(wood)]
        waste = [box for box in waste if any(box.meets(other) for other in near)]
        wedges = [wedge for wedge in wedges if any(wedge.box.meets(other) for other in near)]
    return (*cells([wood], waste, wedges), *map(Cell, fast))


def _bridges(host: Part, guest: Part, joint: Joint) -> list[Box]:
    """Return the room in the host of what is let into both parts of a joint: it stands fast in the guest."""
    axis = abs(joint.press)
    out = []
    others = _pockets(guest, joint)
    for room in _pockets(host, joint):
        for other in others:
            level = room.high(axis) == other.low(axis) or room.low(axis) == other.high(axis)
            if level and all(
                room.low(way) < other.high(way) and other.low(way) < room.high(way) for way in (1, 2, 3) if way != axis
            ):
                out.append(room)
                break
    return out


def _pockets(part: Part, joint: Joint) -> list[Box]:
    """Return the pockets of a part for one joint, in the cabinet's frame."""
    features = [feature for feature in part.features if feature.joint == joint.id]
    boxes = [box for feature in features for box in (*feature.boxes, *[hole.envelope for hole in feature.holes])]
    return [part.place.box(box) for box in boxes]


def left_apart(assemblies: Assemblies) -> frozenset[str]:
    """Return the parts of every sub-assembly that no order puts together, by id."""
    return frozenset(part.id for one in assemblies.values() if one.order.locked for part in one.parts)


def locked_parts(assemblies: Assemblies, clashing: frozenset[str]) -> list[Check]:
    """Return a stop for each sub-assembly that no order puts together; parts that clash are a fault of their own."""
    out = []
    for together in assemblies.values():
        locked = together.order.locked
        if not locked or not clashing.isdisjoint(locked):
            continue
        names = {part.id: part.name for part in together.parts}
        words = joined([names[part] for part in locked])
        message = (
            f"cannot be put together: {words} hold one another, and no order tried (one or two moves along the "
            "cabinet's three directions) sets them in; the steps leave them apart"
        )
        first = together.parts[0]
        out.append(Check(first.cabinet, Finding("locked-parts", "stop", f"{first.group} {message}", source="dry-fit")))
    return out
