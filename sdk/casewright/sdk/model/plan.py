"""The plan: what one job comes to. Nothing here depends on how it is written out."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from casewright.sdk.findings import Check
from casewright.sdk.geometry import Axis, Point
from casewright.sdk.hardware import Hinge, Slide
from casewright.sdk.model.built import AsBuilt
from casewright.sdk.model.fits import Fit, UnprovedFit
from casewright.sdk.model.job import Job
from casewright.sdk.model.mounted import Mounted, SharedCleat
from casewright.sdk.model.operations import Operation
from casewright.sdk.model.parts import Part
from casewright.sdk.model.schedule import Schedule
from casewright.sdk.model.sides import Sides
from casewright.sdk.model.stock_plan import StockPlan
from casewright.sdk.sources import Source


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint as planned; ids name parts. `seat` and `clearance` in nm, `glue_area_mm2` per joint.

    `note` is what its method says of closing it.
    """

    id: str
    cabinet: str
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
class HardwareLine:
    """One line of hardware: `at` are points in the cabinet frame, `quantity` is over the whole job.

    `name` is what it is ordered by, `where` says where it goes, if that is to stand beside the name.
    """

    item: str
    name: str
    cabinet: str
    used_for: str
    quantity: int
    at: tuple[Point, ...] = ()
    where: str = ""

    @property
    def words(self) -> str:
        """What it is, and where it goes."""
        return f"{self.name}, {self.where}" if self.where else self.name


@dataclass(frozen=True, slots=True)
class Seat:
    """What the dry fit found for one joint, in nm."""

    joint: str
    seat: int
    clearance: int
    seated: bool


@dataclass(frozen=True, slots=True)
class Clash:
    """Two parts that would fill the same room, with the common volume in cubic mm."""

    first: str
    second: str
    volume_mm3: float


@dataclass(frozen=True, slots=True)
class DryFit:
    """The virtual dry fit of every cabinet."""

    pairs_checked: int
    seats: tuple[Seat, ...]
    clashes: tuple[Clash, ...]
    outside: tuple[tuple[str, Point, Point], ...]
    approximations: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weight:
    """Mass and centre of gravity of one cabinet with its doors, empty; the point in the cabinet frame, nm."""

    cabinet: str
    mass_kg: float
    centre: Point


@dataclass(frozen=True, slots=True)
class Workshop:
    """What one cabinet asks of the workshop beside cutting: glue, band and finish.

    `glue_area_mm2` is over all joints, `finish_area_mm2` every face and edge that air reaches, counted by
    blanks, panes left out.
    """

    cabinet: str
    glue_area_mm2: float
    glue_g: float
    band_length: int
    finish_area_mm2: float


@dataclass(frozen=True, slots=True)
class DoorLeaf:
    """One door as hung: where its lower left front corner stands in the cabinet frame and how it swings."""

    id: str
    cabinet: str
    at: Point
    width: int
    height: int
    thickness: int
    hinge_side: Literal["left", "right"]
    parts: tuple[str, ...]
    hinges: tuple[int, ...]
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Standing:
    """One cabinet at its place, in the wall frame: x from the wall's left end, y 0 at its back and less before, z up.

    `low` and `high` bound case, face frame, ends and fronts; `studs` are the stud lines behind the case.
    """

    name: str
    cabinet: str
    number: int
    pointer: str
    low: Point
    high: Point
    studs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Gap:
    """The room between two neighbours (or a wall's end, named `wall`): less than zero where they overlap.

    `screws` hold the two to one another where they meet.
    """

    left: str
    right: str
    size: int
    fillers: tuple[str, ...]
    screws: HardwareLine | None = None


@dataclass(frozen=True, slots=True)
class LevelLine:
    """One height that is struck level along the wall, and whose part it is for: bottoms, tops or wall cleats."""

    height: int
    of: Literal["bottoms", "tops", "cleat-bottoms", "cleat-tops"]
    standings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Swing:
    """How far a door opens at its place before it meets something, in degrees; `meets` is empty where it is free."""

    door: str
    standing: str
    opens_deg: float
    full_deg: float
    meets: str


@dataclass(frozen=True, slots=True)
class Packing:
    """What is packed at a standing, in nm: under its left and right end, and behind its bottom and its top."""

    standing: str
    left: int = 0
    right: int = 0
    bottom: int = 0
    top: int = 0


@dataclass(frozen=True, slots=True)
class Run:
    """Cabinets along a wall: where each stands, the gaps, level lines, door swings and the order of setting them.

    `high_spot` is where along the wall the floor is highest, `packing` what readings of floor and wall ask for.
    """

    standings: tuple[Standing, ...]
    gaps: tuple[Gap, ...]
    levels: tuple[LevelLine, ...]
    swings: tuple[Swing, ...]
    order: tuple[str, ...]
    approximations: tuple[str, ...]
    high_spot: int | None = None
    packing: tuple[Packing, ...] = ()


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of cost: `quantity` × `rate` = `amount`, in whole money; `amount` is rounded to the minor unit.

    `hours` is what the line takes of work, zero for things bought. Without a rate `amount` is `None` and `note` says
    so.
    """

    kind: Literal["stock", "hardware", "band", "glue", "finish", "work"]
    item: str
    name: str
    quantity: Decimal
    unit: str
    rate: Decimal | None
    amount: Decimal | None
    hours: Decimal = Decimal(0)
    note: str = ""


@dataclass(frozen=True, slots=True)
class Costs:
    """What the job takes, and what that costs by the shop's rates.

    `missing` counts lines without an amount, which no total holds. A total is `None` where it would have lines and not
    one of them has an amount.
    """

    currency: str = ""
    decimals: int = 2
    lines: tuple[CostLine, ...] = ()
    materials: Decimal | None = Decimal(0)
    work: Decimal | None = Decimal(0)
    hours: Decimal = Decimal(0)
    missing: int = 0

    @property
    def total(self) -> Decimal | None:
        """Materials and work together."""
        if self.lines and self.missing == len(self.lines):
            return None
        return (self.materials or Decimal(0)) + (self.work or Decimal(0))


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole answer. `stock` is `None` where the job gives none or no cutting was asked for.

    `sides` are what the sides of each part are called, by its id. `built` is there where the job says what is
    built, and `job` then has its cabinets as they come out. `sources` are documents that checks may cite
    beside those of `casewright.sdk.sources`, `fittings` the hinges and slides that doors and drawers hang on.
    """

    job: Job
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    doors: tuple[DoorLeaf, ...]
    hardware: tuple[HardwareLine, ...]
    mounting: tuple[Mounted, ...]
    dry_fit: DryFit
    checks: tuple[Check, ...]
    steps: tuple[Operation, ...]
    sides: Mapping[str, Sides]
    weights: tuple[Weight, ...]
    workshop: tuple[Workshop, ...] = ()
    shared_cleats: tuple[SharedCleat, ...] = ()
    stock: StockPlan | None = None
    run: Run | None = None
    costs: Costs = Costs()
    schedule: Schedule = field(default_factory=Schedule)
    fits: tuple[Fit, ...] = ()
    unproved: tuple[UnprovedFit, ...] = ()
    built: AsBuilt | None = None
    sources: tuple[Source, ...] = ()
    fittings: tuple[Hinge | Slide, ...] = ()

    @property
    def over_size(self) -> Mapping[str, tuple[int, ...]]:
        """The sizes of parts (1 length, 2 width) that are cut over size until a step has measured for them, by id."""
        left = {part.id for part in self.parts if part.built < part.quantity}
        copies: dict[str, set[int]] = {}
        for fit in self.fits:
            if fit.measuring is not None and fit.measuring.step is not None:
                for size in fit.measuring.sizes:
                    copies.setdefault(size.part, set()).add(size.axis)
        return {part: tuple(sorted(axes)) for part, axes in copies.items() if part in left}
