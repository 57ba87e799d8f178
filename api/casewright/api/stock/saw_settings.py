"""From blocks to a numbered list of saw settings, choosing among equally good ways to cut by fewer returns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from casewright.api.stock.forest import Block
from casewright.api.stock.request import ShopLimits
from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task, WorkingOrder
from casewright.sdk.model.stock import SawTool

SettingKey = tuple[int, int, SawTool]  # rank of tool, minus distance, tool: sorted in the order to be used
RANK: dict[SawTool, int] = {"track": 0, "fence": 1, "stop": 2}


class MadeCut(NamedTuple):
    """A cut as it is made: its place among the cuts of its piece, its number, the visit it is made at, the setting."""

    place: int
    number: int
    visit: int
    key: SettingKey


@dataclass(slots=True)
class SawTasks:
    """All pieces of stock of a job as tasks for the sequencer, and the way back to the blocks."""

    keys: list[SettingKey]
    tasks: list[Task]
    roots: list[int]
    blocks: list[Block]
    owner: list[int]


def tool_of(board: bool, axis: int, distance: int, limits: ShopLimits) -> SawTool:
    """Boards are cross-cut to a stop; sheets ride the fence, or a track beyond the fence's capacity."""
    if board and axis == 0:
        return "stop"
    if limits.rip_capacity is not None and distance > limits.rip_capacity:
        return "track"
    return "fence"


def _keys_of(block: Block, board: bool, limits: ShopLimits, out: set[SettingKey]) -> set[SettingKey]:
    for kid in block.kids:
        size = kid.size(block.axis)
        tool = tool_of(board, block.axis, size, limits)
        out.add((RANK[tool], -size, tool))
        _keys_of(kid, board, limits, out)
    return out


def tasks_of(
    blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, either_side: bool = False
) -> SawTasks:
    """Tasks of all pieces. `boards[i]` says whether piece i is a rough board; `either_side` lets leftovers ride."""
    keys: set[SettingKey] = set()
    for block, board in zip(blocks, boards, strict=True):
        _keys_of(block, board, limits, keys)
        if either_side and not board:
            _other_keys(block, limits, keys)
    ordered = sorted(keys)
    number = {key: i for i, key in enumerate(ordered)}
    made = SawTasks(ordered, [], [], [], [])

    def add(block: Block, board: bool, owner: int) -> int:
        if not block.kids:
            return -1
        at = len(made.tasks)
        made.tasks.append(Task((), False))
        made.blocks.append(block)
        made.owner.append(owner)
        cuts = []
        for kid in block.kids:
            size = kid.size(block.axis)
            tool = tool_of(board, block.axis, size, limits)
            cuts.append((number[RANK[tool], -size, tool], add(kid, board, owner)))
        other = _other_key(block, limits) if either_side and not board else None
        made.tasks[at] = Task(tuple(cuts), block.exact, -1 if other is None else number[other])
        return at

    for owner, (block, board) in enumerate(zip(blocks, boards, strict=True)):
        root = add(block, board, owner)
        if root >= 0:
            made.roots.append(root)
    return made


def _other_key(block: Block, limits: ShopLimits) -> SettingKey | None:
    """Give the setting at which what is left over rides the fence for the last cut, if it is wide enough to."""
    if not block.kids or block.exact or block.rest < limits.small_piece // 3:
        return None
    tool = tool_of(False, block.axis, block.rest, limits)
    return RANK[tool], -block.rest, tool


def _other_keys(block: Block, limits: ShopLimits, out: set[SettingKey]) -> None:
    key = _other_key(block, limits)
    if key is not None:
        out.add(key)
    for kid in block.kids:
        _other_keys(kid, limits, out)


def order_cuts(
    blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, states: int
) -> tuple[SawTasks, WorkingOrder]:
    """Give the settings of a set of blocks in working order.

    A list that has returns is tried again with leftovers allowed to ride the fence.
    """
    made = tasks_of(blocks, boards, limits)
    found = sequence(made.tasks, made.roots, states)
    if found.returns:
        wider = tasks_of(blocks, boards, limits, True)
        second = sequence(wider.tasks, wider.roots, states)
        if second.returns < found.returns:
            return wider, second
        found = WorkingOrder(
            found.visits, found.returns, second.proved and second.returns == found.returns, second.bound
        )
    return made, found
