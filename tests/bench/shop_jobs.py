"""Cutting jobs of a cabinet shop: 20 to 80 parts on 4 × 8 ft sheets, offcuts on hand, kerf, trim and grain.

`python tests/bench/shop_jobs.py [JOBS]` prints a line a job beside the best of twelve packings by rectpack (four of its
guillotine packers, three orders; offcuts first), whose layouts only count where straight cuts part them. `shop_job`
is a pure function of its seed.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1] / "api" / "stock"))

import rectpack
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.model import StockPiece, StockPlan
from rectpack_packers import PACKERS
from stock_checker import check_plan, edge_to_edge

MM = 1_000_000
INCH = 25_400_000
SEED = 9_100
"""The recorded seed of the 100 jobs: job i is `shop_job(SEED + i)`."""
JOBS = 100
SHEET = (96 * INCH, 48 * INCH)


def shop_job(seed: int, effort: int | None = None) -> StockRequest:
    """Return one job: a few cabinets of a room that share heights and depths, with doors, drawers and backs."""
    rng = Random(seed)
    unit = rng.choice([INCH // 8, MM])
    kerf = rng.choice([INCH // 8, 3 * MM])
    limits = ShopLimits(
        kerf=kerf,
        edge_trim=rng.choice([0, kerf, INCH // 4]),
        rip_capacity=rng.choice([None, 30 * INCH, 52 * INCH]),
        keep_offcut=(12 * INCH, 6 * INCH),
    )

    def size(least: float, most: float) -> int:
        return rng.randint(int(least * MM) // unit, int(most * MM) // unit) * unit

    case, thin = ("case", 18 * MM, "along-length"), ("thin", 6 * MM, "free")
    demands: list[Demand] = []

    def add(name: str, stuff: tuple[str, int, str], length: int, width: int, quantity: int) -> None:
        if quantity:
            material, thickness, grain = stuff
            demands.append(Demand(name, material, thickness, length, width, quantity, grain))  # type: ignore[arg-type]

    depth, height = size(280, 600), size(500, 900)
    wanted = rng.randint(20, 70)
    while (number := sum(d.quantity for d in demands)) < wanted:
        name, width, count = f"c{len(demands)}", size(300, 900), rng.choice([1, 1, 2])
        if wanted - number < 10:
            count = 1
        if rng.random() < 0.3:
            height = size(500, 900)
        inner = width - 36 * MM
        add(f"{name}-side", case, height, depth, 2 * count)
        add(f"{name}-bottom", case, inner, depth, 2 * count)
        add(f"{name}-shelf", case, inner - 2 * MM, depth - 20 * MM, rng.randint(0, 3) * count)
        add(f"{name}-strip", case, inner, size(60, 110), rng.randint(0, 2) * count)
        add(f"{name}-back", thin, height - 12 * MM, width - 12 * MM, count)
        if rng.random() < 0.5:
            doors = 2 if width > 500 * MM else 1
            add(f"{name}-door", case, height - 4 * MM, width // doors // unit * unit - 3 * MM, doors * count)
        elif rng.random() < 0.5:
            add(f"{name}-drawer-side", thin, depth - 40 * MM, size(90, 180), 2 * rng.randint(1, 3) * count)
    pieces = [
        StockPiece(f"{name}-sheet", name, thickness, *SHEET, None, None, grain)  # type: ignore[arg-type]
        for name, thickness, grain in (case, thin)
    ]
    for k in range(rng.randint(0, 4)):
        name, thickness, grain = rng.choice([case, case, thin])
        size_of = (size(400, 1500), size(250, 800))
        pieces.append(StockPiece(f"offcut-{k}", name, thickness, *size_of, 1, None, grain, "offcut"))  # type: ignore[arg-type]
    request = StockRequest(tuple(demands), tuple(pieces), limits)
    return request if effort is None else StockRequest(request.demands, request.pieces, limits, effort)


def rectpack_sheets(request: StockRequest, material: str) -> int | None:
    """Return the fewest sheets of a material that twelve packings by rectpack buy; None where none can be cut."""
    limits, kerf = request.limits, request.limits.kerf
    parts = [d for d in request.demands if d.material == material]
    best: int | None = None
    for algorithm in PACKERS:
        for order in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE):
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                bin_algo=rectpack.PackingBin.BFF,
                pack_algo=algorithm,
                sort_algo=order,
                rotation=all(d.grain == "free" for d in parts),
            )
            for d in parts:
                for _ in range(d.quantity):
                    packer.add_rect(d.length + kerf, d.width + kerf)
            rows = [p for p in request.pieces if p.material == material]
            for p in sorted(rows, key=lambda p: p.kind == "sheet"):
                trim = 2 * limits.edge_trim if p.kind == "sheet" else 0
                many = float("inf") if p.copies is None else p.copies
                packer.add_bin(p.length - trim + kerf, p.width - trim + kerf, count=many, bid=p.id)
            packer.pack()
            placed = sum(len(b) for b in packer)
            whole = all(edge_to_edge([(r.x, r.y, r.width, r.height) for r in b], 0) for b in packer)
            if whole and placed == sum(d.quantity for d in parts):
                bought = sum(b.bid.endswith("-sheet") for b in packer)
                best = bought if best is None else min(best, bought)
    return best


@dataclass(frozen=True, slots=True)
class Row:
    """One job as planned: sheets bought by material, those rectpack buys, and the plan; `seconds` of a processor."""

    sheets: dict[str, int]
    others: dict[str, int | None]
    plan: StockPlan
    sled: int
    seconds: float

    @property
    def worse(self) -> bool:
        """Whether rectpack buys less of some material."""
        return any(other is not None and other < self.sheets[name] for name, other in self.others.items())


def sled_cuts(plan: StockPlan) -> int:
    """Return how many cuts of sheets want a sled: less of the piece rides the fence than lies beyond it."""
    return sum(cut.tool == "fence" and cut.run < cut.fence for layout in plan.layouts for cut in layout.cuts)


def measured(request: StockRequest) -> Row:
    """Return a job planned and timed; its plan is checked by the independent saw."""
    began = time.process_time()
    plan = plan_stock(request)
    seconds = time.process_time() - began
    check_plan(plan, request)
    assert not plan.short
    bought = Counter({row.material: row.quantity for row in plan.buy})
    materials = sorted({d.material for d in request.demands})
    others = {name: rectpack_sheets(request, name) for name in materials}
    return Row({name: bought[name] for name in materials}, others, plan, sled_cuts(plan), seconds)


def total(rows: Sequence[Row]) -> str:
    """Return the sums over some jobs in one line."""
    ours = sum(sum(row.sheets.values()) for row in rows)
    other = sum(sum(n or 0 for n in row.others.values()) for row in rows)
    use = sum(row.plan.use for row in rows) / len(rows)
    settings = sum(row.plan.returns.settings for row in rows)
    back = sum(row.plan.returns.count > 0 for row in rows)
    unproved = sum(row.plan.returns.count > 0 and not row.plan.returns.proved for row in rows)
    return (
        f"{len(rows)} jobs: {ours} sheets, rectpack {other}, worse in {sum(row.worse for row in rows)}; "
        f"used {100 * use:.1f} %, settings {settings}, jobs with returns {back} (unproved {unproved}), "
        f"sled cuts {sum(row.sled for row in rows)}, mean {sum(row.seconds for row in rows) / len(rows):.2f} s, "
        f"longest {max(row.seconds for row in rows):.2f} s"
    )


def main() -> None:
    """Print a line a job, and the sums."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else JOBS
    effort = int(sys.argv[2]) if len(sys.argv) > 2 else None
    rows = []
    for i in range(count):
        request = shop_job(SEED + i, effort)
        row = measured(request)
        rows.append(row)
        parts = sum(d.quantity for d in request.demands)
        print(
            f"{i:>4} {parts:>3} parts {row.sheets} rectpack {row.others} used {100 * row.plan.use:.1f} % "
            f"settings {row.plan.returns.settings} returns {row.plan.returns.count} sled {row.sled} "
            f"{row.seconds:.2f} s",
            flush=True,
        )
    print(total(rows))


if __name__ == "__main__":
    main()
