"""A cutting plan whose cuts quote the steps that make them, with their saws and numbers."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from casewright.api.engine.work.breakdown import Breakdown
from casewright.api.engine.work.reach import OTHER
from casewright.api.stock import SAW_TOOLS
from casewright.sdk.model import Action, CutPiece, Machine, Operation, Setting, StockPlan, Workpiece

__all__ = ["quoting"]


def quoting(plan: StockPlan, breakdown: Breakdown, steps: Iterable[Operation]) -> StockPlan:
    """Return a cutting plan whose cuts are numbered in the order of the steps and quote those that make them."""
    numbers: dict[tuple[Action, Setting, tuple[Workpiece, ...]], list[int]] = {}
    for step in steps:
        numbers.setdefault((step.action, step.setting, step.on), []).append(step.number)
    step_of: dict[int, int] = {}
    saw_of: dict[int, Machine] = {}
    fence_of: dict[int, int | None] = {}
    for operation, cuts in breakdown.every:
        number = numbers[operation.action, operation.setting, operation.on].pop(0)
        step_of.update(dict.fromkeys(cuts, number))
        saw_of.update(dict.fromkeys(cuts, operation.machine))
        fence_of.update(dict.fromkeys(cuts, operation.setting.distance))
    turn_of = {cut: turn for turn, cut in enumerate(sorted(step_of, key=lambda cut: (step_of[cut], cut)), start=1)}
    layouts = []
    for layout in plan.layouts:
        made = [
            replace(
                cut,
                number=turn_of[cut.number],
                step=step_of[cut.number],
                tool=SAW_TOOLS.get(saw_of[cut.number], cut.tool),
                fence=fence_of[cut.number] or cut.fence,
                rides=cut.rides if fence_of[cut.number] in (None, cut.fence) else OTHER[cut.rides],
            )
            for cut in layout.cuts
        ]
        made.sort(key=lambda cut: cut.number)
        layouts.append(replace(layout, tree=_renumbered(layout.tree, turn_of), cuts=tuple(made)))
    return replace(plan, layouts=tuple(layouts))


def _renumbered(piece: CutPiece, turn_of: Mapping[int, int]) -> CutPiece:
    """Return a piece with the numbers its cuts have in the order of the steps."""
    if not piece.cuts:
        return piece
    inside = tuple([_renumbered(one, turn_of) for one in piece.inside])
    return replace(piece, cuts=tuple([turn_of[cut] for cut in piece.cuts]), inside=inside)
