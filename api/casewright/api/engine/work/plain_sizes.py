"""Parts cut to plain sizes where no stock is given for them: rips, then crosscuts, each setting once.

A part of board is ripped along its grain and crosscut over it; one of sheet is ripped to its width.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.machines import Tools, sawn_at
from casewright.api.engine.work.machining import KnownCuts
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.matching import in_words, rows_of
from casewright.api.engine.work.panels import lying, wide
from casewright.api.stock import Saws, StraightCut
from casewright.sdk.model import Job, Part, Sides
from casewright.sdk.model.operations import Action, Machine, Operation, Stage, Workpiece

__all__ = ["plain_steps", "to_size"]

NO_WIDTH = "The job gives neither boards nor their width: if none is so wide, glue this up of strips (`widest`)."


def to_size(parts: Iterable[Part], job: Job, kerf: int = 0) -> list[Operation]:
    """Return the operations that cut parts to their sizes where no stock is given: rips, then crosscuts.

    Each saw is chosen as though the piece were no larger than the part, but for a kerf, on the side that is cut.
    """
    parts = list(parts)
    rows = rows_of(job, parts)
    saws = Saws.of(job.shop)
    chosen: dict[tuple[int, int], tuple[Machine, Machine]] = {}
    rips: dict[tuple[str, int, Machine], list[Part]] = {}
    stops: dict[tuple[str, int, Machine], list[Part]] = {}
    for part in parts:
        board = job.materials[part.material].kind == "board"
        length, width = lying(part) if board else (part.length, part.width)
        if (length, width) not in chosen:
            rip = saws.machine(StraightCut(max(length, width), width, width))
            chosen[length, width] = rip, saws.machine(StraightCut(width, max(length, width + 1), length))
        rip, stop = chosen[length, width]
        rips.setdefault((part.material, width, rip), []).append(part)
        stops.setdefault((part.material, length, stop), []).append(part)
    out = []
    for (material, width, saw), group in sorted(rips.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(
            Workpiece(piece=material, count=part.quantity, keeps=f"{part.id}, ripped", leaves=material)
            for part in group
        )
        matched = dict.fromkeys(in_words(rows[part.id]) for part in group if part.id in rows)
        cautions = (*matched, *((NO_WIDTH,) if any(wide(job, part) for part in group) else ()))
        out.append(Operation(0, Stage.CUT, saw, Action.RIP, sawn_at(saw, width, kerf), on, cautions=cautions))
    for (_, length, saw), group in sorted(stops.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(Workpiece(piece=f"{part.id}, ripped", count=part.quantity, keeps=part.id) for part in group)
        out.append(Operation(0, Stage.CUT, saw, Action.CROSSCUT, sawn_at(saw, length, kerf), on))
    return out


def plain_steps(job: Job, parts: Sequence[Part], sides: Mapping[str, Sides], known: KnownCuts) -> tuple[Operation, ...]:
    """Return the steps that would make parts without stock, as far as they share settings: how each is sawn and cut.

    They have no words and wait for nothing. What is built was made by them too.
    """
    sawn = [part for part in parts if not job.materials[part.material].to_size]
    parts = [replace(part, built=0) if part.built else part for part in sawn]
    made = Made(parts, sides, {}, cuts=known)
    operations = [*to_size(parts, job), *joint_operations(parts, Tools.of(job.shop, job.stock), made)]
    return tuple([replace(operation, number=number) for number, operation in enumerate(operations, start=1)])
