"""Parts, the cuts made in them, the reasons for their sizes, and what is found about them.

Lengths are whole nm. A part is its blank box minus its features, plus its bands.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Literal

from casewright.sdk.findings import Finding
from casewright.sdk.geometry import Axis, Box, Cylinder, Place, Point, Wedge, opposite

Role = Literal[
    "side", "top", "bottom", "divider", "shelf", "back", "strip", "cleat", "wall-cleat", "frame-stile",
    "frame-rail", "door-stile", "door-rail", "door-panel", "door", "box-side", "box-front", "box-back",
    "box-bottom", "drawer-front", "plinth", "stretcher", "end-panel", "loose",
]  # fmt: skip
FeatureKind = Literal[
    "groove", "rabbet", "notch", "hole", "mortise", "loose-mortise", "biscuit-slot", "spline-slot", "pocket",
    "dovetail", "fingers", "tenon", "bevel", "edge-profile",
]  # fmt: skip
"""What the trade cuts: it decides the action and the machines. A `notch` is cut out of an edge or a corner; a
`loose-mortise` and a `biscuit-slot` take a separate tenon or a biscuit; a `spline-slot` lies in a mitre; a `pocket` is
bored aslant for a screw; `dovetail` is a slot, a socket or the waste beside a tail, made along its `run` by a dovetail
cutter where it has one; `fingers` are the waste of a box joint, in either part."""
GrainRule = Literal["along-length", "along-width", "free"]


class Purpose(StrEnum):
    """What a cut is for: what decides when it is made and where it is drawn. Labels only say it in words."""

    JOINERY = "joinery"
    """Lets parts into one another or holds them: joints, their screws and dowels."""
    SHAPE = "shape"
    """Gives a part its form: mouldings, raised fields, recesses, the bevel of a hook."""
    SHELF_PINS = "shelf-pins"
    RUNNER = "runner"
    HINGE_CUP = "hinge-cup"
    PULL = "pull"


@dataclass(frozen=True, slots=True)
class Term:
    """One signed term of a dimension's reason: what it is and how much, in nm."""

    label: str
    nm: int


def total(why: tuple[Term, ...]) -> int:
    """Return the sum of the terms in nm."""
    return sum(term.nm for term in why)


@dataclass(frozen=True, slots=True)
class Feature:
    """One cut, in the frame it is given in (joint, assembly or part frame).

    `entry` is the outward normal of the face the cutter enters by; `run` the axis a groove runs along.
    `boxes`, `holes` and `wedges` are the waste it takes away. `label` says in words what it
    is for, and `purpose` decides when it is made. `angle_deg` is the saw tilt of a bevel, from square.
    """

    kind: FeatureKind
    label: str
    entry: Axis
    boxes: tuple[Box, ...] = ()
    holes: tuple[Cylinder, ...] = ()
    wedges: tuple[Wedge, ...] = ()
    run: Axis | None = None
    angle_deg: float | None = None
    joint: str = ""
    purpose: Purpose = Purpose.JOINERY

    @property
    def waste_boxes(self) -> tuple[Box, ...]:
        """The boxes of its waste and the box round each of its wedges; its holes are none of them."""
        return (*self.boxes, *[wedge.box for wedge in self.wedges]) if self.wedges else self.boxes

    def envelope(self) -> Box:
        """Return the box round all of its waste."""
        boxes = self.waste_boxes
        if self.holes:
            boxes = (*boxes, *[hole.envelope for hole in self.holes])
        if len(boxes) == 1:
            return boxes[0]
        return Box.union(boxes)

    def carried(self, place: Place, joint: str | None = None) -> "Feature":
        """Return the feature carried from its frame by `place` into the outer frame."""
        return Feature(
            self.kind,
            self.label,
            place.axis(self.entry),
            tuple(map(place.box, self.boxes)),
            tuple(map(place.cylinder, self.holes)) if self.holes else (),
            tuple(map(place.wedge, self.wedges)) if self.wedges else (),
            None if self.run is None else place.axis(self.run),
            self.angle_deg,
            self.joint if joint is None else joint,
            self.purpose,
        )


def groove(label: str, box: Box, entry: Axis, run: Axis) -> Feature:
    """Return a groove: waste with wood on both long sides."""
    return Feature("groove", label, entry, boxes=(box,), run=run)


def rabbet(label: str, box: Box, entry: Axis, run: Axis) -> Feature:
    """Return a rabbet: waste open along one long side."""
    return Feature("rabbet", label, entry, boxes=(box,), run=run)


def mortise(label: str, box: Box, entry: Axis) -> Feature:
    """Return a mortise: a pocket closed all round."""
    return Feature("mortise", label, entry, boxes=(box,))


def hole(label: str, *holes: Cylinder, purpose: Purpose = Purpose.JOINERY) -> Feature:
    """Return one or more like round holes that enter by the same face."""
    return Feature("hole", label, opposite(holes[0].into), holes=holes, purpose=purpose)


@dataclass(frozen=True, slots=True)
class HardwareUse:
    """A piece of hardware and where each one goes, in the frame it is given in.

    `item` is a catalogue id; `name` what it is ordered by; `at` the points; `axis` the way it points in.
    `quantity` counts pieces when it is not the number of points (packs of brads, for example); `where` says in words
    where they go, if that is to stand beside the name.
    """

    item: str
    name: str
    at: tuple[Point, ...] = ()
    axis: Axis | None = None
    quantity: int | None = None
    where: str = ""

    @property
    def count(self) -> int:
        """How many pieces."""
        return len(self.at) if self.quantity is None else self.quantity

    def carried(self, place: Place) -> "HardwareUse":
        """Return the hardware carried by `place` into the outer frame."""
        axis = None if self.axis is None else place.axis(self.axis)
        return replace(self, at=tuple(map(place.point, self.at)), axis=axis)


@dataclass(frozen=True, slots=True)
class Band:
    """Edge band glued on an edge of a part: its material key and the box it fills, in the frame it is given in."""

    material: str
    box: Box


@dataclass(frozen=True, slots=True)
class Matched:
    """A part's place, from 1, in a row of `of` parts cut in sequence of one piece, so that the grain runs on over them.

    The row is called `row` and counts from the left or from the top, as it hangs; `way` says which way of the part it
    runs, and `pointer` is the place in the job that asks for it.
    """

    row: str
    place: int
    of: int
    way: Literal["length", "width"]
    pointer: str


@dataclass(frozen=True, slots=True)
class Part:
    """A finished part. `features` and `bands` are in the part frame; `place` carries it to the cabinet frame.

    `length`, `width`, `thickness` are the finished sizes of the wood itself (bands not counted) in nm, and
    `why_length`, `why_width` sum to the first two exactly. `quantity` counts like parts over the job, `built` those of
    them that are cut already.
    """

    id: str
    cabinet: str
    role: Role
    name: str
    quantity: int
    material: str
    length: int
    width: int
    thickness: int
    grain: GrainRule
    why_length: tuple[Term, ...]
    why_width: tuple[Term, ...]
    place: Place
    features: tuple[Feature, ...] = ()
    bands: tuple[Band, ...] = ()
    group: str = ""
    built: int = 0
    matched: Matched | None = None

    @property
    def blank(self) -> Box:
        """The part before any cut, in its own frame."""
        return Box(0, 0, 0, self.length, self.width, self.thickness)


@dataclass(frozen=True, slots=True)
class PartSpec:
    """A part as a door, box or mounting method describes it, in the assembly's frame.

    `length_axis` and `width_axis` say which ways of the assembly frame the part's length and width run.
    """

    key: str
    role: Role
    name: str
    material: str
    box: Box
    length_axis: Axis
    width_axis: Axis
    why_length: tuple[Term, ...]
    why_width: tuple[Term, ...]
    features: tuple[Feature, ...] = ()
    grain: GrainRule = "along-length"


@dataclass(frozen=True, slots=True)
class JointSpec:
    """How two parts of one assembly (or of the cabinet) meet, checked by the dry fit.

    The guest, moved `clearance` along `press` from where it stands, must just touch the host; `seat` is how
    far it enters the host. `note` is what to mind as it is closed, a phrase that its step ends with.
    """

    method: str
    kind: str
    host: str
    guest: str
    press: Axis
    seat: int
    clearance: int
    glue_area_mm2: float = 0.0
    note: str = ""


@dataclass(frozen=True, slots=True)
class Assembly:
    """Parts that belong together, in one frame: a door, a drawer box, a mounting."""

    parts: tuple[PartSpec, ...]
    joints: tuple[JointSpec, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    findings: tuple[Finding, ...] = ()
