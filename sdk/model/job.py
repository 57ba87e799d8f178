"""The job as it is understood after reading: every default filled in, every length in nm."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal

from casewright.sdk.model.parts import GrainRule
from casewright.sdk.units import Units

Options = Mapping[str, Any]
"""A method's options, as its own schema loaded them (lengths in nm)."""

Front = Literal["open", "door", "door-pair", "drawer"]
Form = Literal["wall", "base", "tall"]
EndKind = Literal["hidden", "open", "finished"]
ObstacleKind = Literal["window", "outlet", "pipe", "door", "other"]
Corners = Literal["both", "left", "right", "none"]
EVEN = "even"


@dataclass(frozen=True, slots=True)
class Material:
    """A material on hand: `thickness` is as measured, `nominal` only what it is sold as."""

    key: str
    kind: Literal["sheet", "board", "band"]
    stuff: str
    thickness: int
    nominal: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """A method picked by id, with its options and the place in the job that picked it."""

    method: str
    options: Options
    pointer: str


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
    Heights in `fixed_heights` are from the leaf's floor to the underside of each shelf. A drawer front is a stack
    of `drawer_count` drawers; `drawer_heights` are the fronts' heights from the top, `None` taking what is left.
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
class Drawers:
    """What every drawer of a cabinet shares.

    `slide` `None` takes the longest that fits. `between` is the gap between fronts of a stack, `below` and `above`
    the room round the box in its slot, `bottom_up` from the box's lower edge to the bottom's groove.
    """

    material: str
    bottom: str
    front: str
    slide: str | None
    corner: Choice
    bottom_joint: Choice
    bottom_up: int
    hang: Literal["overlay", "inset"]
    overlay: int
    gap: int
    between: int
    below: int
    above: int
    pull: str | None
    pointer: str


@dataclass(frozen=True, slots=True)
class PullChoice:
    """A pull and where it sits: from the door's meeting edge and from its lower (or upper) end, to hole centre.

    `from_edge` `None` means the middle of the wood at that edge.
    """

    item: str
    from_edge: int | None
    from_end: int
    at_end: Literal["lower", "upper"]
    direction: Literal["upright", "level"]


@dataclass(frozen=True, slots=True)
class Doors:
    """What every door of a cabinet shares."""

    style: str
    options: Options
    pointer: str
    material: str
    panel: str | None
    hang: Literal["overlay", "inset"]
    overlay: int
    gap: int
    meeting_gap: int
    stand_off: int
    hinge: str
    bore: int | None
    bore_edge: int | None
    pull: PullChoice | None


@dataclass(frozen=True, slots=True)
class Mounting:
    """How a cabinet hangs, and the mass of what will be in it (`None` where the job does not say)."""

    choice: Choice
    contents_kg: float | None


@dataclass(frozen=True, slots=True)
class Loading:
    """What a shelf is asked to carry and how far it may sag.

    `shelf_pa` is spread over shelves and bottom (15 psf, ANSI/KCMA A161.1 5.1, where the job does not say);
    `spread` may put the same total at the centre. `limit` is a code of `engineering.beams.LIMITS`.
    """

    shelf_pa: float = 718.2
    spread: Literal["uniform", "centre"] = "uniform"
    limit: str = "sixteenth-per-foot"


@dataclass(frozen=True, slots=True)
class Climate:
    """Air that wood is worked in and will live in: temperatures in °C, relative humidity in percent.

    Defaults are common practice for a heated workshop and room, no source.
    """

    shop_c: float = 20.0
    shop_humidity: float = 45.0
    room_c: float = 21.0
    room_driest: float = 30.0
    room_dampest: float = 60.0


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
class Cabinet:
    """One cabinet, made `count` times. Sizes are the finished outside of case and face frame."""

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


@dataclass(frozen=True, slots=True)
class Filler:
    """A strip beside a cabinet that closes the gap there.

    `width` `None` takes the gap as it is; `scribe` is wood over that, to be cut to the line of what it meets.
    """

    material: str
    width: int | None = None
    scribe: int = 0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a cabinet hangs: x from the wall's left end to the case's left side, z from floor to case bottom."""

    x: int
    z: int
    filler_left: Filler | None = None
    filler_right: Filler | None = None


@dataclass(frozen=True, slots=True)
class Studs:
    """Studs by the centre lines found, from the wall's left end."""

    at: tuple[int, ...]
    stuff: str
    width: int
    depth: int


@dataclass(frozen=True, slots=True)
class Masonry:
    """A masonry wall by the anchor maker's approved values for one anchor in this wall."""

    tension_n: float
    shear_n: float
    approval: str
    anchors: int


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Something on the wall that cabinets must leave free, by its lower left corner on the wall.

    `keep_clear` is left free all round it; `out` is how far it stands out from the wall.
    """

    id: str
    kind: ObstacleKind
    x: int
    z: int
    width: int
    height: int
    keep_clear: int = 0
    out: int = 0


@dataclass(frozen=True, slots=True)
class Wall:
    """What is known of the wall. `corners` says at which ends another wall stands square to it."""

    studs: Studs | None
    masonry: Masonry | None
    lining: int
    ceiling: int | None
    cabinets_at: Mapping[str, tuple[Spot, ...]]
    length: int | None = None
    corners: Corners = "none"
    obstacles: tuple[Obstacle, ...] = ()


@dataclass(frozen=True, slots=True)
class Shop:
    """What the shop's saws and cutters can do, and its allowances."""

    rip_capacity: int | None
    crosscut_capacity: int | None
    groove_cutters: tuple[int, ...]
    fit: int
    keep_offcut: tuple[int, int]
    wall_allowance: int


@dataclass(frozen=True, slots=True)
class StockPiece:
    """A sheet or offcut on hand or to be bought (`copies` `None` means as many as needed)."""

    id: str
    material: str
    length: int
    width: int
    copies: int | None
    cost: float | None
    grain: GrainRule


@dataclass(frozen=True, slots=True)
class Board:
    """A rough board on hand or to be bought."""

    id: str
    material: str
    thickness: int
    width: int
    length: int
    copies: int | None
    cost: float | None


@dataclass(frozen=True, slots=True)
class Stock:
    """What there is to cut from, and how the saw cuts it.

    `mill_*` is what a part cut from rough board carries until it is planed (thickness: what the board must have
    over the part).
    """

    sheets: tuple[StockPiece, ...]
    offcuts: tuple[StockPiece, ...]
    boards: tuple[Board, ...]
    kerf: int
    edge_trim: int
    effort: int
    mill_length: int = 0
    mill_width: int = 0
    mill_thickness: int = 0


@dataclass(frozen=True, slots=True)
class LoosePart:
    """A part that is only cut."""

    id: str
    material: str
    length: int
    width: int
    quantity: int
    grain: GrainRule


@dataclass(frozen=True, slots=True)
class Rates:
    """The shop's own prices and times; what is not given is not guessed.

    Money is in whole units of `currency`, which has `decimals` digits after the point: `hardware` a piece by item,
    `band_per_m`, `glue_per_kg`, `finish_per_m2` for one coat of `coats`, and `hour` of work. `minutes` are for one
    operation of a kind.
    """

    currency: str = ""
    decimals: int = 2
    hardware: Mapping[str, Decimal] = field(default_factory=dict)
    band_per_m: Mapping[str, Decimal] = field(default_factory=dict)
    glue_per_kg: Decimal | None = None
    finish_per_m2: Decimal | None = None
    coats: int = 1
    hour: Decimal | None = None
    minutes: Mapping[str, Decimal] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Job:
    """The whole job."""

    title: str
    units: Units
    tape: Fraction
    materials: Mapping[str, Material]
    cabinets: tuple[Cabinet, ...]
    wall: Wall | None
    shop: Shop
    stock: Stock | None
    loose_parts: tuple[LoosePart, ...] = ()
    origins: Mapping[str, str] = field(default_factory=dict)
    climate: Climate = field(default_factory=Climate)
    rates: Rates | None = None
