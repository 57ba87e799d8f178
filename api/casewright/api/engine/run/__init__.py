"""Cabinets along one wall: gaps and fillers, what they hit, level lines, door swings, and the order of setting.

All is judged in the wall frame: x from the wall's left end, y 0 at the cabinets' backs and less before them, z up
from the finished floor. Bodies are the boxes round each cabinet's case, face frame, base, ends, counter and fronts.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.run.gaps import close_gaps
from casewright.api.engine.run.levels import level_lines
from casewright.api.engine.run.obstacles import check_wall
from casewright.api.engine.run.order import order_of_setting
from casewright.api.engine.run.standing import stand
from casewright.api.engine.run.swings import judge_swings
from casewright.sdk.loader import Registry
from casewright.sdk.model import Check, Job, Part, Run

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
    stood = stand(job, wall, planned)
    checks: list[Check] = []
    gaps, strips = close_gaps(job, wall, stood, checks)
    check_wall(wall, stood, checks)
    levels = level_lines(stood, checks)
    swings = judge_swings(wall, stood, registry, checks)
    run = Run(
        standings=tuple([s.standing for s in stood]),
        gaps=gaps,
        levels=levels,
        swings=swings,
        order=order_of_setting(wall, stood),
        approximations=(PLANE, BODIES, SWINGS),
    )
    return Walled(run, strips, tuple(checks))
