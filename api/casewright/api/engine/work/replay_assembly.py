"""A simulated bench: parts that operations put together, each there in time, closed, glued, clamped and left.

It knows where parts stand in the end and which of them meet in a joint, and follows what the operations say is set
into what. What is bored after parts are together is bored from where nothing of them stands.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from casewright.api.engine.work.replay_records import BREAKDOWN, CUTTING, MILLING, Fault, Given, Order
from casewright.sdk.geometry import Axis, Box, opposite
from casewright.sdk.model.operations import Action, Operation, Stage, Workpiece
from casewright.sdk.model.parts import Part
from casewright.sdk.model.plan import Joint
from casewright.sdk.model.sides import Side

__all__ = ["replay_assembly"]

SAWN = BREAKDOWN | MILLING | {Action.TRIM}
CLOSING = frozenset({Action.INSERT, Action.CLAMP, Action.WAIT})
"""What may be done to parts whose glue is wet."""
FAST = frozenset({Action.INSERT, Action.GLUE, Action.SCREW, Action.HANG})
"""What fixes a part to others: after it a part is cut no more, but bored where it can be reached."""
BUILT = ("case", "face-frame")
"""Groups whose parts are in place when they are put together."""
ENDS = (
    (Side.END_LOW, Side.END_HIGH),
    (Side.EDGE_LOW, Side.EDGE_HIGH),
    (Side.FACE_LOW, Side.FACE_HIGH),
)
"""The low and the high side along each axis of a part."""
Group = tuple[str, str]
"""A cabinet, and what of it parts are put together to."""
LOOSE = "panel"
"""The kind of joint that no clamp closes."""


@dataclass(slots=True)
class Bench:
    """What stands on the bench as operations go on; `met` are, for each part, those it joins and their joints."""

    parts: Mapping[str, Part]
    order: Order
    given: Given
    met: Mapping[str, list[tuple[str, Joint]]]
    standing: dict[Group, list[Part]] = field(default_factory=dict)
    walls: dict[str, Box] = field(default_factory=dict)
    last: dict[str, int] = field(default_factory=dict)
    there: dict[str, int] = field(default_factory=dict)
    fast: dict[str, int] = field(default_factory=dict)
    spread: dict[str, int] = field(default_factory=dict)
    wet: dict[str, int] = field(default_factory=dict)
    pressed: dict[str, int] = field(default_factory=dict)
    screwed: dict[str, int] = field(default_factory=dict)
    banded: set[str] = field(default_factory=set)
    fixed: set[str] = field(default_factory=set)
    faults: list[Fault] = field(default_factory=list)

    def stand(self, name: str, number: int) -> None:
        """Have a part there from an operation on, among those of its group."""
        part = self.parts.get(name)
        if part is not None and name not in self.there:
            self.standing.setdefault(_group(part), []).append(part)
        self.there[name] = number

    def wall(self, part: Part) -> Box:
        """Return the room a part takes up, as before any cut."""
        wall = self.walls.get(part.id)
        if wall is None:
            wall = self.walls[part.id] = part.place.box(part.blank)
        return wall

    def fault(self, part: str, number: int, what: str, *, apart: bool = False) -> None:
        """Add something that is wrong; `apart` where a part is left apart from what it joins."""
        self.faults.append(Fault(part, number, what, apart))


def replay_assembly(
    operations: Sequence[Operation],
    parts: Mapping[str, Part],
    joints: Sequence[Joint],
    given: Given,
    sawn: tuple[Mapping[str, int], Order],
) -> list[Fault]:
    """Return what is wrong with how operations put parts together.

    `sawn` are the operations, as bits, that sawed each part, and what each operation waits for.
    """
    made, order = sawn
    met: dict[str, list[tuple[str, Joint]]] = {}
    for joint in joints:
        met.setdefault(joint.guest, []).append((joint.host, joint))
        met.setdefault(joint.host, []).append((joint.guest, joint))
    bench = Bench(parts, order, given, met)
    for operation in operations:
        if operation.action in SAWN:
            continue
        on = dict.fromkeys([piece.part for piece in operation.on if piece.part], 1 << operation.number)
        _in_turn(bench, operation, on, made)
        _done(bench, operation, on)
        bench.last.update(on)
    _left(bench, joints)
    return bench.faults


def _in_turn(bench: Bench, operation: Operation, names: Iterable[str], made: Mapping[str, int]) -> None:
    """See that parts are there, and that their operation waits for what was done to them before."""
    number, action, last = operation.number, operation.action, bench.last
    others = ~bench.order.before[number]
    for name in [name for name in names if (made.get(name, 0) | last.get(name, 0)) & others]:
        before = "the cutting of it" if made.get(name, 0) & others else "what is done to it before"
        bench.fault(name, number, f"it does not wait for {before}")
    for name in [name for name in names if name not in bench.parts]:
        bench.fault(name, number, "no such part")
    if action in CUTTING and action is not Action.BORE:
        for name in [name for name in names if name in bench.fast]:
            bench.fault(name, number, "it is cut after it is put together")
    elif bench.wet and action not in CLOSING and action is not Action.BORE:
        for name in [name for name in names if name in bench.wet]:
            bench.fault(name, number, "its glue is not left to set")


def _done(bench: Bench, operation: Operation, names: Iterable[str]) -> None:
    """Note what an operation does to its parts."""
    number, on = operation.number, operation.on
    match operation.action:
        case Action.INSERT:
            _insert(bench, operation, [piece for piece in on if piece.part])
        case Action.GLUE:
            bench.spread.update(dict.fromkeys(names, number))
            bench.wet.update(dict.fromkeys(names, number))
        case Action.BAND:
            bench.banded.update(names)
        case Action.SCREW:
            bench.screwed.update(dict.fromkeys(names, number))
        case Action.CLAMP:
            bench.pressed.update({piece.part: number for piece in on if piece.clamps > 0})
            for piece in on:
                if piece.part and piece.clamps < 1:
                    bench.fault(piece.part, number, "no clamp presses on it")
        case Action.WAIT:
            if (operation.minutes or 0) < bench.given.clamped and any(name in bench.wet for name in names):
                bench.fault("", number, "the glue is not left for as long as it takes")
            for name in names:
                bench.wet.pop(name, None)
        case Action.BORE:
            for piece in on:
                if piece.part in bench.fast and not _reached(bench, piece):
                    bench.fault(piece.part, number, "it is bored where another part is in the way")
        case _:
            pass
    if operation.action in FAST:
        bench.fast.update(dict.fromkeys(names, number))
    if operation.action in (Action.SCREW, Action.HANG) or operation.stage is Stage.FILLERS:
        bench.fixed.update(names)


def _insert(bench: Bench, operation: Operation, on: Sequence[Workpiece]) -> None:
    """Set parts into those that stand there: the first of a group stands by itself."""
    number, going = operation.number, {piece.part for piece in on}
    if not operation.moves:
        bench.fault(min(going, default=""), number, "it is moved no way")
    for name in [name for piece in on for name in piece.into]:
        if name not in bench.there and name not in going:
            _stands(bench, number, name)
    for piece in on:
        part = bench.parts.get(piece.part)
        if part is None:
            continue
        if part.id not in bench.met:
            bench.wet[part.id] = number  # what is in no joint is glued where it lies
        if piece.count != part.quantity:
            bench.fault(part.id, number, f"{piece.count} are set in and {part.quantity} are wanted")
        if part.id in bench.there:
            bench.fault(part.id, number, "it is set in twice")
        closed = [(other, joint) for other, joint in bench.met.get(part.id, ()) if other in bench.there]
        into, met = set(piece.into), {other for other, _ in closed}
        if not met <= into:
            bench.fault(part.id, number, "it is not set into all it joins")
        elif not into <= met:
            bench.fault(part.id, number, "it is set into what it does not join")
        _glued(bench, number, piece, [joint for _, joint in closed if joint.glue_area_mm2 > 0])
    for name in going:
        bench.stand(name, number)


def _stands(bench: Bench, number: int, name: str) -> None:
    """Stand a part ready that is the first of its group, or report that it is not there."""
    part = bench.parts.get(name)
    if part is None:
        bench.fault(name, number, "no such part")
        return
    if _group(part) in bench.standing:
        bench.fault(name, number, "parts are set into it before it is there")
    elif not bench.order.waits(number, bench.last.get(name, 0)):
        bench.fault(name, number, "it does not wait for what is done to it before")
    bench.stand(name, number)
    bench.fast[name] = number


def _glued(bench: Bench, number: int, piece: Workpiece, takes: Sequence[Joint]) -> None:
    """See that glue goes on just the sides of a part whose joints take it, and was made ready for both parts."""
    part = bench.parts[piece.part]
    if {_facing(part, joint) for joint in takes} != set(piece.glue):
        bench.fault(part.id, number, "glue goes on other sides than its joints take it on")
    for joint in takes:
        for name in (joint.guest, joint.host):
            if name not in bench.spread or not bench.order.waits(number, 1 << bench.spread[name]):
                bench.fault(name, number, "no glue is made ready for it")
            bench.wet[name] = number


def _left(bench: Bench, joints: Sequence[Joint]) -> None:
    """See what is left undone: joints that stay open, glue that is wet or not pressed, dry joints without screws."""
    for name, number in bench.wet.items():
        bench.fault(name, number, "its glue is not left to set")
    for part in bench.parts.values():
        if part.bands and part.id not in bench.banded:
            bench.fault(part.id, 0, "its edge is never banded")
        elif part.group not in BUILT and part.cabinet and part.id not in bench.fixed:
            bench.fault(part.id, 0, "it is never fixed in its place")
    glued = {_group(bench.parts[joint.guest]) for joint in joints if joint.glue_area_mm2 > 0}
    handled: dict[str, None] = {}
    for joint in joints:
        guest, host = joint.guest, joint.host
        handled.update({guest: None, host: None})
        if _group(bench.parts[guest]) != _group(bench.parts[host]):
            continue
        shut = max(bench.there.get(guest, 0), bench.there.get(host, 0))
        if not (guest in bench.there and host in bench.there):
            if guest in bench.there or host in bench.there:
                bench.fault(guest, 0, "it is never put together with what it joins", apart=True)
        elif joint.glue_area_mm2 > 0 and joint.kind != LOOSE:
            if not _follows(bench, bench.pressed.get(guest), shut):
                bench.fault(guest, shut, "no clamp presses it home", apart=True)
        elif _group(bench.parts[guest]) not in glued and not _follows(bench, bench.screwed.get(guest), shut):
            bench.fault(guest, shut, "nothing holds it", apart=True)
    for name in handled:
        if name not in bench.last and name not in bench.there:
            bench.fault(name, 0, "it is never put together with what it joins", apart=True)


def _follows(bench: Bench, later: int | None, number: int) -> bool:
    return later is not None and bench.order.waits(later, 1 << number)


def _group(part: Part) -> Group:
    return part.cabinet, part.group


def _facing(part: Part, joint: Joint) -> Side:
    """Return the side of a part that looks to the other part of a joint."""
    way: Axis = joint.press if joint.guest == part.id else opposite(joint.press)
    place = part.place
    for axis, (low, high) in zip((place.x, place.y, place.z), ENDS, strict=True):
        if abs(axis) == abs(way):
            return high if axis == way else low
    raise AssertionError(f"{part.id} faces no way")


def _reached(bench: Bench, piece: Workpiece) -> bool:
    """Return whether a drill reaches every hole of a part from outside, past all that is fast to it."""
    part = bench.parts[piece.part]
    ways = list(_ways_in(part, piece))
    for other in bench.standing.get(_group(part), ()):
        wall = bench.wall(other)
        if other.id != part.id and any(way.meets(wall) for way in ways):
            return False
    return True


def _ways_in(part: Part, piece: Workpiece) -> Iterator[Box]:
    """Yield the room before each hole, as far out as matters, in the cabinet's frame."""
    down, across = piece.down, (piece.against, piece.leads)
    if down is None:
        return
    far = 10 * max(part.blank.size) + 10_000_000_000
    for at in piece.at:
        low, high = [0, 0, 0], [0, 0, 0]
        i = down.axis - 1
        low[i], high[i] = (-far, 0) if down.high else (part.blank.size[i], far)
        for side, distance in zip(across, at, strict=True):
            if side is None:
                return
            j = side.axis - 1
            middle = part.blank.size[j] - distance if side.high else distance
            low[j], high[j] = middle - 1, middle + 1
        yield part.place.box(Box(*low, *high))
