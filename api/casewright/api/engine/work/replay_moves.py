"""Simulated hands: every part that is set in moves as its operation says, and meets nothing on its whole way.

Slower than the rest of the simulated shop, so that plans go without it: what puts parts together follows from the same
solids, which `Assemblies` are searched by. Loose tenons, biscuits and dowels stand with the part they are let into
first.
"""

from collections.abc import Iterator, Mapping, Sequence

from casewright.api.engine.solid.cells import Cell, cells, moved, overlap
from casewright.api.engine.work.replay_records import Fault
from casewright.sdk.geometry import Box
from casewright.sdk.model.operations import Action, Operation, Way
from casewright.sdk.model.parts import Feature, Part, Purpose
from casewright.sdk.model.plan import Joint

__all__ = ["replay_moves"]

AXES: Mapping[Way, int] = {Way.RIGHT: 1, Way.LEFT: -1, Way.BACK: 2, Way.FRONT: -2, Way.UP: 3, Way.DOWN: -3}
BRIDGED = ("loose-mortise", "biscuit-slot", "hole")
"""Cuts that take a piece let into both parts of a joint."""


def replay_moves(operations: Sequence[Operation], parts: Mapping[str, Part], joints: Sequence[Joint]) -> list[Fault]:
    """Return where a part that is set in runs into what stands there, one fault an operation."""
    solid = {name: _solid(part) for name, part in parts.items()}
    bridges = {joint.id: _bridges(parts[joint.host], parts[joint.guest], joint) for joint in joints}
    there: dict[str, int] = {}
    faults = []
    for operation in operations:
        if operation.action is not Action.INSERT:
            continue
        going = [piece.part for piece in operation.on if piece.part in parts]
        into = [name for piece in operation.on for name in piece.into if name in parts]
        there.update({name: operation.number for name in into if name not in there and name not in going})
        homes = {(parts[name].cabinet, parts[name].group) for name in going}
        still = [one for one in there if (parts[one].cabinet, parts[one].group) in homes and one not in going]
        closing = [joint for joint in joints if len({joint.host, joint.guest}.intersection(going)) == 1]
        let_in = [
            Cell(box) for joint in closing if joint.host in still or joint.guest in still for box in bridges[joint.id]
        ]
        # What bridges a joint stands in what is there, and the part that is set in goes over it.
        rest = [cell for name in still for cell in solid[name]] + let_in
        if not _free([cell for name in going for cell in solid[name]], rest, operation):
            faults.append(Fault(going[0], operation.number, "it runs into what stands there"))
        there.update(dict.fromkeys(going, operation.number))
    return faults


def _free(going: Sequence[Cell], rest: Sequence[Cell], operation: Operation) -> bool:
    """Return whether moves bring cells home clear of the rest, read backwards from home."""
    for move in reversed(operation.moves):
        way = -AXES[move.towards]
        axis, sign = abs(way), 1 if way > 0 else -1
        for a in going:
            for b in rest:
                span = overlap(a, b, axis)
                if span is None:
                    continue
                near, far = (span.low, span.high) if sign > 0 else (-span.high, -span.low)
                if far > 0 and (move.by is None or near < move.by):
                    return False
        going = [moved(cell, axis, sign * (move.by or 0)) for cell in going]
    return True


def _solid(part: Part) -> tuple[Cell, ...]:
    carry = part.place.box
    waste = [carry(box) for feature in part.features for box in feature.boxes]
    wedges = [part.place.wedge(wedge) for feature in part.features for wedge in feature.wedges]
    holes = [carry(hole.envelope) for feature in _holding(part.features) for hole in feature.holes]
    return cells([carry(part.blank)], [*waste, *holes], wedges)


def _holding(features: Sequence[Feature]) -> Iterator[Feature]:
    """Yield the bores that may hold what bridges a joint."""
    for feature in features:
        if feature.kind == "hole" and feature.purpose is Purpose.JOINERY:
            yield feature


def _bridges(host: Part, guest: Part, joint: Joint) -> list[Box]:
    """Return the room of pieces let into both parts: pockets alike that meet mouth to mouth, taken as one."""
    axis = abs(joint.press)
    out = []
    for one in _pockets(host, joint):
        for other in _pockets(guest, joint):
            level = one.high(axis) == other.low(axis) or one.low(axis) == other.high(axis)
            if level and all(
                one.low(way) == other.low(way) and one.high(way) == other.high(way) for way in (1, 2, 3) if way != axis
            ):
                out.append(Box.union([one, other]))
    return out


def _pockets(part: Part, joint: Joint) -> list[Box]:
    boxes = []
    for feature in part.features:
        if feature.joint == joint.id and feature.kind in BRIDGED and feature.purpose is Purpose.JOINERY:
            boxes += [*feature.boxes, *[hole.envelope for hole in feature.holes]]
    return [part.place.box(box) for box in boxes]
