"""Hinges on doors: how many and where, the cups bored in the door, and the plates in the cabinet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.drawers import SYSTEM_SCREW
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.api.engine.construction.packing import add_packing
from casewright.api.engine.construction.pulls import drill_pull
from casewright.sdk.engineering.hinges import ArmAndPlate, HingeCount, count_hinges, most_hinges, pick_arm, place_hinges
from casewright.sdk.geometry import Axis, Cylinder, Point
from casewright.sdk.joinery import screw_within
from casewright.sdk.materials import Hinge, Screw
from casewright.sdk.methods import Land
from casewright.sdk.model import DoorLeaf, Doors, HardwareUse, Purpose, hole

HINGE_SCREW = "screw-6-5-8"
"""What hinges are screwed to wood with (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class HungDoor:
    """A door with what it hangs by: its hinge, what the rule asks for, the cups in their land, its mass in kg.

    `heights` are the hinge centres above the door's lower end, `cups` their bores in the cabinet frame, all in nm;
    `plates` is where their plates stand, `fitting` what arm and plate they are ordered with.
    """

    door: PlacedDoor
    hinge: Hinge
    rule: HingeCount
    heights: tuple[int, ...]
    bore: int
    edge: int
    cups: tuple[Cylinder, ...]
    mass_kg: float
    plates: "PlateLine"
    fitting: ArmAndPlate | None = None

    @property
    def plate_screws(self) -> tuple[Point, ...]:
        """Where the plates' screws go, in the cabinet frame: two a plate, a pitch apart."""
        half = self.hinge.plate_pitch // 2
        centres = [self.door.at[2] + up for up in self.heights]
        return tuple([(self.plates.x, self.plates.y, z + way) for z in centres for way in (-half, half)])

    @property
    def cup_screws(self) -> tuple[Point, ...]:
        """Where the cups' screws go, in the cabinet frame: two a cup, farther in from the door's edge."""
        half, inward = self.hinge.screw_spacing // 2, self.hinge.screw_behind
        x = inward if self.door.hinge == "left" else -inward
        mouths = [cup.mouth for cup in self.cups]
        return tuple([(at[0] + x, at[1], at[2] + way) for at in mouths for way in (-half, half)])

    @property
    def land(self) -> Land:
        """The door's hanging edge."""
        return self.door.design.left if self.door.hinge == "left" else self.door.design.right

    @property
    def part(self) -> str:
        """The key of the part the cups are bored in."""
        return f"{self.door.key}/{self.land.part}"

    def leaf(self, cabinet: str) -> DoorLeaf:
        """Return the door as the plan lists it."""
        door = self.door
        return DoorLeaf(
            f"{cabinet}/{door.key}",
            cabinet,
            door.at,
            door.width,
            door.height,
            door.design.thickness,
            door.hinge,
            tuple([f"{cabinet}/{door.key}/{spec.key}" for spec in door.design.assembly.parts]),
            self.heights,
            round(self.mass_kg, 4),
        )


def fit_door_hardware(
    built: Construction, shell: Shell, placed: Sequence[PlacedDoor], masses: Mapping[str, float]
) -> tuple[Construction, tuple[HungDoor, ...]]:
    """Bore for hinges and pulls, place hinge plates, and return each door as hung. `masses` is kg by door."""
    doors = built.cabinet.doors
    if doors is None:
        return built, ()
    hinge = built.registry.catalogue.hinge(doors.hinge)
    hung = tuple([_hung(built, doors, _plate_line(shell, hinge, door), door, masses[door.key]) for door in placed])
    for one in hung:
        built = _place_plates(_bore_cups(built, one), one)
        if doors.pull is not None:
            built = drill_pull(built, doors.pull, one.door)
    return built, hung


@dataclass(frozen=True, slots=True)
class PlateLine:
    """Where the plates of a door stand: their hinge, the part they are screwed to, x of its face and y, in nm.

    `packing` is how thick the packing behind them is.
    """

    hinge: Hinge
    host: str
    x: int
    y: int
    packing: int = 0


def _plate_line(shell: Shell, hinge: Hinge, door: PlacedDoor) -> PlateLine:
    """Return where plates stand: on the frame stile's inner edge, or `plate_setback` behind the case front.

    An inset door adds its thickness; in a face frame it leaves no stile behind it, so its plates stand on
    packing that fills the case side out to the stile's edge.
    """
    opening, left = door.opening, door.hinge == "left"
    x = opening.x0 if left else opening.x1
    key = opening.left if left else opening.right
    inset = door.box.y0 == -shell.frame
    if inset and shell.frame:
        region = opening.leaf.region
        side = region.x0 if left else region.x1
        return PlateLine(hinge, key, x, door.box.y1 + hinge.plate_setback, abs(x - side))
    if inset:
        return PlateLine(hinge, key, x, door.box.y1 + hinge.plate_setback)
    return PlateLine(hinge, key, x, -shell.frame // 2 if shell.frame else hinge.plate_setback)


def _hung(built: Construction, doors: Doors, line: PlateLine, door: PlacedDoor, mass_kg: float) -> HungDoor:
    hinge = line.hinge
    rule = count_hinges(hinge, door.height, door.width, mass_kg)
    usual = place_hinges(hinge, door.height, doors.hinges or min(rule.count, most_hinges(hinge, door.height)))
    heights = tuple([z - door.at[2] for z in _shared(built, line, [door.at[2] + up for up in usual])])
    bore = hinge.bore if doors.bore is None else doors.bore
    edge = hinge.edge_usual if doors.bore_edge is None else doors.bore_edge
    box, inward = door.box, bore // 2 + edge
    x = box.x0 + inward if door.hinge == "left" else box.x1 - inward
    depth = min(hinge.bore_depth, door.design.thickness)
    cups = tuple([Cylinder((x, box.y1, box.z0 + z), -2, bore, depth) for z in heights])
    overlay = line.x - box.x0 if door.hinge == "left" else box.x1 - line.x
    return HungDoor(door, hinge, rule, heights, bore, edge, cups, mass_kg, line, pick_arm(hinge, overlay, edge))


def _shared(built: Construction, line: PlateLine, centres: Sequence[int]) -> list[int]:
    """Return hinge centres moved, by half a pitch at most, so that plates take holes of the pin row they stand in.

    Where the plates stand in no pin row, or its pitch is not theirs, they stay.
    """
    row = sorted(hole.mouth[2] for hole in pin_holes(built, line) if hole.mouth[1] == line.y)
    pitch = line.hinge.plate_pitch
    if len(row) < 2 or row[1] - row[0] != pitch:
        return list(centres)
    first = row[0] + pitch // 2
    return [first + (z - first + pitch // 2) // pitch * pitch for z in centres]


def pin_holes(built: Construction, line: PlateLine) -> list[Cylinder]:
    """Return the shelf pin holes in the face that plates are screwed to."""
    host = built.drafts.get(line.host)
    if host is None or line.packing:
        return []
    return [
        hole
        for feature in host.features
        if feature.purpose is Purpose.SHELF_PINS
        for hole in feature.holes
        if hole.mouth[0] == line.x
    ]


def _bore_cups(built: Construction, hung: HungDoor) -> Construction:
    """Bore the cups that lie wholly in their wood; the hinges are bought all the same."""
    part = built.drafts[hung.part]
    sound = tuple([cup for cup in hung.cups if part.box.holds(cup.envelope)])
    if sound:
        built = built.with_cuts(part.key, hole("hinge cups", *sound, purpose=Purpose.HINGE_CUP))
    points = tuple([cup.mouth for cup in hung.cups])
    return built.with_hardware(f"{built.id}/{hung.door.key}", HardwareUse(hung.hinge.id, _ordered(hung), points, -2))


def _place_plates(built: Construction, hung: HungDoor) -> Construction:
    """Place the plates and their screws, and those of the cups.

    On the case they are system screws in holes of the 32 mm convention, on a frame and in the door hinge screws.
    """
    line, hinge, door = hung.plates, hung.hinge, hung.door
    key = line.host
    if line.packing:
        key = f"packing {built.write.length(line.packing)} thick behind {key}"
    way: Axis = -1 if door.hinge == "left" else 1
    points = tuple([(line.x, line.y, door.at[2] + z) for z in hung.heights])
    plate = HardwareUse(f"{hinge.id}-plate", _plate_ordered(built, hung), points, way)
    built = built.with_hardware(f"{built.id}/{door.key} on {key}", plate)
    if line.packing:
        built = add_packing(built, door, line.packing, points, hinge.plate_pitch)
    frame = line.packing or line.y < 0
    usual, in_door = built.registry.catalogue.screw(HINGE_SCREW), cup_screw(built, hung)
    item, name = (usual.id, usual.title) if frame else SYSTEM_SCREW
    in_plates = HardwareUse(item, name, hung.plate_screws, way, where="in hinge plates")
    in_cups = HardwareUse(in_door.id, in_door.title, hung.cup_screws, -2, where="in hinge cups")
    return built.with_hardware(f"{built.id}/{door.key} hinge screws", in_plates, in_cups)


def cup_screw(built: Construction, hung: HungDoor) -> Screw:
    """Return what the cups of a door are screwed on with: the usual screw, in a thinner door the longest it holds.

    The cup's flange lies under the heads, so that a screw as long as the door is thick ends short of its show face.
    """
    usual = built.registry.catalogue.screw(HINGE_SCREW)
    longest = min(usual.length, hung.door.design.thickness)
    return screw_within(built.registry.catalogue, usual.gauge, longest) or usual


def _ordered(hung: HungDoor) -> str:
    """Return what a hinge is ordered by: its own title and its arm's."""
    return hung.hinge.title if hung.fitting is None else f"{hung.hinge.title}, {hung.fitting.arm.title}"


def _plate_ordered(built: Construction, hung: HungDoor) -> str:
    """Return what a plate is ordered by: its height, and that it goes on the edge of a face frame where it does."""
    kind = "face-frame plate" if hung.plates.y < 0 else "plate"
    if hung.fitting is None:
        return f"{kind} for {hung.hinge.title}"
    return f"{kind} {built.write.sold(hung.fitting.plate_height)} high for {hung.hinge.title}"
