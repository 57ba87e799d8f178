"""A door or a mounting as its method makes it: put together and taken apart, with the axes of its frame and its parts.

A door is drawn by itself, from the front; a mounting from behind, with the case that it carries in thin lines.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.hidden import FROM_BEHIND, ISOMETRIC, Eye
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Shape, Sheet, Text, View
from casewright.api.papers.drawing.solids import XYZ, Solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.axes import axes
from casewright.api.papers.views.common import bounds, picture, placed_box
from casewright.api.papers.views.isometric import anchors, balloons, offset
from casewright.api.papers.views.page import TABLE_LINE, Area, centred, furniture, table
from casewright.sdk.model import Cabinet, Part, Plan

SHEET: XY = (297.0, 210.0)
_TOGETHER = Area(14, 80, 110, 186)
_APART = Area(116, 80, 283, 186)
_TABLE: XY = (14, 72)
_WAYS: tuple[XYZ, XYZ, XYZ] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
APART = (0.45, 6.0, 0.45)
"""How far a part of a door moves off its middle when it is taken apart, by what it is off already: x, y, z."""


@dataclass(frozen=True, slots=True)
class _Look:
    """What is drawn: the method's own parts, what stands round them, where its frame begins and who looks."""

    own: tuple[Solid, ...]
    round: tuple[Solid, ...]
    origin: XYZ
    eye: Eye
    caption: str


def door_sheet(title: str, plan: Plan) -> Sheet:
    """Return the sheet of the first door of a plan, in the door frame."""
    facts = Facts(plan)
    door = plan.doors[0]
    parts = [part for part in facts.of(door.cabinet) if part.group == door.id.rpartition("/")[2]]
    boxes = [placed_box(part) for part in parts]
    origin = (mm(min(b.x0 for b in boxes)), mm(min(b.y0 for b in boxes)), mm(min(b.z0 for b in boxes)))
    solids = tuple(facts.solid(part) for part in parts)
    look = _Look(solids, (), origin, ISOMETRIC, "put together, from the front; x, y, z of the door frame")
    middle = tuple((low + high) / 2 for low, high in zip(*_ends(solids), strict=True))
    spread = [one.moved(_off(one, (middle[0], middle[1], middle[2]))) for one in solids]
    return _sheet(title, facts, look, spread)


def mounting_sheet(title: str, plan: Plan) -> Sheet:
    """Return the sheet of the mounting of a plan's first cabinet, in the cabinet frame, from behind."""
    facts = Facts(plan)
    cabinet: Cabinet = plan.job.cabinets[0]
    own = [part for part in facts.of(cabinet.id) if part.group == "mounting"]
    rest = [part for part in facts.of(cabinet.id) if part.group != "mounting"]
    solids, case = (tuple(facts.solid(part) for part in rows) for rows in (own, rest))
    look = _Look(solids, case, (0.0, 0.0, 0.0), FROM_BEHIND, "put together, from behind; x, y, z of the cabinet frame")
    spread = [one.moved(offset(one.part, cabinet)) for one in (*solids, *case)]
    return _sheet(title, facts, look, spread)


def _ends(solids: Sequence[Solid]) -> tuple[XYZ, XYZ]:
    """Return the low and the high corner of the box round solids, mm."""
    boxes = [placed_box(one.part) for one in solids]
    low = (mm(min(b.x0 for b in boxes)), mm(min(b.y0 for b in boxes)), mm(min(b.z0 for b in boxes)))
    return low, (mm(max(b.x1 for b in boxes)), mm(max(b.y1 for b in boxes)), mm(max(b.z1 for b in boxes)))


def _off(one: Solid, middle: XYZ) -> XYZ:
    low, high = _ends((one,))
    x, y, z = ((a + b) / 2 - m for a, b, m in zip(low, high, middle, strict=True))
    return (x * APART[0], y * APART[1], z * APART[2])


def _sheet(title: str, facts: Facts, look: _Look, spread: Sequence[Solid]) -> Sheet:
    scale, together = _picture("put together", (*look.own, *look.round), look.eye, _TOGETHER)
    marks = View("frame", tuple(axes(look.eye, scale, _WAYS, look.origin)), together.at, scale)
    _, apart = _picture("taken apart", spread, look.eye, _APART)
    spots = {i: spot for i, spot in anchors(list(spread), look.eye).items() if i < len(look.own)}
    at = {i: (apart.at[0] + x * apart.scale, apart.at[1] + y * apart.scale) for i, (x, y) in spots.items()}
    words: list[Shape] = [
        Text((_TOGETHER.x0, 196), metrics.clean(title), 3.5, bold=True),
        Text((_TOGETHER.x0, 189), look.caption, TEXT),
        Text((_APART.x0, 189), "taken apart; numbers are those of the list", TEXT),
        *_list(facts, [one.part for one in look.own]),
    ]
    views = (together, marks, apart, furniture("numbers", balloons(at, _APART, 24)), furniture("words", words))
    return Sheet("design", title, *SHEET, facts.units, views)


def _picture(name: str, solids: Sequence[Solid], eye: Eye, area: Area) -> tuple[float, View]:
    box = bounds(solids, eye)
    room = (area.width - 24, area.height - 16)
    scale = min(room[0] / max(box[2] - box[0], 1.0), room[1] / max(box[3] - box[1], 1.0), 1.0)
    at = centred((area.x0, area.y0), (area.width, area.height), box, scale)
    return scale, View(name, tuple(picture(solids, eye, Kind.NARROW)), at, scale)


def _list(facts: Facts, parts: Sequence[Part]) -> list[Shape]:
    """Return the parts with their sizes, as many as there is room for."""
    size = facts.writer.length
    room = int((_TABLE[1] - 12) / TABLE_LINE) - 1
    rows = [
        [str(n), metrics.clean(p.name), p.role, size(p.length), size(p.width), size(p.thickness),
         metrics.clean(p.material)]
        for n, p in enumerate(parts, start=1)
    ]  # fmt: skip
    more = [["", f"and {len(rows) - room + 1} more", "", "", "", "", ""]] if len(rows) > room else []
    shown = rows if not more else [*rows[: room - 1], *more]
    return table(_TABLE, ("No.", "Part", "Role", "Length", "Width", "Thickness", "Material"), shown,
                 (10, 70, 40, 36, 36, 36, 40))  # fmt: skip
