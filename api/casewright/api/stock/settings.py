"""From blocks to a numbered list of saw settings, choosing among equally good ways to cut by fewer returns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.stock.forest import Block, Tool
from casewright.api.stock.model import ShopLimits
from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task, WorkingOrder

Key = tuple[int, int, str]  # rank of tool, minus distance, tool: sorted in the order to be used
RANK: dict[Tool, int] = {"track": 0, "fence": 1, "stop": 2}


@dataclass(slots=True)
class Job:
    """All pieces of stock of a job as tasks for the sequencer, and the way back to the blocks."""

    keys: list[Key]
    tasks: list[Task]
    roots: list[int]
    blocks: list[Block]
    kid_blocks: list[list[Block]]
    owner: list[int]


def tool_of(board: bool, axis: int, distance: int, limits: ShopLimits) -> Tool:
    """Boards are cross-cut to a stop; sheets ride the fence, or a track beyond the fence's capacity."""
    if board and axis == 0:
        return "stop"
    if limits.rip_capacity is not None and distance > limits.rip_capacity:
        return "track"
    return "fence"


def _keys_of(block: Block, board: bool, limits: ShopLimits, out: set[Key]) -> set[Key]:
    for kid in block.kids:
        size = kid.size(block.axis)
        tool = tool_of(board, block.axis, size, limits)
        out.add((RANK[tool], -size, tool))
        _keys_of(kid, board, limits, out)
    return out


def job_of(blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, either_side: bool = False) -> Job:
    """Tasks of all pieces. `boards[i]` says whether piece i is a rough board; `either_side` lets leftovers ride."""
    keys: set[Key] = set()
    for block, board in zip(blocks, boards, strict=True):
        _keys_of(block, board, limits, keys)
        if either_side and not board:
            _other_keys(block, limits, keys)
    ordered = sorted(keys)
    number = {key: i for i, key in enumerate(ordered)}
    job = Job(ordered, [], [], [], [], [])

    def add(block: Block, board: bool, owner: int) -> int:
        if not block.kids:
            return -1
        at = len(job.tasks)
        job.tasks.append(Task((), False))
        job.blocks.append(block)
        job.kid_blocks.append(block.kids)
        job.owner.append(owner)
        cuts = []
        for kid in block.kids:
            size = kid.size(block.axis)
            tool = tool_of(board, block.axis, size, limits)
            cuts.append((number[RANK[tool], -size, tool], add(kid, board, owner)))
        other = _other_key(block, limits) if either_side and not board else None
        job.tasks[at] = Task(tuple(cuts), block.exact, -1 if other is None else number[other])
        return at

    for owner, (block, board) in enumerate(zip(blocks, boards, strict=True)):
        root = add(block, board, owner)
        if root >= 0:
            job.roots.append(root)
    return job


def _other_key(block: Block, limits: ShopLimits) -> Key | None:
    """Give the setting at which what is left over rides the fence for the last cut, if it is wide enough to."""
    if not block.kids or block.exact or block.rest < limits.small_piece // 3:
        return None
    tool = tool_of(False, block.axis, block.rest, limits)
    return RANK[tool], -block.rest, tool


def _other_keys(block: Block, limits: ShopLimits, out: set[Key]) -> None:
    key = _other_key(block, limits)
    if key is not None:
        out.add(key)
    for kid in block.kids:
        _other_keys(kid, limits, out)


def order_of(
    blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, states: int, either_side: bool = False
) -> tuple[Job, WorkingOrder]:
    """Give the settings of a set of blocks in working order.

    With `either_side`, a list that has returns is tried again with leftovers allowed to ride the fence.
    """
    job = job_of(blocks, boards, limits)
    found = sequence(job.tasks, job.roots, states)
    if either_side and found.returns:
        wider = job_of(blocks, boards, limits, True)
        second = sequence(wider.tasks, wider.roots, states)
        if second.returns < found.returns:
            return wider, second
        found = WorkingOrder(
            found.visits, found.returns, second.proved and second.returns == found.returns, second.bound
        )
    return job, found
