"""Generated jobs of cabinets on a wall that stop, for the search for cures: drawn by a seed, each always the same.

Sizes are what a workshop builds; what is wrong with each job is drawn too: fasteners too short or too few, studs out of
reach, cabinets that overlap or cover a window, a low ceiling, doors that bind, stock or machines that lack.
"""

import random
from typing import Any

SCREWS = (
    "screw-10-2-1-2", "screw-10-3", "screw-12-3-1-2", "screw-14-4",
    "lag-1-4-2-1-2", "lag-1-4-3", "lag-5-16-3-1-2", "lag-3-8-4",
)  # fmt: skip
STUDS = ("spruce-pine-fir", "douglas-fir-larch", "southern-pine")
MACHINES = ("table-saw", "crosscut-sled", "drill", "drill-press", "router-table", "router", "band-saw", "jigsaw")
INCH = 25.4


def wall_job(seed: int) -> dict[str, Any]:
    """Return a job of one to three cabinets on a wall, in millimetres or inches, most of which stop."""
    draw = random.Random(seed)
    cabinets = [_cabinet(draw, f"c{number + 1}") for number in range(draw.choice((1, 1, 2, 2, 3)))]
    job: dict[str, Any] = {
        "title": f"wall {seed}",
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": draw.choice((15, 18, 18))},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": draw.choice((6.5, 6.5, 6.5, 9, 12))},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": draw.choice((19, 25))},
        },
        "cabinets": cabinets,
        "wall": _wall(draw, cabinets),
    }
    if draw.random() < 0.15:
        job["stock"] = {
            "sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220, "copies": 1, "cost": 80},
                       {"id": "thin-sheet", "material": "thin", "length": 2440, "width": 1220, "cost": 30}],
            "boards": [{"id": "board", "material": "oak", "width": 200, "length": 2400, "cost": 25}],
            "effort": 1,
        }  # fmt: skip
    if draw.random() < 0.08:
        job["shop"] = {"machines": draw.sample(MACHINES, 4)}
    if draw.random() < 0.5:
        job["rates"] = {"currency": "EUR", "hardware": dict.fromkeys(SCREWS, 0.8)}
    return _in_inches(job) if draw.random() < 0.5 else job


def _cabinet(draw: random.Random, name: str) -> dict[str, Any]:
    back = {"material": draw.choice(("ply", "ply", "thin")), "inset": 20}
    mounting: dict[str, Any] = {"method": draw.choice(("bevel-cleat", "bevel-cleat", "screw-strip"))}
    mounting |= {"contents_kg": draw.randint(5, 45)}
    if draw.random() < 0.7:
        mounting |= {"fastener": draw.choice(SCREWS), "per_stud": draw.randint(1, 3)}
    if draw.random() < 0.3:
        mounting["height"] = draw.choice((60, 80, 100))
    cabinet: dict[str, Any] = {
        "id": name,
        "width": draw.randrange(450, 1050, 25),
        "height": draw.randrange(500, 950, 25),
        "depth": draw.randrange(250, 400, 10),
        "case": {"material": "ply", "back": back},
        "mounting": mounting,
    }
    kind = draw.random()
    if kind < 0.35:
        cabinet["space"] = {"front": "door-pair", "loose_shelves": draw.randint(0, 2)}
        cabinet["doors"] = {"style": draw.choice(("slab", "cope-and-stick")), "material": "oak", "panel": "thin"}
        cabinet["doors"] |= {"hang": draw.choice(("overlay", "inset")), "meeting_gap": draw.choice((0.1, 2, 3))}
        cabinet["doors"] |= {"gap": draw.choice((0, 2, 3)), "overlay": 10}
        if cabinet["doors"]["style"] == "slab":
            cabinet["doors"] = {**cabinet["doors"], "material": "ply", "panel": None}
        if draw.random() < 0.3:
            cabinet["doors"]["bore_edge"] = draw.choice((2, 3, 12))
    else:
        cabinet["space"] = {"fixed_shelves": draw.randint(0, 2)}
    return cabinet


def _wall(draw: random.Random, cabinets: list[dict[str, Any]]) -> dict[str, Any]:
    apart = draw.choice((16, 16, 24)) * INCH
    first = draw.uniform(50, 400)
    wall: dict[str, Any] = {
        "studs": {"at": [round(first + n * apart, 1) for n in range(12)], "stuff": draw.choice(STUDS)},
        "lining": draw.choice((12.7, 12.7, 15.9)),
        "ceiling": draw.choice((2150, 2440, 2440, 2700)),
        "length": 6000,
        "corners": draw.choice(("none", "left", "both")),
        "cabinets_at": {},
    }
    x = draw.choice((-20, 0, 100, 400))
    for cabinet in cabinets:
        wall["cabinets_at"][cabinet["id"]] = [{"x": x, "z": draw.choice((1350, 1400, 1400))}]
        x += cabinet["width"] + draw.choice((0, 0, 25, -30))
    if draw.random() < 0.2:
        at = draw.randrange(0, 1200, 50)
        wall["obstacles"] = [{"id": "window", "kind": "window", "x": at, "z": 1500, "width": 300, "height": 400}]
    if draw.random() < 0.08 and len(cabinets) > 1:
        del wall["cabinets_at"][cabinets[-1]["id"]]
    return wall


def _in_inches(job: dict[str, Any]) -> dict[str, Any]:
    """Return the same job as inches write it, every length in millimetres as text with its unit."""
    lengths = {"thickness", "width", "height", "depth", "inset", "meeting_gap", "gap", "overlay", "bore_edge", "x", "z",
               "lining", "ceiling", "length"}  # fmt: skip

    def written(key: str, value: Any) -> Any:
        if isinstance(value, dict):
            return {name: written(name, inner) for name, inner in value.items()}
        if isinstance(value, list):
            return [written(key, inner) for inner in value]
        if isinstance(value, (int, float)) and (key in lengths or key == "at"):
            return f"{value} mm"
        return value

    return {**written("", job), "units": "in"}
