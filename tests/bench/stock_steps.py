"""How often a saw is set, gone back to, or needs a sled: the steps that cut generated stock jobs, counted.

`python tests/bench/stock_steps.py [JOBS]` prints the sums over the jobs of tests/api/stock/stock_jobs.py, beside those
that the saw settings of the cutting plan alone come to.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "api" / "stock"))

from casewright.api.engine.work.breakdown import Breakdown, breakdown_of
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay_breakdown import replay_breakdown
from casewright.api.engine.work.replay_records import Fault, Order
from casewright.api.job.document import read_job
from casewright.api.stock import StockRequest, plan_stock
from casewright.sdk.geometry import Place
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Action, CutKind, CutOrder, Job, Machine, Material, Operation, Part, Stock, StockPlan
from stock_jobs import SEED, job

SAWN = (Action.TRIM, Action.RIP, Action.CROSSCUT)


@dataclass(frozen=True, slots=True)
class Counts:
    """Settings of fences and stops, how many go back to one that was left, cuts with a track, cuts that want a sled.

    A track is laid for each cut, so it is never gone back to. A cut wants a sled where the piece is a sheet's, within
    the fence's reach, and longer across than along the fence. `after_milling` are settings of rough cuts that are set
    anew for final ones, blanks having been milled and left to rest between them; they are no returns.
    """

    settings: int
    returns: int
    tracks: int
    after_milling: int
    sled: int
    cuts: int

    def __add__(self, other: Counts) -> Counts:
        """Return both together."""
        return Counts(*(getattr(self, one.name) + getattr(other, one.name) for one in fields(self)))


def carried_out(request: StockRequest, registry: Registry) -> tuple[StockPlan, Breakdown, list[Fault]]:
    """Return the cutting plan of a request, the operations that cut it, and what the simulated saw finds wrong."""
    plan = plan_stock(request)
    parts = {one.id: one for one in _parts(request)}
    made_for = _job(request, registry)
    breakdown = breakdown_of(made_for, parts, plan)
    steps = list(_numbered(breakdown.operations))
    given = given_of(made_for, tuple(parts.values()), plan)
    _, faults = replay_breakdown(steps, tuple(parts.values()), given, Order.of(steps))
    return plan, breakdown, faults


def of_steps(plan: StockPlan, breakdown: Breakdown, reach: int | None) -> Counts:
    """Count the steps: a setting is left when its machine is set to another distance."""
    days: list[dict[Machine, list[object]]] = [{}]
    for step in breakdown.operations:
        if step.action is Action.WAIT:
            days.append({})
        elif step.action in SAWN:
            seen = days[-1].setdefault(step.machine, [])
            distance = step.setting.fence or step.setting.stop or "trim"
            if not seen or seen[-1] != distance:
                seen.append(distance)
    for day in days:
        day.pop(Machine.TRACK_SAW, None)
    laid = [
        step for step in breakdown.operations if step.machine is Machine.TRACK_SAW and step.action is not Action.TRIM
    ]
    tracks = sum(one.count for step in laid for one in step.on)
    settings = sum(len(seen) for day in days for seen in day.values())
    returns = sum(len(seen) - len(set(seen)) for day in days for seen in day.values())
    sets = [{(saw, distance) for saw, seen in day.items() for distance in seen} for day in days]
    again = sum(map(len, sets)) - len(set().union(*sets))
    trims = {n for step, cuts in zip(breakdown.operations, breakdown.cuts, strict=True) for n in cuts
             if step.action is Action.TRIM}  # fmt: skip
    return Counts(settings, returns, tracks, again, *_cuts(plan, trims, reach))


def of_plan(plan: StockPlan, reach: int | None) -> Counts:
    """Count the settings of the cutting plan itself."""
    cuts = [cut for layout in plan.layouts for cut in layout.cuts]
    tracks = [cut for cut in cuts if cut.tool == "track"]
    settings = {cut.setting for cut in cuts if cut.tool != "track"}
    return Counts(len(settings), plan.returns.count, len(tracks), 0, *_cuts(plan, set(), reach))


def _cuts(plan: StockPlan, trims: set[int], reach: int | None) -> tuple[int, int]:
    cuts = [cut for layout in plan.layouts for cut in layout.cuts]
    sheets = [cut for layout in plan.layouts if layout.kind == "sheet" for cut in layout.cuts]
    near = [cut for cut in sheets if cut.number not in trims and (reach is None or cut.fence <= reach)]
    return sum(cut.run < cut.across for cut in near), len(cuts)


def _parts(request: StockRequest) -> Iterator[Part]:
    for one in request.demands:
        yield Part(
            one.id, "", "loose", one.id, one.quantity, one.material, one.length, one.width, one.thickness, one.grain,
            (), (), Place((0, 0, 0), 1, 2, 3),
        )  # fmt: skip


def _job(request: StockRequest, registry: Registry) -> Job:
    """Return a job with the stock of a request and no cabinets."""
    limits = request.limits
    by_kind = {kind: tuple(one for one in request.pieces if one.kind == kind) for kind in ("sheet", "offcut", "board")}
    stock = Stock(
        by_kind["sheet"], by_kind["offcut"], by_kind["board"], limits.kerf, limits.edge_trim, request.effort,
        limits.mill_length, limits.mill_width, limits.mill_thickness,
    )  # fmt: skip
    empty = {
        "title": "Stock alone", "units": "mm", "cabinets": [],
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "loose_parts": [{"id": "one", "material": "ply", "length": 100, "width": 100}],
    }  # fmt: skip
    made = read_job(empty, registry)
    kinds: dict[tuple[str, int], CutKind] = {(one.material, one.thickness): one.kind for one in request.demands}
    materials = {key: Material(key, kind, "red-oak", thickness) for (key, thickness), kind in kinds.items()}
    shop = replace(made.shop, rip_capacity=limits.rip_capacity)
    return replace(made, stock=stock, materials=materials, shop=shop)


def _numbered(operations: tuple[Operation, ...]) -> Iterator[Operation]:
    """Yield operations with their numbers, each after all before it."""
    for number, one in enumerate(operations, start=1):
        yield replace(one, number=number, needs=tuple(range(1, number)))


def main(count: int) -> None:
    """Print the sums over so many jobs."""
    registry = load(discover="built-in")
    orders: tuple[CutOrder, ...] = ("by-setting", "by-sheet")
    for order in orders:
        steps = plans = Counts(0, 0, 0, 0, 0, 0)
        faulty = 0
        for i in range(count):
            request = replace(job(SEED + i), order=order)
            plan, breakdown, faults = carried_out(request, registry)
            steps += of_steps(plan, breakdown, request.limits.rip_capacity)
            plans += of_plan(plan, request.limits.rip_capacity)
            faulty += bool(faults)
        print(f"seed {SEED}, {count} jobs, effort 2, {order}; {faulty} with faults in the simulated shop")
        print(f"cutting plans: {plans}")
        print(f"steps:         {steps}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
