"""An order of assembly walked through: every part moved its whole way, against all that stands there already."""

from collections.abc import Mapping, Sequence

from casewright.api.engine.solid.cells import Cell, Number, moved, overlap
from casewright.api.engine.work.assembly import AssemblyOrder
from casewright.sdk.geometry import Axis, opposite


def order_is_clear(parts: Mapping[str, Sequence[Cell]], order: AssemblyOrder) -> bool:
    """Return whether every insertion of an order is free of overlap along its whole way. Independent of the graph."""
    there = {order.first} if order.first else set(order.locked)
    for insertion in order.insertions:
        rest = [cell for name in there for cell in parts[name]]
        going = [cell for name in insertion.parts for cell in parts[name]]
        for leg in reversed(insertion.legs):
            back = opposite(leg.way)
            if leg.by is None:
                if not _clear(going, rest, back):
                    return False
                continue
            step = leg.by if back > 0 else -leg.by
            if any(_crosses(a, b, abs(back), step) for a in going for b in rest):
                return False
            going = [moved(cell, abs(back), step) for cell in going]
        there |= set(insertion.parts)
    return there == set(parts)


def _crosses(a: Cell, b: Cell, axis: int, step: Number) -> bool:
    span = overlap(a, b, axis)
    return span is not None and span.low < max(step, 0) and span.high > min(step, 0)


def _clear(going: Sequence[Cell], rest: Sequence[Cell], way: Axis) -> bool:
    """Return whether cells moved along a way, as far as they go, meet none of the rest."""
    for a in going:
        for b in rest:
            span = overlap(a, b, abs(way))
            if span is not None and (span.high > 0 if way > 0 else span.low < 0):
                return False
    return True
