"""A simulated saw and planer: pieces of stock in, blanks of parts out, each compared with what is wanted."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from casewright.api.engine.work.replay_records import BREAKDOWN, MILLING, Blank, Fault, Given, Order
from casewright.sdk.model.operations import Action, Operation, Setting, Workpiece
from casewright.sdk.model.parts import Part

__all__ = ["Sawn", "replay_breakdown"]

MILLED = (Action.FACE, Action.EDGE, Action.THICKNESS)
"""The order in which a rough piece is milled; an edge with nothing to come off is left out."""


class Sawn:
    """The pieces there are as operations go on, and which operations each name has come from, as bits."""

    def __init__(self, given: Given, order: Order) -> None:
        self.given = given
        self.order = order
        self.there: dict[str, list[Blank]] = {name: [blank] for name, blank in given.pieces.items()}
        self.made: dict[str, int] = {}
        self.faults: list[Fault] = []

    def cut(self, operation: Operation, piece: Workpiece) -> None:
        """Part as many pieces as an operation is done to."""
        if piece.count < 1:
            self.faults.append(Fault(piece.piece, operation.number, "none is cut"))
        for _ in range(piece.count):
            blank = self._take(operation, piece)
            if blank is None:
                return
            parted = _parted(blank, operation.action, operation.setting, self.given.kerf)
            if isinstance(parted, str):
                self.faults.append(Fault(piece.piece, operation.number, parted))
                return
            for name, new in zip((piece.keeps, piece.leaves), parted, strict=True):
                if name and name not in self.given.endless:
                    if new is None:
                        self.faults.append(Fault(name, operation.number, "nothing is left for it"))
                    else:
                        self._give(operation, name, new)

    def trim(self, operation: Operation, piece: Workpiece) -> None:
        """Take the trim off all four edges of a sheet."""
        blank = self._take(operation, piece)
        if blank is None:
            return
        depth, length, width = operation.setting.depth or 0, blank.length or 0, blank.width or 0
        if operation.setting.kerf != self.given.kerf:
            self.faults.append(Fault(piece.piece, operation.number, "a cut has another kerf than the saw"))
        if depth <= 0 or 2 * depth >= min(length, width) or piece.count != 1 or piece.leaves:
            self.faults.append(Fault(piece.piece, operation.number, "no sheet is left of what is trimmed"))
        self._give(operation, piece.keeps, replace(blank, length=length - 2 * depth, width=width - 2 * depth))

    def mill(self, operation: Operation, piece: Workpiece) -> None:
        """Make as many pieces as an operation is done to flat, straight or of their thickness, in that order."""
        if piece.count < 1:
            self.faults.append(Fault(piece.piece, operation.number, "none is milled"))
        for _ in range(piece.count):
            blank = self._take(operation, piece)
            if blank is None:
                return
            milled = _milled(blank, operation.action, operation.setting)
            if isinstance(milled, str):
                self.faults.append(Fault(piece.piece, operation.number, milled))
                return
            self._give(operation, piece.keeps, milled)

    def _take(self, operation: Operation, piece: Workpiece) -> Blank | None:
        waiting = self.there.get(piece.piece, [])
        blank = waiting.pop(0) if waiting else self.given.endless.get(piece.piece)
        if blank is None:
            self.faults.append(Fault(piece.piece, operation.number, "there is no such piece to cut"))
        elif not self.order.waits(operation.number, self.made.get(piece.piece, 0) & ~(1 << operation.number)):
            self.faults.append(
                Fault(piece.piece, operation.number, "it does not wait for the cut that makes its piece")
            )
        return blank

    def _give(self, operation: Operation, name: str, blank: Blank) -> None:
        self.there.setdefault(name, []).append(blank)
        self.made[name] = self.made.get(name, 0) | 1 << operation.number


def replay_breakdown(
    operations: Sequence[Operation], parts: Sequence[Part], given: Given, order: Order
) -> tuple[dict[str, int], list[Fault]]:
    """Return the operations that made each part's blanks, as bits, and what is wrong with these blanks."""
    sawn = Sawn(given, order)
    for operation in operations:
        if operation.action in BREAKDOWN:
            for piece in operation.on:
                sawn.cut(operation, piece)
        elif operation.action is Action.TRIM:
            for piece in operation.on:
                sawn.trim(operation, piece)
        elif operation.action in MILLING:
            for piece in operation.on:
                sawn.mill(operation, piece)
    faults = sawn.faults
    for part in parts:
        blanks = sawn.there.pop(part.id, [])
        if len(blanks) != part.quantity:
            faults.append(Fault(part.id, 0, f"{len(blanks)} are cut and {part.quantity} are wanted"))
        if not all(_fits(blank, part) for blank in blanks):
            faults.append(Fault(part.id, 0, "it is cut to another size"))
    faults += _leftovers(sawn)
    return sawn.made, faults


def _leftovers(sawn: Sawn) -> Iterator[Fault]:
    """Yield whether what is neither a part nor waste comes out as given."""
    over = [blank for name, blanks in sawn.there.items() for blank in blanks if name not in sawn.given.pieces]
    if Counter((blank.length, blank.width) for blank in over) != Counter(sawn.given.leftovers):
        yield Fault("", 0, "what is left over is not of the sizes planned")


def _parted(blank: Blank, action: Action, setting: Setting, kerf: int) -> tuple[Blank, Blank | None] | str:
    """Return what lies between fence or stop and blade, and what lies beyond, or what is wrong."""
    at = setting.fence if action is Action.RIP else setting.stop
    if at is None or at <= 0:
        return "a cut has no distance"
    size = blank.width if action is Action.RIP else blank.length
    if size is None:
        return _sized(blank, action, at), blank
    if setting.kerf != kerf:
        return "a cut has another kerf than the saw"
    if at > size:
        return "the piece is smaller than what is cut from it"
    rest = size - at - kerf
    return _sized(blank, action, at), _sized(blank, action, rest) if rest > 0 else None


def _milled(blank: Blank, action: Action, setting: Setting) -> Blank | str:
    """Return a piece with one face flat, one edge straight, or of its thickness, or what is wrong."""
    turn = 1 << MILLED.index(action)
    if turn <= blank.milled or (action is Action.THICKNESS and not blank.milled & 1):
        return "it is not faced, edged and thicknessed in turn"
    off, thickness, width = setting.depth or 0, blank.thickness or 0, blank.width or 0
    match action:
        case Action.FACE:
            made = replace(blank, thickness=thickness - off)
        case Action.EDGE:
            made = replace(blank, width=width - off)
        case _:
            off, made = thickness - (setting.height or 0), replace(blank, thickness=setting.height)
    if off <= 0 or not (made.thickness or 0) > 0 or not (made.width or 0) > 0:
        return "nothing comes off it, or nothing is left of it"
    return replace(made, milled=blank.milled | turn)


def _sized(blank: Blank, action: Action, size: int) -> Blank:
    """Return a piece with the size that a rip or a cross-cut has given it."""
    length, width = (blank.length, size) if action is Action.RIP else (size, blank.width)
    return Blank(blank.material, length, width, blank.thickness, blank.grain, blank.milled)


def _fits(blank: Blank, part: Part) -> bool:
    """Return whether a blank is a part, turned as its grain allows."""
    if blank.material != part.material or blank.thickness not in (None, part.thickness):
        return False
    straight = (blank.length, blank.width) == (part.length, part.width)
    turned = (blank.width, blank.length) == (part.length, part.width)
    if "free" in (blank.grain, part.grain):
        return straight or turned
    return straight if blank.grain == part.grain else turned
