"""Cabinets along one wall: gaps and fillers, what they hit, level lines, door swings, and the order of setting.

All is judged in the wall frame: x from the wall's left end, y 0 at the cabinets' backs and less before them, z up
from the finished floor. Bodies are the boxes round each cabinet's case, face frame, base, ends, counter and fronts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.run.doors import placed_doors
from casewright.api.engine.run.gaps import close_gaps
from casewright.api.engine.run.levels import level_checks, level_lines
from casewright.api.engine.run.obstacles import wall_checks
from casewright.api.engine.run.order import order_of_setting
from casewright.api.engine.run.placed import place_cabinets
from casewright.api.engine.run.readings import high_spot, packing, packing_checks
from casewright.api.engine.run.swings import door_checks, open_doors, swing_checks
from casewright.sdk.loader import Registry
from casewright.sdk.model import Check, Job, Part, Run
from casewright.sdk.writer import writer

__all__ = ["Walled", "plan_run"]

PLANE = "cabinets stand with their backs in one plane; what a wall is out of flat is for the scribe"
BODIES = "each cabinet is the boxes round its case, frame, base, ends, counter and fronts: exact on boxes"
SWINGS = (
    "doors turn about a fixed axis at the front corner of the hinge edge, the far corner's circle rounded outward; a "
    "cup hinge moves the door aside as it opens, so try one door first"
)


@dataclass(frozen=True, slots=True)
class Walled:
    """A run as planned: the answer, the filler strips it makes, and what was found."""

    run: Run
    parts: tuple[Part, ...]
    checks: tuple[Check, ...]


def plan_run(job: Job, planned: Sequence[CabinetPlan], registry: Registry) -> Walled | None:
    """Return the run of the cabinets that have places on the job's wall, or `None` where none has."""
    wall = job.wall
    if wall is None or not any(wall.cabinets_at.values()):
        return None
    placed = place_cabinets(job, wall, planned)
    closed = close_gaps(job, wall, placed)
    doors = placed_doors(placed, registry)
    opened = open_doors(wall, placed, doors)
    run = Run(
        standings=tuple([one.standing for one in placed]),
        gaps=closed.gaps,
        levels=level_lines(placed),
        swings=tuple([replace(one.swing, opens_deg=round(one.swing.opens_deg, 1)) for one in opened]),
        order=order_of_setting(wall, placed),
        approximations=(PLANE, BODIES, SWINGS),
        high_spot=high_spot(wall),
        packing=packing(wall, placed),
    )
    checks = (
        *closed.checks,
        *wall_checks(wall, placed),
        *level_checks(placed),
        *packing_checks(wall, placed, run.packing, job.shop.wall_allowance, writer(job.units)),
        *swing_checks(opened),
        *door_checks(doors),
    )
    return Walled(run, closed.strips, checks)
