"""From stock to parts: trims, rips and cross-cuts in the order of the cutting plan, or to plain sizes without one.

A piece on its way is named by what it will become. The four edges of a full sheet are trimmed first, `depth` off each
and the blade in it, all sheets at one setting. What a cut parts is `piece`; equal lines that follow each other are one
with their number. Rough blanks are milled, left to rest, and cut to their final size after all else.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from casewright.api.engine.work.milling import Milled, blanks_of, counted, is_under, milling
from casewright.api.engine.work.naming import summed_up
from casewright.api.engine.work.pieces import names_of
from casewright.api.stock import SawCaution, caution_texts, cautions_of
from casewright.sdk.model import Job, Part, SawCut, Stock, StockLayout, StockPlan
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece

__all__ = ["Breakdown", "breakdown_of", "quoting", "to_size"]

SAWS: Mapping[str, Machine] = {
    "fence": Machine.TABLE_SAW,
    "stop": Machine.CROSSCUT_SLED,
    "track": Machine.TRACK_SAW,
}
EDGES = 4
"""A full sheet is trimmed on so many edges."""

OPENING = frozenset({SawCaution.FIRST_CUT, SawCaution.ROUGH_EDGE})
"""Cautions about a whole piece of stock."""

Made = tuple[StockLayout, SawCut]


@dataclass(frozen=True, slots=True)
class Breakdown:
    """Operations that cut parts, unnumbered, in working order, and the numbers of the saw cuts that each makes."""

    operations: tuple[Operation, ...]
    cuts: tuple[tuple[int, ...], ...]


def breakdown_of(job: Job, parts: Mapping[str, Part], plan: StockPlan | None) -> Breakdown:
    """Return how parts are cut: those of the cutting plan from stock, all others to plain sizes."""
    if plan is None or job.stock is None:
        return _plainly(to_size(parts.values()))
    sawn = _FromStock(job, job.stock, plan, parts).breakdown()
    cut = Counter(placed.part for layout in plan.layouts for placed in layout.placed)
    short = [replace(part, quantity=part.quantity - cut[part.id]) for part in parts.values()]
    rest = _plainly(to_size(part for part in short if part.quantity))
    return Breakdown((*sawn.operations, *rest.operations), (*sawn.cuts, *rest.cuts))


def quoting(plan: StockPlan, breakdown: Breakdown, steps: Iterable[Operation]) -> StockPlan:
    """Return a cutting plan whose cuts quote the steps that make them."""
    numbers: dict[tuple[Action, Setting, tuple[Workpiece, ...]], list[int]] = {}
    for step in steps:
        numbers.setdefault((step.action, step.setting, step.on), []).append(step.number)
    step_of: dict[int, int] = {}
    for operation, cuts in zip(breakdown.operations, breakdown.cuts, strict=True):
        number = numbers[operation.action, operation.setting, operation.on].pop(0)
        step_of.update(dict.fromkeys(cuts, number))
    layouts = [
        replace(layout, cuts=tuple([replace(cut, step=step_of[cut.number]) for cut in layout.cuts]))
        for layout in plan.layouts
    ]
    return replace(plan, layouts=tuple(layouts))


def _plainly(operations: list[Operation]) -> Breakdown:
    return Breakdown(tuple(operations), ((),) * len(operations))


class _FromStock:
    """The layouts of one cutting plan with the names of their pieces, and what is trimmed and milled of them."""

    def __init__(self, job: Job, stock: Stock, plan: StockPlan, parts: Mapping[str, Part]) -> None:
        self.job, self.stock, self.plan, self.parts = job, stock, plan, parts
        full = {piece.id for piece in stock.sheets} if stock.edge_trim else set()
        self.trims = {layout.number: _trims(layout) for layout in plan.layouts if layout.stock in full}
        trimmed = {(number, cut.makes) for number, cuts in self.trims.items() for cut in cuts}
        self.milled: Milled = blanks_of(plan, stock, parts)
        self.names = names_of(plan.layouts, self.milled, parts, trimmed)

    def breakdown(self) -> Breakdown:
        """Return the operations that cut the layouts: each saw setting is one, or several in a row.

        There are several where a distance is used both along the stock and across it. A distance that serves both
        before milling and after it is set twice.
        """
        trimmed = {cut.number for cuts in self.trims.values() for cut in cuts}
        made = sorted(((layout, cut) for layout in self.plan.layouts for cut in layout.cuts), key=_number)
        first: list[tuple[Operation, tuple[int, ...]]] = []
        final: list[tuple[Operation, tuple[int, ...]]] = []
        for _, visit in groupby(made, key=lambda one: one[1].setting):
            cuts = [one for one in visit if one[1].number not in trimmed]
            for after_milling, out in ((False, first), (True, final)):
                chosen = [one for one in cuts if is_under(self.milled, one[0].number, one[1].piece) is after_milling]
                out += [self._cut(list(alike)) for _, alike in groupby(chosen, key=lambda one: one[1].along)]
        mill: list[tuple[Operation, tuple[int, ...]]] = [
            (operation, ()) for operation in milling(self.plan, self.stock, self.milled, self.names)
        ]
        every = [*self._trim(), *first, *mill, *final]
        return Breakdown(tuple([operation for operation, _ in every]), tuple([cuts for _, cuts in every]))

    def _trim(self) -> Iterator[tuple[Operation, tuple[int, ...]]]:
        """Yield the one operation that trims every full sheet, where any is."""
        sheets = [f"{layout.stock} {layout.number}" for layout in self.plan.layouts if self.trims.get(layout.number)]
        if sheets:
            setting = Setting(depth=self.stock.edge_trim, kerf=self.stock.kerf)
            on = tuple([Workpiece(piece=sheet, keeps=sheet) for sheet in sheets])
            numbers = tuple([cut.number for cuts in self.trims.values() for cut in cuts])
            yield Operation(0, Stage.CUT, Machine.TRACK_SAW, Action.TRIM, setting, on), numbers

    def _cut(self, cuts: Sequence[Made]) -> tuple[Operation, tuple[int, ...]]:
        first = cuts[0][1]
        rip = first.along == "length"
        operation = Operation(
            number=0,
            stage=Stage.CUT,
            machine=SAWS[first.tool],
            action=Action.RIP if rip else Action.CROSSCUT,
            setting=Setting(fence=first.fence if rip else None, stop=None if rip else first.fence, kerf=first.kerf),
            on=tuple(counted([self._workpiece(layout, cut) for layout, cut in cuts])),
            cautions=caution_texts(
                (caution, f"{layout.stock} {layout.number}" if caution in OPENING else self._title(layout, cut))
                for layout, cut in cuts
                for caution in cautions_of(layout, cut, self.job.shop.crosscut_capacity)
            ),
        )
        return operation, tuple([cut.number for _, cut in cuts])

    def _workpiece(self, layout: StockLayout, cut: SawCut) -> Workpiece:
        names = self.names[layout.number]
        made, left = names[cut.makes], names.get(cut.leaves, "")
        keeps, leaves = (made, left) if cut.rides == "makes" else (left, made)
        return Workpiece(piece=names[cut.piece], keeps=keeps, leaves=leaves)

    def _title(self, layout: StockLayout, cut: SawCut) -> str:
        """Return the piece that a cut makes in words."""
        name = self.names[layout.number][cut.makes]
        part = self.parts.get(name.removesuffix(", ripped"))
        return name if part is None else summed_up([part], Counter())


def _number(made: Made) -> int:
    return made[1].number


def _trims(layout: StockLayout) -> list[SawCut]:
    """Return the cuts that trim a full sheet: one of each piece from the whole sheet inward."""
    by_piece = {cut.piece: cut for cut in layout.cuts}
    out: list[SawCut] = []
    piece = layout.tree
    while len(out) < EDGES:
        out.append(by_piece[piece.label])
        piece = piece.inside[0]
    return out


def to_size(parts: Iterable[Part], kerf: int = 0) -> list[Operation]:
    """Return the operations that cut parts to their sizes where no stock is given: rips, then cross-cuts."""
    rips: dict[tuple[str, int], list[Part]] = {}
    stops: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        rips.setdefault((part.material, part.width), []).append(part)
        stops.setdefault((part.material, part.length), []).append(part)
    out = []
    for (material, width), group in sorted(rips.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(
            Workpiece(piece=material, count=part.quantity, keeps=f"{part.id}, ripped", leaves=material)
            for part in group
        )
        out.append(Operation(0, Stage.CUT, Machine.TABLE_SAW, Action.RIP, Setting(fence=width, kerf=kerf), on))
    for (_, length), group in sorted(stops.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(Workpiece(piece=f"{part.id}, ripped", count=part.quantity, keeps=part.id) for part in group)
        out.append(Operation(0, Stage.CUT, Machine.CROSSCUT_SLED, Action.CROSSCUT, Setting(stop=length, kerf=kerf), on))
    return out
