"""From blocks to a numbered list of saw settings, choosing among equally good ways to cut by fewer returns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from casewright.api.stock.forest import Block
from casewright.api.stock.request import ShopLimits
from casewright.api.stock.saws import SAW_TOOLS, Saws, StraightCut
from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task, WorkingOrder
from casewright.sdk.model.stock import SawTool

SettingKey = tuple[int, int, SawTool, int]
"""Rank of the tool, minus the distance, the tool, and for a track the piece it is laid on, in the order to be used."""
RANK: dict[SawTool, int] = {"track": 0, "fence": 1, "stop": 2}
EVERY = -1
"""A fence or stop, once set, is for all pieces."""


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


def tool_of(block: Block, size: int, limits: ShopLimits) -> SawTool:
    """Return what measures a cut of a block at so far from its side: the block as it lies before its first cut."""
    saw = saws_of(limits).machine(StraightCut(block.size(1 - block.axis), block.size(block.axis), size))
    return SAW_TOOLS[saw]


@lru_cache(maxsize=16)
def saws_of(limits: ShopLimits) -> Saws:
    """Return the saws that a request's limits speak of."""
    return Saws(limits.machines, limits.rip_capacity, limits.crosscut_capacity)


def _key(block: Block, size: int, task: int, limits: ShopLimits) -> SettingKey:
    """Return the setting for a cut: a track is laid anew on each piece, so its cuts wait for no other piece."""
    tool = tool_of(block, size, limits)
    return RANK[tool], -size, tool, task if tool == "track" else EVERY


def tasks_of(
    blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, either_side: bool = False
) -> SawTasks:
    """Tasks of all pieces. `boards[i]` says whether piece i is a board; `either_side` lets leftovers of others ride."""
    keys: list[SettingKey] = []
    made = SawTasks(keys, [], [], [], [])
    wanted: list[tuple[list[tuple[SettingKey, int]], bool, SettingKey | None]] = []

    def add(block: Block, board: bool, owner: int) -> int:
        if not block.kids:
            return -1
        at = len(wanted)
        cuts: list[tuple[SettingKey, int]] = []
        wanted.append((cuts, block.exact, _other_key(block, at, limits) if either_side and not board else None))
        made.blocks.append(block)
        made.owner.append(owner)
        for kid in block.kids:
            key = _key(block, kid.size(block.axis), at, limits)
            cuts.append((key, add(kid, board, owner)))
        return at

    for owner, (block, board) in enumerate(zip(blocks, boards, strict=True)):
        root = add(block, board, owner)
        if root >= 0:
            made.roots.append(root)
    every = {key for cuts, _, _ in wanted for key, _ in cuts} | {other for _, _, other in wanted if other is not None}
    keys += sorted(every)
    number = {key: i for i, key in enumerate(keys)}
    made.tasks += [
        Task(tuple([(number[key], kid) for key, kid in cuts]), exact, -1 if other is None else number[other])
        for cuts, exact, other in wanted
    ]
    return made


def _other_key(block: Block, task: int, limits: ShopLimits) -> SettingKey | None:
    """Give the setting at which what is left over rides the fence for the last cut, if it is wide enough to."""
    if not block.kids or block.exact or block.rest < limits.small_piece // 3:
        return None
    return _key(block, block.rest, task, limits)


def order_cuts(
    blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, states: int
) -> tuple[SawTasks, WorkingOrder]:
    """Give the settings of a set of blocks in working order.

    A list that has returns is tried again with leftovers allowed to ride the fence.
    """
    made = tasks_of(blocks, boards, limits)
    order = sequence(made.tasks, made.roots, states)
    if order.returns:
        wider = tasks_of(blocks, boards, limits, True)
        second = sequence(wider.tasks, wider.roots, states)
        if second.returns < order.returns:
            return wider, second
        order = WorkingOrder(
            order.visits, order.returns, second.proved and second.returns == order.returns, second.bound
        )
    return made, order
