"""One pass of a cutter over a part, and the named sides that it is measured from."""

from collections.abc import Mapping
from dataclasses import dataclass

from casewright.sdk.geometry import Axis
from casewright.sdk.model.operations import Action, Setting
from casewright.sdk.model.parts import FeatureKind, Part
from casewright.sdk.model.sides import Side, Sides

__all__ = ["ACTIONS", "SPARE", "Cut", "Measured", "side_of", "signed"]

ACTIONS: Mapping[FeatureKind, Action] = {
    "groove": Action.GROOVE,
    "rabbet": Action.RABBET,
    "notch": Action.NOTCH,
    "mortise": Action.MORTISE,
    "loose-mortise": Action.MORTISE,
    "biscuit-slot": Action.MORTISE,
    "spline-slot": Action.GROOVE,
    "pocket": Action.POCKET,
    "dovetail": Action.DOVETAIL,
    "fingers": Action.TENON,
    "tenon": Action.TENON,
    "hole": Action.BORE,
    "bevel": Action.BEVEL,
    "edge-profile": Action.PROFILE,
}
FRONT: Axis = -2
"""The way a cabinet's front looks."""

FIRST = ("show", "front", "bottom", "outer", "inside", "left", "right", "outside", "inner", "top", "back")
"""The first words of the names of sides, those first that are measured from where two sides are as near."""
SPARE = 1_000
"""What an equal division leaves over at most, in nm."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One pass of a cutter over a part: what is done, how it is set, and which sides it is measured from."""

    kind: FeatureKind
    setting: Setting
    down: Side
    against: Side
    leads: Side | None
    label: str
    at: tuple[tuple[int, int], ...] = ()
    run: tuple[int, int] = (1, 1)

    @property
    def action(self) -> Action:
        """What is done."""
        return ACTIONS[self.kind]


def side_of(axis: Axis) -> Side:
    """Return the side whose outward normal a signed axis of the part frame is."""
    return _OUTWARD[axis]


_OUTWARD = {side.axis if side.high else -side.axis: side for side in Side}


def signed(axis: int) -> Axis:
    """Return a number from -3 to 3, not 0, as a signed axis."""
    return _SIGNED[axis]


_SIGNED: dict[int, Axis] = {1: 1, 2: 2, 3: 3, -1: -1, -2: -2, -3: -3}


@dataclass(frozen=True, slots=True)
class Measured:
    """A part, and what its sides are called, to measure cuts from them."""

    part: Part
    sides: Sides | None = None

    def size(self, axis: int) -> int:
        """Return how large the part is along one of its axes."""
        return (self.part.length, self.part.width, self.part.thickness)[axis - 1]

    def span(self, side: Side, low: int, high: int) -> tuple[int, int]:
        """Return a span along the side's axis as distances inward from the side."""
        size = self.size(side.axis)
        return (size - high, size - low) if side.high else (low, high)

    def stops(self, side: Side, low: int, high: int) -> tuple[int, int] | tuple[None, None]:
        """Return where a cut begins and ends, as `span` does; `None` where it goes all through."""
        start, end = self.span(side, low, high)
        return (None, None) if (start, end) == (0, self.size(side.axis)) else (start, end)

    def nearest(self, axis: int, low: int, high: int) -> Side:
        """Return the side a span is measured from: the nearer one, or where both are as near the first in `FIRST`.

        Where no sides are named that is the one that looks to the front, or the low one.
        """
        near, far = _OUTWARD[-axis], _OUTWARD[axis]
        beyond = self.size(axis) - high
        if abs(low - beyond) > SPARE:
            return near if low < beyond else far
        if self.sides is None:
            return far if self.part.place.axis(signed(axis)) == FRONT else near
        names = self.sides
        return min((near, far), key=lambda side: _turn(names[side]))


def _turn(name: str) -> int:
    """Return where the name of a side stands among those that are measured from first."""
    word = name.split()[0]
    return FIRST.index(word) if word in FIRST else len(FIRST)
