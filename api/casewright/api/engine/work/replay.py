"""A simulated shop: it knows the operations' data and nothing else, and what it makes is compared with the plan.

It reads no word and no label. It shares with the rest only the record types, so that a fault in how operations are
made is not made here again.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from operator import or_

from casewright.api.engine.work.replay_assembly import replay_assembly
from casewright.api.engine.work.replay_breakdown import replay_breakdown
from casewright.api.engine.work.replay_cuts import replay_cuts
from casewright.api.engine.work.replay_moves import replay_moves
from casewright.api.engine.work.replay_records import MACHINED, MAKES, Fault, Given, Order
from casewright.sdk.model.operations import Action, Machine, Operation, Where
from casewright.sdk.model.parts import Part
from casewright.sdk.model.plan import Joint

__all__ = ["replay", "replay_making"]


def replay(
    operations: Sequence[Operation],
    parts: Sequence[Part],
    joints: Sequence[Joint],
    given: Given,
    *,
    moves: bool = False,
) -> list[Fault]:
    """Return what is wrong with the parts that operations make of what is given, in the order of their numbers.

    Every part is cut once and from something, milled before it is cut to size, and has every cut of its features and
    no other; it is set in once, into what stands there, its joints glued, pressed and left; and an operation waits,
    straight or by others, for those that were done before to what it is done to. With `moves`, what is set in is
    followed on its way, which takes longer than a plan itself.
    """
    order = Order.of(operations)
    faults, sawn = _making(operations, parts, given, order)
    if sawn is None:
        return faults
    faults += [*_by_what(operations), *_measured(operations, order), *_taken(operations, order)]
    by_id = {part.id: part for part in parts}
    faults += replay_assembly(operations, by_id, joints, given, (sawn, order))
    if moves:
        faults += replay_moves(operations, by_id, joints)
    return faults


def replay_making(operations: Sequence[Operation], parts: Sequence[Part], given: Given) -> list[Fault]:
    """Return what is wrong with the parts that sawing, milling and cutting make, wherever they then go."""
    return _making(operations, parts, given, Order.of(operations))[0]


def _making(
    operations: Sequence[Operation], parts: Sequence[Part], given: Given, order: Order
) -> tuple[list[Fault], Mapping[str, int] | None]:
    """Return what is wrong with parts as cut, and the operations that sawed each, as bits: nothing for a bad order."""
    faults = list(_numbers(operations))
    if faults:
        return faults, None
    made, faults = replay_breakdown(operations, parts, given, order)
    return [*faults, *replay_cuts(operations, parts, made, order)], made


def _numbers(operations: Sequence[Operation]) -> Iterator[Fault]:
    for place, operation in enumerate(operations, start=1):
        if operation.number != place:
            yield Fault("", place, "it is not numbered by its place")
        elif operation.needs and not 0 < min(operation.needs) <= max(operation.needs) < place:
            yield Fault("", place, "it needs what is not done before it")


def _by_what(operations: Sequence[Operation]) -> Iterator[Fault]:
    """Yield operations at a machine that cannot do them, or by hand at a machine."""
    hand = frozenset({Machine.BY_HAND})
    for operation in operations:
        if operation.machine not in MAKES.get(operation.action, hand):
            yield Fault("", operation.number, "it cannot be done with that machine")


def _measured(operations: Sequence[Operation], order: Order) -> Iterator[Fault]:
    """Yield the first cut that does not wait for the measuring of what is cut."""
    measuring = [one.number for one in operations if one.action is Action.MEASURE and one.measurement is None]
    measured = sum(1 << number for number in measuring)
    for operation in operations:
        if operation.action in MACHINED and not (measured and order.waits(operation.number, measured)):
            yield Fault("", operation.number, "it does not wait for the measuring of what is cut")
            return


def _taken(operations: Sequence[Operation], order: Order) -> Iterator[Fault]:
    """Yield cuts that are not set to what they wait for, and measurements before what they are taken on stands."""
    set_in: dict[str, int] = {}
    for operation in operations:
        if operation.action is Action.INSERT:
            for piece in operation.on:
                set_in[piece.part] = set_in.get(piece.part, 0) | 1 << operation.number
    for operation in operations:
        to, measurement = operation.cut_to, operation.measurement
        if to is not None:
            reading = operations[to.step - 1].measurement if 0 < to.step < operation.number else None
            at = operation.setting.distance
            if reading is None or not order.waits(operation.number, 1 << to.step):
                yield Fault("", operation.number, "it does not wait for the measurement that it is cut to")
            elif to.among < 1 or at is None or at * to.among != reading.planned - to.less:
                yield Fault("", operation.number, "it is not cut to what is measured")
        if measurement is not None and measurement.where is not Where.GROOVE_FLOORS:
            standing = reduce(or_, [set_in.get(piece.part, 0) for piece in operation.on], 0)
            if not order.waits(operation.number, standing):
                yield Fault("", operation.number, "it measures what does not stand yet")
