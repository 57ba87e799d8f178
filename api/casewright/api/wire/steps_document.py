"""Operations as they leave: settings in job units, sides by their names, and words beside the data."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.naming import NamedParts
from casewright.api.wire.fits_document import measurement_document
from casewright.api.wire.lengths import Lengths
from casewright.sdk.model import Operation, Plan, Setting, Sides, Workpiece
from casewright.sdk.writer import writer

__all__ = ["schedule_document", "steps_document"]

Document = dict[str, Any]


def steps_document(plan: Plan, lengths: Lengths) -> list[Document]:
    """Return the work, operation by operation; times are minutes from the start of what is left of it."""
    sides, named = plan.sides, NamedParts.of(plan.parts)
    writes = lengths.texts.__getitem__, writer(plan.job.units).sold
    lines = [piece_words(operation, named, sides, writes) for operation in plan.steps]
    times = {one.number: one for one in plan.schedule.steps}
    meanwhile = {one.wait: one.steps for one in plan.schedule.meanwhile}
    done = frozenset(plan.job.done)
    out = []
    for step, how in zip(plan.steps, lines, strict=True):
        document = _step(step, sides, lengths) | {"lines": how}
        if step.number in done:
            document["done"] = True
        else:
            time = times[step.number]
            document |= {"start": _minutes(time.start), "finish": _minutes(time.finish)}
        if step.number in meanwhile:
            document["meanwhile"] = meanwhile[step.number]
        out.append(document)
    return out


def schedule_document(plan: Plan, lengths: Lengths) -> Document:
    """Return what is left of the work for one person, in minutes."""
    schedule = plan.schedule
    return {
        "finish": _minutes(schedule.finish),
        "hands_on": _minutes(schedule.hands_on),
        "left": len(schedule.steps),
        "untimed": schedule.untimed,
    }


def _minutes(minutes: int | Fraction) -> float:
    return round(float(minutes), 2)


def _step(operation: Operation, sides: Mapping[str, Sides], lengths: Lengths) -> Document:
    return {
        "number": operation.number,
        "stage": operation.stage,
        "machine": operation.machine,
        "action": operation.action,
        "setting": _setting(operation.setting, lengths),
        "on": [_piece(piece, sides, lengths) for piece in operation.on],
        "do": operation.do,
        "check": operation.check,
        "cautions": operation.cautions,
        "needs": operation.needs,
        **_bench(operation, lengths),
    }


def _bench(operation: Operation, lengths: Lengths) -> Document:
    """Return what not every operation has: moves that bring a part home, how long it takes, what is measured for it."""
    out: Document = {}
    if operation.moves:
        out["moves"] = [
            {"towards": move.towards} | ({} if move.by is None else {"by": lengths.numbers[move.by]})
            for move in operation.moves
        ]
    if operation.minutes is not None:
        out["minutes"] = _minutes(operation.minutes)
    if operation.measurement is not None:
        out["measurement"] = measurement_document(operation.measurement, lengths)
    if operation.cut_to is not None:
        to = operation.cut_to
        numbers = lengths.numbers
        out["cut_to"] = {"step": to.step, "less": numbers[to.less], "among": to.among, "full": numbers[to.full]}
    return out


def _setting(setting: Setting, lengths: Lengths) -> Document:
    """Return what the machine is set to: only what the operation has."""
    sizes = {
        "fence": setting.fence,
        "stop": setting.stop,
        "height": setting.height,
        "cutter": setting.cutter,
        "kerf": setting.kerf,
        "start": setting.start,
        "end": setting.end,
        "depth": setting.depth,
    }
    out: Document = {name: lengths.numbers[nm] for name, nm in sizes.items() if nm is not None}
    slants = {"tilt_deg": setting.tilt_deg, "turn_deg": setting.turn_deg}
    out |= {name: degrees for name, degrees in slants.items() if degrees is not None}
    if setting.tilts is not None:
        out["tilts"] = setting.tilts
    return out


def _piece(piece: Workpiece, sides: Mapping[str, Sides], lengths: Lengths) -> Document:
    out: Document = {"count": piece.count}
    out |= {name: text for name in ("part", "piece", "keeps", "leaves") if (text := getattr(piece, name))}
    for name, side in (("down", piece.down), ("against", piece.against), ("leads", piece.leads)):
        if side is not None:
            out[name] = sides[piece.part][side]
    if piece.at:
        out["at"] = [[lengths.numbers[a], lengths.numbers[b]] for a, b in piece.at]
    if piece.run != (1, 1):
        out["pass"] = piece.run
    if piece.cuts:
        out["cuts"] = piece.cuts
    if piece.into:
        out["into"] = piece.into
    if piece.glue:
        out["glue"] = [sides[piece.part][side] for side in piece.glue]
    if piece.clamps:
        out["clamps"] = piece.clamps
    return out
