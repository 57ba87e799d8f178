"""One hung cabinet as the equations take it, and the result they give.

Millimetres, newtons, kilograms, degrees. Sideways places (`left_mm`, studs) are measured from the wall's left end;
heights of the strip from the lowest point where the cabinet bears on the wall.
"""

from dataclasses import dataclass
from typing import Literal

from casewright.sdk.findings import Finding
from casewright.sdk.materials import Lag, Screw, Stuff

WallKind = Literal["studs", "steel-studs", "masonry", "unknown"]
Mounting = Literal["bevel-cleat", "screw-strip"]


@dataclass(frozen=True, slots=True)
class Anchor:
    """A masonry anchor by its maker's approval for this very wall.

    Allowable pull and shear, and where that is printed; the shank's diameter and that of the head or washer on the
    wood; `stand_off_mm` is how far from the masonry the approved shear may act (0: the strip touches the masonry).
    """

    pull_n: float
    shear_n: float
    reference: str
    diameter_mm: float = 6.35
    head_mm: float = 12.7
    stand_off_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Wall:
    """The wall. `lining_mm` stands between strip and stud and is taken to carry nothing.

    `anchors` masonry anchors stand evenly along the strip. `ceiling_mm` is above the floor, None if not known.
    """

    kind: WallKind = "unknown"
    studs_at_mm: tuple[float, ...] = ()
    stud: Stuff | None = None
    stud_width_mm: float = 38.1
    stud_depth_mm: float = 88.9
    lining_mm: float = 12.7
    ceiling_mm: float | None = None
    anchor: Anchor | None = None
    anchors: int = 2


@dataclass(frozen=True, slots=True)
class Strip:
    """The wood that the fasteners pass through: the wall cleat, or the strip fixed in the cabinet.

    `width_mm` is its height on the wall, `left_mm` its left end, `low_mm` its lower edge above the lowest bearing.
    `breaks_mm` are the spans along the wall, left to right, where the strip is interrupted.
    """

    thickness_mm: float
    width_mm: float
    length_mm: float
    left_mm: float
    low_mm: float
    stuff: Stuff
    breaks_mm: tuple[tuple[float, float], ...] = ()

    @property
    def right_mm(self) -> float:
        """The strip's right end."""
        return self.left_mm + self.length_mm

    @property
    def pieces_mm(self) -> tuple[tuple[float, float], ...]:
        """The left and right ends of its unbroken pieces, left to right."""
        ends = [self.left_mm, *(at for gap in self.breaks_mm for at in gap), self.right_mm]
        return tuple(zip(ends[::2], ends[1::2], strict=True))


@dataclass(frozen=True, slots=True)
class HangingCase:
    """One cabinet (or row of cabinets on one strip) on one wall.

    `centre_x_mm` (from the wall's left end) and `centre_out_mm` (from the wall's face) place the centre of gravity of
    cabinet and contents. `bevel_deg` is the hook's slope from horizontal; `friction_deg` its friction angle
    (16.7 is a coefficient of 0.3, the low end for smooth dry wood, from memory) and enters the likely figure alone.
    `behind_strip_mm` is wood between strip and lining, and `before_strip_mm` wood in front of a screwed strip, that the
    fasteners go through and that is not counted (a back). `bottom_mm` is the cabinet's bottom above the floor,
    `bearing_mm` its lowest bearing on the wall above that bottom, from which the strip's `low_mm` counts: a case on a
    base bears no lower than the base is high. `fastener` is None in masonry, which takes its anchors. `anti_lift` goes
    through `anti_lift_side_mm` of the cabinet into a stud, across `anti_lift_gap_mm` of room and lining (None: the
    lining and the strip's own room). `reach_mm` is the span along the wall in which the strip may lie, should it be
    made longer (None: it may not). `duration` is C_D of the contents; the cabinet itself is a lasting load.
    `contents_assumed_pa` is the pressure on bottom and shelves that stands for contents nobody gave,
    `contents_placed` whether the job says where they lie.
    """

    mounting: Mounting
    cabinet_kg: float
    contents_kg: float
    left_mm: float
    width_mm: float
    height_mm: float
    depth_mm: float
    centre_x_mm: float
    centre_out_mm: float
    strip: Strip
    wall: Wall
    fastener: Screw | Lag | None
    per_stud: int = 2
    bevel_deg: float = 45.0
    friction_deg: float = 16.7
    behind_strip_mm: float = 0.0
    before_strip_mm: float = 0.0
    bottom_mm: float = 0.0
    hook_clearance_mm: float = 3.0
    anti_lift: Screw | Lag | None = None
    anti_lift_side_mm: float = 18.0
    anti_lift_gap_mm: float | None = None
    duration: float = 0.9
    contents_assumed_pa: float | None = None
    contents_placed: bool = True
    reach_mm: tuple[float, float] | None = None
    bearing_mm: float = 0.0

    @property
    def strip_over_floor_mm(self) -> float:
        """The strip's lower edge above the floor."""
        return self.bottom_mm + self.bearing_mm + self.strip.low_mm

    @property
    def strip_within(self) -> bool:
        """Whether the strip lies behind this cabinet alone, not behind neighbours as well."""
        return self.left_mm <= self.strip.left_mm and self.strip.right_mm <= self.left_mm + self.width_mm

    @property
    def gap_mm(self) -> float:
        """What a fastener goes through that carries nothing: lining, and the back behind a screwed strip or before it.

        What lies before the strip is taken for a gap as well: a fastener gets no less into the stud, and bears no more.
        """
        back = self.behind_strip_mm + self.before_strip_mm
        return self.wall.lining_mm + (back if self.mounting == "screw-strip" else 0.0)


@dataclass(frozen=True, slots=True)
class Capacity:
    """What one fastener carries, in N, with the duration factor in.

    `thread_mm` is the thread that counts in the main member, `penetration_mm` the depth with the tip; `pull_n` is the
    lesser of `withdrawal_n` and `pull_through_n`; `modes_n` pairs each yield mode's name with its value. `lateral_n`
    is the least of those, times the group's factors: `geometry` C_Δ and `group` C_g, 1 for a fastener by itself.
    """

    thread_mm: float
    penetration_mm: float
    gap_mm: float
    withdrawal_n: float
    pull_through_n: float
    pull_n: float
    lateral_n: float
    mode: str
    modes_n: tuple[tuple[str, float], ...]
    geometry: float = 1.0
    group: float = 1.0


@dataclass(frozen=True, slots=True)
class FastenerUse:
    """One fastener: where it stands (`up_mm` above the strip's lower edge), its loads, its use, and what governs."""

    at_mm: float
    up_mm: float
    pull_n: float
    down_n: float
    sideways_n: float
    shear_n: float
    use: float
    governs: str


@dataclass(frozen=True, slots=True)
class Hook:
    """The inward pull that overturning needs, and what the bevel holds before the cabinet rides up it.

    `frictionless_n` is sure; `with_friction_n` is what it likely holds, as friction resists riding up. `shortfall_n` is
    what overturning asks beyond the sure figure, never below zero; `hold_down_n` the downward force on the cabinet
    that would make the bevel hold it.
    """

    needed_n: float
    frictionless_n: float
    with_friction_n: float
    rides_up: bool
    shortfall_n: float
    hold_down_n: float


@dataclass(frozen=True, slots=True)
class AntiLift:
    """The fastener that stops the cabinet lifting off: the load on it, its capacity, and its use."""

    needed_n: float
    capacity_n: float
    use: float


@dataclass(frozen=True, slots=True)
class Extension:
    """How much longer the wall cleat must be, and on which side, to catch one more stud."""

    side: Literal["left", "right"]
    by_mm: float
    stud_at_mm: float


@dataclass(frozen=True, slots=True)
class Lift:
    """How high the cabinet must be raised to hook on, and the ceiling it then needs (above the floor)."""

    rise_mm: float
    ceiling_needed_mm: float
    fits: bool | None


@dataclass(frozen=True, slots=True)
class Proof:
    """The cabinet standard's proof load on the same fasteners, at C_D 1.0: a comparison, plainly not a service load."""

    load_n: float
    use: float
    source: str


@dataclass(frozen=True, slots=True)
class Likely:
    """What the hardest-worked fastener likely comes to, beside the bound; it decides nothing.

    `taken` says in words what it counts that the bound does not.
    """

    pull_n: float
    lateral_n: float
    use: float
    taken: str


@dataclass(frozen=True, slots=True)
class HangingResult:
    """The result. `use` is the worst fastener's utilisation (1 is the limit), None where it cannot be computed.

    `works_between_mm` is where one stud alone would do; `stud_sets` the fewest of the caught studs that do.
    """

    weight_n: float
    hook: Hook | None
    pull_n: float
    capacity: Capacity | None
    fasteners: tuple[FastenerUse, ...]
    use: float | None
    anti_lift: AntiLift | None
    caught_studs_mm: tuple[float, ...]
    works_between_mm: tuple[float, float] | None
    stud_sets: tuple[tuple[float, ...], ...]
    extension: Extension | None
    lift: Lift
    proofs: tuple[Proof, ...]
    likely: Likely | None
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]

    @property
    def stops(self) -> bool:
        """Whether any finding says stop."""
        return any(finding.level == "stop" for finding in self.findings)
