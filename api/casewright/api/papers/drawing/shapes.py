"""What a drawing is made of.

A `Sheet` holds views. A `View` holds shapes in true size (mm of the thing drawn) and says where on the paper its
origin stands and at what scale it is drawn there; a view at scale 1 holds paper furniture. Text heights, arrows and
the distance of dimension lines are mm on paper at every scale. x runs right and y up, on paper from its lower left.
"""

from dataclasses import dataclass, field
from enum import Enum
from typing import Literal

XY = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

SMALL, USUAL, LARGE = 1.8, 2.5, 3.5
"""Text heights, mm: ISO 3098's 1.8, 2.5 and 3.5."""

TEXT = 2.32
"""Height of running words and tables on a drawing, mm: type of 9 points."""


_LINES: dict[str, tuple[float, tuple[float, ...]]] = {
    "wide": (0.5, ()),
    "narrow": (0.25, ()),
    "fine": (0.13, ()),
    "hidden": (0.25, (3.0, 0.75)),
    "centre": (0.25, (6.0, 0.75, 0.125, 0.75)),
}


class Kind(Enum):
    """Line kinds of ISO 128-2: width in mm, and dash and gap lengths in mm (widths times 12, 24, 3 and 0.5)."""

    WIDE = "wide"
    NARROW = "narrow"
    FINE = "fine"
    HIDDEN = "hidden"
    CENTRE = "centre"

    @property
    def width(self) -> float:
        """Line width on paper, mm."""
        return _LINES[self.value][0]

    @property
    def dashes(self) -> tuple[float, ...]:
        """Lengths drawn and left out in turn, mm on paper; empty for an unbroken line."""
        return _LINES[self.value][1]


@dataclass(frozen=True, slots=True)
class Shown:
    """A number of the plan that a drawing shows: of what, which of its numbers, and the number in nm."""

    subject: str
    what: str
    nm: int


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    a: XY
    b: XY
    kind: Kind = Kind.WIDE


@dataclass(frozen=True, slots=True)
class Path:
    """A polyline, or a polygon where `closed`; `solid` fills it in black (arrows and marks only)."""

    points: tuple[XY, ...]
    kind: Kind = Kind.WIDE
    closed: bool = False
    solid: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle, or the arc of it that runs anticlockwise from `start` to `end` degrees."""

    centre: XY
    radius: float
    kind: Kind = Kind.WIDE
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel narrow lines over convex polygons of one region, `gap` mm of paper apart, at `angle` degrees."""

    polygons: tuple[tuple[XY, ...], ...]
    angle: float = 45.0
    gap: float = 2.0


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text: `at` is its anchor on the base line, moved by `shift` mm of paper; `angle` is 0 or 90."""

    at: XY
    text: str
    height: float = USUAL
    anchor: Anchor = "start"
    angle: int = 0
    bold: bool = False
    shift: XY = (0.0, 0.0)
    shows: tuple[Shown, ...] = ()


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle whose size belongs to the paper, such as a mark or balloon: `radius` in mm of paper."""

    centre: XY
    radius: float
    kind: Kind = Kind.NARROW
    shift: XY = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A polyline that starts from a true-size point and goes on in mm of paper, such as a leader."""

    at: XY
    moves: tuple[XY, ...]
    kind: Kind = Kind.NARROW
    solid: bool = False


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension by ISO 129-1 along x or y, from `a` to `b`: extension lines, arrows, text over the line.

    `base` is the other coordinate of the outline measured; the dimension line runs `off` mm of paper from it,
    below or left of it where negative.
    """

    along: Literal["x", "y"]
    a: float
    b: float
    base: float
    off: float
    text: str
    shows: tuple[Shown, ...]


@dataclass(frozen=True, slots=True)
class Running:
    """Running dimensions by ISO 129-1: one datum, one line, every number written at the end of its own line.

    `stops` are (coordinate, text, what is shown). `base` and `off` are as in `Dimension`. `beside` is one from another
    datum on the same line: the texts of the two keep clear of each other.
    """

    along: Literal["x", "y"]
    datum: float
    stops: tuple[tuple[float, str, tuple[Shown, ...]], ...]
    base: float
    off: float
    beside: "Running | None" = None


Shape = Line | Path | Circle | Hatch | Text | Ring | Stroke | Dimension | Running


@dataclass(frozen=True, slots=True)
class View:
    """Shapes in true size, drawn `scale` times as large with their origin at `at` on the paper."""

    name: str
    shapes: tuple[Shape, ...]
    at: XY = (0.0, 0.0)
    scale: float = 1.0
    furniture: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper, `width` by `height` mm, with what is drawn on it. `units` is the job's: `in` or `mm`."""

    name: str
    title: str
    width: float
    height: float
    units: str
    views: tuple[View, ...] = field(default=())
