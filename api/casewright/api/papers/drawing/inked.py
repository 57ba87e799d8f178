"""What every writer draws in the same way: strokes, rounds and labels."""

from dataclasses import dataclass

from casewright.api.papers.drawing.shapes import XY, Anchor, Kind, Shown


@dataclass(frozen=True, slots=True)
class Mark:
    """A polyline: `solid` filled in black, `closed` back to its first point."""

    points: tuple[XY, ...]
    kind: Kind
    closed: bool = False
    solid: bool = False


@dataclass(frozen=True, slots=True)
class Round:
    """A circle or an arc of it, anticlockwise from `start` to `end` degrees."""

    centre: XY
    radius: float
    kind: Kind
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text; `height` stays mm on paper. `dimension` tells a dimension's text from other text."""

    at: XY
    text: str
    height: float
    anchor: Anchor = "start"
    angle: int = 0
    bold: bool = False
    shows: tuple[Shown, ...] = ()
    dimension: bool = False


AnyMark = Mark | Round | Label
