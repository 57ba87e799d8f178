"""Building the plan: numbers the cuts, lays out the cut trees in the order they are cut, and lists the rest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import fsum

from casewright.api.stock.board_measure import board_feet, volume_board_feet
from casewright.api.stock.cut_tree import CutTree
from casewright.api.stock.fewer_settings import SawnPiece
from casewright.api.stock.group import GroupResult
from casewright.api.stock.lots import at_hand
from casewright.api.stock.request import Demand, StockRequest
from casewright.api.stock.saw_settings import MadeCut, SawTasks
from casewright.api.stock.shortage import lacking_of, shortages_of
from casewright.api.stock.sources import Source
from casewright.api.stock.tasks import WorkingOrder
from casewright.sdk.model import (
    BoardYield,
    Leftover,
    Purchase,
    PurchaseBound,
    Returns,
    StockLayout,
    StockPlan,
)
from casewright.sdk.model.stock import SawTool


class Answer:
    """Puts one plan together from the packed groups and the sequence of their cuts."""

    def __init__(
        self, request: StockRequest, results: Sequence[GroupResult], tasks: SawTasks, order: WorkingOrder
    ) -> None:
        self.request, self.limits = request, request.limits
        self.results, self.tasks, self.order = results, tasks, order

    def build(self, sawn: Sequence[SawnPiece], by_setting: int) -> StockPlan:
        """Give the whole plan of the pieces as they are sawn, which `by_setting` takes so many returns."""
        sources = [self.results[s.group].sources[s.bin.size] for s in sawn]
        layouts = self._layouts(sawn, sources)
        demands = {d.id: d for result in self.results for d in result.pieces}
        area = sum(layout.part_area for layout in layouts)
        stock_area = sum(layout.length * layout.width for layout in layouts)
        order = self.order
        settings = len({self._distance(key) for key, _ in order.visits})
        return StockPlan(
            layouts=layouts,
            returns=Returns(order.returns, order.proved, order.bound, settings, by_setting, at_hand(self.tasks, order)),
            leftovers=tuple(left for layout in layouts for left in layout.leftovers),
            buy=_buy(sources),
            bounds=tuple(_bound(result) for result in self.results if not result.absent),
            use=area / stock_area if stock_area else 0.0,
            short=shortages_of(self.results, self.request.pieces),
            lacking=lacking_of(self.results, self.request),
            boards=tuple(_board(layout, demands) for layout in layouts if layout.kind == "board"),
            effort=self.request.effort,
            steps=sum(result.steps for result in self.results),
        )

    def _distance(self, key: int) -> tuple[int, SawTool]:
        """Give the distance that a setting is to, and what measures it."""
        _, distance, tool, _ = self.tasks.keys[key]
        return distance, tool

    def _layouts(self, sawn: Sequence[SawnPiece], sources: Sequence[Source]) -> tuple[StockLayout, ...]:
        made: list[list[MadeCut]] = [[] for _ in self.tasks.tasks]
        number = setting = 0
        before = None
        for key, cuts in self.order.visits:
            now = self._distance(key)
            setting += now != before
            before = now
            for task, place in cuts:
                number += 1
                made[task].append(MadeCut(place, number, setting, self.tasks.keys[key]))
        # one block object may stand for several equal pieces: tasks are looked up piece by piece
        owned: list[dict[int, list[MadeCut]]] = [{} for _ in sawn]
        for task, block in enumerate(self.tasks.blocks):
            owned[self.tasks.owner[task]][id(block)] = made[task]
        layouts = []
        for at, (one, source) in enumerate(zip(sawn, sources, strict=True)):
            result = self.results[one.group]
            layouts.append(_layout(at + 1, one, source, CutTree(result.kind, result.pieces, owned[at], self.limits)))
        return tuple(layouts)


def _layout(number: int, sawn: SawnPiece, source: Source, tree: CutTree) -> StockLayout:
    root = tree.draw(sawn.block, str(number), 0, 0, "stock")
    piece = source.piece
    return StockLayout(
        number=number,
        stock=piece.id,
        kind=tree.kind,
        material=piece.material,
        thickness=piece.thickness,
        length=piece.length,
        width=piece.width,
        placed=tuple(tree.placed),
        tree=root,
        cuts=tuple(sorted(tree.cuts, key=lambda cut: cut.number)),
        leftovers=tuple(
            Leftover(
                layout=number,
                stock=piece.id,
                piece=rest.label,
                length=rest.dx,
                width=rest.dy,
                keep=rest.what == "leftover",
                material=piece.material,
                thickness=piece.thickness,
                grain=piece.grain,
            )
            for rest in tree.rests
        ),
        part_area=sum(p.dx * p.dy for p in tree.placed),
    )


def _buy(sources: Sequence[Source]) -> tuple[Purchase, ...]:
    bought = {s.piece.id: s for s in sources if s.piece.copies is None}
    counts = Counter(s.piece.id for s in sources if s.piece.copies is None)
    return tuple(_purchase(bought[name], n) for name, n in sorted(counts.items()))


def _purchase(source: Source, count: int) -> Purchase:
    piece, cost = source.piece, source.cost
    total = None if cost is None else count * cost
    return Purchase(piece.id, piece.material, piece.thickness, piece.length, piece.width, count, total, piece.grain)


def _bound(result: GroupResult) -> PurchaseBound:
    first = result.parts[0]
    return PurchaseBound(
        material=first.material,
        thickness=first.thickness,
        kind=result.kind,
        measure=result.measure,
        least=result.bound,
        bought=result.used,
        how=result.how,
    )


def _board(layout: StockLayout, demands: dict[str, Demand]) -> BoardYield:
    feet = board_feet(layout.thickness, layout.width, layout.length)
    parts = [demands[p.part] for p in layout.placed]
    part_feet = fsum(volume_board_feet(d.thickness, d.width, d.length) for d in parts)
    return BoardYield(
        layout=layout.number,
        stock=layout.stock,
        rips=tuple(c.fence for c in layout.cuts if c.tool != "stop"),
        crosscuts=tuple(c.fence for c in layout.cuts if c.tool == "stop"),
        board_feet=feet,
        part_board_feet=part_feet,
        use=part_feet / feet if feet else 0.0,
    )
