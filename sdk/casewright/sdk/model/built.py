"""The work as it came out: sizes measured of what is built, and mistakes made. Lengths in nm."""

from dataclasses import dataclass
from enum import StrEnum

from casewright.sdk.model.cabinet import Cabinet

__all__ = ["AsBuilt", "BuiltMeasure", "BuiltSize", "PartChange", "SizeChange"]


class BuiltMeasure(StrEnum):
    """What was measured: of a part, of a case glued up, or of the opening that something goes into."""

    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"
    OUTSIDE_WIDTH = "outside-width"
    OUTSIDE_HEIGHT = "outside-height"
    OUTSIDE_DEPTH = "outside-depth"
    OPENING_WIDTH = "opening-width"
    OPENING_HEIGHT = "opening-height"

    @property
    def of_case(self) -> bool:
        """Whether it is measured of the case, not of a part or of what a part goes into."""
        return self in (BuiltMeasure.OUTSIDE_WIDTH, BuiltMeasure.OUTSIDE_HEIGHT, BuiltMeasure.OUTSIDE_DEPTH)

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
    """What follows from what is built: `asked` are the cabinets as the job describes them, `changed` what differs."""

    asked: tuple[Cabinet, ...]
    changed: tuple[PartChange, ...]
