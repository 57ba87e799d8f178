"""Piles made by cutting up a known pair of cabinets, with scrap among them; the pair, or a better one, is looked for.

`python tests/bench/piles.py [PILES]` prints a line a pile and the share in which the pair is equalled or bettered.
`pile(seed)` is a pure function of its seed: the body of a question, and what the known pair is worth.
"""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass
from random import Random
from typing import Any

from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.job.ranges import read_question
from casewright.api.use.from_stock import from_stock
from casewright.api.use.planning import Planner
from casewright.sdk.loader import Registry, load
from casewright.sdk.units import NM_PER_UNIT

SEED = 7_300
"""The recorded seed of the 50 piles: pile i is `pile(SEED + i)`."""
PILES = 50


@dataclass(frozen=True, slots=True)
class Known:
    """A question, and what the pair that its pile was cut from is worth: cubic units of the job."""

    body: dict[str, Any]
    volume: float


def pile(seed: int, registry: Registry) -> Known:
    """Return a question whose pile holds the parts of a known pair, joined by ones to threes, and as many scraps."""
    rng = Random(seed)
    units = rng.choice(["in", "mm"])
    step, big = (0.5, 1.0) if units == "in" else (10, 25)
    kerf = 0.125 if units == "in" else 3

    def size(least: float, most: float) -> float:
        return round(rng.randint(int(least * big / step), int(most * big / step)) * step, 3)

    sizes = [{"width": size(12, 30), "height": size(15, 36), "depth": size(8, 16)} for _ in range(2)]
    shelves = [rng.randint(0, 3), rng.randint(0, 3)]
    thick = {"ply": 0.709, "thin": 0.236} if units == "in" else {"ply": 18, "thin": 6}
    job: dict[str, Any] = {
        "units": units,
        "materials": {
            key: {"kind": "sheet", "stuff": "birch-plywood", "thickness": value} for key, value in thick.items()
        },
        "cabinets": [
            {
                "id": f"box-{i}",
                **sizes[i],
                "case": {"material": "ply", "back": {"material": "thin"}},
                "space": {"fixed_shelves": shelves[i]},
            }
            for i in range(2)
        ],
    }
    parts = make_plan(read_job(job, registry), registry).parts
    offcuts = [
        {"id": f"piece-{k}", "material": material, "length": length, "width": width}
        for k, (material, length, width) in enumerate(_pieces(rng, parts, units, kerf))
    ]
    offcuts += [
        {"id": f"scrap-{k}", "material": rng.choice(list(thick)), "length": size(4, 20), "width": size(3, 8)}
        for k in range(rng.randint(3, 8))
    ]
    ranged = [
        {
            **cabinet,
            **{key: _range(rng, sizes[i][key], step) for key in ("width", "height", "depth")},
            "space": {"fixed_shelves": shelves[i]},
        }
        for i, cabinet in enumerate(job["cabinets"])
    ]
    body = {"job": {**job, "cabinets": ranged, "stock": {"kerf": kerf, "offcuts": offcuts}}, "aim": "largest"}
    return Known(body, sum(one["width"] * one["height"] * one["depth"] for one in sizes))


def _range(rng: Random, value: float, step: float) -> dict[str, float]:
    """Return a range on whose grid the value is, ten to twenty steps to either side of it or so."""
    below = min(rng.randint(5, 20), int(value / step / 2))
    return {"least": value - below * step, "most": value + rng.randint(5, 20) * step, "step": step}


def _pieces(rng: Random, parts: Any, units: str, kerf: float) -> list[tuple[str, float, float]]:
    """Return pieces that hold one part, or up to three end to end or side by side, a little over size at times."""
    per = NM_PER_UNIT[units]
    rows = [(p.material, p.length / per, p.width / per) for p in parts for _ in range(p.quantity)]
    rng.shuffle(rows)
    rows.sort(key=lambda row: row[0])
    out: list[tuple[str, float, float]] = []
    while rows:
        material = rows[0][0]
        count = min(rng.choice([1, 1, 2, 3]), sum(row[0] == material for row in rows))
        joined, rows = rows[:count], rows[count:]
        over = rng.choice([0, 0, kerf, 6 * kerf])
        if rng.random() < 0.5:
            length = sum(row[1] for row in joined) + kerf * (count - 1)
            width = max(row[2] for row in joined)
        else:
            length, width = max(row[1] for row in joined), sum(row[2] for row in joined) + kerf * (count - 1)
        out.append((material, round(length + over, 6), round(width + over, 6)))
    return out


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found of a pile: the best volume beside the known pair's, the bound, places tried, and the seconds."""

    volume: float
    known: float
    bound: float
    tried: int
    seconds: float

    @property
    def good(self) -> bool:
        """Whether the known pair is equalled or bettered."""
        return self.volume >= self.known * (1 - 1e-9)


def searched(known: Known, planner: Planner) -> Outcome:
    """Return what is found of a pile; `seconds` are of a processor."""
    began = time.process_time()
    result = from_stock(read_question(known.body, planner.registry), planner)
    seconds = time.process_time() - began
    per = (NM_PER_UNIT[result.job.units] / 1e6) ** 3
    best = max((answer.worth[0] for answer in result.answers), default=0) / per
    # a cubic millimetre is the least that worth counts
    return Outcome(best + 1 / per, known.volume, (result.bound or (0,))[0] / per, result.tried, seconds)


def main() -> None:
    """Print a line a pile, and the sums."""
    planner = Planner(load(discover="built-in"))
    rows = []
    for i in range(int(sys.argv[1]) if len(sys.argv) > 1 else PILES):
        row = searched(pile(SEED + i, planner.registry), planner)
        rows.append(row)
        print(
            f"{i:>3} known {row.known:.0f} found {row.volume:.0f} ({row.volume / row.known:.3f}) "
            f"bound {row.bound:.0f} tried {row.tried} {row.seconds:.1f} s",
            flush=True,
        )
    good = sum(row.good for row in rows)
    print(f"{good} of {len(rows)} at least as good as the known pair, longest {max(row.seconds for row in rows):.1f} s")


if __name__ == "__main__":
    main()
