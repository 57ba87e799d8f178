"""Cuts that wait for a measurement on the work, taken out of how parts are cut, and the last cuts of what is over size.

The last cut that gives a size waits, and with it every later cut of that part. Pieces of one part alone are named by
it, so none of another waits with them.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.work.machines import sawn_at
from casewright.api.engine.work.naming import STRIP, TO_FIT, TURNED, left_over_size
from casewright.api.engine.work.pieces import pieces_in
from casewright.api.engine.work.waiting import Waiting
from casewright.api.stock import Saws, StraightCut
from casewright.sdk.model import (
    Action,
    FromWork,
    Job,
    Machine,
    Measurement,
    Operation,
    Part,
    Stage,
    StockPlan,
    Workpiece,
)

__all__ = ["LateCut", "Sawn", "last_cuts", "late_cuts"]

SAWN = (Action.RIP, Action.CROSSCUT)
Sized = tuple[Measurement, FromWork]
Sawn = tuple[Operation, tuple[int, ...]]
"""An operation, and the numbers of the saw cuts that it makes."""


@dataclass(frozen=True, slots=True)
class LateCut:
    """A cut that waits, with the numbers of the saw cuts it makes; `sized` where its own distance is measured for."""

    operation: Operation
    cuts: tuple[int, ...]
    parts: frozenset[str]
    sized: Sized | None


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of an operation that cuts one part alone: which operation, which line, and how far it is set."""

    operation: int
    line: int
    action: Action
    at: int | None


def last_cuts(job: Job, plan: StockPlan, parts: Mapping[str, Part]) -> Iterator[Operation]:
    """Yield the operations that cut to size what layouts leave over size: rips, then crosscuts."""
    leaves = Counter(
        (name, leaf.part, leaf.dx, leaf.dy)
        for layout in plan.layouts
        for leaf in pieces_in(layout.tree)
        if leaf.what == "part" and leaf.part in parts
        if (name := left_over_size(leaf, parts[leaf.part])) != leaf.part
    )
    saws, kerf = Saws.of(job.shop), job.stock.kerf if job.stock else 0
    lines: dict[tuple[Action, int, Machine], list[Workpiece]] = {}
    for (name, part, long, wide), count in leaves.items():
        turned = TURNED in name.split(", ")
        length, width = parts[part].length, parts[part].width
        along, across = (width, length) if turned else (length, width)
        ripped = f"{part}, {TO_FIT}, {TURNED}, ripped" if turned else f"{part}, {TO_FIT}, ripped"
        if wide > across:
            line = Workpiece(piece=name, count=count, keeps=ripped if long > along else part)
            lines.setdefault((Action.RIP, across, saws.machine(StraightCut(long, wide, across))), []).append(line)
        if long > along:
            line = Workpiece(piece=ripped if wide > across else name, count=count, keeps=part)
            lines.setdefault((Action.CROSSCUT, along, saws.machine(StraightCut(across, long, along))), []).append(line)
    for (action, at, saw), on in sorted(lines.items(), key=lambda item: (item[0][0] is Action.CROSSCUT, -item[0][1])):
        setting = sawn_at(saw, at, kerf)
        yield Operation(0, Stage.CUT, saw, action, setting, tuple(on))


def late_cuts(sawn: Sequence[Sawn], waiting: Waiting) -> tuple[list[Sawn], list[LateCut]]:
    """Return the operations, with their saw cuts, that are done at once, and those that wait."""
    late: dict[tuple[int, int], tuple[str, Sized | None]] = {}
    sizes: dict[str, list[tuple[int, Sized]]] = {}
    for (part, axis), sized_by in waiting.sizes.items():
        sizes.setdefault(part, []).append((axis, sized_by))
    for part, rows in _rows([operation for operation, _ in sawn], waiting.parts).items():
        sized: dict[_Row, Sized] = {
            row: (measurement, size)
            for axis, (measurement, size) in sizes[part]
            for row in _sizing(rows, axis, size.planned)
        }
        begun = False
        for row in rows:
            begun = begun or row in sized
            if begun:
                late[row.operation, row.line] = part, sized.get(row)
    now: list[Sawn] = []
    out: list[LateCut] = []
    for number, (operation, numbers) in enumerate(sawn):
        lines = [line for line in range(len(operation.on)) if (number, line) in late]
        if not lines:
            now.append((operation, numbers))
            continue
        of = _numbers(operation, numbers)
        rest = [line for line in range(len(operation.on)) if line not in lines]
        if rest:
            now.append(_some(operation, of, rest))
        out += _grouped(operation, of, {line: late[number, line] for line in lines}, waiting)
    return now, out


def _grouped(
    operation: Operation,
    of: Sequence[tuple[int, ...]],
    lines: Mapping[int, tuple[str, Sized | None]],
    waiting: Waiting,
) -> Iterator[LateCut]:
    """Yield the lines of an operation that wait, those together that wait for the same and are cut to one reading."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for line, (part, sized) in lines.items():
        same = (sized[0], sized[1].less, sized[1].among, sized[1].full) if sized else ()
        groups.setdefault((waiting.measured_for(part), *same), []).append(line)
    for some in groups.values():
        made, numbers = _some(operation, of, some)
        yield LateCut(made, numbers, frozenset(lines[line][0] for line in some), lines[some[0]][1])


def _rows(operations: Sequence[Operation], parts: frozenset[str]) -> dict[str, list[_Row]]:
    """Return the lines that cut each of some parts alone, in working order."""
    out: dict[str, list[_Row]] = {}
    for number, operation in enumerate(operations):
        if operation.action in SAWN:
            for line, piece in enumerate(operation.on):
                part, *states = (piece.keeps or piece.leaves).split(", ")
                alone = piece.piece.split(", ")[0] == part or piece.leaves == piece.piece
                if part in parts and STRIP not in states and alone:
                    at = operation.setting.distance
                    out.setdefault(part, []).append(_Row(number, line, operation.action, at))
    return out


def _sizing(rows: Sequence[_Row], axis: int, planned: int) -> list[_Row]:
    """Return the cuts that give the copies of a part a size: across its length or along its width, where there are."""
    likely = Action.CROSSCUT if axis == 1 else Action.RIP
    sized = [row for row in rows if row.at == planned]
    return [row for row in sized if row.action is likely] or sized


def _numbers(operation: Operation, numbers: tuple[int, ...]) -> list[tuple[int, ...]]:
    """Return the saw cuts of each line of an operation; none where it makes none of a layout."""
    if not numbers:
        return [()] * len(operation.on)
    out, at = list[tuple[int, ...]](), 0
    for piece in operation.on:
        out.append(numbers[at : at + piece.count])
        at += piece.count
    return out


def _some(operation: Operation, of: Sequence[tuple[int, ...]], lines: Sequence[int]) -> Sawn:
    """Return an operation over some of its lines, with their saw cuts."""
    on = tuple([operation.on[line] for line in lines])
    return replace(operation, on=on), tuple([number for line in lines for number in of[line]])
