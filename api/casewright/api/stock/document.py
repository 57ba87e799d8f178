"""The plan as plain values for JSON: lengths as numbers in the job's units with bench text beside them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from casewright.api.stock.model import Leftover, Piece, Purchase, StockPlan

MINOR_UNITS = 100
"""The planner compares costs in hundredths; documents give them in whole money again."""

Number = Callable[[int], Any]
Text = Callable[[int], str]


def to_document(plan: StockPlan, number: Number, text: Text) -> dict[str, Any]:
    """Give the plan document's `stock`: `number` turns nm into a number in job units, `text` into bench text."""

    def size(name: str, length: int) -> dict[str, Any]:
        return {name: number(length), f"{name}_text": text(length)}

    def purchase(item: Purchase) -> dict[str, Any]:
        return {
            "stock": item.stock,
            "material": item.material,
            "quantity": item.quantity,
            **size("thickness", item.thickness),
            **size("length", item.length),
            **size("width", item.width),
            "cost": None if item.cost is None else item.cost / MINOR_UNITS,
        }

    def piece(item: Piece) -> dict[str, Any]:
        row: dict[str, Any] = {
            "piece": item.label,
            "what": item.what,
            "x": number(item.x),
            "y": number(item.y),
            "length": number(item.dx),
            "width": number(item.dy),
        }
        if item.demand:
            row["part"] = item.demand
        if item.cuts:
            row["cuts"] = list(item.cuts)
            row["inside"] = [piece(kid) for kid in item.inside]
        return row

    def leftover(item: Leftover) -> dict[str, Any]:
        return {
            "layout": item.layout,
            "stock": item.stock,
            "piece": item.piece,
            **size("length", item.length),
            **size("width", item.width),
            "keep": item.keep,
            "line": label_line(item, text),
        }

    return {
        "layouts": [
            {
                "number": layout.number,
                "stock": layout.stock,
                "kind": layout.kind,
                "material": layout.material,
                **size("thickness", layout.thickness),
                **size("length", layout.length),
                **size("width", layout.width),
                "use": layout.part_area / (layout.length * layout.width),
                "parts": [
                    {
                        "part": p.demand,
                        "x": number(p.x),
                        "y": number(p.y),
                        "along_length": number(p.dx),
                        "along_width": number(p.dy),
                        "turned": p.turned,
                    }
                    for p in layout.placed
                ],
                "tree": piece(layout.tree),
                "cuts": [
                    {
                        "number": cut.number,
                        "piece": cut.piece,
                        "makes": cut.makes,
                        "leaves": cut.leaves or None,
                        "along": cut.along,
                        "tool": cut.tool,
                        **size("fence", cut.fence),
                        "rides": cut.rides,
                        "kerf": number(cut.kerf),
                        "setting": cut.setting,
                    }
                    for cut in layout.cuts
                ],
            }
            for layout in plan.layouts
        ],
        "settings": [
            {
                "number": setting.number,
                "tool": setting.tool,
                **size("distance", setting.distance),
                **({**size("cutter", setting.cutter), **size("depth", setting.depth)} if setting.cutter else {}),
                "passes": [
                    {
                        "cut": p.cut or None,
                        "layout": p.layout or None,
                        "part": p.demand or None,
                        "count": p.count,
                        "does": p.does,
                        "datum": p.datum or None,
                    }
                    for p in setting.passes
                ],
            }
            for setting in plan.settings
        ],
        "returns": plan.returns.count,
        "returns_proved": plan.returns.proved,
        "returns_bound": plan.returns.bound,
        "leftovers": [leftover(item) for item in plan.leftovers],
        "buy": [purchase(item) for item in plan.buy],
        "bound": [
            {
                "material": b.material,
                **size("thickness", b.thickness),
                "kind": b.kind,
                "measure": b.measure,
                **(
                    {"least_m2": b.value / 1e6, "bought_m2": b.got / 1e6}
                    if b.measure == "area"
                    else {"least_cost": b.value / MINOR_UNITS, "bought_cost": b.got / MINOR_UNITS}
                ),
                "proved_least": b.value == b.got,
                "how": b.how,
            }
            for b in plan.bounds
        ],
        "use": plan.use,
        "short": [
            {
                "part": s.demand,
                "quantity": s.quantity,
                "reason": s.reason,
                "cure": purchase(s.cure) if s.cure else None,
            }
            for s in plan.short
        ],
        "boards": [
            {
                "layout": b.layout,
                "stock": b.stock,
                "rips": [size("distance", d) for d in b.rips],
                "stops": [size("distance", d) for d in b.stops],
                "board_feet": b.board_feet,
                "part_board_feet": b.part_board_feet,
                "yield": b.yield_share,
            }
            for b in plan.boards
        ],
        "cautions": [
            {"code": c.code, "level": c.level, "message": c.message, "cuts": list(c.cuts), "parts": list(c.demands)}
            for c in plan.cautions
        ],
        "effort": plan.effort,
        "steps": plan.steps,
    }


def label_line(item: Leftover, text: Text) -> str:
    """One line to write on a leftover: material, thickness, length by width, grain, where it came from."""
    grain = {"along-length": "grain along length", "along-width": "grain along width", "free": "no grain"}[item.grain]
    return (
        f"{item.material} {text(item.thickness)}: {text(item.length)} x {text(item.width)}, {grain}, "
        f"from {item.stock} (layout {item.layout})"
    )
