"""Hardware and fasteners as a catalogue holds them: frozen data, lengths in whole nanometres.

Import these from `casewright.sdk.materials`, which gathers the whole catalogue.
"""

from dataclasses import dataclass

Sources = tuple[tuple[str, str], ...]


class Sourced:
    """Gives an entry `source_code`."""

    __slots__ = ()
    sources: Sources

    def source_code(self, field: str) -> str:
        """Return the code of the source of one field's value; a KeyError names a field without one."""
        codes = dict(self.sources)
        if field in codes or "*" in codes:
            return codes.get(field) or codes["*"]
        raise KeyError(f"{type(self).__name__} gives no source for {field!r}")


@dataclass(frozen=True, slots=True)
class CountByHeight:
    """`count` hinges serve a door up to `up_to` nm tall (None: any taller door)."""

    up_to: int | None
    count: int


@dataclass(frozen=True, slots=True)
class CountByMass:
    """`count` hinges serve a door of up to `up_to_kg`."""

    up_to_kg: float
    count: int


@dataclass(frozen=True, slots=True)
class HingeGap:
    """The least gap (nm) beside a door up to `door_up_to` nm thick, at any edge distance the hinge allows."""

    door_up_to: int
    least: int


@dataclass(frozen=True, slots=True)
class HingeArm:
    """A crank a hinge is sold with: `title` is what it is ordered by.

    A door laps by `constant` plus the bore's edge distance less the plate's height, in nm; less than nothing is inset.
    """

    title: str
    constant: int


@dataclass(frozen=True, slots=True)
class Hinge(Sourced):
    """A cup hinge. Lengths in nm.

    The cup centre stands half the `bore` plus the edge distance (`edge_least`…`edge_most`) from the door
    edge; its two screws are `screw_spacing` apart, `screw_behind` farther in. The plate's first hole row
    stands `plate_setback` from the case front, holes `plate_pitch` apart. `from_door_end` is the usual place
    of the outer hinges. `arms` and `plate_heights` are what it is sold with; none where that is not on record. Its
    screws shift the door by `side_adjustment` and `height_adjustment` either way, and by `depth_out` and `depth_in`.
    """

    id: str
    title: str
    cup_diameter: int
    bore: int
    bore_depth: int
    edge_least: int
    edge_usual: int
    edge_most: int
    screw_spacing: int
    screw_behind: int
    plate_setback: int
    plate_pitch: int
    from_door_end: int
    side_adjustment: int
    opening_degrees: int
    gaps: tuple[HingeGap, ...]
    count_by_height: tuple[CountByHeight, ...]
    count_by_mass: tuple[CountByMass, ...]
    wide_door_from: int
    mass_kg: float
    sources: Sources
    arms: tuple[HingeArm, ...] = ()
    plate_heights: tuple[int, ...] = ()
    height_adjustment: int = 0
    depth_out: int = 0
    depth_in: int = 0

    def least_gap(self, door_thickness: int) -> int | None:
        """Return the least gap (nm) for a door this thick; None when the data do not reach it."""
        return next((row.least for row in self.gaps if door_thickness <= row.door_up_to), None)


@dataclass(frozen=True, slots=True)
class Pull(Sourced):
    """A pull or knob: `holes` in line, `spacing` nm apart, each `hole_diameter` nm."""

    id: str
    title: str
    holes: int
    spacing: int
    hole_diameter: int
    projection: int
    mass_kg: float
    sources: Sources


@dataclass(frozen=True, slots=True)
class Screw(Sourced):
    """A wood screw of Table L3. Lengths in nm; `gauge` is its number; the thread follows footnote 3."""

    id: str
    title: str
    gauge: int
    diameter: int
    root: int
    head: int
    length: int
    f_yb_mpa: float
    sources: Sources

    def __hash__(self) -> int:
        """By the id alone, as capacities are kept by fastener."""
        return hash(self.id)

    @property
    def thread(self) -> int:
        """Thread length in nm: the greater of four diameters and two thirds of the length."""
        return max(4 * self.diameter, 2 * self.length // 3)


@dataclass(frozen=True, slots=True)
class Lag(Sourced):
    """A lag screw of Table L2 with a round washer. Lengths in nm; `tip` is the tapered tip E."""

    id: str
    title: str
    diameter: int
    root: int
    washer: int
    tip: int
    length: int
    f_yb_mpa: float
    sources: Sources

    def __hash__(self) -> int:
        """By the id alone, as capacities are kept by fastener."""
        return hash(self.id)

    @property
    def thread(self) -> int:
        """Thread length T with the tip, in nm.

        Half the length plus 1/2 in, at most 6 in and the whole length.
        """
        return min(152_400_000, self.length // 2 + 12_700_000, self.length)


@dataclass(frozen=True, slots=True)
class Nail(Sourced):
    """A nail or brad: shank `diameter`, `head`, `length` in nm. `use` says what it may be asked to do."""

    id: str
    title: str
    diameter: int
    head: int
    length: int
    f_yb_mpa: float
    use: str
    sources: Sources


@dataclass(frozen=True, slots=True)
class Pin(Sourced):
    """A shelf pin and its rows: hole, pitch and setback from the case front in nm."""

    id: str
    title: str
    hole_diameter: int
    hole_depth: int
    pitch: int
    setback: int
    sources: Sources


@dataclass(frozen=True, slots=True)
class Slide(Sourced):
    """A drawer slide: room at each side, height, length, first hole from the case front, in nm.

    Slots for its screws let the drawer up or down by `height_adjustment` and in or out by `depth_adjustment`.
    """

    id: str
    title: str
    side_room: int
    height: int
    length: int
    first_hole: int
    rated_kg: float | None
    mass_kg: float
    sources: Sources
    height_adjustment: int = 0
    depth_adjustment: int = 0


@dataclass(frozen=True, slots=True)
class Glue(Sourced):
    """A wood glue: wet spread (g/m2) and clamp pressures (MPa, low to high) for light, medium, dense wood."""

    id: str
    title: str
    spread_g_m2: float
    pressure_light_mpa: tuple[float, float]
    pressure_medium_mpa: tuple[float, float]
    pressure_dense_mpa: tuple[float, float]
    sources: Sources


@dataclass(frozen=True, slots=True)
class Dowel(Sourced):
    """A plain dowel pin, lengths in nm; `slack` is the room left at the bottom of each hole."""

    id: str
    title: str
    diameter: int
    length: int
    slack: int
    sources: Sources


@dataclass(frozen=True, slots=True)
class LooseTenon(Sourced):
    """A loose tenon: thickness, width, length in nm; `slack` is the room left at each mortise bottom."""

    id: str
    title: str
    thickness: int
    width: int
    length: int
    slack: int
    sources: Sources
