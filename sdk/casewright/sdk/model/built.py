"""The work as it came out: sizes measured of what is built, and mistakes made. Lengths in nm."""

from dataclasses import dataclass
from enum import StrEnum

from casewright.sdk.model.cabinet import Cabinet

__all__ = ["AsBuilt", "BuiltMeasure", "BuiltMistake", "BuiltSize", "Mistake", "PartChange", "Repair", "SizeChange"]


class BuiltMeasure(StrEnum):
    """What was measured: of a part, of a case glued up, or of the opening that something goes into."""

    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"
    OUTSIDE_WIDTH = "outside-width"
    OUTSIDE_HEIGHT = "outside-height"
    OUTSIDE_DEPTH = "outside-depth"
    DIAGONAL_RISING = "diagonal-rising"
    """Of the case's front, from its lower left corner to its upper right one."""
    DIAGONAL_FALLING = "diagonal-falling"
    OPENING_WIDTH = "opening-width"
    OPENING_HEIGHT = "opening-height"

    @property
    def of_case(self) -> bool:
        """Whether it is measured of the case, not of a part or of what a part goes into."""
        outside = (BuiltMeasure.OUTSIDE_WIDTH, BuiltMeasure.OUTSIDE_HEIGHT, BuiltMeasure.OUTSIDE_DEPTH)
        return self in outside or self.of_square

    @property
    def of_square(self) -> bool:
        """Whether it is a diagonal of the case, by which it is seen to be square."""
        return self in (BuiltMeasure.DIAGONAL_RISING, BuiltMeasure.DIAGONAL_FALLING)

    @property
    def of_opening(self) -> bool:
        """Whether it is the clear room that a door, a drawer or a panel goes into."""
        return self in (BuiltMeasure.OPENING_WIDTH, BuiltMeasure.OPENING_HEIGHT)


@dataclass(frozen=True, slots=True)
class BuiltSize:
    """One thing measured: a part's size, the opening it goes into, or a case without face frame and ends.

    `copy` is which of the cabinet's copies, from 1, and `None` for loose parts that are not yet assigned to any;
    `count` is how many such parts came out so, `None` for all. `packed` is what was added to make it up: veneer, card,
    a strip glued on. `pointer` is its place in the job.
    """

    pointer: str
    cabinet: str
    measure: BuiltMeasure
    value: int
    part: str | None = None
    copy: int | None = None
    count: int | None = None
    at: str = ""
    packed: int = 0

    @property
    def nm(self) -> int:
        """The size as it counts, packing and all."""
        return self.value + self.packed


class Mistake(StrEnum):
    """What went wrong with a part or a door that has its size; one cut too short is said by its size."""

    PANEL_FORGOTTEN = "panel-forgotten"
    """A door was glued up without its panel."""
    MEETS_NEIGHBOUR = "meets-neighbour"
    """A door meets what is beside it, by `value`."""
    WRONG_FACE = "groove-on-wrong-face"
    """The joinery of a part was cut into the other face."""
    WRONG_SIDE = "hinge-on-wrong-side"
    """A door was bored for its hinges at the other edge."""


@dataclass(frozen=True, slots=True)
class BuiltMistake:
    """A mistake made with a part, or a door by its id within the cabinet; `value` is how much it is, in nm."""

    pointer: str
    cabinet: str
    mistake: Mistake
    part: str
    copy: int | None = None
    value: int = 0


@dataclass(frozen=True, slots=True)
class Repair:
    """The least that puts a mistake right: what to do, in words, and the parts that are to be made again for it."""

    pointer: str
    cabinet: str
    part: str
    mistake: Mistake
    do: str
    again: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SizeChange:
    """One size that is not what it was planned."""

    measure: BuiltMeasure
    was: int
    now: int


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part that comes out otherwise than planned: `built` as it was measured, else as it is now to be cut.

    `planned` is its id in the plan without what is built, `part` its id in this one; `cuts` says whether its cuts
    are others too.
    """

    part: str
    planned: str
    copies: tuple[int, ...]
    sizes: tuple[SizeChange, ...]
    cuts: bool
    built: bool


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """What follows from what is built: `planned` are the cabinets as the job describes them, `changed` what differs."""

    planned: tuple[Cabinet, ...]
    changed: tuple[PartChange, ...]
    repairs: tuple[Repair, ...] = ()
