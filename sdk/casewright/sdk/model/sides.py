"""The six sides of a part, and what each is called in the trade."""

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Side", "Sides"]


class Side(StrEnum):
    """One of the six sides of a part, in its own frame: length, width, thickness; low is where the axis starts."""

    END_LOW = "end-low", 1, False
    END_HIGH = "end-high", 1, True
    EDGE_LOW = "edge-low", 2, False
    EDGE_HIGH = "edge-high", 2, True
    FACE_LOW = "face-low", 3, False
    FACE_HIGH = "face-high", 3, True

    axis: int
    """The part axis the side closes: 1 length, 2 width, 3 thickness."""
    high: bool
    """Whether it is the side its axis ends at."""

    def __new__(cls, value: str, axis: int, high: bool) -> "Side":
        """Make one of the six."""
        side = str.__new__(cls, value)
        side._value_, side.axis, side.high = value, axis, high
        return side

    @property
    def across(self) -> "Side":
        """The side opposite."""
        return next(side for side in Side if side.axis == self.axis and side.high != self.high)


_FIELDS = {side: side.replace("-", "_") for side in Side}


@dataclass(frozen=True, slots=True)
class Sides:
    """What the six sides of a part are called in the trade: six different names."""

    end_low: str
    end_high: str
    edge_low: str
    edge_high: str
    face_low: str
    face_high: str

    def __getitem__(self, side: Side) -> str:
        """Return the name of a side."""
        name: str = getattr(self, _FIELDS[side])
        return name

    def side(self, name: str) -> Side:
        """Return the side of that name. Raises `KeyError`."""
        for side in Side:
            if self[side] == name:
                return side
        raise KeyError(name)
