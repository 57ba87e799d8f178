"""A simulated saw and planer: pieces of stock in, blanks of parts out, each compared with what is wanted."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from casewright.api.engine.work.replay_records import BREAKDOWN, MILLING, Blank, Fault, Given, Order
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Workpiece
from casewright.sdk.model.parts import Part

__all__ = ["Lot", "Sawn", "replay_breakdown"]

FACED, EDGED, OF_THICKNESS, BOTH_EDGES = 1, 2, 4, 8

Lot = tuple[Blank, int]
"""Like pieces: what each of them is, and how many there are."""


class Sawn:
    """The pieces there are as operations go on, and which operations each name has come from, as bits."""

    def __init__(self, given: Given, order: Order) -> None:
        self.given = given
        self.order = order
        self.there: dict[str, list[Lot]] = {name: [(blank, 1)] for name, blank in given.pieces.items()}
        self.there |= {name: [lot] for name, lot in given.cut.items()}
        self.made: dict[str, int] = {}
        self.wet: dict[str, bool] = {}
        """Panels whose glue is not left to set yet, and whether they are clamped."""
        self.faults: list[Fault] = []

    def carry_out(self, operations: Iterable[Operation]) -> None:
        """Do what operations do to pieces, one after another."""
        for operation in operations:
            if operation.action in BREAKDOWN:
                for piece in operation.on:
                    self.cut(operation, piece)
            elif operation.action is Action.TRIM:
                for piece in operation.on:
                    self.trim(operation, piece)
            elif operation.action is Action.MARK:
                for piece in operation.on:
                    if piece.piece and piece.keeps:
                        self.mark(operation, piece)
            elif operation.action in MILLING:
                for piece in operation.on:
                    self.mill(operation, piece)
            elif operation.action is Action.GLUE and any(piece.keeps for piece in operation.on):
                self.glue(operation)
            elif self.wet and operation.action is Action.CLAMP:
                self.clamp(operation)
            elif self.wet and operation.action is Action.WAIT:
                self.leave(operation)

    def cut(self, operation: Operation, piece: Workpiece) -> None:
        """Part as many pieces as an operation is done to."""
        for blank, count in self._taken(operation, piece):
            parted = _parted(blank, operation, self.given.kerf)
            if isinstance(parted, str):
                self.faults.append(Fault(piece.piece, operation.number, parted))
                return
            kept, rest = parted
            for name, size in ((piece.keeps, kept), (piece.leaves, rest)):
                if name and name not in self.given.endless:
                    if size is not None and size <= 0:
                        self.faults.append(Fault(name, operation.number, "nothing is left for it"))
                    else:
                        self._give(operation, name, (_sized(blank, operation.action, size), count))

    def trim(self, operation: Operation, piece: Workpiece) -> None:
        """Take the trim off one edge and one end of a sheet."""
        lot = next(self._taken(operation, piece), None)
        if lot is None:
            return
        blank = lot[0]
        depth, length, width = operation.setting.depth or 0, blank.length or 0, blank.width or 0
        if operation.setting.kerf != self.given.kerf:
            self.faults.append(Fault(piece.piece, operation.number, "a cut has another kerf than the saw"))
        if depth <= 0 or depth >= min(length, width) or piece.count != 1 or piece.leaves:
            self.faults.append(Fault(piece.piece, operation.number, "no sheet is left of what is trimmed"))
        trimmed = blank._replace(length=length - depth, width=width - depth)
        self._give(operation, piece.keeps, (trimmed, 1))

    def mark(self, operation: Operation, piece: Workpiece) -> None:
        """Call pieces what they are from now on."""
        for lot in self._taken(operation, piece):
            self._give(operation, piece.keeps, lot)

    def mill(self, operation: Operation, piece: Workpiece) -> None:
        """Make as many pieces as an operation is done to flat, straight or of their thickness, in that order."""
        for blank, count in self._taken(operation, piece):
            milled = _milled(blank, operation.action, operation.setting, piece.run)
            if isinstance(milled, str):
                self.faults.append(Fault(piece.piece, operation.number, milled))
                return
            self._give(operation, piece.keeps, (milled, count))

    def glue(self, operation: Operation) -> None:
        """Make panels of strips side by side: each row of an operation gives one strip to each panel of its name."""
        panels: dict[str, list[Workpiece]] = {}
        for piece in operation.on:
            panels.setdefault(piece.keeps, []).append(piece)
        for name, rows in panels.items():
            strips = [self._each(operation, row) for row in rows]
            for beside in zip(*strips, strict=False):
                first = next((one for one in beside if one.thickness is not None), beside[0])
                edged = all(one.milled & EDGED and one.milled & BOTH_EDGES for one in beside)
                if not edged or not all(_alike(first, one) for one in beside):
                    fault = "its strips are not alike but for their width, with both edges straight"
                    self.faults.append(Fault(name, operation.number, fault))
                width = sum(one.width or 0 for one in beside)
                self._give(operation, name, (first._replace(width=width), 1))
            self.wet[name] = False
            if len({len(lots) for lots in strips}) != 1:
                self.faults.append(Fault(name, operation.number, "a panel lacks a strip"))

    def clamp(self, operation: Operation) -> None:
        """Clamp panels, each of them."""
        for piece in operation.on:
            if piece.piece in self.wet:
                self.wet[piece.piece] = piece.clamps > 0

    def leave(self, operation: Operation) -> None:
        """Leave panels in their clamps for as long as the glue takes."""
        for name in [piece.piece for piece in operation.on if piece.piece in self.wet]:
            if not self.wet.pop(name):
                self.faults.append(Fault(name, operation.number, "no clamp presses on it"))
            elif (operation.minutes or 0) < self.given.clamped:
                self.faults.append(Fault(name, operation.number, "the glue is not left for as long as it takes"))

    def _each(self, operation: Operation, piece: Workpiece) -> list[Blank]:
        return [blank for blank, count in self._taken(operation, piece) for _ in range(count)]

    def _taken(self, operation: Operation, piece: Workpiece) -> Iterator[Lot]:
        """Yield the lots that an operation is done to, one after another: what it gives back may be taken again."""
        name, number, wanted = piece.piece, operation.number, piece.count
        waiting, endless = self.there.setdefault(name, []), self.given.endless.get(name)
        if wanted < 1:
            self.faults.append(Fault(name, number, "it is done to none"))
        elif name in self.wet:
            self.faults.append(Fault(name, number, "its glue is not left to set"))
        elif not self.order.waits(number, self.made.get(name, 0) & ~(1 << number)):
            self.faults.append(Fault(name, number, "it does not wait for the cut that makes its piece"))
        while wanted > 0:
            if waiting:
                blank, count = waiting.pop(0)
                if count > wanted:
                    waiting.insert(0, (blank, count - wanted))
                    count = wanted
            elif endless is not None:
                blank, count = endless, wanted
            else:
                self.faults.append(Fault(name, number, "there is no such piece to cut"))
                return
            yield blank, count
            wanted -= count

    def _give(self, operation: Operation, name: str, lot: Lot) -> None:
        self.there.setdefault(name, []).append(lot)
        self.made[name] = self.made.get(name, 0) | 1 << operation.number


def replay_breakdown(
    operations: Sequence[Operation], parts: Sequence[Part], given: Given, order: Order
) -> tuple[dict[str, int], list[Fault]]:
    """Return the operations that made each part's blanks, as bits, and what is wrong with these blanks."""
    sawn = Sawn(given, order)
    sawn.carry_out(operations)
    faults = sawn.faults
    for part in parts:
        blanks = sawn.there.pop(part.id, [])
        cut = sum(count for _, count in blanks)
        if cut != part.quantity:
            faults.append(Fault(part.id, 0, f"{cut} are cut and {part.quantity} are wanted"))
        if not all(_fits(blank, part) for blank, _ in blanks):
            faults.append(Fault(part.id, 0, "it is cut to another size"))
    faults += _leftovers(sawn)
    return sawn.made, faults


def _leftovers(sawn: Sawn) -> Iterator[Fault]:
    """Yield whether what is neither a part nor waste comes out as given."""
    over: Counter[tuple[int | None, int | None]] = Counter()
    for name, lots in sawn.there.items():
        for blank, count in lots if name not in sawn.given.pieces else ():
            over[blank.length, blank.width] += count
    if over != Counter(sawn.given.leftovers):
        yield Fault("", 0, "what is left over is not of the sizes planned")


def _alike(strip: Blank, other: Blank) -> bool:
    """Return whether two strips are alike but for their width; one of no given stock has no thickness yet."""
    if other.thickness is None:
        return (strip.material, strip.length) == (other.material, other.length)
    return strip._replace(width=0) == other._replace(width=0)


def _parted(blank: Blank, operation: Operation, kerf: int) -> tuple[int, int | None] | str:
    """Return how large is what lies between fence or stop and blade, and what lies beyond, or what is wrong.

    Beyond lies `None` where what is cut from has no size, and nothing where it is not above zero. A piece without a
    straight edge is ripped along a track.
    """
    action, setting = operation.action, operation.setting
    at = setting.distance
    if at is None or at <= 0:
        return "a cut has no distance"
    if operation.machine in (Machine.CROSSCUT_SLED, Machine.MITRE_SAW) and setting.stop is None:
        return "a saw with a stop has a fence"
    size = blank.width if action is Action.RIP else blank.length
    if size is None:
        return at, None
    if setting.kerf != kerf:
        return "a cut has another kerf than the saw"
    if at > size:
        return "the piece is smaller than what is cut from it"
    if action is Action.RIP and not blank.straight and operation.machine is not Machine.TRACK_SAW:
        return "no edge of the piece is straight yet"
    return at, size - at - kerf


def _milled(blank: Blank, action: Action, setting: Setting, run: tuple[int, int]) -> Blank | str:
    """Return a piece with one face flat, an edge straight, or of its thickness, or what is wrong.

    A face comes before all else; an edge, with the other edge after it, is straight until the piece is ripped.
    """
    turn, ready = _turns(blank, action, run)
    if blank.milled & turn or not ready:
        return "it is not faced, edged and thicknessed in turn"
    off, thickness, width = setting.depth or 0, blank.thickness, blank.width
    straight = blank.straight or action is Action.EDGE
    match action:
        case Action.FACE:
            left = thickness = (thickness or 0) - off
        case Action.EDGE:
            left = width = (width or 0) - off
        case _:
            left = setting.height or 0
            off, thickness = (thickness or 0) - left, left
    if off <= 0 or left <= 0:
        return "nothing comes off it, or nothing is left of it"
    return Blank(blank.material, blank.length, width, thickness, blank.grain, blank.milled | turn, straight)


def _turns(blank: Blank, action: Action, run: tuple[int, int]) -> tuple[int, bool]:
    """Return what milling does to a piece, as a bit, and whether what must come before it is done."""
    if action is Action.FACE:
        return FACED, not blank.milled
    if action is Action.THICKNESS:
        return OF_THICKNESS, bool(blank.milled & FACED)
    return (EDGED, True) if run[0] == 1 else (BOTH_EDGES, bool(blank.milled & EDGED))


def _sized(blank: Blank, action: Action, size: int | None) -> Blank:
    """Return a piece with the size that a rip or a crosscut has given it; a ripped edge is a sawn one again."""
    length, width, milled = blank.length, blank.width, blank.milled
    if action is Action.RIP:
        width, milled = size, milled & ~(EDGED | BOTH_EDGES)
    else:
        length = size
    return Blank(blank.material, length, width, blank.thickness, blank.grain, milled, blank.straight)


def _fits(blank: Blank, part: Part) -> bool:
    """Return whether a blank is a part, turned as its grain allows."""
    if blank.material != part.material or blank.thickness not in (None, part.thickness):
        return False
    straight = (blank.length, blank.width) == (part.length, part.width)
    turned = (blank.width, blank.length) == (part.length, part.width)
    if "free" in (blank.grain, part.grain):
        return straight or turned
    return straight if blank.grain == part.grain else turned
