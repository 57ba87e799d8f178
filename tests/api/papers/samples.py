"""Jobs whose papers are looked at: smallest and largest cabinets, one and six bays, long and non-Latin titles.

Run as a script it draws every paper of each into a folder: `python tests/api/papers/samples.py OUT`.
"""

import json
import sys
from collections.abc import Callable
from copy import deepcopy
from functools import lru_cache
from pathlib import Path
from typing import Any

from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan

Document = dict[str, Any]

EXAMPLES = Path(__file__).parents[3] / "openapi" / "examples"

REPAIR_BAY: Document = {
    "title": "Repair bay",
    "units": "in",
    "materials": {
        "case": {"kind": "sheet", "stuff": "birch-plywood", "nominal": "3/4", "thickness": "0.709"},
        "frame": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
        "infill": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "0.205"},
    },
    "cabinets": [
        {
            "id": "tools",
            "count": 2,
            "form": "wall",
            "width": 28,
            "height": 33,
            "depth": 11,
            "case": {
                "material": "case",
                "corner": {"method": "housed-groove", "depth": "1/4"},
                "top_inset": "3/4",
                "bottom_inset": "3/4",
                "back": {"material": "case", "inset": "3/4", "joint": {"method": "housed-groove"}},
            },
            "space": {"tiers": [{"size": 20, "front": "door-pair", "fixed_shelves": 1}, {"front": "open"}]},
            "face_frame": {
                "material": "frame",
                "stile": "1 3/4",
                "rail": "1 3/4",
                "joint": {"method": "loose-tenon"},
            },
            "doors": {
                "style": "cope-and-stick",
                "overlay": "1/2",
                "meeting_gap": "1/8",
                "hinge": "cup-35",
                "panel": "infill",
                "pull": {"item": "bar-96"},
            },
            "mounting": {"method": "bevel-cleat", "contents_kg": 40},
        }
    ],
    "wall": {
        "studs": {"at": [7, 23, 39, 55], "stuff": "spruce-pine-fir", "width": "1 1/2", "depth": "3 1/2"},
        "lining": "1/2",
        "ceiling": 96,
        "cabinets_at": {"tools": [{"x": 2, "z": 54}, {"x": 30, "z": 54}]},
    },
    "shop": {
        "rip_capacity": 30,
        "crosscut_capacity": 12,
        "groove_cutters": ["1/4", "1/2"],
        "fit": "1/128",
        "keep_offcut": [6, 12],
        "wall_allowance": "1/8",
    },
    "stock": {
        "sheets": [
            {"id": "ply", "material": "case", "length": 96, "width": 48},
            {"id": "thin", "material": "infill", "length": 96, "width": 48},
        ],
        "boards": [{"id": "oak", "material": "frame", "width": 6, "length": 96}],
        "kerf": "1/8",
        "edge_trim": "1/8",
    },
}

METRIC_MATERIALS: Document = {
    "case": {"kind": "sheet", "stuff": "birch-plywood", "nominal": "18 mm", "thickness": 17.7},
    "thin": {"kind": "sheet", "stuff": "birch-plywood", "nominal": "6 mm", "thickness": 5.8},
    "edging": {"kind": "band", "stuff": "red-oak", "thickness": 2},
}


def _metric(title: str, *cabinets: Document, **more: Any) -> Document:
    return {"title": title, "units": "mm", "materials": METRIC_MATERIALS, "cabinets": list(cabinets), **more}


def _cabinet(name: str, width: float, height: float, depth: float, space: Document, **more: Any) -> Document:
    return {
        "id": name,
        "width": width,
        "height": height,
        "depth": depth,
        "case": {
            "material": "case",
            "corner": {"method": "rabbet"},
            "back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}},
        },
        "space": space,
        **more,
    }


SLAB: Document = {"style": "slab", "material": "case", "overlay": 5, "pull": {"item": "knob-1"}}


def six_bays() -> Document:
    """Return one long cabinet with six bays, doors, loose shelves, and a title that is as long as a title may be."""
    bays = [{"front": "door", "fixed_shelves": 1}, {"front": "open", "loose_shelves": 2}] * 3
    title = ("Repair bay of the community bicycle workshop, back wall under the windows, " * 4)[:200]
    cabinet = _cabinet("long", 3000, 700, 350, {"bays": bays}, doors=SLAB, mounting={"method": "screw-strip"})
    cabinet["case"]["shelf_band"] = "edging"
    return _metric(title, cabinet)


def bays_framed() -> Document:
    """Return six framed bays with door pairs, in inches."""
    made = deepcopy(REPAIR_BAY)
    made["title"] = "Werkstatt Fahrradküche, Wand Süd: Ελληνικά, Кириллица"
    cabinet = made["cabinets"][0]
    cabinet.update(count=1, width=140, height=36)
    cabinet["space"] = {"bays": [{"front": "door-pair", "fixed_shelves": 1}] * 6}
    del made["wall"], made["stock"]
    return made


def smallest() -> Document:
    """Return a cabinet near the least that has a geometry."""
    cabinet = _cabinet("tiny", 90, 90, 60, {"front": "open"})
    return _metric("自転車修理場 자전거 维修站 ورشة", cabinet)


def largest() -> Document:
    """Return a cabinet of the greatest size allowed, in six bays of four tiers."""
    tiers = {
        "tiers": [{"front": "door-pair"}, {"front": "open", "fixed_shelves": 3}, {"front": "door"}, {"front": "open"}]
    }
    return _metric("Largest", _cabinet("hall", 6000, 6000, 1200, {"bays": [tiers] * 6}, doors=SLAB))


def hostile() -> Document:
    """Return a job whose texts try to be markup, formulas and control codes."""
    made = six_bays()
    made["title"] = '=HYPERLINK("http://x")<script>alert(1)</script> %%c &amp; ]]> @SUM(A1) +1 \u202e abc'
    made["cabinets"][0]["title"] = "=cmd|' /C calc'!A0 <b>"
    return made


def loose_only() -> Document:
    """Return parts that are only cut, and a sheet to cut them from."""
    rows = [{"id": f"panel-{i}", "material": "case", "length": 300 + 37 * i, "width": 200 + 11 * i} for i in range(12)]
    stock = {"sheets": [{"id": "ply", "material": "case", "length": 2440, "width": 1220}], "kerf": 3}
    return _metric("Only cut", loose_parts=rows, stock=stock)


JOBS: dict[str, Any] = {
    "repair-bay": lambda: REPAIR_BAY,
    "six-bays": six_bays,
    "bays-framed": bays_framed,
    "smallest": smallest,
    "largest": largest,
    "hostile": hostile,
    "loose-only": loose_only,
}


def box() -> Document:
    """Return a single small cabinet, 200 mm each way, and a sheet to cut it from."""
    cabinet = {"id": "box", "width": 200, "height": 200, "depth": 200, "case": {"material": "ply"}}
    return {
        "title": "Small parts box",
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 12}},
        "cabinets": [cabinet],
        "stock": {"sheets": [{"id": "ply", "material": "ply", "length": 1220, "width": 610}], "kerf": 3},
    }


def six_bays_cut() -> Document:
    """Return a cabinet of six bays 2.4 m long, and sheets to cut it from."""
    made = six_bays()
    made["title"] = "Repair bay, long cabinet"
    made["cabinets"][0]["width"] = 2400
    sheets = [{"id": name, "material": name, "length": 2440, "width": 1220} for name in ("case", "thin")]
    return {**made, "stock": {"sheets": sheets, "kerf": 3}}


def _example(name: str) -> Callable[[], Document]:
    return lambda: json.loads((EXAMPLES / f"{name}.json").read_text())


FIVE: dict[str, Callable[[], Document]] = {
    "demo": _example("repair-bay"),
    "workbench": _example("workbench-run"),
    "tall": _example("tall-store"),
    "box": box,
    "six": six_bays_cut,
}
"""Jobs whose papers are read whole, page by page."""


@lru_cache(maxsize=1)
def registry() -> Registry:
    """Return every installed plugin."""
    return load()


@lru_cache(maxsize=len(JOBS) + len(FIVE))
def plan(name: str) -> Plan:
    """Return the plan of one of `JOBS` or `FIVE`."""
    return make_plan(read_job({**JOBS, **FIVE}[name](), registry()), registry())


@lru_cache(maxsize=len(FIVE))
def booklet(name: str) -> bytes:
    """Return the booklet of one of `FIVE`."""
    return papers.booklet(plan(name), "0123456789ab")


def main(out: Path) -> None:
    """Draw every paper of every job into a folder, and print each fault of layout."""
    sys.path.insert(0, str(Path(__file__).parents[2]))
    from overlap import overlaps

    out.mkdir(parents=True, exist_ok=True)
    for name in JOBS:
        made = plan(name)
        for view in papers.VIEWS:
            sheets = papers.draw(made, view, fingerprint="sample")
            if sheets:
                (out / f"{name}-{view}.pdf").write_bytes(papers.to_pdf(sheets))
                (out / f"{name}-{view}.svg").write_text(papers.to_svg(sheets[0]), "utf-8")
            for sheet in sheets:
                for fault in overlaps(sheet):
                    print(f"{name}: {sheet.name}: {fault}")
        (out / f"{name}-booklet.pdf").write_bytes(papers.booklet(made, "sample"))
        (out / f"{name}-labels.pdf").write_bytes(papers.labels(made, "sample"))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
