"""From blocks to a numbered list of saw settings, choosing among equally good ways to cut by fewer returns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.stock.forest import Block, Tool
from casewright.api.stock.model import ShopLimits
from casewright.api.stock.sequence import Sequence_, Task, sequence

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


def job_of(blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits) -> Job:
    """Tasks of all pieces. `boards[i]` says whether piece i is a rough board."""
    keys: set[Key] = set()
    for block, board in zip(blocks, boards, strict=True):
        _keys_of(block, board, limits, keys)
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
        job.tasks[at] = Task(tuple(cuts), block.exact)
        return at

    for owner, (block, board) in enumerate(zip(blocks, boards, strict=True)):
        root = add(block, board, owner)
        if root >= 0:
            job.roots.append(root)
    return job


def order_of(blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, states: int) -> tuple[Job, Sequence_]:
    """The settings of a set of blocks in working order."""
    job = job_of(blocks, boards, limits)
    return job, sequence(job.tasks, job.roots, states)


def choose_ways(
    ways: Sequence[Sequence[Block]],
    keeps: Sequence[Sequence[int]],
    boards: Sequence[bool],
    limits: ShopLimits,
    trials: int,
    states: int,
) -> list[int]:
    """For each piece the way to cut it: fewest returns, then fewest settings, then most kept leftover.

    One piece at a time is changed, in rounds, at most `trials` orders in all; a way that keeps less than four fifths
    of the best leftover is not taken.
    """
    allowed = []
    for keep in keeps:
        top = max(keep)
        allowed.append([i for i, k in enumerate(keep) if 5 * k >= 4 * top])
    chosen = [min(a, key=[-k for k in keep].__getitem__) for a, keep in zip(allowed, keeps, strict=True)]

    def score() -> tuple[int, int, int]:
        job, found = order_of([w[c] for w, c in zip(ways, chosen, strict=True)], boards, limits, states)
        return found.returns, len(found.visits), -sum(k[c] for k, c in zip(keeps, chosen, strict=True))

    best = score()
    tried = 1
    moved = True
    while moved and tried < trials:
        moved = False
        for at in range(len(ways)):
            now = chosen[at]
            for way in allowed[at]:
                if way == now or tried >= trials:
                    continue
                chosen[at] = way
                tried += 1
                got = score()
                if got < best:
                    best, now, moved = got, way, True
            chosen[at] = now
    return chosen
