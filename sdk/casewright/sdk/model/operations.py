"""The work as data: one operation is one machine (or a pair of hands) at one setting, over all pieces it is done to.

An operation is data first and words second: what is done follows from `machine`, `action`, `setting` and `on` alone,
and `do` only says it. All lengths are whole nm.

How a cut follows from its data: `down` is the side that lies on the table (for a tool that goes to the work, the side
that a slab is cut in from), `against` the side that rides the fence or
meets the stop, `leads` the side that `start` and `end` are measured from. A slab cut takes, from `down` up, `height`;
from `against` inward, `fence` to `fence + cutter`; and along the third way all of the piece, or `start` to `end`. A
slant takes the wedge whose base on the `down` side begins `fence` from `against`: its height is `height`, its base
`height · tan(tilt_deg)`, and its upright face is far from `against` or near it, as `tilts` says. A bore goes in from
the side opposite `down`, at each of the places `at` of its piece, which are distances from `against` and from `leads`.
A slab or slant with places `at` is made at each of them: it begins that far from `against` and from `leads`, and is
`end` long, or goes all through where there is none. `cutter` is the width that is cut. A cut with `tilt_deg` and no
`tilts` is a dovetail cutter's: a slab whose flanks lean out from `down` up, `height · tan(tilt_deg)` on either side.
A cut with `tilt_deg`, `tilts` and `cutter` is a slot square into a bevel of 45°, whose tip lies at `against`: its
middle meets the bevel `fence` from `against` and `depth` from `down`, and it goes `height` in, away from both.
A cut with `turn_deg` is a mitre: the piece lies on `down`, its side `leads` at the fence of the saw that is turned, and
`against` at the stop. It takes what a blade tilted as far would with `leads` down, `stop` in place of `fence`.
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from casewright.sdk.model.sides import Side

__all__ = [
    "Action",
    "CutTo",
    "Machine",
    "Measurement",
    "Move",
    "Operation",
    "Setting",
    "Stage",
    "Take",
    "Tilts",
    "Way",
    "Where",
    "Workpiece",
]


class Stage(StrEnum):
    """What part of the work a step belongs to."""

    MEASURE = "measure"
    MILL = "mill"
    CUT = "cut"
    JOINTS = "joints"
    DRY_FIT = "dry-fit"
    GLUE = "glue"
    FACE_FRAME = "face-frame"
    BAND = "band"
    DOORS = "doors"
    DRAWERS = "drawers"
    HARDWARE = "hardware"
    BASE = "base"
    ENDS = "ends"
    MOUNTING = "mounting"
    SET_OUT = "set-out"
    HANG = "hang"
    COUNTER = "counter"
    JOIN = "join"
    FILLERS = "fillers"
    FINISH = "finish"


class Machine(StrEnum):
    """What a shop may own to do an operation with."""

    JOINTER = "jointer"
    PLANER = "planer"
    TABLE_SAW = "table-saw"
    TRACK_SAW = "track-saw"
    MITRE_SAW = "mitre-saw"
    CROSSCUT_SLED = "crosscut-sled"
    ROUTER_TABLE = "router-table"
    ROUTER = "router"
    DRILL_PRESS = "drill-press"
    DRILL = "drill"
    MORTISER = "mortiser"
    LOOSE_TENON_MACHINE = "loose-tenon-machine"
    BISCUIT_MACHINE = "biscuit-machine"
    JIGSAW = "jigsaw"
    BAND_SAW = "band-saw"
    BY_HAND = "by-hand"


class Action(StrEnum):
    """What is done in an operation."""

    MEASURE = "measure"
    MARK = "mark"
    FACE = "face"
    EDGE = "edge"
    THICKNESS = "thickness"
    RIP = "rip"
    CROSSCUT = "crosscut"
    TRIM = "trim"
    GROOVE = "groove"
    RABBET = "rabbet"
    NOTCH = "notch"
    MORTISE = "mortise"
    TENON = "tenon"
    BORE = "bore"
    POCKET = "pocket"
    DOVETAIL = "dovetail"
    BEVEL = "bevel"
    PROFILE = "profile"
    BAND = "band"
    FIT = "fit"
    INSERT = "insert"
    GLUE = "glue"
    CLAMP = "clamp"
    SCREW = "screw"
    HANG = "hang"
    SAND = "sand"
    FINISH = "finish"
    WAIT = "wait"


class Tilts(StrEnum):
    """Where the upright face of a wedge of waste stands, seen from the side that rides the fence."""

    FAR = "far"
    NEAR = "near"


@dataclass(frozen=True, slots=True)
class Setting:
    """How the machine is set. Lengths in nm; `None` is what the operation has nothing of."""

    fence: int | None = None
    stop: int | None = None
    height: int | None = None
    cutter: int | None = None
    kerf: int | None = None
    tilt_deg: float | None = None
    tilts: Tilts | None = None
    turn_deg: float | None = None
    start: int | None = None
    end: int | None = None
    depth: int | None = None

    @property
    def distance(self) -> int | None:
        """How far the fence or the stop, whichever the machine has, is from the cutter."""
        return self.stop if self.fence is None else self.fence


@dataclass(frozen=True, slots=True)
class Workpiece:
    """A part, or a piece on its way to becoming parts, in an operation.

    `keeps` names what lies between the fence or stop and the blade, `leaves` what lies beyond it; an empty name is
    waste. `run` is which pass of how many over one cut this is. `cuts` are labels of the features made, for people;
    nothing reads them. A part that is set in goes `into` parts that stand already, with glue on its sides `glue`;
    `clamps` is how many clamps press across it.
    """

    part: str = ""
    piece: str = ""
    count: int = 1
    down: Side | None = None
    against: Side | None = None
    leads: Side | None = None
    at: tuple[tuple[int, int], ...] = ()
    run: tuple[int, int] = (1, 1)
    cuts: tuple[str, ...] = ()
    keeps: str = ""
    leaves: str = ""
    into: tuple[str, ...] = ()
    glue: tuple[Side, ...] = ()
    clamps: int = 0


class Way(StrEnum):
    """Where something moves, by the cabinet's directions as it stands: its front is the side that opens."""

    RIGHT = "right"
    LEFT = "left"
    BACK = "back"
    FRONT = "front"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class Move:
    """One straight move, and how far in nm; `None` comes from where nothing is in the way."""

    towards: Way
    by: int | None = None


class Where(StrEnum):
    """What a measurement on the work is taken over."""

    BETWEEN = "between"
    OVER = "over"
    GROOVE_FLOORS = "groove-floors"


class Take(StrEnum):
    """Which of the readings of a measurement counts."""

    LEAST = "least"
    GREATEST = "greatest"


@dataclass(frozen=True, slots=True)
class Measurement:
    """What is measured on the work between two parts, or two cabinets of a run, and written down for each of `copies`.

    `axis` is of the cabinet: 1 across, 2 deep, 3 up. `planned` is what it comes to as planned, in nm. What lies
    between the floors of grooves is measured with the parts `dry` put together without what goes in.
    """

    between: tuple[str, str]
    axis: int
    where: Where
    take: Take
    planned: int
    copies: tuple[str, ...]
    dry: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutTo:
    """What a cut is set to in place of its planned distance: what `step` measured, less `less` nm, over `among`.

    `full` nm more are left on, to be planed off to fit.
    """

    step: int
    less: int
    among: int = 1
    full: int = 0


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation. `needs` are numbers of operations that must be done first.

    `moves` bring the pieces of an insertion home, one after another; `minutes` is how long a wait lasts, at least, and
    how long work takes where the shop's rates say so. `measurement` is what is measured on the work, and `cut_to` the
    measurement that a cut waits for: its setting is the planned one.
    """

    number: int
    stage: Stage
    machine: Machine
    action: Action
    setting: Setting
    on: tuple[Workpiece, ...]
    needs: tuple[int, ...] = ()
    do: str = ""
    check: str = ""
    cautions: tuple[str, ...] = ()
    moves: tuple[Move, ...] = ()
    minutes: int | Fraction | None = None
    measurement: Measurement | None = None
    cut_to: CutTo | None = None

    @property
    def parts(self) -> tuple[str, ...]:
        """Ids of the parts it is done to, or that it leaves finished, each once."""
        ids = dict.fromkeys(piece.part or piece.keeps for piece in self.on)
        return tuple(one for one in ids if "/" in one)
