"""Simulated cutters: blanks of parts in, what every cut takes away out, compared with the features of the parts."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import radians, sqrt, tan

from casewright.api.engine.work.replay_differences import Removed, differences, made_otherwise, wedge_of
from casewright.api.engine.work.replay_records import CUTTING, Fault, Order
from casewright.sdk.geometry import Axis, Box, Cylinder, Wedge
from casewright.sdk.model.operations import Action, Operation, Setting, Tilts, Workpiece
from casewright.sdk.model.parts import Part
from casewright.sdk.model.sides import Side

__all__ = ["replay_cuts"]

Triple = tuple[Side, Side, Side]

FACES: Mapping[int, tuple[Axis, Axis]] = {1: (-1, 1), 2: (-2, 2), 3: (-3, 3)}
"""Outward ways of the low and the high side of each axis."""
FIRST: Mapping[int, Side] = {1: Side.END_LOW, 2: Side.EDGE_LOW, 3: Side.FACE_LOW}


def replay_cuts(
    operations: Sequence[Operation], parts: Sequence[Part], made: Mapping[str, int], order: Order
) -> list[Fault]:
    """Return what is wrong with parts after every cut of the operations, made on blanks in their order.

    `made` are the operations, as bits, that made the blanks of each part, which every cut must wait for.
    """
    by_id = {part.id: (part, part.blank, Removed()) for part in parts}
    actions = {operation.number: operation.action for operation in operations}
    faults: list[Fault] = []
    for operation in operations:
        if operation.action not in CUTTING:
            continue
        number = operation.number
        for piece in operation.on:
            known = by_id.get(piece.part)
            if known is None:
                faults.append(Fault(piece.part, number, "no such part"))
                continue
            part, blank, cuts = known
            if piece.count != part.quantity:
                faults.append(Fault(part.id, number, f"{piece.count} are cut and {part.quantity} are wanted"))
            if not order.waits(number, made.get(part.id, 0)):
                faults.append(Fault(part.id, number, "it does not wait for the cutting of it"))
            wrong = _apply(cuts, blank, piece, operation)
            if wrong:
                faults.append(Fault(part.id, number, wrong))
    for part, blank, cuts in by_id.values():
        faults += made_otherwise(cuts, part, actions)
        faults += differences(cuts, part, blank)
    return faults


def _apply(made: Removed, blank: Box, piece: Workpiece, operation: Operation) -> str:
    """Take away what one pass takes; return what is wrong with how it is set."""
    setting, number = operation.setting, operation.number
    sides = _sides(piece, setting)
    if isinstance(sides, str):
        return sides
    if setting.turn_deg is not None:
        if piece.leads is None or setting.tilt_deg is not None or setting.fence is not None:
            return "a mitre is set by a turn and a stop, with a side at the saw's fence"
        sides = sides[2], sides[1], sides[0]
        setting = replace(setting, fence=setting.stop, tilt_deg=setting.turn_deg)
    _, against, leads = sides
    if piece.at and setting.height is None:
        bored = dict.fromkeys(_bores(blank, piece, setting, sides), number)
        twice = any(made.holes[hole] != number for hole in bored.keys() & made.holes.keys())
        made.holes.update(bored)
        return "it is bored twice" if twice else ""
    if setting.height is None or (setting.fence is None and not piece.at):
        return "a cut has no fence or no height"
    deep, wide = (setting.depth or 0, setting.height), setting.cutter or 0
    for fence, run in _fences(piece, setting, blank[leads.axis + 2]):
        if setting.tilt_deg is not None:
            boxes, wedges = _tilted(blank, sides, setting, (fence, run))
            made.boxes.update(dict.fromkeys(boxes, number))
            made.wedges.update(dict.fromkeys(wedges, number))
            continue
        box = _placed(blank, (deep, (fence, fence + wide), run), sides)
        if piece.run != (1, 1):
            made.passes[piece.run] = made.passes.get(piece.run, 0) + 1
            _widen(made.boxes, box, against.axis - 1, number)
        elif piece.at and operation.action is Action.TENON:
            _widen(made.boxes, box, against.axis - 1, number)
        elif made.boxes.setdefault(box, number) != number:
            return "it is cut twice"
    return ""


def _tilted(
    blank: Box, sides: Triple, setting: Setting, place: tuple[int, tuple[int, int]]
) -> tuple[list[Box], list[Wedge]]:
    """Return what a tilted blade takes, or a cutter whose flanks lean; `place` is fence and run."""
    down, against, leads = sides
    (fence, run), top, height = place, setting.depth or 0, setting.height or 0
    lean = round(height * tan(radians(setting.tilt_deg or 0)))
    if setting.tilts is None:
        slab = _placed(blank, ((0, height), (fence, fence + (setting.cutter or 0)), run), sides)
        return [slab], list(_flanks(blank, sides, setting, (fence, run, lean)))
    if setting.cutter is not None:
        return _slot(blank, sides, setting, place)
    box = _placed(blank, ((top, top + height), (fence, fence + lean), run), sides)
    upright = _outward(against) if setting.tilts is Tilts.NEAR else _inward(against)
    return [], [wedge_of(box, FACES[leads.axis][1], upright, _outward(down))]


def _flanks(blank: Box, sides: Triple, setting: Setting, place: tuple[int, tuple[int, int], int]) -> Iterator[Wedge]:
    """Yield the flanks of a dovetail cutter that reach into the wood; `place` is fence, run and how far they lean."""
    down, against, leads = sides
    fence, run, lean = place
    far = fence + (setting.cutter or 0)
    for span, upright in (((fence - lean, fence), _inward(against)), ((far, far + lean), _outward(against))):
        box = _placed(blank, ((0, setting.height or 0), span, run), sides)
        if box.meets(blank):
            yield wedge_of(box, FACES[leads.axis][1], upright, _inward(down))


def _slot(
    blank: Box, sides: Triple, setting: Setting, place: tuple[int, tuple[int, int]]
) -> tuple[list[Box], list[Wedge]]:
    """Return what a blade at 45 degrees takes square out of a bevel; `place` is fence and run."""
    down, against, leads = sides
    (u, run), v = place, setting.depth or 0
    if setting.tilt_deg != 45.0 or setting.tilts is not Tilts.FAR:
        return [], []
    q, p = round((setting.cutter or 0) / 2 * sqrt(0.5)), round((setting.height or 0) * sqrt(0.5))
    away, up = _inward(against), _inward(down)
    near, below = _outward(against), _outward(down)
    halves = (
        ((-q, q), (-q, q), (away, up)),
        ((q, 3 * q), (-q, q), (near, up)),
        ((-q, p - 3 * q), (q, p - q), (away, below)),
        ((3 * q, p + q), (q, p - q), (near, up)),
        ((p - 3 * q, p - q), (p - q, p + q), (away, below)),
        ((p - q, p + q), (p - q, p + q), (near, below)),
    )

    def box(across: tuple[int, int], high: tuple[int, int]) -> Box:
        return _placed(blank, ((v + high[0], v + high[1]), (u + across[0], u + across[1]), run), sides)

    along = FACES[leads.axis][1]
    made = [(box(across, high), corner) for across, high, corner in halves]
    wedges = [wedge_of(half, along, *corner) for half, corner in made if half.volume]
    middle = box((p - 3 * q, 3 * q), (q, p - q))
    return ([middle] if middle.volume else []), wedges


def _fences(piece: Workpiece, setting: Setting, long: int) -> Iterator[tuple[int, tuple[int, int]]]:
    """Yield fence and run of a cut at each of its places: moved from `against` and along from `leads`."""
    end = setting.end
    if not piece.at:
        yield setting.fence or 0, (0, long) if end is None else (setting.start or 0, end)
    for across, along in piece.at:
        yield across, (0, long) if end is None else (along, along + end)


def _widen(boxes: dict[Box, int], box: Box, i: int, number: int) -> None:
    """Add what a pass takes: as one with what passes beside it along axis `i` took, where these meet."""
    rest = box[:i] + box[i + 1 : i + 3] + box[i + 4 :]
    for other in list(boxes):
        if (
            other[:i] + other[i + 1 : i + 3] + other[i + 4 :] == rest
            and other[i] <= box[i + 3]
            and box[i] <= other[i + 3]
        ):
            del boxes[other]
            box = box.around(other)
    boxes[box] = number


def _sides(piece: Workpiece, setting: Setting) -> Triple | str:
    """Return the sides a cut is measured from, one along each way, or what is wrong with them."""
    down, against, leads = piece.down, piece.against, piece.leads
    if down is None or against is None:
        return "a cut is measured from no side"
    if down.axis == against.axis:
        return "a cut is measured twice along one way"
    if leads is None:
        if piece.at or setting.end is not None:
            return "a cut is measured from too few sides"
        leads = FIRST[6 - down.axis - against.axis]
    elif leads.axis in (down.axis, against.axis):
        return "a cut is measured twice along one way"
    return down, against, leads


def _placed(blank: Box, spans: Iterable[tuple[int, int]], sides: Triple) -> Box:
    """Return a box from its spans, each measured inward from a side of the blank."""
    bounds = [0] * 6
    for (near, far), side in zip(spans, sides, strict=True):
        i = side.axis - 1
        if side.high:
            size = blank[i + 3]
            bounds[i], bounds[i + 3] = size - far, size - near
        else:
            bounds[i], bounds[i + 3] = near, far
    return Box(*bounds)


def _outward(side: Side) -> Axis:
    return FACES[side.axis][side.high]


def _inward(side: Side) -> Axis:
    return FACES[side.axis][not side.high]


def _bores(blank: Box, piece: Workpiece, setting: Setting, sides: Triple) -> Iterator[Cylinder]:
    down, against, leads = sides
    i, j, k = [side.axis - 1 for side in sides]
    mouth = [0, 0, 0]
    mouth[i] = 0 if down.high else blank[i + 3]
    into, diameter, depth = _outward(down), setting.cutter or 0, setting.depth
    if depth is None:
        depth = blank[i + 3]
    for across, along in piece.at:
        mouth[j] = blank[j + 3] - across if against.high else across
        mouth[k] = blank[k + 3] - along if leads.high else along
        yield Cylinder((mouth[0], mouth[1], mouth[2]), into, diameter, depth)
