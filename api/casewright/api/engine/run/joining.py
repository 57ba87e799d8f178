"""Screws that hold neighbours along a wall together: through the stiles where both have a frame, else the sides."""

from collections.abc import Sequence
from dataclasses import replace

from casewright.api.engine.run.gaps import CLOSED
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery import screw_within
from casewright.sdk.loader import Registry
from casewright.sdk.model import Gap, HardwareLine, Job, Part, Run, Spot

__all__ = ["joined"]

GAUGE = 8
FROM_END = 60_000_000
"""How far screws stand from the ends of what meets, clear of hinge plates and shelf pins 37 mm in, in nm."""
BITE = 9_000_000
ENOUGH = 25_000_000
"""The least and the most length of a screw in the second cabinet, in nm."""
SHORT = 3_000_000
"""How far from the second one's inside its point stays, in nm. All of these: common practice, no source."""


def joined(job: Job, run: Run, parts: Sequence[Part], registry: Registry) -> Run:
    """Return the run with screws in every closed gap; their places are in the frame of the cabinet on the left."""
    if job.wall is None:
        return run
    spots = {one.name: (one.cabinet, job.wall.cabinets_at[one.cabinet][one.number - 1]) for one in run.standings}
    gaps = [
        replace(gap, screws=_screws(gap, (spots[gap.left], spots[gap.right]), parts, registry))
        if gap.left in spots and gap.right in spots and -CLOSED <= gap.size <= CLOSED
        else gap
        for gap in run.gaps
    ]
    return replace(run, gaps=tuple(gaps))


def _screws(
    gap: Gap, of: tuple[tuple[str, Spot], tuple[str, Spot]], parts: Sequence[Part], registry: Registry
) -> HardwareLine | None:
    (left, here), (right, there) = of
    pair = _meeting(parts, (left, 1), (right, -1))
    if pair is None:
        return None
    a, b = pair[0], pair[1].moved(0, 0, there.z - here.z)
    through = a.size[0]
    screw = screw_within(registry.catalogue, GAUGE, through + min(b.size[0] - SHORT, ENOUGH), through + BITE)
    low, high = max(a.z0, b.z0) + FROM_END, min(a.z1, b.z1) - FROM_END
    if screw is None or low > high:
        return None
    front, back = max(a.y0, b.y0), min(a.y1, b.y1)
    ys = [front + FROM_END, back - FROM_END] if back - front > 3 * FROM_END else [(front + back) // 2]
    at = tuple([(a.x0, y, z) for y in ys for z in dict.fromkeys((low, high))])
    return HardwareLine(screw.id, screw.title, left, f"{gap.left} to {gap.right}", len(at), at)


def _meeting(parts: Sequence[Part], left: tuple[str, Axis], right: tuple[str, Axis]) -> tuple[Box, Box] | None:
    """Return what meets where two cabinets stand side by side, of the same kind on both: stiles, or else sides."""
    for role in ("frame-stile", "side"):
        a, b = _outermost(parts, role, left), _outermost(parts, role, right)
        if a is not None and b is not None:
            return a, b
    return None


def _outermost(parts: Sequence[Part], role: str, of: tuple[str, Axis]) -> Box | None:
    cabinet, way = of
    boxes = [part.place.box(part.blank) for part in parts if part.cabinet == cabinet and part.role == role]
    return max(boxes, key=lambda box: box.x1 * way, default=None) if way > 0 else min(boxes, default=None)
