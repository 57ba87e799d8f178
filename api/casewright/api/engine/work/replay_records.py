"""What a simulated shop is given and what it reports: the words that its saw, cutters, bench and hands share."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from casewright.sdk.model.operations import Action, Machine, Operation
from casewright.sdk.model.parts import FeatureKind, GrainRule

__all__ = ["AS", "BREAKDOWN", "CUTTING", "MACHINED", "MAKES", "MILLING", "Blank", "Fault", "Given", "Order"]

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
_SAWS = (Machine.TABLE_SAW, Machine.TRACK_SAW, Machine.CROSSCUT_SLED, Machine.MITRE_SAW, Machine.BAND_SAW)
_CUTTERS = (Machine.ROUTER, Machine.ROUTER_TABLE, Machine.BY_HAND)
MAKES: Mapping[Action, frozenset[Machine]] = {
    Action.RIP: frozenset({*_SAWS, Machine.JIGSAW, Machine.BY_HAND}),
    Action.CROSSCUT: frozenset({*_SAWS, Machine.JIGSAW, Machine.BY_HAND}),
    Action.TRIM: frozenset({Machine.TABLE_SAW, Machine.TRACK_SAW}),
    Action.FACE: frozenset({Machine.JOINTER, Machine.PLANER, Machine.BY_HAND}),
    Action.EDGE: frozenset({Machine.JOINTER, Machine.TABLE_SAW, Machine.TRACK_SAW, Machine.BY_HAND}),
    Action.THICKNESS: frozenset({Machine.PLANER, Machine.BY_HAND}),
    Action.GROOVE: frozenset({Machine.TABLE_SAW, *_CUTTERS}),
    Action.RABBET: frozenset({Machine.TABLE_SAW, *_CUTTERS}),
    Action.NOTCH: frozenset({Machine.JIGSAW, Machine.BAND_SAW, Machine.TABLE_SAW, *_CUTTERS}),
    Action.MORTISE: frozenset(
        {Machine.MORTISER, Machine.LOOSE_TENON_MACHINE, Machine.BISCUIT_MACHINE, Machine.DRILL_PRESS, *_CUTTERS}
    ),
    Action.TENON: frozenset({Machine.TABLE_SAW, Machine.BAND_SAW, *_CUTTERS}),
    Action.DOVETAIL: frozenset({Machine.BAND_SAW, *_CUTTERS}),
    Action.BEVEL: frozenset({*_SAWS, *_CUTTERS}),
    Action.PROFILE: frozenset(_CUTTERS),
    Action.BORE: frozenset({Machine.DRILL, Machine.DRILL_PRESS}),
    Action.POCKET: frozenset({Machine.DRILL, Machine.DRILL_PRESS}),
}
"""What can do each action at a machine (common practice, no source); all others are done by hand."""
AS: Mapping[FeatureKind, Action] = {
    "groove": Action.GROOVE,
    "rabbet": Action.RABBET,
    "notch": Action.NOTCH,
    "hole": Action.BORE,
    "mortise": Action.MORTISE,
    "loose-mortise": Action.MORTISE,
    "biscuit-slot": Action.MORTISE,
    "spline-slot": Action.GROOVE,
    "pocket": Action.POCKET,
    "dovetail": Action.DOVETAIL,
    "fingers": Action.TENON,
    "tenon": Action.TENON,
    "bevel": Action.BEVEL,
    "edge-profile": Action.PROFILE,
}
"""What each kind of cut is made as."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What came out wrong: of which part or piece, at which operation (0: in the end), in plain words.

    `apart` is whether it is that a part is left apart from what it joins, or is not held to it.
    """

    part: str
    operation: int
    what: str
    apart: bool = False


class Blank(NamedTuple):
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

    `kerf` is the saw's; `leftovers` are the lengths and widths of what no part comes from and is not waste; `clamped`
    is how many minutes glue is left for; `cut` are parts that are cut already, and how many of each.
    """

    pieces: Mapping[str, Blank]
    endless: Mapping[str, Blank]
    kerf: int
    leftovers: Sequence[tuple[int, int]] = ()
    clamped: int = 0
    cut: Mapping[str, tuple[Blank, int]] = field(default_factory=dict)


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
