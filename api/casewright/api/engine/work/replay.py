"""A simulated shop: it knows the operations' data and nothing else, and what it makes is compared with the plan.

It reads no word and no label. It shares with the rest only the record types, so that a fault in how operations are
made is not made here again.
"""

from collections.abc import Iterator, Mapping, Sequence

from casewright.api.engine.work.replay_breakdown import replay_breakdown
from casewright.api.engine.work.replay_cuts import replay_cuts
from casewright.api.engine.work.replay_records import MACHINED, Fault, Given, Order
from casewright.sdk.model.operations import Operation
from casewright.sdk.model.parts import Part
from casewright.sdk.model.plan import Joint

__all__ = ["replay"]


def replay(
    operations: Sequence[Operation], parts: Sequence[Part], joints: Sequence[Joint], given: Given
) -> list[Fault]:
    """Return what is wrong with the parts that operations make of what is given, in the order of their numbers.

    Every part is cut once and from something, milled before it is cut to size, and has every cut of its features and
    no other; an operation waits, straight or by others, for those that made what it is done to.
    """
    faults = list(_numbers(operations))
    if faults:
        return faults
    order = Order.of(operations)
    made, faults = replay_breakdown(operations, parts, given, order)
    faults += replay_cuts(operations, parts, made, order)
    faults += _unready(operations, parts, made, order)
    faults += _open(operations, joints)
    return faults


def _numbers(operations: Sequence[Operation]) -> Iterator[Fault]:
    for place, operation in enumerate(operations, start=1):
        if operation.number != place:
            yield Fault("", place, "it is not numbered by its place")
        elif any(not 0 < need < place for need in operation.needs):
            yield Fault("", place, "it needs what is not done before it")


def _unready(
    operations: Sequence[Operation], parts: Sequence[Part], made: Mapping[str, int], order: Order
) -> Iterator[Fault]:
    """Yield the first operation by hand on each part, where it does not wait for the cutting of that part."""
    known = {part.id for part in parts}
    seen: set[str] = set()
    for operation in operations:
        if operation.action in MACHINED:
            continue
        for piece in operation.on:
            name = piece.part
            if not name or name in seen:
                continue
            seen.add(name)
            if name not in known:
                yield Fault(name, operation.number, "no such part")
            elif not order.waits(operation.number, made.get(name, 0)):
                yield Fault(name, operation.number, "it does not wait for the cutting of it")


def _open(operations: Sequence[Operation], joints: Sequence[Joint]) -> Iterator[Fault]:
    """Yield the parts of joints that no operation by hand is done to: they would never be put together."""
    handled = {piece.part for operation in operations if operation.action not in MACHINED for piece in operation.on}
    for part in dict.fromkeys(name for joint in joints for name in (joint.guest, joint.host)):
        if part not in handled:
            yield Fault(part, 0, "it is never put together with what it joins")
