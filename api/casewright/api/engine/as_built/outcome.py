"""A cabinet as it comes out: the outside size that asks least of what is built."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from casewright.sdk.model import BuiltMeasure, BuiltSize, Cabinet, Part, Role, Space

REMADE = 100
"""What a part to be made again, or made up, counts against one that is trimmed."""


class Outside(StrEnum):
    """A size of a cabinet's outside, which its parts follow."""

    WIDTH = "width"
    HEIGHT = "height"
    DEPTH = "depth"


MEASURED: Mapping[BuiltMeasure, Outside] = {
    BuiltMeasure.OUTSIDE_WIDTH: Outside.WIDTH,
    BuiltMeasure.OUTSIDE_HEIGHT: Outside.HEIGHT,
    BuiltMeasure.OUTSIDE_DEPTH: Outside.DEPTH,
}
LEADING: Mapping[tuple[Role, BuiltMeasure], Outside] = {
    ("side", BuiltMeasure.LENGTH): Outside.HEIGHT,
    ("side", BuiltMeasure.WIDTH): Outside.DEPTH,
    ("top", BuiltMeasure.LENGTH): Outside.WIDTH,
    ("bottom", BuiltMeasure.LENGTH): Outside.WIDTH,
    ("stretcher", BuiltMeasure.LENGTH): Outside.WIDTH,
}
"""Parts of the case whose sizes the outside goes by."""

DOOR: Mapping[tuple[Role, BuiltMeasure], Outside] = {
    ("door-rail", BuiltMeasure.LENGTH): Outside.WIDTH,
    ("door-stile", BuiltMeasure.LENGTH): Outside.HEIGHT,
    ("door-panel", BuiltMeasure.OPENING_WIDTH): Outside.WIDTH,
    ("door-panel", BuiltMeasure.OPENING_HEIGHT): Outside.HEIGHT,
}
"""Parts of a door's frame whose sizes the door goes by, and the room for its panel as measured."""

Leads = tuple[str, Outside]
"""What goes by a part: the case (empty) or a door by its id in the cabinet, and which size of it."""


@dataclass(frozen=True, slots=True)
class Deviation:
    """One size of a part as measured: `off` is how far it is over what is planned, or under, with the room it has.

    `seated` is one whose ends are let into others, or lie loose on pins.
    """

    size: BuiltSize
    part: Part
    off: int
    over: int
    under: int
    seated: bool = False

    @property
    def goes(self) -> bool:
        """Whether it goes in as it came out."""
        return -self.under <= self.off <= self.over

    @property
    def leads(self) -> Leads | None:
        """The outside size of a case or a door that goes by it, if any."""
        group, what = self.part.group, (self.part.role, self.size.measure)
        if group == "case":
            return ("", LEADING[what]) if what in LEADING else None
        return (group, DOOR[what]) if what in DOOR else None


def least_repair(deviations: Sequence[Deviation]) -> int:
    """Return by how much an outside size is best made less, as nm not above zero.

    A part that is too short beyond its room is made again or made up, one that is too long is trimmed, and the size
    that is asked for is kept where it costs no more.
    """
    rooms = [one.off for one in deviations if one.size.measure.of_opening]
    if rooms:
        return min(rooms)
    tried = sorted({0, *(one.off for one in deviations if one.off < 0)}, reverse=True)
    return min(tried, key=lambda by: sum(_repair(one, by) for one in deviations))


def _repair(one: Deviation, by: int) -> int:
    left = one.off - by
    return REMADE if left < -one.under else 1 if left > one.over else 0


def resized(cabinet: Cabinet, by: Mapping[Outside, int]) -> Cabinet:
    """Return a cabinet with outside sizes so much larger; where all parts of a division have sizes, the last gives."""
    width, height, depth = (by.get(one, 0) for one in Outside)
    space = cabinet.space
    for division, change in (("bays", width), ("tiers", height)):
        if change:
            space = _giving(space, division)
    return replace(
        cabinet, width=cabinet.width + width, height=cabinet.height + height, depth=cabinet.depth + depth, space=space
    )


def _giving(space: Space, division: str) -> Space:
    parts = tuple([_giving(part, division) for part in space.parts])
    if space.division == division and all(part.size is not None for part in parts):
        parts = (*parts[:-1], replace(parts[-1], size=None))
    if division == "tiers" and space.drawer_heights and None not in space.drawer_heights:
        return replace(space, parts=parts, drawer_heights=(*space.drawer_heights[:-1], None))
    return replace(space, parts=parts)


def outside_of(cabinet: Cabinet, size: Outside, frame: int) -> int:
    """Return an outside size of a cabinet's case, without a face frame `frame` thick."""
    match size:
        case Outside.WIDTH:
            return cabinet.case_width
        case Outside.HEIGHT:
            return cabinet.case_height
        case Outside.DEPTH:
            return cabinet.depth - frame


def leading(deviations: Iterable[Deviation]) -> Mapping[Leads, list[Deviation]]:
    """Return what was measured of parts that outside sizes go by, by these sizes."""
    out: dict[Leads, list[Deviation]] = {}
    for one in deviations:
        if one.leads is not None:
            out.setdefault(one.leads, []).append(one)
    return out
