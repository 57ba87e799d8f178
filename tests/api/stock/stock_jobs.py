"""A committed generator of cutting jobs: kerf, trim, grain, mixed leftovers, equal and odd parts.

`job(seed)` is a pure function of its seed. The jobs look like cabinet work: families of parts that share a depth or a
width, some odd ones, sheets to buy, offcuts on hand.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from casewright.api.stock import Demand, ShopLimits, StockRequest
from casewright.sdk.model import StockPiece

MM = 1_000_000
INCH = 25_400_000
Size = Callable[[int, int], int]
"""Draws a size between two, in mm, on the grid of a job's units."""
SEED = 4_019
"""The recorded seed of the 300 jobs: job i is `job(SEED + i)`."""


def job(seed: int, effort: int = 2, *, fewer_settings: bool = True) -> StockRequest:
    """One job; metric or inch, 5 to 45 parts."""
    rng = Random(seed)
    inch = rng.random() < 0.5
    unit = INCH // 16 if inch else MM
    sheet = (96 * INCH, 48 * INCH) if inch else (2440 * MM, 1220 * MM)
    kerf = rng.choice([INCH // 8, INCH * 3 // 32] if inch else [3 * MM, 3_200_000, 4 * MM])
    trim = rng.choice([0, kerf, 6 * kerf])
    limits = ShopLimits(
        kerf=kerf,
        edge_trim=trim,
        rip_capacity=rng.choice([None, 30 * INCH, 52 * INCH]),
        keep_offcut=(12 * INCH, 6 * INCH) if inch else (300 * MM, 150 * MM),
        mill_length=rng.choice([0, INCH if inch else 25 * MM]),
        mill_width=rng.choice([0, INCH // 4 if inch else 6 * MM]),
        mill_thickness=5 * MM,
    )

    def size(low_mm: int, high_mm: int) -> int:
        return rng.randint(low_mm * MM // unit, high_mm * MM // unit) * unit

    demands, pieces = _panels(rng, size, sheet)
    if rng.random() < 0.3:
        sticks, boards = _sticks(rng, size)
        demands += sticks
        pieces += boards
    return StockRequest(tuple(demands), tuple(pieces), limits, effort, fewer_settings)


def _panels(rng: Random, size: Size, sheet: tuple[int, int]) -> tuple[list[Demand], list[StockPiece]]:
    """Draw the parts of some cabinets of one or two materials, their sheets and offcuts."""
    demands: list[Demand] = []
    pieces: list[StockPiece] = []
    for m in range(rng.choice([1, 1, 2])):
        material, thickness = f"panel-{m}", (18 + m) * MM
        grained = rng.random() < 0.6
        pieces.append(
            StockPiece(f"sheet-{m}", material, thickness, *sheet, None, None, "along-length" if grained else "free")
        )
        for k in range(rng.randint(0, 3)):
            pieces.append(  # noqa: PERF401
                StockPiece(
                    f"offcut-{m}-{k}",
                    material,
                    thickness,
                    size(400, 1500),
                    size(250, 800),
                    rng.randint(1, 2),
                    None,
                    rng.choice(["along-length", "along-width"]) if grained else "free",
                    "offcut",
                )
            )
        depth = size(280, 600)
        height = size(500, 900)
        for c in range(rng.randint(1, 4)):
            width = size(300, 900)
            grain = rng.choice(["along-length", "along-length", "free"]) if grained else "free"
            name = f"c{m}{c}"
            rows = [
                ("side", height, depth, 2),
                ("bottom", width, depth, 2),
                ("shelf", width, depth - size(10, 60), rng.randint(0, 3)),
                ("back", height, width, rng.randint(0, 1)),
                ("strip", width, size(60, 120), rng.randint(0, 2)),
            ]
            for kind, length, wide, count in rows:
                if count:
                    demands.append(Demand(f"{name}-{kind}", material, thickness, length, wide, count, grain))
        for k in range(rng.randint(0, 3)):
            demands.append(  # noqa: PERF401
                Demand(
                    f"odd{m}{k}",
                    material,
                    thickness,
                    size(150, 1000),
                    size(80, 500),
                    rng.randint(1, 3),
                    rng.choice(["along-length", "along-width", "free"]),
                )
            )
    return demands, pieces


def _sticks(rng: Random, size: Size) -> tuple[list[Demand], list[StockPiece]]:
    """Draw sticks of oak, a board to buy and one on hand."""
    width, length = size(130, 220), size(2000, 3600)
    pieces = [StockPiece("rough", "oak", 27 * MM, length, width, kind="board")]
    width, length = size(130, 220), size(1200, 2500)
    pieces.append(StockPiece("rough-on-hand", "oak", 27 * MM, length, width, 1, kind="board"))
    demands = [
        Demand(f"stick{k}", "oak", 19 * MM, size(250, 900), size(40, 80), rng.randint(1, 6), kind="board")
        for k in range(rng.randint(1, 4))
    ]
    return demands, pieces
