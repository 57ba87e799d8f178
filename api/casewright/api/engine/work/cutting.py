"""From parts and stock on hand to the stock planner's question, and its answer.

Identical parts of several cabinets are one demand to the planner, so that they are cut and set together; its answer
names each piece by the part, and so the cabinet, it is for.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from casewright.api.engine.work.batches import Batch, batches_of, named
from casewright.api.engine.work.matching import rows_of
from casewright.api.engine.work.panels import to_saw
from casewright.api.engine.work.waiting import Over
from casewright.api.stock import (
    Demand,
    Progress,
    ShopLimits,
    StockLimitError,
    StockRequest,
    in_a_row,
    plan_stock,
)
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Job, Part, Role, Stock, StockPlan

SEEN: frozenset[Role] = frozenset(
    {"frame-stile", "frame-rail", "door-stile", "door-rail", "door-panel", "door", "drawer-front", "end-panel"}
)
"""Parts whose faces are seen: of board, they are cut from those whose grade is `face`."""


@dataclass(frozen=True, slots=True)
class Question:
    """All that a cutting plan depends on."""

    batches: tuple[Batch, ...]
    request: StockRequest


NOTHING_OVER: Over = {}


def question_of(job: Job, stock: Stock, parts: tuple[Part, ...], over: Over = NOTHING_OVER) -> Question:
    """Return all that cutting parts from a job's stock depends on, those over size that are in `over`."""
    batches = batches_of(list(_demands(job, stock, parts, over)))
    return Question(batches, _request(job, stock, batches))


def cutting_of(question: Question, progress: Progress) -> StockPlan:
    """Return how to cut the parts; `progress` is told each stage of it.

    Raises `NoGeometryError` naming the limit when there is more than the planner takes.
    """
    return named(_planned(question.request, progress), question.batches)


def _request(job: Job, stock: Stock, batches: tuple[Batch, ...]) -> StockRequest:
    limits = ShopLimits(
        kerf=stock.kerf,
        edge_trim=stock.edge_trim,
        rip_capacity=job.shop.rip_capacity,
        keep_offcut=(max(job.shop.keep_offcut), min(job.shop.keep_offcut)),
        mill_length=stock.mill_length,
        mill_width=stock.mill_width,
        mill_thickness=stock.mill_thickness,
        board_edge=stock.mill_edge,
        crosscut_capacity=job.shop.crosscut_capacity,
        machines=frozenset(job.shop.machines),
    )
    demands = tuple(batch.demand for batch in batches)
    return StockRequest(
        demands, stock.pieces, limits, stock.effort, order=stock.order, pieces_at_hand=stock.pieces_at_hand
    )


def _planned(request: StockRequest, progress: Progress) -> StockPlan:
    try:
        return plan_stock(request, progress)
    except StockLimitError as error:
        rule = f"at most {error.value} ({error.name})"
        problem = Problem("/stock", rule, str(error.got), "Split the job into smaller ones.")
        raise NoGeometryError(problem) from error


def _demands(job: Job, stock: Stock, parts: tuple[Part, ...], over: Over) -> Iterator[Demand]:
    """Yield what is sawn from stock: each row of parts as one, and what is not of a row part by part."""
    rows = rows_of(job, parts)
    for part in to_saw(job, parts):
        row = rows.get(part.id)
        alone = part.quantity - row.quantity if row else part.quantity
        if row and part.id == row.parts[0].id:
            demands = [_demand(job, one, over.get(one.id, (0, 0))) for one in row.parts]
            of_row = [replace(one, grain=row.grain(job), quantity=row.quantity) for one in demands]
            yield in_a_row(row.name, of_row, row.along(job), stock.kerf)
        if alone:
            yield replace(_demand(job, part, over.get(part.id, (0, 0))), quantity=alone)


def _demand(job: Job, part: Part, over: tuple[int, int]) -> Demand:
    kind = job.materials[part.material].kind
    return Demand(
        id=part.id,
        material=part.material,
        thickness=part.thickness,
        length=part.length + over[0],
        width=part.width + over[1],
        quantity=part.quantity,
        grain=part.grain,
        kind="sheet" if kind == "sheet" else "board",
        label=part.name,
        may_turn=part.role == "loose",
        seen=part.role in SEEN,
    )
