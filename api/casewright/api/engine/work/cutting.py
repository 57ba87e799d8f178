"""From parts and stock on hand to the stock planner's question, and its answer.

Identical parts of several cabinets are one demand to the planner, so that they are cut and set together; its answer
names each piece by the part, and so the cabinet, it is for.
"""

from casewright.api.engine.work.batches import Batch, batches_of, named
from casewright.api.engine.work.settings import cut_key
from casewright.api.stock import (
    Demand,
    Machining,
    Progress,
    ShopLimits,
    StockLimitError,
    StockRequest,
    no_progress,
    plan_stock,
)
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Job, Part, Stock, StockPlan


class Cutter:
    """Plans cutting, and plans the same question only once: for plans that are compared with one another."""

    def __init__(self) -> None:
        self._answers: dict[tuple[tuple[Batch, ...], StockRequest], StockPlan] = {}

    def plan(self, job: Job, parts: tuple[Part, ...], progress: Progress = no_progress) -> StockPlan | None:
        """Return how to cut the parts from the job's stock, or `None` for a job without stock.

        Raises `NoGeometryError` naming the limit when there is more than the planner takes.
        """
        if job.stock is None:
            return None
        batches = batches_of([_demand(job, part) for part in parts])
        request = _request(job, job.stock, batches)
        if (batches, request) not in self._answers:
            self._answers[batches, request] = named(_planned(request, progress), batches)
        return self._answers[batches, request]


def _request(job: Job, stock: Stock, batches: tuple[Batch, ...]) -> StockRequest:
    limits = ShopLimits(
        kerf=stock.kerf,
        edge_trim=stock.edge_trim,
        rip_capacity=job.shop.rip_capacity,
        crosscut_capacity=job.shop.crosscut_capacity,
        groove_cutters=job.shop.groove_cutters,
        keep_offcut=(max(job.shop.keep_offcut), min(job.shop.keep_offcut)),
        mill_length=stock.mill_length,
        mill_width=stock.mill_width,
        mill_thickness=stock.mill_thickness,
    )
    return StockRequest(tuple(batch.demand for batch in batches), stock.pieces, limits, stock.effort)


def _planned(request: StockRequest, progress: Progress) -> StockPlan:
    try:
        return plan_stock(request, progress)
    except StockLimitError as error:
        rule = f"at most {error.value} ({error.name})"
        problem = Problem("/stock", rule, str(error.got), "Split the job into smaller ones.")
        raise NoGeometryError(problem) from error


def _demand(job: Job, part: Part) -> Demand:
    kind = job.materials[part.material].kind
    machining: list[Machining] = []
    for feature in part.features:
        key = cut_key(part, feature)
        if key.kind in ("groove", "rabbet"):
            machining.append(
                Machining("groove" if key.kind == "groove" else "rabbet", key.offset, key.depth, key.across, key.datum)
            )
    return Demand(
        id=part.id,
        material=part.material,
        thickness=part.thickness,
        length=part.length,
        width=part.width,
        quantity=part.quantity,
        grain=part.grain,
        kind="sheet" if kind == "sheet" else "board",
        machining=tuple(dict.fromkeys(machining)),
        label=part.name,
    )
