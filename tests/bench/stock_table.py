"""Benchmarks of the stock planner on open guillotine data, as a table: `python tests/bench/stock_table.py --help`.

Data: shared/data/guillotine beside the repository, or the folder named by CASEWRIGHT_BENCH_DATA.
class500: 250 instances of the ten classic two-dimensional bin packing classes with the best known number of sheets for
oriented (OG) and rotated (RG) guillotine cutting. vsbp: variable-sized stock with few copies. Every layout is checked
from its rectangles alone by the independent checker of tests/api/stock. Seconds are those of a processor.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "api" / "stock"))

from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock  # noqa: E402
from casewright.sdk.model import StockPiece, StockPlan  # noqa: E402
from stock_checker import edge_to_edge, overlap_free  # noqa: E402

MM = 1_000_000
NO_KERF = ShopLimits(kerf=0)


def data_folder() -> Path | None:
    """Give the folder with the data, or None when it is not on this machine."""
    named = os.environ.get("CASEWRIGHT_BENCH_DATA")
    folder = Path(named) if named else ROOT.parent / "shared" / "data" / "guillotine"
    return folder if (folder / "class500.jsonl").is_file() else None


def read(name: str) -> list[dict[str, Any]]:
    """All instances of one data file."""
    folder = data_folder()
    assert folder is not None
    return [json.loads(line) for line in (folder / name).read_text().splitlines()]


def solve(
    items: Sequence[Sequence[int]], sheets: Sequence[Sequence[int]], turn: bool, effort: int, tie: bool = True
) -> StockPlan:
    """Plan one instance (1 unit = 1 mm, no kerf) and check every layout."""
    grain = "free" if turn else "along-length"
    demands = [Demand(f"p{k}", "m", MM, w * MM, h * MM, q, grain) for k, (w, h, q) in enumerate(items)]
    pieces = [
        StockPiece(f"s{k}", "m", MM, w * MM, h * MM, copies, None if cost is None else Decimal(cost) / 100)
        for k, (w, h, cost, copies) in enumerate(sheets)
    ]
    plan = plan_stock(StockRequest(tuple(demands), tuple(pieces), NO_KERF, effort, tie))
    placed: Counter[str] = Counter()
    for layout in plan.layouts:
        rects = [(p.x, p.y, p.dx, p.dy) for p in layout.placed]
        assert overlap_free(rects, layout.length, layout.width)
        assert edge_to_edge(rects, 0)
        placed.update(p.part for p in layout.placed)
    assert placed == {d.id: d.quantity for d in demands}, "a part is missing"
    assert not plan.short
    return plan


def rectpack_sheets(items: Sequence[Sequence[int]], wide: int, high: int, turn: bool) -> int:
    """Fewest sheets of a handful of settings of rectpack's guillotine packers, without its merging of free room.

    Its layouts go through the same checker: only those that can be cut count.
    """
    import rectpack
    from rectpack_packers import PACKERS

    best = 10**9
    for algorithm in PACKERS:
        for order in (rectpack.SORT_AREA, rectpack.SORT_LSIDE):
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                bin_algo=rectpack.PackingBin.BBF,
                pack_algo=algorithm,
                sort_algo=order,
                rotation=turn,
            )
            for w, h, q in items:
                for _ in range(q):
                    packer.add_rect(w, h)
            packer.add_bin(wide, high, count=float("inf"))
            packer.pack()
            whole = all(edge_to_edge([(r.x, r.y, r.width, r.height) for r in b], 0) for b in packer)
            if whole and sum(len(b) for b in packer) == sum(q for _, _, q in items):
                best = min(best, len(packer))
    return best


@dataclass
class Row:
    """Totals of one class (or of all)."""

    instances: int = 0
    ours: int = 0
    best: int = 0
    bound: int = 0
    rectpack: int = 0
    seconds: list[float] = field(default_factory=list)
    seconds_100: list[float] = field(default_factory=list)
    beaten: list[str] = field(default_factory=list)

    def add(self, other: Row) -> None:
        self.instances += other.instances
        self.ours += other.ours
        self.best += other.best
        self.bound += other.bound
        self.rectpack += other.rectpack
        self.seconds += other.seconds
        self.seconds_100 += other.seconds_100
        self.beaten += other.beaten


def class500(effort: int, turn: bool, step: int = 1, start: int = 0, baseline: bool = True) -> dict[str, Row]:
    """Totals by class and in all ("all")."""
    rows: dict[str, Row] = {}
    for x in read("class500.jsonl")[start::step]:
        began = time.process_time()
        plan = solve(x["items"], [(x["W"], x["H"], None, None)], turn, effort, False)
        spent = time.process_time() - began
        best = x["RG" if turn else "OG"]["best"]
        sheet = max(1, x["W"] * x["H"])
        row = Row(
            1,
            len(plan.layouts),
            best,
            plan.bounds[0].least // sheet,
            rectpack_sheets(x["items"], x["W"], x["H"], turn) if baseline else 0,
            [spent],
            [spent] if x["n"] == 100 else [],
            [x["id"]] if len(plan.layouts) < best else [],
        )
        rows.setdefault(f"{x['class']:02d}", Row()).add(row)
    total = Row()
    for name in sorted(rows):
        total.add(rows[name])
    rows["all"] = total
    return dict(sorted(rows.items()))


@dataclass
class Share:
    """Used share of stock over a set of variable-sized instances, and the best share each one's bound allows."""

    use: list[float] = field(default_factory=list)
    bound: list[float] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)


def vsbp(name: str, effort: int, turn: bool, step: int = 1, start: int = 0) -> Share:
    """Mean share of stock used; cost of stock is its area."""
    share = Share()
    for x in read(name)[start::step]:
        began = time.process_time()
        plan = solve(x["items"], [(w, h, a, c) for w, h, a, c in x["sheets"]], turn, effort, False)
        share.seconds.append(time.process_time() - began)
        share.use.append(plan.use)
        least = max(plan.bounds[0].least, x["min_sheet_area_lb"])
        share.bound.append(x["item_area"] / least)
    return share


def table(rows: dict[str, Row]) -> Iterator[str]:
    """Lines of the class table."""
    yield f"{'class':>6} {'n':>4} {'sheets':>7} {'best known':>10} {'over %':>7} " + (
        f"{'own bound':>9} {'rectpack':>8} {'s':>7}"
    )
    for name, r in rows.items():
        over = 100 * (r.ours - r.best) / r.best
        yield (
            f"{name:>6} {r.instances:>4} {r.ours:>7} {r.best:>10} {over:>7.2f} {r.bound:>9} {r.rectpack:>8} "
            f"{sum(r.seconds):>7.1f}"
        )
    r = rows["all"]
    if r.seconds_100:
        yield f"median seconds, 100 items: {statistics.median(r.seconds_100):.2f}; longest {max(r.seconds):.2f}"
    if r.beaten:
        yield f"fewer sheets than the best known: {', '.join(r.beaten)}"


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--effort", type=int, default=3)
    parser.add_argument("--step", type=int, default=1, help="take every step-th instance")
    parser.add_argument("--start", type=int, default=0)
    parser.add_argument("--only", default="OG,RG,hopper,onv", help="which tables")
    parser.add_argument("--no-rectpack", action="store_true")
    args = parser.parse_args()
    if data_folder() is None:
        sys.exit("no data: set CASEWRIGHT_BENCH_DATA")
    only = args.only.split(",")
    for name in ("OG", "RG"):
        if name in only:
            print(f"class500, {name}, effort {args.effort}, every {args.step} from {args.start}")
            for line in table(class500(args.effort, name == "RG", args.step, args.start, not args.no_rectpack)):
                print(line, flush=True)
    for name in ("hopper_m15", "onv340"):
        if name.split("_")[0].rstrip("0123456789") not in only:
            continue
        for turn in (False, True):
            s = vsbp(f"vsbp_{name}.jsonl", args.effort, turn, 1 if "hopper" in name else args.step, 0)
            print(
                f"vsbp_{name}, {'turned' if turn else 'oriented'}, effort {args.effort}, {len(s.use)} instances: "
                f"mean use {100 * statistics.mean(s.use):.2f} %, "
                f"mean of bounds {100 * statistics.mean(s.bound):.2f} %, "
                f"within 1 point of bound {sum(b - u < 0.01 for u, b in zip(s.use, s.bound, strict=True))}, "
                f"median {statistics.median(s.seconds):.2f} s",
                flush=True,
            )


if __name__ == "__main__":
    main()
