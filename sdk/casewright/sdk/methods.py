"""What a method is: typed objects that a plugin registers and a job picks by id.

**The joint frame.** A joint method answers one meeting in a frame of the meeting's own, so that it needs no
view of the cabinet: `x` runs along the contact line (left to right, front to back or bottom to top), `y`
runs across it through the guest's thickness, and `z` points into the host. The origin is at the low ends of
the contact, on the host's face. The frame may be left-handed. The guest fills `0 <= x <= run`,
`0 <= y <= guest_thickness`, `z <= 0`; growing it by `growth` carries its end to `z = growth`. The host fills
`0 <= z <= host_depth`, with `host_start`/`host_end` of wood beyond the contact along x and
`host_before`/`host_after` beside it along y. Waste on either part is given in this frame.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Literal

from casewright.sdk.errors import Problem
from casewright.sdk.fields import OptionSchema
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.materials import Catalogue, Stuff
from casewright.sdk.model.cabinet import Material
from casewright.sdk.model.job import Wall
from casewright.sdk.model.parts import (
    Assembly,
    Feature,
    Finding,
    HardwareUse,
    PartSpec,
    Role,
    Term,
)
from casewright.sdk.versions import SDK_VERSION, SdkRange
from casewright.sdk.writer import MILLIMETRES, Writer
from marshmallow import Schema

MeetingKind = Literal["corner", "tee", "panel", "frame", "box"]


@dataclass(frozen=True, slots=True)
class Body:
    """One of the two parts of a meeting, as far as a joint method may know it."""

    name: str
    role: Role
    material: Material
    stuff: Stuff
    thickness: int


@dataclass(frozen=True, slots=True)
class Meeting:
    """Where a guest meets a host, in the joint frame. All lengths in nm, none negative.

    `fit` is what the shop adds to a measured thickness so that the guest slides in. `guest_length` is the
    guest's size along z before any growth. `side` says which of the guest's ends this is, in plain words.
    `keep_clear` are spans along x, low to high, where another cut (a back panel's groove, say) crosses the joint,
    so that fasteners stay out of them. `far_side` tells that another guest may enter the host from the other side,
    so that pins and tenons should leave wood for it. `write` puts quantities into words in the job's units.
    """

    kind: MeetingKind
    host: Body
    guest: Body
    run: int
    guest_thickness: int
    guest_length: int
    host_depth: int
    host_before: int
    host_after: int
    host_start: int
    host_end: int
    fit: int
    side: str
    catalogue: Catalogue
    keep_clear: tuple[tuple[int, int], ...] = ()
    far_side: bool = False
    write: Writer = MILLIMETRES

    @property
    def all_along(self) -> tuple[int, int]:
        """From and to along x, for a cut that runs through the whole host."""
        return (-self.host_start, self.run + self.host_end)


@dataclass(frozen=True, slots=True)
class Fit:
    """A joint method's answer to one meeting, in the joint frame.

    `why` sums to `growth`. `seat` is how far the guest enters the host. Moving the guest by `clearance`
    along `press` makes it touch the host: the dry fit tries exactly that. `press` is +z unless the guest lies
    on the host another way.
    """

    growth: int = 0
    why: tuple[Term, ...] = ()
    host: tuple[Feature, ...] = ()
    guest: tuple[Feature, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    findings: tuple[Finding, ...] = ()
    seat: int = 0
    clearance: int = 0
    press: Axis = 3
    glue_area_mm2: float = 0.0


class CannotError(Exception):
    """Raised by a method that has no answer: the rule, what was got and what would do (a 422).

    `field` is the option at fault, if one is.
    """

    def __init__(self, rule: str, got: str, fix: str, field: str = "") -> None:
        super().__init__(f"{rule} (got {got}). {fix}")
        self.rule, self.got, self.fix, self.field = rule, got, fix, field

    def problem(self, pointer: str) -> Problem:
        """Return it as a problem at `pointer`."""
        return Problem(f"{pointer}/{self.field}" if self.field else pointer, self.rule, self.got, self.fix)


class Method(ABC):
    """What every method has.

    `id` is what a job picks it by, `options` a schema of the strict fields of `casewright.sdk.fields`, `sdk` the
    versions of the SDK it was written for: a breaking version, or a range such as `((2, 0), (3, 0))`.
    """

    id: ClassVar[str]
    title: ClassVar[str]
    options: ClassVar[type[Schema]] = OptionSchema
    sdk: ClassVar[SdkRange] = 2


class JointMethod(Method):
    """A way to join a guest to a host.

    `does` lists the kinds of meeting it answers. `panel_sits` says, for a panel, whether it lies within the
    host's faces or behind its back edges (which shortens the host by the panel's thickness). `box_guest` says,
    for a drawer corner, which part enters the other: the `end` (front or back, standing between the sides) or
    the `side` (whose ends enter front and back).
    """

    does: ClassVar[frozenset[MeetingKind]]
    panel_sits: ClassVar[Literal["within", "behind"]] = "within"
    box_guest: ClassVar[Literal["end", "side"]] = "end"

    @abstractmethod
    def fit(self, meeting: Meeting, options: Mapping[str, Any]) -> Fit:
        """Answer one meeting. Pure: same meeting and options, same fit. Raises `CannotError` if there is none."""


class FrameJoint(JointMethod):
    """A joint method that joins solid frame members only."""

    does: ClassVar[frozenset[MeetingKind]] = frozenset({"frame"})


@dataclass(frozen=True, slots=True)
class DoorRequest:
    """A door to be made, in the door frame: x right, y back, z up, origin at its lower left front corner.

    `why_width` and `why_height` explain the finished door and sum to `width` and `height`. `frame` is the
    stock of its stiles and rails, or of the whole door for a slab; `panel` what fills it, if anything. `laps` is how
    far its back lies on the wood round its opening at each edge, zero for an inset door. `write` puts quantities
    into words in the job's units.
    """

    width: int
    height: int
    why_width: tuple[Term, ...]
    why_height: tuple[Term, ...]
    frame: Material
    frame_stuff: Stuff
    panel: Material | None
    panel_stuff: Stuff | None
    fit: int
    catalogue: Catalogue
    laps: int = 0
    write: Writer = MILLIMETRES


@dataclass(frozen=True, slots=True)
class Land:
    """Wood that a hinge cup may be bored in, on one hanging edge of a door.

    `part` is the key of the part bored, `clear` the distance from the door's edge to the next cut (the panel
    groove, say), `inner_edge` to the member's inner edge, `panel` to the panel's edge (`None`: no panel).
    """

    part: str
    clear: int
    inner_edge: int
    panel: int | None


@dataclass(frozen=True, slots=True)
class DoorDesign:
    """A door as its style makes it: its parts in the door frame and where hinges and pulls may go."""

    assembly: Assembly
    left: Land
    right: Land
    thickness: int


class DoorStyle(Method):
    """A way to make a door."""

    needs_panel: ClassVar[bool] = False

    def thickness(self, frame: Material, panel: Material | None, options: Mapping[str, Any]) -> int:
        """Return the finished door's thickness in nm."""
        return frame.thickness

    def reach_behind(self, frame: Material, options: Mapping[str, Any]) -> int:
        """Return how far, in nm, anything of the door stands behind its back face (battens, say)."""
        return 0

    @abstractmethod
    def build(self, request: DoorRequest, options: Mapping[str, Any]) -> DoorDesign:
        """Make one door. Pure. Raises `CannotError` if there is none."""


@dataclass(frozen=True, slots=True)
class MountRequest:
    """A cabinet to be hung, in the cabinet frame.

    `outside` is the case without face frame and doors; `inside` the clear box between sides, top and bottom,
    from the case front to the back panel's front; `behind` the room behind the back panel between the sides
    (zero thick for a back that is flush), where a cleat may lie. `top` and `bottom` give the boxes of the
    case's top and bottom. `back` is the back panel's box or `None`; `case_material` what the case is made of.
    `under_top` and `over_bottom` are the clear rooms, left to right, right under the top and over the bottom, as
    dividers and fixed shelves leave them. `write` puts quantities into words in the job's units.
    """

    outside: Box
    inside: Box
    behind: Box
    top: Box
    bottom: Box
    back: Box | None
    back_material: Material | None
    materials: Mapping[str, Material]
    catalogue: Catalogue
    fit: int
    wall: Wall | None
    wall_allowance: int
    case_material: Material | None = None
    under_top: tuple[Box, ...] = ()
    over_bottom: tuple[Box, ...] = ()
    write: Writer = MILLIMETRES


@dataclass(frozen=True, slots=True)
class Hanging:
    """The geometry that hanging turns on, in the cabinet frame, nm.

    `hook_z` is the height of the line that carries the cabinet, `bearing_z` of the lowest bearing on the
    wall, `bevel_deg` the hook's bevel from horizontal (`None` for a cabinet that is screwed, not hooked).
    `lift` is how far the cabinet must rise to engage. `wall_strip` is the key of the part (or parts that begin
    with it) that the wall fasteners pass through; `fastener` is their catalogue id, `per_stud` how many each stud
    takes and `packed` wood between strip and wall that is not counted. `anti_lift` is the id of a fastener
    through `anti_lift_side` of wood into a stud; `guarded` tells of something else that stops knocks upward.
    """

    hook_z: int
    bearing_z: int
    bevel_deg: float | None
    lift: int
    wall_strip: str | None
    screw_z: int
    lengths: tuple[tuple[str, int], ...] = ()
    fastener: str = ""
    per_stud: int = 2
    packed: int = 0
    anti_lift: str = ""
    anti_lift_side: int = 0
    guarded: bool = False


@dataclass(frozen=True, slots=True)
class MountDesign:
    """A mounting as its method makes it: parts in the cabinet frame, hardware, and what hanging turns on."""

    assembly: Assembly
    hanging: Hanging
    features: tuple[tuple[str, Feature], ...] = ()
    cautions: tuple[str, ...] = ()


class MountingMethod(Method):
    """A way to hang a cabinet."""

    @abstractmethod
    def build(self, request: MountRequest, options: Mapping[str, Any]) -> MountDesign:
        """Make the mounting. Pure. Raises `CannotError` if there is none."""


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """A shop's defaults, merged under every cabinet of a job that names it. `defaults` is job-document JSON."""

    id: str
    title: str
    defaults: Mapping[str, Any]


class ExtraCheck(ABC):
    """A check of a shop's own over finished parts."""

    id: ClassVar[str]
    title: ClassVar[str]

    @abstractmethod
    def find(self, parts: tuple[Any, ...]) -> tuple[tuple[str, Finding], ...]:
        """Return (subject, finding) pairs over the plan's parts (`model.Part`). Pure."""


__all__ = [
    "SDK_VERSION", "Assembly", "Body", "CannotError", "Catalogue", "DoorDesign", "DoorRequest", "DoorStyle",
    "ExtraCheck", "Fit", "FrameJoint", "Hanging", "HouseStyle", "JointMethod", "Land", "Meeting", "MeetingKind",
    "Method", "MountDesign", "MountRequest", "MountingMethod", "PartSpec",
]  # fmt: skip
