"""A simulated shop: it knows the operations' data and nothing else, and what it makes is compared with the plan.

It reads no word and no label. It shares with the rest only the record types, so that a fault in how operations are
made is not made here again.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import radians, tan

from casewright.sdk.geometry import Axis, Box, Cylinder, Wedge
from casewright.sdk.model.operations import Action, Operation, Setting, Side, Tilts, Workpiece
from casewright.sdk.model.parts import GrainRule, Part

__all__ = ["Blank", "Fault", "replay_breakdown", "replay_cuts"]


@dataclass(frozen=True, slots=True)
class Fault:
    """What came out wrong: of which part, at which operation (0: in the end), in plain words."""

    part: str
    operation: int
    what: str


@dataclass(slots=True)
class _Made:
    """What operations have taken from one part."""

    boxes: list[Box] = field(default_factory=list)
    wedges: set[Wedge] = field(default_factory=set)
    holes: set[Cylinder] = field(default_factory=set)


@dataclass(frozen=True, slots=True)
class Blank:
    """A piece of stock, or what a cut made of one: `None` is a size that no cut has given it yet."""

    material: str
    length: int | None
    width: int | None
    grain: GrainRule


def replay_breakdown(
    operations: Iterable[Operation], parts: Sequence[Part], stock: Mapping[str, tuple[Blank, int | None]]
) -> list[Fault]:
    """Return what is wrong with the blanks that rips and cross-cuts make of stock, each part once and from something.

    `stock` gives each source by its name, with how many there are (`None`: as many as are asked for).
    """
    there: dict[str, list[Blank]] = {
        name: [blank] * count for name, (blank, count) in stock.items() if count is not None
    }
    endless = {name: blank for name, (blank, count) in stock.items() if count is None}
    faults: list[Fault] = []
    for operation in operations:
        if operation.action not in (Action.RIP, Action.CROSSCUT):
            continue
        for piece in operation.on:
            for _ in range(piece.count):
                waiting = there.get(piece.piece, [])
                blank = waiting.pop() if waiting else endless.get(piece.piece)
                if blank is None:
                    faults.append(Fault(piece.piece, operation.number, "there is no such piece to cut"))
                    break
                made = _parted(blank, operation.action, operation.setting)
                if isinstance(made, str):
                    faults.append(Fault(piece.piece, operation.number, made))
                    break
                for name, new in zip((piece.keeps, piece.leaves), made, strict=True):
                    if name and name not in endless:
                        if new is None:
                            faults.append(Fault(name, operation.number, "nothing is left for it"))
                        else:
                            there.setdefault(name, []).append(new)
    for part in parts:
        blanks = there.get(part.id, [])
        if len(blanks) != part.quantity:
            faults.append(Fault(part.id, 0, f"{len(blanks)} are cut and {part.quantity} are wanted"))
        faults += [Fault(part.id, 0, "it is cut to another size") for blank in blanks if not _fits(blank, part)]
    return faults


def _parted(blank: Blank, action: Action, setting: Setting) -> tuple[Blank, Blank | None] | str:
    """Return what lies between fence or stop and blade, and what lies beyond, or what is wrong."""
    at = setting.fence if action is Action.RIP else setting.stop
    if at is None or setting.kerf is None:
        return "a cut has no distance or no kerf"
    size = blank.width if action is Action.RIP else blank.length
    if size is None:
        return replace(blank, width=at) if action is Action.RIP else replace(blank, length=at), blank
    if not 0 < at <= size:
        return "the piece is smaller than what is cut from it"
    rest = size - at - setting.kerf
    if action is Action.RIP:
        return replace(blank, width=at), replace(blank, width=rest) if rest > 0 else None
    return replace(blank, length=at), replace(blank, length=rest) if rest > 0 else None


def _fits(blank: Blank, part: Part) -> bool:
    """Return whether a blank is a part, turned as its grain allows."""
    if blank.material != part.material:
        return False
    straight = (blank.length, blank.width) == (part.length, part.width)
    turned = (blank.width, blank.length) == (part.length, part.width)
    if "free" in (blank.grain, part.grain):
        return straight or turned
    return straight if blank.grain == part.grain else turned


def replay_cuts(operations: Iterable[Operation], parts: Sequence[Part]) -> list[Fault]:
    """Return what is wrong with parts after every cut of the operations, made on finished blanks in their order."""
    blanks = {part.id: part.blank for part in parts}
    counts = {part.id: part.quantity for part in parts}
    made: dict[str, _Made] = {part.id: _Made() for part in parts}
    faults: list[Fault] = []
    for operation in operations:
        for piece in operation.on:
            if not piece.part:
                continue
            blank = blanks.get(piece.part)
            if blank is None:
                faults.append(Fault(piece.part, operation.number, "no such part"))
            elif piece.count != counts[piece.part]:
                wrong = f"{piece.count} are cut and {counts[piece.part]} are wanted"
                faults.append(Fault(piece.part, operation.number, wrong))
            else:
                fault = _apply(made[piece.part], blank, piece, operation.setting)
                if fault:
                    faults.append(Fault(piece.part, operation.number, fault))
    for part in parts:
        faults += [Fault(part.id, 0, what) for what in _differences(made[part.id], part)]
    return faults


def _apply(made: _Made, blank: Box, piece: Workpiece, setting: Setting) -> str:
    down, against, leads = piece.down, piece.against, piece.leads
    if down is None or against is None:
        return "a cut is measured from no side"
    if leads is None:
        if down.axis == against.axis or piece.at or setting.end is not None:
            return "a cut is measured from too few sides"
        leads = next(side for side in Side if side.axis not in (down.axis, against.axis))
    if {down.axis, against.axis, leads.axis} != {1, 2, 3}:
        return "a cut is measured twice along one way"
    if piece.at:
        made.holes.update(_bores(blank, piece, setting, (down, against, leads)))
        return ""
    spans = {leads.axis: (setting.start, setting.end) if setting.end is not None else (0, blank.high(leads.axis))}
    if setting.fence is None or setting.height is None:
        return "a cut has no fence or no height"
    top = setting.depth or 0
    if setting.tilt_deg is None:
        spans[down.axis] = (top, setting.height)
        spans[against.axis] = (setting.fence, setting.fence + (setting.cutter or 0))
        made.boxes.append(_placed(blank, spans, (down, against, leads)))
        return ""
    base = round(setting.height * tan(radians(setting.tilt_deg)))
    spans[down.axis] = (top, top + setting.height)
    spans[against.axis] = (setting.fence, setting.fence + base)
    upright = against if setting.tilts is Tilts.NEAR else against.across
    made.wedges.add(_wedge(_placed(blank, spans, (down, against, leads)), leads.axis, upright, down))
    return ""


def _placed(blank: Box, spans: Mapping[int, tuple[int | None, int | None]], sides: Iterable[Side]) -> Box:
    """Return a box from its spans, each measured inward from a side of the blank."""
    low, high = [0, 0, 0], [0, 0, 0]
    for side in sides:
        near, far = spans[side.axis]
        size = blank.high(side.axis)
        a, b = near or 0, far or 0
        low[side.axis - 1], high[side.axis - 1] = (size - b, size - a) if side.high else (a, b)
    return Box(low[0], low[1], low[2], high[0], high[1], high[2])


_AXES: dict[int, Axis] = {1: 1, 2: 2, 3: 3, -1: -1, -2: -2, -3: -3}


def _outward(side: Side) -> Axis:
    return _AXES[side.axis if side.high else -side.axis]


def _wedge(box: Box, along: int, upright: Side, base: Side) -> Wedge:
    """Return a wedge in one form: its corner's axes in rising order, so that equal wedges compare equal."""
    first, second = sorted((_outward(upright), _outward(base)), key=abs)
    return Wedge(box, _AXES[along], (first, second))


def _bores(blank: Box, piece: Workpiece, setting: Setting, sides: tuple[Side, Side, Side]) -> list[Cylinder]:
    down, against, leads = sides
    entry = down.across
    out = []
    for place in piece.at:
        mouth = [0, 0, 0]
        mouth[entry.axis - 1] = blank.high(entry.axis) if entry.high else 0
        for side, distance in zip((against, leads), place, strict=True):
            mouth[side.axis - 1] = blank.high(side.axis) - distance if side.high else distance
        depth = blank.high(entry.axis) if setting.depth is None else setting.depth
        out.append(Cylinder((mouth[0], mouth[1], mouth[2]), _outward(down), setting.cutter or 0, depth))
    return out


def _differences(made: _Made, part: Part) -> list[str]:
    wanted = [box for feature in part.features for box in feature.boxes]
    slants = {
        Wedge(w.box, w.along, (w.corner if abs(w.corner[0]) < abs(w.corner[1]) else (w.corner[1], w.corner[0])))
        for feature in part.features
        for w in feature.wedges
    }
    holes = {hole for feature in part.features for hole in feature.holes}
    out = []
    if any(_beyond(box, made.boxes) for box in wanted):
        out.append("a cut is missing or too small")
    if any(_beyond(box, wanted) for box in made.boxes):
        out.append("wood is cut away that should stay")
    if slants != made.wedges:
        out.append("a slanting cut is not the one planned")
    if holes != made.holes:
        out.append("holes are not those planned")
    return out


def _beyond(box: Box, others: Sequence[Box]) -> bool:
    """Return whether any of a box lies outside every one of the others."""
    rest = [box]
    for other in others:
        rest = [piece for one in rest for piece in _less(one, other)]
        if not rest:
            return False
    return any(piece.volume for piece in rest)


def _less(box: Box, other: Box) -> list[Box]:
    if not box.meets(other):
        return [box]
    out = []
    low, high = list(box[:3]), list(box[3:])
    for i in range(3):
        if low[i] < other[i]:
            out.append(Box(*low, *(other[i] if j == i else high[j] for j in range(3))))
            low[i] = other[i]
        if other[i + 3] < high[i]:
            out.append(Box(*(other[i + 3] if j == i else low[j] for j in range(3)), *high))
            high[i] = other[i + 3]
    return out
