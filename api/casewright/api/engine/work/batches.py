"""Identical parts of several cabinets as one batch to cut, and the cutting plan named part by part again."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import repeat

from casewright.api.stock import Demand
from casewright.sdk.model import CutPiece, Shortage, StockLayout, StockPlan


@dataclass(frozen=True, slots=True)
class Batch:
    """Identical parts: one demand for all of them (named by the first), and the id and quantity of each."""

    demand: Demand
    members: tuple[tuple[str, int], ...]


def batches_of(demands: Sequence[Demand]) -> tuple[Batch, ...]:
    """Return the demands with identical ones merged, in the order each kind first comes.

    Identical is the same material, size and grain: what the saw is set to. The parts of a row are its own.
    """
    batches: dict[Demand, list[Demand]] = {}
    for demand in demands:
        batches.setdefault(replace(demand, id="", quantity=0, label=""), []).append(demand)
    return tuple(
        Batch(
            replace(group[0], quantity=sum(d.quantity for d in group)),
            tuple((d.id, d.quantity) for d in group),
        )
        for group in batches.values()
    )


def named(plan: StockPlan, batches: Sequence[Batch]) -> StockPlan:
    """Return the plan with each piece named by its own part: parts are taken in order along the layouts."""
    names = {batch.demand.id: _each(batch.members) for batch in batches if not batch.demand.row}
    names |= {part.id: repeat(part.id) for batch in batches for part in batch.demand.row}
    layouts = tuple([_layout(layout, names) for layout in plan.layouts])
    short = tuple([row for one in plan.short for row in _short(one, names[one.part])])
    return replace(
        plan,
        layouts=layouts,
        short=short,
    )


def _each(members: Sequence[tuple[str, int]]) -> Iterator[str]:
    for part, quantity in members:
        for _ in range(quantity):
            yield part


def _layout(layout: StockLayout, names: Mapping[str, Iterator[str]]) -> StockLayout:
    placed = tuple([replace(piece, part=next(names[piece.part])) for piece in layout.placed])
    at = {(piece.x, piece.y): piece.part for piece in placed}
    return replace(layout, placed=placed, tree=_tree(layout.tree, at))


def _tree(piece: CutPiece, at: Mapping[tuple[int, int], str]) -> CutPiece:
    if piece.what == "part":
        return replace(piece, part=at[piece.x, piece.y])
    return replace(piece, inside=tuple([_tree(kid, at) for kid in piece.inside])) if piece.inside else piece


def _short(short: Shortage, names: Iterator[str]) -> list[Shortage]:
    """Name the parts that no piece was found for: those that are left."""
    left = Counter(next(names) for _ in range(short.quantity))
    return [replace(short, part=part, quantity=count) for part, count in left.items()]
