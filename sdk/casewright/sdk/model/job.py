"""The job as it is understood after reading: every default filled in, every length in nm."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from casewright.sdk.model.built import BuiltMistake, BuiltSize
from casewright.sdk.model.cabinet import Cabinet
from casewright.sdk.model.choices import Material
from casewright.sdk.model.fits import Accuracy
from casewright.sdk.model.operations import Machine
from casewright.sdk.model.parts import GrainRule
from casewright.sdk.model.rates import Rates
from casewright.sdk.model.stock import Stock
from casewright.sdk.units import MM, Units

ObstacleKind = Literal["window", "outlet", "pipe", "door", "other"]
Corners = Literal["both", "left", "right", "none"]
ReadingOf = Literal["floor", "back", "left", "right"]


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
class Filler:
    """A strip beside a cabinet that closes the gap there.

    `width` `None` takes the gap as it is; `scribe` is wood over that, to be cut to the line of what it meets.
    """

    material: str
    width: int | None = None
    scribe: int = 0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a cabinet hangs: x from the wall's left end to the case's left side, z from floor to case bottom.

    `pointer` is its place in the job.
    """

    x: int
    z: int
    filler_left: Filler | None = None
    filler_right: Filler | None = None
    pointer: str = ""


@dataclass(frozen=True, slots=True)
class Studs:
    """Studs by the centre lines found, from the wall's left end."""

    at: tuple[int, ...]
    stuff: str
    width: int
    depth: int


@dataclass(frozen=True, slots=True)
class Masonry:
    """A masonry wall by the anchor maker's approved values for one anchor in this wall.

    `diameter` of its shank, `head` of its head or washer on the wood, `stand_off` from the masonry that the approved
    shear allows for, in nm.
    """

    tension_n: float
    shear_n: float
    approval: str
    anchors: int
    diameter: int = 6_350_000
    head: int = 12_700_000
    stand_off: int = 0


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
class Reading:
    """How far the floor or a wall is off at one place, in nm.

    Of the `floor`: how far it is above a level line, `at` so far along the wall; of the `back` wall, or the one that
    stands at the `left` or `right` end: how far it is out from a plumb line into the room, `at` a height.
    """

    of: ReadingOf
    at: int
    off: int


@dataclass(frozen=True, slots=True)
class Wall:
    """What is known of the wall. `corners` says at which ends another wall stands square to it.

    `readings` are what level and plumb line showed; heights in the job are from the highest point of the floor then.
    """

    studs: Studs | None
    masonry: Masonry | None
    lining: int
    ceiling: int | None
    cabinets_at: Mapping[str, tuple[Spot, ...]]
    length: int | None = None
    corners: Corners = "none"
    obstacles: tuple[Obstacle, ...] = ()
    readings: tuple[Reading, ...] = ()


@dataclass(frozen=True, slots=True)
class GlueTimes:
    """How long the shop's glue stays open, must be clamped, and cures before it is loaded, in minutes."""

    open: int = 10
    clamped: int = 60
    cure: int = 1440


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of finish: what it is, and how many minutes it dries before the next work."""

    what: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Shop:
    """What the shop's saws and cutters can do, and its allowances."""

    rip_capacity: int | None
    crosscut_capacity: int | None
    groove_cutters: tuple[int, ...]
    fit: int
    keep_offcut: tuple[int, int]
    wall_allowance: int
    glue: GlueTimes = GlueTimes()
    finish: tuple[Coat, ...] = ()
    machines: tuple[Machine, ...] = ()
    same: int = MM // 10
    driver: int = 200 * MM
    accuracy: Accuracy = field(default_factory=Accuracy)


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
class TitleBlock:
    """What a title block by ISO 7200 says besides the title; what is empty is a blank to be filled in by hand."""

    owner: str = ""
    number: str = ""
    date: str = ""
    drawn_by: str = ""
    approved_by: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """The whole job. `done` are numbers of steps of its plan that are done already.

    `built` is what was measured of what is made, `mistakes` what went wrong with it.
    """

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
    done: tuple[int, ...] = ()
    title_block: TitleBlock = TitleBlock()
    built: tuple[BuiltSize, ...] = ()
    mistakes: tuple[BuiltMistake, ...] = ()
