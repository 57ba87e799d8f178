"""Joint methods: a meeting of two parts in, a fit out.

**The joint frame.** A joint method answers one meeting in a frame of the meeting's own, so that it needs no
view of the cabinet: `x` runs along the contact line (left to right, front to back or bottom to top), `y`
runs across it through the guest's thickness, and `z` points into the host. The origin is at the low ends of
the contact, on the host's face. The frame may be left-handed. The guest fills `0 <= x <= run`,
`0 <= y <= guest_thickness`, `z <= 0`; growing it by `growth` carries its end to `z = growth`. The host fills
`0 <= z <= host_depth`, with `host_start`/`host_end` of wood beyond the contact along x and
`host_before`/`host_after` beside it along y. Waste on either part is given in this frame.
"""

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from casewright.sdk.findings import Finding
from casewright.sdk.geometry import Axis
from casewright.sdk.materials import Catalogue, Stuff
from casewright.sdk.methods.method import Method
from casewright.sdk.model.choices import Material, Options
from casewright.sdk.model.parts import Feature, FeatureKind, HardwareUse, Role, Term
from casewright.sdk.writer import MILLIMETRES, Writer

MeetingKind = Literal["corner", "tee", "panel", "frame", "box"]

Where = Literal[
    "top", "stretcher", "bottom", "shelf", "divider", "back", "frame-corner", "frame-middle", "drawer-corner",
    "drawer-bottom", "elsewhere",
]  # fmt: skip
"""Where in a cabinet a meeting is."""

_PLACES: Mapping[Role, Where] = {
    "top": "top", "stretcher": "stretcher", "bottom": "bottom", "shelf": "shelf", "divider": "divider", "back": "back",
    "box-bottom": "drawer-bottom",
}  # fmt: skip


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

    `spare` is how far the guest stands off the host before it grows: this opening is so many nm wider than others it is
    made like (at most `shop.same` and the odd nm of a division), and the guest is as theirs. Its waste stands off with
    it, and the dry fit counts it as clearance along z. An undercut joint, which cannot be left out of its seat,
    leaves at least as much room beside its flanks.

    `inset_field` names what of the job says how far the guest stands in from the host's end (`top_inset`, `bottom_up`),
    so that a refusal can name it; empty where nothing does.
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
    spare: int = 0
    inset_field: str = ""

    @property
    def all_along(self) -> tuple[int, int]:
        """From and to along x, for a cut that runs through the whole host."""
        return (-self.host_start, self.run + self.host_end)

    @property
    def where(self) -> Where:
        """The place in the cabinet, so that one choice of a job can be made one way here and another there."""
        if self.kind == "frame":
            return "frame-middle" if self.host_start and self.host_end else "frame-corner"
        if self.kind == "box":
            return "drawer-corner"
        return _PLACES.get(self.guest.role, "elsewhere")


@dataclass(frozen=True, slots=True)
class Fit:
    """A joint method's answer to one meeting, in the joint frame.

    `why` sums to `growth`. `seat` is how far the guest enters the host. Moving the guest by `clearance`
    along `press` makes it touch the host: the dry fit tries exactly that. `press` is +z unless the guest lies
    on the host another way. `note` is what to mind as it is closed, a phrase that its step ends with.
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
    note: str = ""


class JointMethod(Method):
    """A way to join a guest to a host.

    `does` lists the kinds of meeting it answers. `panel_sits` says, for a panel, whether it lies within the
    host's faces or behind its back edges (which shortens the host by the panel's thickness). `box_guest` says,
    for a drawer corner, which part enters the other: the `end` (front or back, standing between the sides) or
    the `side` (whose ends enter front and back). `cuts` are the kinds of cut it asks for, so that a shop without
    the machines of another method is pointed to it; a method that lists none is never named there.
    """

    does: ClassVar[frozenset[MeetingKind]]
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset()
    panel_sits: ClassVar[Literal["within", "behind"]] = "within"
    box_guest: ClassVar[Literal["end", "side"]] = "end"

    @abstractmethod
    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer one meeting. Pure: same meeting and options, same fit. Raises `CannotError` if there is none."""


class FrameJoint(JointMethod):
    """A joint method that joins solid frame members only."""

    does: ClassVar[frozenset[MeetingKind]] = frozenset({"frame"})
