"""Whether a plan's work can be carried out as written: its operations replayed, and what went wrong as checks."""

from collections.abc import Container, Mapping, Sequence

from casewright.api.engine.work.blanks import NO_BLANKS, blank_name
from casewright.api.engine.work.replay import replay
from casewright.api.engine.work.replay_records import Blank, Fault, Given
from casewright.api.stock import begun_of
from casewright.sdk.model import Check, Finding, Job, Joint, Operation, Part, StockPiece, StockPlan

__all__ = ["given_of", "work_checks"]


def work_checks(
    job: Job,
    parts: Sequence[Part],
    joints: Sequence[Joint],
    steps: Sequence[Operation],
    given: Given,
    apart: Container[str] = frozenset(),
) -> tuple[Check, ...]:
    """Return a stop for each part that the steps do not make as planned, one a part, of the first thing wrong.

    `given` is what they are cut from. A pane that would have to be worked has a stop of its own, and so have parts that
    no order puts together (`apart`): that they are left apart follows from it.
    """
    faults = [one for one in replay(steps, parts, joints, given) if not (one.apart and one.part in apart)]
    panes = {part.id for part in parts if part.features and job.materials[part.material].to_size}
    faults = [fault for fault in faults if fault.part not in panes]
    first = {fault.part: fault for fault in reversed(faults)}
    return tuple(_check(fault) for fault in reversed(first.values()))


def given_of(
    job: Job, parts: Sequence[Part], stock: StockPlan | None, blanks: Mapping[str, Blank] = NO_BLANKS
) -> Given:
    """Return what is cut from: the pieces of the cutting plan, and each material, as much of it as is asked for.

    `blanks` are parts' own that are at hand over size, by the parts' ids.
    """
    by_id = {piece.id: piece for piece in job.stock.pieces} if job.stock else {}
    edge = job.stock.mill_edge if job.stock else 0
    layouts = stock.layouts if stock else ()
    begun = begun_of(job.stock, stock, job.shop.keep_offcut) if job.stock and stock else ()
    cut = {name for one in begun for name in one.used}
    return Given(
        pieces={
            **{one.name: _blank(one.stock.piece, edge) for one in begun},
            **{
                name: _blank(by_id[one.stock], edge)
                for one in layouts
                for name in [f"{one.stock} {one.number}"]
                if name not in cut
            },
        },
        endless={part.material: Blank(part.material, None, None, None, "free") for part in parts},
        kerf=job.stock.kerf if job.stock and stock else 0,
        leftovers=[
            *((one.length, one.width) for one in (stock.leftovers if stock else ()) if one.keep),
            *((piece.length, piece.width) for one in begun for piece in one.spare),
        ],
        clamped=job.shop.glue.clamped,
        cut={
            part.id: (Blank(part.material, part.length, part.width, part.thickness, part.grain), there)
            for part in parts
            if (there := part.quantity if job.materials[part.material].to_size else part.built)
        }
        | {blank_name(part, blanks[part.id]): (blanks[part.id], part.quantity) for part in parts if part.id in blanks},
    )


def _blank(piece: StockPiece, edge: int) -> Blank:
    """Return a piece of stock as it comes to the saw; `edge` comes off boards to make one straight."""
    straight = piece.kind != "board" or piece.surfaced == "all-sides" or not edge
    flat = not piece.rough and not piece.crooked
    return Blank(piece.material, piece.length, piece.width, piece.thickness, piece.grain, int(flat), straight)


def _check(fault: Fault) -> Check:
    at = f"Operation {fault.operation}" if fault.operation else "The work as listed"
    of = f" of {fault.part}" if fault.part else ""
    message = f"{at} does not make what is planned{of}: {fault.what}"
    return Check(fault.part or "/", Finding("work-not-carried-out", "stop", message, fault.operation or None))
