"""Doors against one another: pairs that must close without touching, and neighbours at the hinge side."""

from math import isqrt

from casewright.api.engine.construction.draft import Work
from casewright.api.engine.construction.fronts import Hung
from casewright.sdk.materials import Hinge
from casewright.sdk.model import LENGTH, Finding


def overreach(width: int, thickness: int) -> int:
    """Return how far, in nm, a door's meeting edge reaches past its closed place as it swings.

    A fixed axis anywhere in the door's thickness at its hinge edge: the far corner runs on a circle of radius
    √(w² + t²), so it passes the closed edge by √(w² + t²) − w at most, rounded outward. Own derivation; a cup
    hinge carries the door aside first, so this is on the safe side.
    """
    square = width * width + thickness * thickness
    root = isqrt(square)
    return root + (root * root < square) - width


def check_swings(work: Work, hung: list[Hung]) -> None:
    """Check every pair and every two doors that stand side by side."""
    doors = work.cabinet.doors
    if doors is None or not hung:
        return
    hinge = work.registry.catalogue.hinge(doors.hinge)
    by_key = {door.key: door for door in hung}
    for door in hung:
        if door.hinge == "left" and door.partner is not None:
            _check_pair(work, hinge, door, by_key[door.partner])
    for i, first in enumerate(hung):
        for second in hung[i + 1 :]:
            if first.partner != second.key:
                _check_neighbours(work, hinge, first, second)
    if doors.hang == "inset":
        for door in hung:
            _check_inset(work, hinge, door, doors.gap)
    _check_case_edges(work, hung)
    work.find(
        work.id,
        Finding(
            "swing-approximate",
            "caution",
            "door swing is judged by a fixed axis at the hinge edge, not by the hinge's own path; try one door first",
            None,
            None,
            "",
            "common-practice",
        ),
    )


def _check_pair(work: Work, hinge: Hinge, left: Hung, right: Hung) -> None:
    gap = right.box.x0 - left.box.x1
    needed = overreach(left.width, left.design.thickness) + overreach(right.width, right.design.thickness)
    reserve = 2 * hinge.side_adjustment
    subject = f"{work.id}/{left.key}"
    if gap > needed:
        work.find(
            subject,
            Finding("pair-gap", "note", "the pair closes without touching", gap, needed, LENGTH, "swing-fixed-axis"),
        )
    elif gap > 0 and gap + reserve > needed:
        work.find(
            subject,
            Finding(
                "pair-gap",
                "caution",
                "the pair closes clear only by using the hinges' side adjustment, which is meant as a reserve; "
                "make the meeting gap larger than the limit",
                gap,
                needed,
                LENGTH,
                "swing-fixed-axis",
            ),
        )
    else:
        work.find(
            subject,
            Finding(
                "pair-gap",
                "stop",
                "the pair meets in the middle; make the meeting gap larger than the limit",
                gap,
                needed,
                LENGTH,
                "swing-fixed-axis",
            ),
        )


def _check_neighbours(work: Work, hinge: Hinge, first: Hung, second: Hung) -> None:
    """Doors side by side in neighbouring openings need the hinge's least gap between them."""
    a, b = (first.box, second.box) if first.box.x0 <= second.box.x0 else (second.box, first.box)
    if a.z0 >= b.z1 or b.z0 >= a.z1:
        _check_stacked(work, first, second)
        return
    gap = b.x0 - a.x1
    left, right = (first, second) if first.box.x0 <= second.box.x0 else (second, first)
    edges = ((left, left.hinge == "right"), (right, right.hinge == "left"))
    needed = max((_beside_hinge(hinge, door) for door, hung_here in edges if hung_here), default=0)
    needed += sum(overreach(door.width, door.design.thickness) for door, hung_here in edges if not hung_here)
    if gap < needed or gap <= 0:
        work.find(
            f"{work.id}/{left.key}",
            Finding(
                "doors-too-close",
                "stop" if gap <= 0 else "caution",
                f"{left.key} and {right.key} need a gap between them; make the overlay smaller or the member wider",
                gap,
                needed,
                LENGTH,
                "hinge-planning-pages",
            ),
        )


def _beside_hinge(hinge: Hinge, door: Hung) -> int:
    """Return the least gap beside a door's hinge edge: the hinge's own, or the corner's overreach where unknown."""
    stated = hinge.least_gap(door.design.thickness)
    return overreach(door.width, door.design.thickness) if stated is None else stated


def _check_inset(work: Work, hinge: Hinge, door: Hung, gap: int) -> None:
    """Check that an inset door clears the jamb its free edge swings past and keeps the hinge's gap at the other.

    A pair's free edges meet one another instead, which the pair's own check judges.
    """
    swung = 0 if door.partner is not None else overreach(door.width, door.design.thickness)
    beside = _beside_hinge(hinge, door)
    if gap > swung and gap >= beside:
        return
    needed = max(swung, beside)
    reserve = gap > 0 and gap + hinge.side_adjustment > needed
    work.find(
        f"{work.id}/{door.key}",
        Finding(
            "inset-gap",
            "caution" if reserve else "stop",
            "the door clears its opening only by the hinges' side adjustment; make the gap larger than the limit"
            if reserve
            else "the door binds in its opening; make the gap larger than the limit",
            gap,
            needed,
            LENGTH,
            "swing-fixed-axis",
        ),
    )


def _check_stacked(work: Work, first: Hung, second: Hung) -> None:
    a, b = first.box, second.box
    if a.x0 >= b.x1 or b.x0 >= a.x1:
        return
    gap = max(a.z0 - b.z1, b.z0 - a.z1)
    if gap <= 0:
        work.find(
            f"{work.id}/{first.key}",
            Finding(
                "doors-too-close",
                "stop",
                f"{first.key} and {second.key} meet one over the other; make the overlay smaller or the rail wider",
                gap,
                0,
                LENGTH,
                "common-practice",
            ),
        )


def _check_case_edges(work: Work, hung: list[Hung]) -> None:
    """Tell where an overlay door reaches past the cabinet's outside."""
    frame = work.cabinet.face_frame
    out = frame.overhang if frame else 0
    left, right = -out, work.cabinet.width - out
    for door in hung:
        past = max(left - door.box.x0, door.box.x1 - right, -door.box.z0, door.box.z1 - work.cabinet.height)
        if past > 0:
            work.find(
                f"{work.id}/{door.key}",
                Finding(
                    "door-past-cabinet",
                    "caution",
                    "the door reaches past the cabinet's outside and may meet a neighbour, wall or ceiling",
                    past,
                    0,
                    LENGTH,
                    "common-practice",
                ),
            )
