"""How to cut the parts, as it leaves: lengths as numbers in job units with bench text beside them."""

from collections.abc import Sequence

from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk.model import (
    SHORT_REASONS,
    BoardYield,
    CleanPiece,
    CutPiece,
    Lacking,
    Leftover,
    PlacedPart,
    Purchase,
    PurchaseBound,
    SawCut,
    StockLayout,
    StockPiece,
    StockPlan,
)
from casewright.sdk.model.stock import MINOR_UNITS


def stock_document(plan: StockPlan, lengths: Lengths) -> Document:
    """Return the plan document's `stock`."""
    writer = _StockWriter(lengths)
    return {
        "layouts": [writer.layout(layout) for layout in plan.layouts],
        "returns": plan.returns.count,
        "returns_proved": plan.returns.proved,
        "returns_bound": plan.returns.bound,
        "returns_by_setting": plan.returns.by_setting,
        "different_settings": plan.returns.settings,
        "pieces_at_hand": plan.returns.at_hand,
        "leftovers": [writer.leftover(item) for item in plan.leftovers],
        "buy": [writer.purchase(item) for item in plan.buy],
        "bound": [writer.bound(bound) for bound in plan.bounds],
        "use": plan.use,
        "short": [
            {
                "part": short.part,
                "quantity": short.quantity,
                "material": short.material,
                "cause": short.reason,
                "reason": SHORT_REASONS[short.reason],
            }
            for short in plan.short
        ],
        "lacking": [writer.lacking(one) for one in plan.lacking],
        "boards": [writer.board(board) for board in plan.boards],
        "effort": plan.effort,
        "steps": plan.steps,
    }


def pieces_document(pieces: Sequence[StockPiece], lengths: Lengths) -> Document:
    """Return pieces of stock as a job lists them, to begin the next one with."""
    out: Document = {"sheets": [], "offcuts": [], "boards": []}
    for piece in pieces:
        row: Document = {
            "id": piece.id,
            "material": piece.material,
            "length": lengths.numbers[piece.length],
            "width": lengths.numbers[piece.width],
            "copies": piece.copies,
        }
        if piece.cost is not None:
            row["cost"] = float(piece.cost)
        if piece.kind == "board":
            row |= {"thickness": lengths.numbers[piece.thickness], "surfaced": piece.surfaced, "grade": piece.grade}
            row |= {name: lengths.numbers[getattr(piece, name)] for name in ("cup", "twist", "taper")}
        else:
            row["grain"] = piece.grain
            if piece.taper:
                row["taper"] = lengths.numbers[piece.taper]
        if piece.defects:
            row["defects"] = [
                {name: lengths.numbers[getattr(one, name)] for name in ("x", "y", "length", "width")}
                for one in piece.defects
            ]
        out[f"{piece.kind}s"].append(row)
    return out


def clean_document(one: CleanPiece, lengths: Lengths) -> Document:
    """Return a clean piece of one with defects: what it is cut from, where it lies on that, and its size."""
    places = {"x": one.x, "y": one.y, "length": one.piece.length, "width": one.piece.width}
    return {"stock": one.stock, "piece": one.piece.id, **{name: lengths.numbers[nm] for name, nm in places.items()}}


class _StockWriter:
    def __init__(self, lengths: Lengths) -> None:
        self.numbers, self.texts = lengths.numbers, lengths.texts

    def size(self, name: str, nm: int) -> Document:
        return {name: self.numbers[nm], f"{name}_text": self.texts[nm]}

    def layout(self, layout: StockLayout) -> Document:
        return {
            "number": layout.number,
            "stock": layout.stock,
            "kind": layout.kind,
            "material": layout.material,
            **self.size("thickness", layout.thickness),
            **self.size("length", layout.length),
            **self.size("width", layout.width),
            "use": layout.use,
            "parts": [self.placed(part) for part in layout.placed],
            "tree": self.piece(layout.tree),
            "cuts": [self.cut(cut) for cut in layout.cuts],
        }

    def placed(self, part: PlacedPart) -> Document:
        return {
            "part": part.part,
            "x": self.numbers[part.x],
            "y": self.numbers[part.y],
            "along_length": self.numbers[part.dx],
            "along_width": self.numbers[part.dy],
            "turned": part.turned,
        }

    def piece(self, piece: CutPiece) -> Document:
        out: Document = {
            "piece": piece.label,
            "what": piece.what,
            "x": self.numbers[piece.x],
            "y": self.numbers[piece.y],
            "length": self.numbers[piece.dx],
            "width": self.numbers[piece.dy],
        }
        if piece.part:
            out["part"] = piece.part
        if piece.cuts:
            out["cuts"] = piece.cuts
            out["inside"] = [self.piece(inner) for inner in piece.inside]
        return out

    def cut(self, cut: SawCut) -> Document:
        return {
            "number": cut.number,
            "piece": cut.piece,
            "makes": cut.makes,
            "leaves": cut.leaves or None,
            "along": cut.along,
            "tool": cut.tool,
            **self.size("fence", cut.fence),
            "rides": cut.rides,
            "kerf": self.numbers[cut.kerf],
            "step": cut.step,
        }

    def leftover(self, item: Leftover) -> Document:
        return {
            "layout": item.layout,
            "stock": item.stock,
            "piece": item.piece,
            **self.size("length", item.length),
            **self.size("width", item.width),
            "keep": item.keep,
            "line": item.label(self.texts.__getitem__),
        }

    def purchase(self, item: Purchase) -> Document:
        return {
            "stock": item.stock or None,
            "material": item.material,
            "quantity": item.quantity,
            **self.size("thickness", item.thickness),
            **self.size("length", item.length),
            **self.size("width", item.width),
            "cost": None if item.cost is None else item.cost / MINOR_UNITS,
            "grain": item.grain,
        }

    def lacking(self, one: Lacking) -> Document:
        return {
            "material": one.material,
            "kind": one.kind,
            **self.size("thickness", one.thickness),
            "parts": one.parts,
            "buy": [self.purchase(bought) for bought in one.buy],
            "turn": one.turn,
            "unmatch": one.unmatch,
        }

    def bound(self, bound: PurchaseBound) -> Document:
        if bound.measure == "area":
            figures = {"least_m2": bound.least / 1e6, "bought_m2": bound.bought / 1e6}
        else:
            figures = {"least_cost": bound.least / MINOR_UNITS, "bought_cost": bound.bought / MINOR_UNITS}
        return {
            "material": bound.material,
            **self.size("thickness", bound.thickness),
            "kind": bound.kind,
            "measure": bound.measure,
            **figures,
            "proved_least": bound.least == bound.bought,
            "how": bound.how,
        }

    def board(self, board: BoardYield) -> Document:
        return {
            "layout": board.layout,
            "stock": board.stock,
            "rips": [self.size("distance", nm) for nm in board.rips],
            "crosscuts": [self.size("distance", nm) for nm in board.crosscuts],
            "board_feet": board.board_feet,
            "part_board_feet": board.part_board_feet,
            "use": board.use,
        }
