"""Hinges on doors: how many and where, the cups bored in the door, and the plates in the cabinet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.api.engine.construction.pulls import drill_pull
from casewright.sdk.engineering.hinges import HingeCount, count_hinges, place_hinges
from casewright.sdk.geometry import Cylinder
from casewright.sdk.materials import Hinge
from casewright.sdk.methods import Land
from casewright.sdk.model import DoorLeaf, Doors, HardwareUse, Purpose, hole


@dataclass(frozen=True, slots=True)
class HungDoor:
    """A door with what it hangs by: its hinge, what the rule asks for, the cups in their land, its mass in kg.

    `heights` are the hinge centres above the door's lower end, `cups` their bores in the cabinet frame, all in nm.
    """

    door: PlacedDoor
    hinge: Hinge
    rule: HingeCount
    heights: tuple[int, ...]
    bore: int
    edge: int
    cups: tuple[Cylinder, ...]
    mass_kg: float

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
    hung = tuple([_hung(doors, hinge, door, masses[door.key]) for door in placed])
    for one in hung:
        built = _place_plates(_bore_cups(built, one), shell, one)
        if doors.pull is not None:
            built = drill_pull(built, doors.pull, one.door)
    return built, hung


def _hung(doors: Doors, hinge: Hinge, door: PlacedDoor, mass_kg: float) -> HungDoor:
    rule = count_hinges(hinge, door.height, door.width, mass_kg)
    heights = place_hinges(hinge, door.height, doors.hinges or rule.count)
    bore = hinge.bore if doors.bore is None else doors.bore
    edge = hinge.edge_usual if doors.bore_edge is None else doors.bore_edge
    box, inward = door.box, bore // 2 + edge
    x = box.x0 + inward if door.hinge == "left" else box.x1 - inward
    depth = min(hinge.bore_depth, door.design.thickness)
    cups = tuple([Cylinder((x, box.y1, box.z0 + z), -2, bore, depth) for z in heights])
    return HungDoor(door, hinge, rule, heights, bore, edge, cups, mass_kg)


def _bore_cups(built: Construction, hung: HungDoor) -> Construction:
    """Bore the cups that lie wholly in their wood; the hinges are bought all the same."""
    part = built.drafts[hung.part]
    sound = tuple([cup for cup in hung.cups if part.box.holds(cup.envelope)])
    if sound:
        built = built.with_cuts(part.key, hole("hinge cups", *sound, purpose=Purpose.HINGE_CUP))
    points = tuple([cup.mouth for cup in hung.cups])
    return built.with_hardware(f"{built.id}/{hung.door.key}", HardwareUse(hung.hinge.id, hung.hinge.title, points, -2))


def _place_plates(built: Construction, shell: Shell, hung: HungDoor) -> Construction:
    """Place the plates: on the frame stile's inner edge, or `plate_setback` behind the case front.

    An inset door adds its thickness; in a face frame it leaves no stile behind it, so its plates stand on
    packing that fills the case side out to the stile's edge.
    """
    door, hinge = hung.door, hung.hinge
    opening = door.opening
    key = opening.left if door.hinge == "left" else opening.right
    x = opening.x0 if door.hinge == "left" else opening.x1
    inset = door.box.y0 == -shell.frame
    if inset:
        y = door.box.y1 + hinge.plate_setback
    elif shell.frame:
        y = -shell.frame // 2
    else:
        y = hinge.plate_setback
    if inset and shell.frame:
        side = opening.leaf.region.x0 if door.hinge == "left" else opening.leaf.region.x1
        key = f"packing {built.write.length(abs(x - side))} thick behind {key}"
    points = tuple([(x, y, door.at[2] + z) for z in hung.heights])
    return built.with_hardware(
        f"{built.id}/{door.key} on {key}",
        HardwareUse(f"{hinge.id}-plate", f"plate for {hinge.title}", points, -1 if door.hinge == "left" else 1),
    )
