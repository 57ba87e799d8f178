"""Openings as measured: the rooms that doors, drawers, loose shelves and panels go into."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from casewright.api.engine.as_built.outcome import Outside
from casewright.api.engine.as_built.pieces import Measured
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.construction.frame_layout import Opening
from casewright.sdk.model import BuiltMeasure, Cabinet, Joint, Part, Space

Along = Literal["bays", "tiers"]
_Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Room:
    """The clear room as planned that something goes into: across and up, and the leaf it lies before or in.

    `framed` is one in a face frame; `panel` is what goes into the grooves of a door's frame, and then there is no leaf.
    """

    width: int
    height: int
    leaf: str = ""
    framed: bool = False
    panel: Part | None = None

    def size(self, measure: BuiltMeasure) -> int:
        """Return the size that a measure is of."""
        return self.width if measure is BuiltMeasure.OPENING_WIDTH else self.height


def rooms_of(plan: CabinetPlan) -> Mapping[str, Room]:
    """Return the rooms of a cabinet by what goes into them."""
    return {**dict(_fronts(plan)), **dict(_shelves(plan.openings)), **dict(_panels(plan))}


def _fronts(plan: CabinetPlan) -> Iterator[tuple[str, Room]]:
    doors = drawers = 0
    framed = plan.construction.cabinet.face_frame is not None
    for one in plan.openings:
        space = one.leaf.space
        room = Room(one.x1 - one.x0, one.z1 - one.z0, space.pointer, framed)
        if space.front in ("door", "door-pair"):
            for _ in range(1 if space.front == "door" else 2):
                doors += 1
                yield f"door-{doors}", room
        elif space.front == "drawer":
            for _ in range(len(space.drawer_heights or ()) or space.drawer_count):
                drawers += 1
                yield f"drawer-{drawers}", room


def _shelves(openings: Iterable[Opening]) -> Iterator[tuple[str, Room]]:
    number = 0
    for one in openings:
        region = one.leaf.region
        room = Room(region.x1 - region.x0, region.z1 - region.z0, one.leaf.space.pointer)
        for _ in range(one.leaf.space.loose_count):
            number += 1
            yield f"loose-shelf-{number}", room


def _panels(plan: CabinetPlan) -> Iterator[tuple[str, Room]]:
    """Yield the rooms of panels in doors, from the floor of one groove to that of the other."""
    for part in plan.parts:
        if part.role == "door-panel":
            play = {way: _play(part, way, plan.construction.joints) for way in (1, 3)}
            box = part.place.box(part.blank)
            yield part.id.partition("/")[2], Room(box.size[0] + play[1], box.size[2] + play[3], panel=part)


def _play(part: Part, way: int, joints: Iterable[Joint]) -> int:
    return sum(joint.clearance for joint in joints if joint.guest == part.id and abs(joint.press) == way)


def as_measured(cabinet: Cabinet, plan: CabinetPlan, measured: Measured) -> tuple[Cabinet, Mapping[Outside, int]]:
    """Return a cabinet with its openings as measured, and by how much its outside is then larger where that is not.

    An opening in a face frame moves the edges of the frame; one in the case itself gives its bay or tier its size.
    """
    rooms = rooms_of(plan)
    least: dict[tuple[str, BuiltMeasure], int] = {}
    for (key, measure), size in measured.items():
        room = rooms.get(key)
        if measure.of_opening and room is not None and room.panel is None:
            where = (f"{room.leaf} front" if room.framed else room.leaf, measure)
            least[where] = min(least.get(where, size.nm), size.nm)
    regions = {one.leaf.space.pointer: one.leaf.region for one in plan.openings}
    widths = {leaf: (region.x0, region.x1) for leaf, region in regions.items()}
    heights = {leaf: (region.z0, region.z1) for leaf, region in regions.items()}
    wider = _off(least, BuiltMeasure.OPENING_WIDTH, widths)
    higher = _off(least, BuiltMeasure.OPENING_HEIGHT, heights)
    space, width = _sized(cabinet.space, "bays", wider, widths)
    space, height = _sized(space, "tiers", higher, heights)
    more = {Outside.WIDTH: width or 0, Outside.HEIGHT: height or 0}
    return replace(cabinet, space=_framed(space, least)), {size: by for size, by in more.items() if by}


def _off(
    least: Mapping[tuple[str, BuiltMeasure], int], measure: BuiltMeasure, spans: Mapping[str, _Span]
) -> dict[str, int]:
    """Return how much larger each leaf is than planned, of those that were measured."""
    return {
        leaf: least[leaf, measure] - (high - low) for leaf, (low, high) in spans.items() if (leaf, measure) in least
    }


def _framed(space: Space, least: Mapping[tuple[str, BuiltMeasure], int]) -> Space:
    """Return a space with the openings of its leaves in the face frame as measured."""
    front = f"{space.pointer} front"
    width, height = (
        least.get((front, measure)) for measure in (BuiltMeasure.OPENING_WIDTH, BuiltMeasure.OPENING_HEIGHT)
    )
    return replace(space, measured=(width, height), parts=tuple([_framed(part, least) for part in space.parts]))


def _sized(space: Space, along: Along, off: Mapping[str, int], spans: Mapping[str, _Span]) -> tuple[Space, int | None]:
    """Return a space whose entries along a division are as measured, and by how much it is then larger itself.

    `None` where nothing was measured in it. Entries that were not measured take what those that were leave.
    """
    if not space.parts:
        return space, off.get(space.pointer)
    made = [_sized(part, along, off, spans) for part in space.parts]
    known = [by for _, by in made if by is not None]
    if not known:
        return space, None
    if space.division != along:
        return replace(space, parts=tuple([part for part, _ in made])), min(known)
    parts = tuple([part if by is None else replace(part, size=_span(part, spans) + by) for part, by in made])
    if len(known) < len(parts):
        return _with_room(replace(space, parts=parts), [by for _, by in made]), 0
    return replace(space, parts=(*parts[:-1], replace(parts[-1], size=None))), sum(known)


def _with_room(space: Space, off: Sequence[int | None]) -> Space:
    """Return a space of which an entry that was not measured takes what is left, if all have sizes."""
    if any(part.size is None for part in space.parts):
        return space
    last = max(number for number, by in enumerate(off) if by is None)
    return replace(
        space, parts=tuple([replace(part, size=None) if n == last else part for n, part in enumerate(space.parts)])
    )


def _span(space: Space, spans: Mapping[str, _Span]) -> int:
    """Return how wide or high a space was planned, from the leaves in it."""
    inside = [one for leaf, one in spans.items() if leaf == space.pointer or leaf.startswith(f"{space.pointer}/")]
    return max(high for _, high in inside) - min(low for low, _ in inside)
