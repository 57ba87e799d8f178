"""One cabinet as it is understood after reading: every default filled in, every length in nm."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, assert_never

from casewright.sdk.model.choices import Choice
from casewright.sdk.model.fronts import Doors, Drawers, Overlays

Front = Literal["open", "door", "door-pair", "drawer"]
Form = Literal["wall", "base", "tall"]
EndKind = Literal["hidden", "open", "finished"]


@dataclass(frozen=True, slots=True)
class Back:
    """The back panel: `inset` is from the case's back edge to the groove's near face."""

    material: str
    inset: int
    joint: Choice


@dataclass(frozen=True, slots=True)
class Pins:
    """Rows of shelf pin holes. `from_front` and `from_back` are to the hole centres.

    `depth` `None` means 10 mm, or a third of the wood where that is less, so that rows may stand back to back.
    """

    diameter: int
    pitch: int
    depth: int | None
    from_front: int
    from_back: int
    clear_ends: int
    shelf_play: int


@dataclass(frozen=True, slots=True)
class Case:
    """The box itself."""

    material: str
    shelf_material: str
    corner: Choice
    fixed_joint: Choice
    top_inset: int
    bottom_inset: int
    back: Back | None
    pins: Pins
    case_band: str | None
    shelf_band: str | None
    shelf_setback: int
    bottom_corner: Choice | None = None
    """How the bottom joins the sides where that differs from `corner`."""
    top_kind: Literal["full", "stretchers"] = "full"
    stretcher: int = 101_600_000
    """Width front to back of the two stretchers that stand for a full top."""


@dataclass(frozen=True, slots=True)
class Space:
    """A region of the inside: a leaf, or divided into `bays` (left to right) or `tiers` (top to bottom).

    `size` is the clear inside size along the parent's division; without it `share` divides what is left.
    `match` says that the grain runs on over its fronts: they are cut in sequence of one piece.
    Heights in `fixed_heights` are from the leaf's floor to the underside of each shelf. A drawer front is a stack
    of `drawer_count` drawers; `drawer_heights` are the fronts' heights from the top, `None` taking what is left.
    `measured` are width and height of the opening before a leaf in a face frame, where they were.
    """

    pointer: str
    size: int | None = None
    share: int = 1
    division: Literal["bays", "tiers"] | None = None
    parts: tuple["Space", ...] = ()
    front: Front = "open"
    hinge_side: Literal["left", "right"] = "left"
    fixed_count: int = 0
    fixed_heights: tuple[int, ...] | None = None
    loose_count: int = 0
    drawer_count: int = 1
    drawer_heights: tuple[int | None, ...] | None = None
    drawer_rule: Literal["equal", "graduated"] = "equal"
    overlays: Overlays | None = None
    measured: tuple[int | None, int | None] = (None, None)
    match: bool = False


@dataclass(frozen=True, slots=True)
class FaceFrame:
    """The solid frame on the case's front."""

    material: str
    stile: int
    rail: int
    mid_stile: int
    mid_rail: int
    overhang: int
    joint: Choice
    bead: int = 0
    """Thickness of a bead lining every opening; zero for none."""


@dataclass(frozen=True, slots=True)
class Base:
    """What a base or tall cabinet stands on; `height` is from the floor to the case.

    A `toe-recess` notches the sides, which stand on the floor; a `plinth` is a frame of its own under the case;
    `feet` are levelling feet with a board clipped before them. `setback` is from the case front to the board.
    """

    kind: Literal["toe-recess", "plinth", "feet"]
    height: int
    setback: int
    material: str


@dataclass(frozen=True, slots=True)
class Counter:
    """A counter on the case: how far it stands out at the front and the two ends."""

    material: str
    front: int
    left: int
    right: int


@dataclass(frozen=True, slots=True)
class Mounting:
    """How a cabinet is fixed to its wall, and what will be in it.

    The contents' mass, and their centre from the cabinet's left side and front edge in nm, are `None` where the job
    does not say; `contents_duration` is how long they stay, by the names of `engineering.adjust.DURATION`.
    """

    choice: Choice
    contents_kg: float | None
    contents_from_left: int | None = None
    contents_from_front: int | None = None
    contents_duration: str = "permanent"


@dataclass(frozen=True, slots=True)
class Loading:
    """What a shelf is asked to carry and how far it may sag.

    `shelf_pa` is spread over shelves and bottom (15 psf, `kcma-a161-1-5-1`, where the job does not say);
    `spread` may put the same total at the centre. `limit` is a code of `engineering.beams.LIMITS`. A standing cabinet
    is judged with a person's `lean_kg` (60 lb, `astm-f2057`) bearing down on its outermost open front, and what holds
    it must be `tip_margin` times what tips it.
    """

    shelf_pa: float = 718.2
    spread: Literal["uniform", "centre"] = "uniform"
    limit: str = "sixteenth-per-foot"
    lean_kg: float = 27.2155422
    tip_margin: float = 1.5


@dataclass(frozen=True, slots=True)
class Ends:
    """What a cabinet's two ends are: `hidden` by what stands there, `open` to view as they are, or `finished`.

    A finished end carries a panel of `material` over the case's side, outside the cabinet's own width; `scribe` is
    wood left at its back edge to be cut to the wall's line.
    """

    left: EndKind = "hidden"
    right: EndKind = "hidden"
    material: str | None = None
    scribe: int = 0


@dataclass(frozen=True, slots=True)
class BuiltPart:
    """A part of which `made` are cut already, over what they would be cut to by `length` and `width`, or under it.

    Both are below zero for one that came out short and goes in as it is. Its grooves, still to be cut, go by a
    `thickness` so much over what is planned, or under it.
    """

    made: int
    length: int = 0
    width: int = 0
    thickness: int = 0


@dataclass(frozen=True, slots=True)
class Cabinet:
    """One cabinet, made `count` times. Sizes are the finished outside of case and face frame.

    `copies` are which of the job's cabinet they are, from 1, where those come out differently, `planned` its id there.
    `built` are its parts that are cut already, by their ids within it; `lean` is how far the top of its case stands to
    the right over its bottom, to the left below zero, where that is more than it may be out of square.
    """

    id: str
    title: str
    count: int
    form: Form
    width: int
    height: int
    depth: int
    case: Case
    space: Space
    face_frame: FaceFrame | None
    doors: Doors | None
    mounting: Mounting | None
    pointer: str
    loading: Loading = field(default_factory=Loading)
    base: Base | None = None
    counter: Counter | None = None
    drawers: Drawers | None = None
    ends: Ends = field(default_factory=Ends)
    copies: tuple[int, ...] = ()
    planned: str = ""
    built: Mapping[str, BuiltPart] = field(default_factory=dict)
    lean: int = 0

    def copy_name(self, number: int) -> str:
        """Return what one of its copies is called, by its place among them from 0: `pair 2` where there are several."""
        if self.copies:
            return f"{self.planned} {self.copies[number]}"
        return f"{self.id} {number + 1}" if self.count > 1 else self.id

    def leaning(self, height: int) -> int:
        """Return how far its sides go to the right over a height: an opening in the case leans as it does."""
        return self.lean * height // self.case_height

    @property
    def stands(self) -> bool:
        """Whether it stands on the floor; a cabinet that does not hangs on its wall."""
        match self.form:
            case "base" | "tall":
                return True
            case "wall":
                return False
            case _:
                assert_never(self.form)

    @property
    def is_tall(self) -> bool:
        """Whether it is tilted up where it is set, and tips if it is not fixed, however it is loaded."""
        match self.form:
            case "tall":
                return True
            case "wall" | "base":
                return False
            case _:
                assert_never(self.form)

    @property
    def case_width(self) -> int:
        """The case's own width in nm: the cabinet's, less what its face frame stands past the case at both sides."""
        return self.width - (2 * self.face_frame.overhang if self.face_frame else 0)

    @property
    def case_height(self) -> int:
        """The case's own height in nm: the cabinet's, less a base that stands under it."""
        return self.height - (self.base.height if self.base and self.base.kind != "toe-recess" else 0)
