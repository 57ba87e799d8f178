"""Hinges and pulls on doors: bores, plates, holes, and the checks that keep them in sound wood."""

from collections.abc import Mapping

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.sdk.geometry import Box, Cylinder
from casewright.sdk.materials import Hinge, Pull
from casewright.sdk.methods import Land
from casewright.sdk.model import LENGTH, DoorLeaf, Doors, Finding, HardwareUse, Level, hole

BORE_PLAY = 1_000_000
"""A bore wider than the cup by more than this (1 mm, in nm) is a caution (common practice, no source)."""

LEAST_SPACING = 60_000_000
"""Hinge centres closer than this (60 mm, in nm) leave no room for cup and screws (common practice, no source)."""

LEAST_HINGES = 2

HALF_HINGE = 26_000_000
"""A hinge and its plate reach this far (26 mm, in nm) over and under the cup centre (common practice, no source)."""

SLAB_PULL = 38_000_000
"""A pull stands this far from a slab's edge where the job does not say (common practice, no source)."""


def fit_door_hardware(
    built: Construction, shell: Shell, placed: tuple[PlacedDoor, ...], masses: Mapping[str, float]
) -> tuple[Construction, tuple[DoorLeaf, ...]]:
    """Bore for hinges and pulls, place hinge plates, and return each door as hung. `masses` is kg by door."""
    doors = built.cabinet.doors
    if doors is None:
        return built, ()
    hinge = built.registry.catalogue.hinge(doors.hinge)
    leaves: list[DoorLeaf] = []
    for door in placed:
        built, heights = _hinge_heights(built, hinge, door, masses[door.key])
        built = _bore_cups(built, doors, hinge, door, heights)
        built = _place_plates(built, shell, hinge, door, heights)
        built = _check_shelves(built, door, heights)
        if doors.pull is not None:
            built = _bore_pull(built, doors, door)
        leaves.append(
            DoorLeaf(
                f"{built.id}/{door.key}",
                built.id,
                door.at,
                door.width,
                door.height,
                door.design.thickness,
                door.hinge,
                tuple([f"{built.id}/{door.key}/{spec.key}" for spec in door.design.assembly.parts]),
                tuple(heights),
                round(masses[door.key], 4),
            )
        )
    return built, tuple(leaves)


def hinge_count(hinge: Hinge, height: int, mass_kg: float) -> int:
    """Return how many hinges a door needs: the larger of the height rule (nm) and the mass rule (kg)."""
    tallest, heaviest = hinge.count_by_height[-1], hinge.count_by_mass[-1]
    rows = (row.count for row in hinge.count_by_height if row.up_to is None or height <= row.up_to)
    by_height = next(rows, tallest.count + 1)
    by_mass = next((row.count for row in hinge.count_by_mass if mass_kg <= row.up_to_kg), heaviest.count + 1)
    return max(LEAST_HINGES, by_height, by_mass)


def _hinge_heights(
    built: Construction, hinge: Hinge, door: PlacedDoor, mass_kg: float
) -> tuple[Construction, list[int]]:
    """Return the hinge centres above the door's lower end, in nm."""
    count = hinge_count(hinge, door.height, mass_kg)
    subject = f"{built.id}/{door.key}"
    first = min(hinge.from_door_end, door.height // 4)
    span = door.height - 2 * first
    built = built.with_findings(
        subject,
        Finding(
            "hinge-count",
            "note",
            f"{count} hinges: the larger of the rule by height and the rule by mass ({mass_kg:.1f} kg)",
            count,
            None,
            "hinges",
            "hinge-planning-pages",
        ),
    )
    if mass_kg > hinge.count_by_mass[-1].up_to_kg:
        built = built.with_findings(
            subject,
            Finding(
                "hinge-mass",
                "stop",
                "the door is heavier than the hinge's table reaches; make it lighter or choose another hinge",
                round(mass_kg, 3),
                hinge.count_by_mass[-1].up_to_kg,
                "kg",
                "hinge-planning-pages",
            ),
        )
    if span // (count - 1) < LEAST_SPACING:
        built = built.with_findings(
            subject,
            Finding(
                "hinge-spacing",
                "stop",
                "the hinges stand too close together for their cups; make the door taller or lighter",
                span // (count - 1),
                LEAST_SPACING,
                LENGTH,
                "common-practice",
            ),
        )
    if door.width > hinge.wide_door_from:
        built = built.with_findings(
            subject,
            Finding(
                "hinge-wide-door",
                "caution",
                "the count rules hold for narrower doors; add a hinge",
                door.width,
                hinge.wide_door_from,
                LENGTH,
                "hinge-planning-pages",
            ),
        )
    return built, [first + span * i // (count - 1) for i in range(count)]


def _bore_cups(built: Construction, doors: Doors, hinge: Hinge, door: PlacedDoor, heights: list[int]) -> Construction:
    land = door.design.left if door.hinge == "left" else door.design.right
    bore = hinge.bore if doors.bore is None else doors.bore
    edge = hinge.edge_usual if doors.bore_edge is None else doors.bore_edge
    built = _check_bore(built, hinge, door, land, bore, edge)
    box = door.box
    inward = bore // 2 + edge
    x = box.x0 + inward if door.hinge == "left" else box.x1 - inward
    depth = min(hinge.bore_depth, door.design.thickness)
    part = built.drafts[f"{door.key}/{land.part}"]
    cups = tuple([Cylinder((x, box.y1, box.z0 + z), -2, bore, depth) for z in heights])
    points = tuple([cup.mouth for cup in cups])
    sound = tuple([cup for cup in cups if part.box.holds(cup.envelope)])
    if sound:
        built = built.with_cuts(part.key, hole("hinge cups", *sound))
    if len(sound) < len(cups):
        built = built.with_findings(
            f"{built.id}/{door.key}/{land.part}",
            Finding(
                "bore-off-wood",
                "stop",
                "a hinge bore does not lie wholly in its wood and is left out; widen the stile, make the door "
                "taller or choose a smaller hinge",
                part.box.x1 - part.box.x0,
                inward + bore // 2,
                LENGTH,
                "common-practice",
            ),
        )
    return built.with_hardware(f"{built.id}/{door.key}", HardwareUse(hinge.id, hinge.title, points, -2))


def _check_bore(built: Construction, hinge: Hinge, door: PlacedDoor, land: Land, bore: int, edge: int) -> Construction:
    subject = f"{built.id}/{door.key}/{land.part}"
    reach = edge + bore
    found: list[Finding] = []

    def tell(code: str, level: Level, message: str, value: int, limit: int, source: str) -> None:
        found.append(Finding(code, level, message, value, limit, LENGTH, source))

    if bore - hinge.cup_diameter > BORE_PLAY:
        tell("bore-wider-than-cup", "caution", "the bore is wider than the cup by more than 1 mm; the flange and "
             "screws alone hold the hinge", bore, hinge.cup_diameter + BORE_PLAY, "common-practice")  # fmt: skip
    if bore < hinge.cup_diameter:
        tell("bore-narrower-than-cup", "stop", "the cup does not enter the bore", bore, hinge.cup_diameter,
             "common-practice")  # fmt: skip
    if not hinge.edge_least <= edge <= hinge.edge_most:
        tell("bore-edge-distance", "stop", "the bore stands outside the hinge's range of edge distance", edge,
             hinge.edge_most if edge > hinge.edge_most else hinge.edge_least, "hinge-planning-pages")  # fmt: skip
    left_under = door.design.thickness - hinge.bore_depth
    if left_under < 2_000_000:
        tell("wood-under-bore", "stop" if left_under <= 0 else "caution", "little or no wood is left under the cup",
             left_under, 2_000_000, "common-practice")  # fmt: skip
    if land.panel is not None and reach > land.panel:
        tell("bore-meets-panel", "stop", "the bore runs into the door panel; widen the stile or take the hinge's "
             "least edge distance", reach, land.panel, "common-practice")  # fmt: skip
    elif reach > land.inner_edge:
        tell("bore-past-stile", "stop", "the bore breaks out of the stile's inner edge", reach, land.inner_edge,
             "common-practice")  # fmt: skip
    elif reach > land.clear:
        tell("bore-meets-groove", "caution", "the bore runs into the panel groove", reach, land.clear,
             "common-practice")  # fmt: skip
    return built.with_findings(subject, *found)


def _place_plates(
    built: Construction, shell: Shell, hinge: Hinge, door: PlacedDoor, heights: list[int]
) -> Construction:
    """Place the plates: on the frame stile's inner edge, or `plate_setback` behind the case front.

    An inset door adds its thickness; in a face frame it leaves no stile behind it, so its plates stand on
    packing that fills the case side out to the stile's edge.
    """
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
    points = tuple([(x, y, door.at[2] + z) for z in heights])
    return built.with_hardware(
        f"{built.id}/{door.key} on {key}",
        HardwareUse(f"{hinge.id}-plate", f"plate for {hinge.title}", points, -1 if door.hinge == "left" else 1),
    )


def _check_shelves(built: Construction, door: PlacedDoor, heights: list[int]) -> Construction:
    """Tell where a fixed shelf stands in the way of a hinge or of the driver that fixes its plate."""
    region = door.opening.leaf.region
    for draft in built.drafts.values():
        box = draft.box
        if draft.role != "shelf" or draft.group != "case" or not region.z0 < box.z0 < region.z1:
            continue
        if box.x0 >= region.x1 or box.x1 <= region.x0:
            continue
        room = min(max(box.z0 - z, z - box.z1) for z in (door.at[2] + up for up in heights))
        if room < HALF_HINGE:
            built = built.with_findings(
                f"{built.id}/{draft.key}",
                Finding(
                    "hinge-near-shelf",
                    "caution",
                    f"a hinge of {door.key} stands at this shelf; move the shelf or that hinge",
                    room,
                    HALF_HINGE,
                    LENGTH,
                    "common-practice",
                ),
            )
    return built


def _bore_pull(built: Construction, doors: Doors, door: PlacedDoor) -> Construction:
    assert doors.pull is not None
    choice, pull = doors.pull, built.registry.catalogue.pull(doors.pull.item)
    box = door.box
    land = door.design.right if door.hinge == "left" else door.design.left
    from_edge = choice.from_edge
    if from_edge is None:
        from_edge = land.inner_edge // 2 if land.panel is not None else min(SLAB_PULL, door.width // 2)
    x = box.x1 - from_edge if door.hinge == "left" else box.x0 + from_edge
    z = box.z0 + choice.from_end if choice.at_end == "lower" else box.z1 - choice.from_end
    step = 1 if choice.at_end == "lower" else -1
    points: list[tuple[int, int, int]] = []
    for i in range(pull.holes):
        if choice.direction == "upright":
            points.append((x, box.y0, z + step * i * pull.spacing))
        else:
            inward = -1 if door.hinge == "left" else 1
            points.append((x + inward * i * pull.spacing, box.y0, z))
    built = _drill_pull(built, door, pull, points)
    return built.with_hardware(f"{built.id}/{door.key}", HardwareUse(pull.id, pull.title, (points[0],), 2))


def _drill_pull(built: Construction, door: PlacedDoor, pull: Pull, points: list[tuple[int, int, int]]) -> Construction:
    r = -(-pull.hole_diameter // 2)
    for x, y, z in points:
        needed = Box(x - r, y, z - r, x + r, y + door.design.thickness, z + r)
        part = _part_at(built, door, needed)
        if part is None:
            built = built.with_findings(
                f"{built.id}/{door.key}",
                Finding(
                    "pull-off-wood",
                    "stop",
                    "a pull hole does not lie wholly in one stile or rail; move the pull or choose another",
                    min(abs(x - door.box.x0), abs(door.box.x1 - x)),
                    None,
                    LENGTH,
                    "common-practice",
                ),
            )
            continue
        drilled = Cylinder((x, y, z), 2, pull.hole_diameter, door.design.thickness)
        built = built.with_cuts(part.key, hole("pull", drilled))
    return built


def _part_at(built: Construction, door: PlacedDoor, needed: Box) -> Draft | None:
    for spec in door.design.assembly.parts:
        draft = built.drafts[f"{door.key}/{spec.key}"]
        if spec.role != "door-panel" and draft.box.holds(needed):
            return draft
    return None
