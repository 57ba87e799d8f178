"""What a simulated shop is given and what it reports: the words of its two halves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from casewright.sdk.model.operations import Action, Operation
from casewright.sdk.model.parts import GrainRule

__all__ = ["BREAKDOWN", "CUTTING", "MACHINED", "MILLING", "Blank", "Fault", "Given", "Order"]

BREAKDOWN = frozenset({Action.RIP, Action.CROSSCUT})
MILLING = frozenset({Action.FACE, Action.EDGE, Action.THICKNESS})
CUTTING = frozenset(
    {
        Action.BEVEL,
        Action.TENON,
        Action.NOTCH,
        Action.DOVETAIL,
        Action.RABBET,
        Action.GROOVE,
        Action.MORTISE,
        Action.POCKET,
        Action.BORE,
        Action.PROFILE,
    }
)
MACHINED = BREAKDOWN | MILLING | CUTTING | {Action.TRIM}


@dataclass(frozen=True, slots=True)
class Fault:
    """What came out wrong: of which part or piece, at which operation (0: in the end), in plain words."""

    part: str
    operation: int
    what: str


@dataclass(frozen=True, slots=True)
class Blank:
    """A piece of stock, or what a cut made of one: `None` is a size that no cut has given it yet."""

    material: str
    length: int | None
    width: int | None
    thickness: int | None
    grain: GrainRule
    milled: int = 0
    """What has been done of milling, as bits: 1 faced, 2 edged, 4 of its thickness, 8 its other edge too."""
    straight: bool = True
    """Whether an edge is straight, so that it may ride a fence."""


@dataclass(frozen=True, slots=True)
class Given:
    """What there is to cut: pieces of stock by name, one of each, and what there is as much of as is asked for.

    `kerf` is the saw's; `leftovers` are the lengths and widths of what no part comes from and is not waste.
    """

    pieces: Mapping[str, Blank]
    endless: Mapping[str, Blank]
    kerf: int
    leftovers: Sequence[tuple[int, int]] = ()


@dataclass(frozen=True, slots=True)
class Order:
    """For each operation all those it waits for, straight or by others, as bits."""

    before: tuple[int, ...]

    @classmethod
    def of(cls, operations: Sequence[Operation]) -> "Order":
        """Return the order that the needs of operations make."""
        before = [0]
        for number, operation in enumerate(operations, start=1):
            bits = 0
            for need in operation.needs:
                if 0 < need < number:
                    bits |= before[need] | 1 << need
            before.append(bits)
        return cls(tuple(before))

    def waits(self, number: int, others: int) -> bool:
        """Return whether an operation waits for all of others, which are bits."""
        return not others & ~self.before[number]
