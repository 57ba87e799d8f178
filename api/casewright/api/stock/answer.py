"""Building the plan: numbers the cuts, lays out the cut trees in the order they are cut, and lists the rest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from casewright.api.stock.cautions import cautions_of
from casewright.api.stock.forest import Block
from casewright.api.stock.group import GroupResult, Sheet, worth_keeping
from casewright.api.stock.measure import board_feet, volume_board_feet
from casewright.api.stock.model import (
    Board,
    BoardPlan,
    Bound,
    Cut,
    Demand,
    Layout,
    Leftover,
    Pass,
    Piece,
    Placed,
    Purchase,
    Returns,
    Setting,
    ShopLimits,
    StockPiece,
    StockPlan,
)
from casewright.api.stock.operations import operation_settings
from casewright.api.stock.settings import Job, tool_of
from casewright.api.stock.shortage import shorts_of
from casewright.api.stock.tasks import WorkingOrder

Cutting = list[tuple[Sheet, list[Demand], bool]]


class Answer:
    """Puts one plan together."""

    def __init__(self, limits: ShopLimits, effort: int, pieces: list[StockPiece], boards: list[Board]) -> None:
        self.limits = limits
        self.effort = effort
        self.pieces = pieces
        self.boards = boards

    def build(
        self,
        results: Sequence[tuple[GroupResult, bool]],
        sheets: Cutting,
        blocks: Sequence[Block],
        job: Job,
        order: WorkingOrder,
    ) -> StockPlan:
        """Give the whole plan from the packed groups, the chosen blocks and the sequence of their cuts."""
        layouts, settings = self._layouts(sheets, blocks, job, order)
        leftovers = tuple(left for layout in layouts for left in layout.leftovers)
        placed = Counter(p.demand for layout in layouts for p in layout.placed)
        demands = {d.id: d for result, _ in results for d in result.parts}
        settings = (*settings, *operation_settings(demands, placed, self.limits, len(settings)))
        area = sum(layout.part_area for layout in layouts)
        stock_area = sum(layout.length * layout.width for layout in layouts)
        returns = Returns(order.returns, order.proved, order.bound, len({s for s, _ in order.visits}))
        return StockPlan(
            layouts=layouts,
            settings=settings,
            returns=returns,
            leftovers=leftovers,
            buy=self._buy(sheets),
            bounds=tuple(self._bound(result, board) for result, board in results),
            use=area / stock_area if stock_area else 0.0,
            short=shorts_of(results, self.pieces, self.boards, self.limits),
            boards=self._boards(layouts, sheets, demands),
            cautions=cautions_of(layouts, demands, placed, self.limits),
            effort=self.effort,
            steps=sum(result.steps for result, _ in results),
        )

    def _layouts(
        self, sheets: Cutting, blocks: Sequence[Block], job: Job, order: WorkingOrder
    ) -> tuple[tuple[Layout, ...], tuple[Setting, ...]]:
        cut_order: list[list[tuple[int, int, int]]] = [[] for _ in job.tasks]
        number = 0
        for visit, (_, made) in enumerate(order.visits):
            for task, place in made:
                number += 1
                cut_order[task].append((place, number, visit + 1))
        by_visit: list[list[Pass]] = [[] for _ in order.visits]
        layouts = []
        # one block object may stand for several equal pieces: tasks are looked up piece by piece
        owned: list[dict[int, int]] = [{} for _ in blocks]
        for task, block in enumerate(job.blocks):
            owned[job.owner[task]][id(block)] = task
        for at, ((sheet, parts, board), block) in enumerate(zip(sheets, blocks, strict=True)):
            drawer = _Drawer(board, parts, owned[at], cut_order, job, order, self.limits)
            tree = drawer.draw(block, str(at + 1), 0, 0, "stock")
            row = sheet.source.row
            cuts = tuple(sorted(drawer.cuts, key=lambda cut: cut.number))
            for cut in cuts:
                by_visit[cut.setting - 1].append(
                    Pass(cut.number, at + 1, drawer.demand_of.get(cut.makes, ""), 1, f"{cut.piece} gives {cut.makes}")
                )
            leftovers = tuple(
                Leftover(
                    at + 1,
                    row.id,
                    piece.label,
                    piece.dx,
                    piece.dy,
                    piece.what == "leftover",
                    row.material,
                    row.thickness,
                    sheet.source.grain,
                )
                for piece in drawer.rests
            )
            layouts.append(
                Layout(
                    at + 1,
                    row.id,
                    "board" if board else "sheet",
                    row.material,
                    row.thickness,
                    row.length,
                    row.width,
                    tuple(drawer.placed),
                    tree,
                    cuts,
                    leftovers,
                    sum(p.dx * p.dy for p in drawer.placed),
                )
            )
        settings = []
        for visit, (index, _) in enumerate(order.visits):
            _, negative, tool = job.keys[index]
            passes = tuple(sorted(by_visit[visit], key=lambda p: p.cut))
            assert tool in ("fence", "stop", "track")
            settings.append(Setting(visit + 1, tool, -negative, 0, 0, passes))  # type: ignore[arg-type]
        return tuple(layouts), tuple(settings)

    def _buy(self, sheets: Cutting) -> tuple[Purchase, ...]:
        counts: Counter[str] = Counter()
        rows: dict[str, StockPiece | Board] = {}
        for sheet, _, _ in sheets:
            row = sheet.source.row
            if row.copies is None:
                counts[row.id] += 1
                rows[row.id] = row
        return tuple(
            Purchase(
                name,
                rows[name].material,
                rows[name].thickness,
                rows[name].length,
                rows[name].width,
                n,
                None if (cost := rows[name].cost) is None else n * cost,
            )
            for name, n in sorted(counts.items())
        )

    def _bound(self, result: GroupResult, board: bool) -> Bound:
        first = result.parts[0]
        return Bound(
            first.material,
            first.thickness,
            "board" if board else "sheet",
            "area" if result.measure == "area" else "cost",
            result.bound,
            result.used,
            result.how,
        )

    def _boards(self, layouts: Sequence[Layout], sheets: Cutting, demands: dict[str, Demand]) -> tuple[BoardPlan, ...]:
        plans = []
        for layout, (sheet, _, board) in zip(layouts, sheets, strict=True):
            if not board:
                continue
            row = sheet.source.row
            feet = board_feet(row.thickness, row.width, row.length)
            volume = sum(
                volume_board_feet(demands[p.demand].thickness, demands[p.demand].width, demands[p.demand].length)
                for p in layout.placed
            )
            rips = tuple(c.fence for c in layout.cuts if c.tool != "stop")
            stops = tuple(c.fence for c in layout.cuts if c.tool == "stop")
            plans.append(BoardPlan(layout.number, row.id, rips, stops, feet, volume, volume / feet if feet else 0.0))
        return tuple(plans)


class _Drawer:
    """Lays the pieces of one layout out in the order they are cut."""

    def __init__(
        self,
        board: bool,
        parts: Sequence[Demand],
        tasks: dict[int, int],
        cut_order: list[list[tuple[int, int, int]]],
        job: Job,
        order: WorkingOrder,
        limits: ShopLimits,
    ) -> None:
        self.board = board
        self.parts = parts
        self.tasks = tasks
        self.cut_order = cut_order
        self.job = job
        self.order = order
        self.limits = limits
        self.cuts: list[Cut] = []
        self.placed: list[Placed] = []
        self.rests: list[Piece] = []
        self.demand_of: dict[str, str] = {}

    def draw(self, block: Block, label: str, x: int, y: int, what: str = "piece") -> Piece:
        """Give the piece of a block with its lower left corner at x, y."""
        if block.item >= 0:
            demand = self.parts[block.item]
            self.placed.append(Placed(demand.id, x, y, block.dx, block.dy, block.turned))
            self.demand_of[label] = demand.id
            return Piece(label, "part", x, y, block.dx, block.dy, demand.id)
        made = self.cut_order[self.tasks[id(block)]]
        places = [place for place, _, _ in made]
        places += [i for i in range(len(block.kids)) if i not in set(places)]
        kerf = self.limits.kerf
        axis = block.axis
        inside = []
        left = block.size(axis)
        at = 0
        rest_label = f"{label}.{len(block.kids) + 1}"
        for turn, place in enumerate(places):
            kid = block.kids[place]
            name = f"{label}.{turn + 1}"
            inside.append(self.draw(kid, name, x + at if axis == 0 else x, y if axis == 0 else y + at))
            size = kid.size(axis)
            if turn < len(made):
                _, number, visit = made[turn]
                last = turn == len(made) - 1
                if not last:
                    leaves = label
                elif block.exact:
                    leaves = f"{label}.{turn + 2}"
                else:
                    leaves = rest_label if block.rest else ""
                _, negative, tool = self.job.keys[self.order.visits[visit - 1][0]]
                rides = (
                    "makes" if tool_of(self.board, axis, size, self.limits) == tool and -negative == size else "leaves"
                )
                self.cuts.append(
                    Cut(
                        number,
                        label,
                        name,
                        leaves,
                        "width" if axis == 0 else "length",
                        tool,  # type: ignore[arg-type]
                        -negative,
                        "makes" if rides == "makes" else "leaves",
                        kerf,
                        block.size(1 - axis),
                        left,
                        visit,
                    )
                )
            left -= size + kerf
            at += size + kerf
        if block.rest:
            dx, dy = (block.rest, block.dy) if axis == 0 else (block.dx, block.rest)
            kind = "leftover" if worth_keeping(dx, dy, self.limits) else "waste"
            rest = Piece(
                rest_label,
                "leftover" if kind == "leftover" else "waste",
                x + at if axis == 0 else x,
                y if axis == 0 else y + at,
                dx,
                dy,
            )
            inside.append(rest)
            self.rests.append(rest)
        return Piece(
            label,
            "stock" if what == "stock" else "piece",
            x,
            y,
            block.dx,
            block.dy,
            cuts=tuple(number for _, number, _ in made),
            inside=tuple(inside),
        )
