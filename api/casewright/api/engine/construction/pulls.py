"""Pulls on doors: where their holes are drilled."""

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.sdk.geometry import Box, Cylinder
from casewright.sdk.materials import Pull
from casewright.sdk.model import HardwareUse, PullChoice, Purpose, hole

HAND = 1_000_000_000
"""A hand comes to a pull at about this height over the floor (1 m, in nm; common practice, no source)."""

SLAB_PULL = 38_000_000
"""A pull stands this far from a slab's edge where the job does not say (common practice, no source)."""


def drill_pull(built: Construction, choice: PullChoice, door: PlacedDoor) -> Construction:
    """Drill a door for its pull; a hole that does not lie wholly in one stile or rail is left out."""
    pull = built.registry.catalogue.pull(choice.item)
    holes = pull_holes(choice, pull, door)
    for drilled in holes:
        part = part_at(built, door, drilled)
        if part is not None:
            built = built.with_cuts(part.key, hole("pull", drilled, purpose=Purpose.PULL))
    return built.with_hardware(f"{built.id}/{door.key}", HardwareUse(pull.id, pull.title, (holes[0].mouth,), 2))


def pull_holes(choice: PullChoice, pull: Pull, door: PlacedDoor) -> tuple[Cylinder, ...]:
    """Return a pull's holes through a door, in the cabinet frame; the first is the nearest to the door's end."""
    box = door.box
    free_right = door.hinge == "left"
    land = door.design.right if free_right else door.design.left
    from_edge = choice.from_edge
    if from_edge is None:
        from_edge = land.inner_edge // 2 if land.panel is not None else min(SLAB_PULL, door.width // 2)
    x = box.x1 - from_edge if free_right else box.x0 + from_edge
    lower = _at_lower_end(choice, box)
    z = box.z0 + choice.from_end if lower else box.z1 - choice.from_end
    if choice.direction == "upright":
        step_x, step_z = 0, pull.spacing if lower else -pull.spacing
    else:
        step_x, step_z = -pull.spacing if free_right else pull.spacing, 0
    thickness = door.design.thickness
    return tuple(
        [
            Cylinder((x + i * step_x, box.y0, z + i * step_z), 2, pull.hole_diameter, thickness)
            for i in range(pull.holes)
        ]
    )


def _at_lower_end(choice: PullChoice, box: Box) -> bool:
    """Return whether the pull is near the door's lower end: as the job says, else at the end nearer to a hand."""
    if choice.at_end != "nearest":
        return choice.at_end == "lower"
    low, high = box.z0 + choice.from_end, box.z1 - choice.from_end
    return abs(low - HAND) < abs(high - HAND)


def part_at(built: Construction, door: PlacedDoor, drilled: Cylinder) -> Draft | None:
    """Return the stile, rail or slab of a door that a hole lies wholly in."""
    x, y, z = drilled.mouth
    r = -(-drilled.diameter // 2)
    needed = Box(x - r, y, z - r, x + r, y + drilled.depth, z + r)
    for spec in door.design.assembly.parts:
        draft = built.drafts[f"{door.key}/{spec.key}"]
        if spec.role != "door-panel" and draft.box.holds(needed):
            return draft
    return None
