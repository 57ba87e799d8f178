"""Each cabinet at each of its places, as boxes in the wall frame, from left to right."""

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.construction.construction import Construction
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Cabinet, DoorLeaf, Job, Spot, Standing, Wall

PRACTICE = "common-practice"
"""Source of what no document says."""

LOOSE = frozenset({"loose", "mounting"})
"""Groups that are no part of a cabinet's outside: what lies in it and what stays behind it."""

SOLID = frozenset({"case", "face-frame", "base", "ends"})
"""Groups that neighbours stand against; fronts and counters may reach farther."""


@dataclass(frozen=True, slots=True)
class Body:
    """The box round one group of a cabinet's parts, and what to call it."""

    group: str
    box: Box

    @property
    def name(self) -> str:
        """The group in plain words."""
        return self.group.replace("-", " ")


@dataclass(frozen=True, slots=True)
class PlacedCabinet:
    """A cabinet at a place. `at` is its own frame's origin in the wall frame, `outline` the box round what is solid.

    `cleats` are the lower and upper edges of its wall cleats, `None` without one.
    """

    standing: Standing
    built: Construction
    spot: Spot
    at: Point
    bodies: tuple[Body, ...]
    outline: Box
    hull: Box
    doors: tuple[DoorLeaf, ...]
    cleats: tuple[int, int] | None

    @property
    def name(self) -> str:
        """What to call it."""
        return self.standing.name

    @property
    def pointer(self) -> str:
        """Its place in the job."""
        return self.standing.pointer

    @property
    def cabinet(self) -> Cabinet:
        """The cabinet that stands here."""
        return self.built.cabinet


def place_cabinets(job: Job, wall: Wall, planned: Sequence[CabinetPlan]) -> list[PlacedCabinet]:
    """Return every cabinet at every place, sorted by its left edge, then height, then name."""
    places = [placed for one in planned if one.id in wall.cabinets_at for placed in _places(job, wall, one)]
    return sorted(places, key=lambda s: (s.outline.x0, s.outline.z0, s.name))


def _places(job: Job, wall: Wall, planned: CabinetPlan) -> list[PlacedCabinet]:
    built = planned.construction
    cabinet = built.cabinet
    frame = job.materials[cabinet.face_frame.material].thickness if cabinet.face_frame else 0
    depth = cabinet.depth - frame
    groups = _groups(built)
    cleats = [d.box for d in built.drafts.values() if d.role == "wall-cleat"]
    spots = wall.cabinets_at[built.id]
    out = []
    for number, spot in enumerate(spots):
        at = (spot.x, -depth, spot.z)
        bodies = tuple([Body(group, box.moved(*at)) for group, box in groups.items()])
        outline = Box.union([b.box for b in bodies if b.group in SOLID])
        hull = Box.union([b.box for b in bodies])
        lines = (spot.z + min(b.z0 for b in cleats), spot.z + max(b.z1 for b in cleats)) if cleats else None
        standing = Standing(
            name=cabinet.copy_name(number),
            cabinet=built.id,
            number=number + 1,
            pointer=spot.pointer,
            low=hull[:3],
            high=hull[3:],
            studs=_studs(wall, spot.x, spot.x + cabinet.case_width),
        )
        out.append(PlacedCabinet(standing, built, spot, at, bodies, outline, hull, planned.doors, lines))
    return out


def _groups(built: Construction) -> dict[str, Box]:
    """Return the box round each group of parts, bands counted."""
    outlines: dict[str, Box] = {}
    for draft in built.drafts.values():
        if draft.group in LOOSE:
            continue
        box = Box.union([draft.box, *(band.box for band in draft.bands)])
        outlines[draft.group] = outlines[draft.group].around(box) if draft.group in outlines else box
    return outlines


def _studs(wall: Wall, low: int, high: int) -> tuple[int, ...]:
    if wall.studs is None:
        return ()
    return tuple([x for x in sorted(wall.studs.at) if low <= x <= high])


def level_with(a: Box, b: Box) -> bool:
    """Return whether two boxes share some height."""
    return a.z0 < b.z1 and b.z0 < a.z1
