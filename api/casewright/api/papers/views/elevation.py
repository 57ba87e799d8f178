"""The front of a cabinet, with its outside sizes, the places of its members, and its doors by letter."""

from collections.abc import Sequence
from string import ascii_uppercase

from casewright.api.papers.drawing.hidden import FRONT
from casewright.api.papers.drawing.shapes import (
    TEXT,
    XY,
    Circle,
    Dimension,
    Kind,
    Line,
    Ring,
    Running,
    Shape,
    Shown,
    Text,
    View,
)
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import SKELETON, WALL_ROLES, Drawn, bounds, chosen, faces, picture, solids_of
from casewright.api.papers.views.page import Area, Page, area_of, centred, furniture, scale_for, table
from casewright.sdk.model import Cabinet, DoorLeaf, Part, Purpose

DOOR_LIST = 62.0
"""Paper kept for the list of doors, mm."""


BORED = {Purpose.PULL: Kind.NARROW, Purpose.HINGE_CUP: Kind.HIDDEN}
"""What is bored in a door, by the line it is drawn in on its front."""


def elevation(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return one page a cabinet."""
    return [_page(facts, facts.cabinets[c], paper) for c in chosen("elevation", subject, list(facts.cabinets))]


def mark_of(number: int) -> str:
    """Return A, B … Z, AA, AB … for 0, 1 …."""
    letters = ascii_uppercase
    return letters[number] if number < 26 else mark_of(number // 26 - 1) + letters[number % 26]


def front(facts: Facts, cabinet: Cabinet) -> Drawn:
    """Return a cabinet's front, with its doors by letter."""
    solids = [s for s in solids_of(facts, cabinet.id) if s.part.role not in WALL_ROLES and s.part.group != "mounting"]
    doors = [door for door in facts.plan.doors if door.cabinet == cabinet.id]
    x0, z0, x1, z1 = bounds(solids, FRONT)
    frame = [s.part for s in solids if s.part.role in ("frame-stile", "frame-rail")]
    members = frame or [s.part for s in solids if s.part.role in ("side", "divider", "top", "bottom")]
    left = -(cabinet.face_frame.overhang if cabinet.face_frame else 0)
    across = [p for p in members if p.role in ("frame-stile", "side", "divider")]
    level = [p for p in members if p.role in ("frame-rail", "top", "bottom")]
    level += [s.part for s in solids if s.part.role == "drawer-front"]
    lines = picture(solids, FRONT, hidden=SKELETON)

    def shapes(scale: float) -> list[Shape]:
        marks = _door_marks(facts, doors, scale, [s for s in lines if isinstance(s, Line)])
        return [*lines, *marks, *_overall(facts, cabinet, left, z1, x0)]

    row = Running("x", mm(left), faces(facts, across, 1, left, (cabinet.width,)), min(0.0, z0), -8)
    return Drawn((x0, z0, x1, z1), row, Running("y", 0.0, faces(facts, level, 3, 0, (cabinet.height,)), x1, 8), shapes)


def _page(facts: Facts, cabinet: Cabinet, paper: str) -> Page:
    drawn = front(facts, cabinet)
    doors = [door for door in facts.plan.doors if door.cabinet == cabinet.id]
    area = area_of(paper)
    plot = Area(area.x0, area.y0, area.x1 - (DOOR_LIST if doors else 0), area.y1)
    room = (plot.width - drawn.beside - 18, plot.height - drawn.below - 16)
    scale, name = scale_for(facts, drawn.width, drawn.height, room)
    shapes, missed = drawn.dimensioned(scale, (plot.width - 20, plot.height - drawn.below))
    at = centred((plot.x0 + 18, plot.y0 + drawn.below), room, drawn.box, scale)
    extra = _door_list(facts, doors, area, _notes(cabinet, missed))
    views = (View("front", tuple(shapes), at, scale), furniture("doors", extra))
    return Page(f"Elevation of {cabinet.id}", views, name)


def _overall(facts: Facts, cabinet: Cabinet, left: int, top: float, x0: float) -> list[Shape]:
    return [
        Dimension(
            "x", mm(left), mm(left + cabinet.width), top, 8, facts.bare(cabinet.width),
            (Shown(cabinet.id, "width", cabinet.width),),
        ),
        Dimension(
            "y", 0.0, mm(cabinet.height), x0, -8, facts.bare(cabinet.height),
            (Shown(cabinet.id, "height", cabinet.height),),
        ),
    ]  # fmt: skip


def _door_marks(facts: Facts, doors: list[DoorLeaf], scale: float, lines: list[Line]) -> list[Shape]:
    """Return each door's letter, the lines that meet at its hinge side, and its holes."""
    shapes: list[Shape] = []
    for i, door in enumerate(doors):
        x, _, z = (mm(n) for n in door.at)
        w, h = mm(door.width), mm(door.height)
        hinge, latch = (x, x + w) if door.hinge_side == "left" else (x + w, x)
        shapes += [Line((latch, corner), (hinge, z + h / 2), Kind.FINE) for corner in (z, z + h)]
        centre = (x + w / 2, _clear(lines, x + w / 2, z, h, scale))
        shapes.append(Ring(centre, 2.6))
        shapes.append(Text(centre, mark_of(i), anchor="middle", bold=True, shift=(0, -1.25)))
        for part in (facts.parts[p] for p in door.parts if p in facts.parts):
            shapes += _bores(part)
    return shapes


def _clear(lines: list[Line], x: float, z: float, h: float, scale: float) -> float:
    """Return a height at which a door's letter stands clear of the lines there, near its middle."""
    r = 3.0 / scale
    for share in (0.5, 0.58, 0.42, 0.66, 0.34, 0.74, 0.26, 0.82, 0.18):
        at = z + share * h
        if not any(
            min(p.a[1], p.b[1]) < at + r
            and max(p.a[1], p.b[1]) > at - r
            and min(p.a[0], p.b[0]) < x + r
            and max(p.a[0], p.b[0]) > x - r
            for p in lines
        ):
            return at
    return z + h / 2


def _bores(part: Part) -> list[Shape]:
    """Return a door's holes: those of its pull, and the cups behind it dashed."""
    out: list[Shape] = []
    for feature in part.features:
        kind = BORED.get(feature.purpose)
        for hole in feature.holes if kind else ():
            placed = part.place.cylinder(hole)
            out.append(Circle((mm(placed.mouth[0]), mm(placed.mouth[2])), mm(hole.diameter) / 2, kind or Kind.NARROW))
    return out


def _notes(cabinet: Cabinet, missed: int) -> list[str]:
    notes = [f"{cabinet.count} to make" if cabinet.count > 1 else "One to make"]
    if missed:
        notes.append(f"{missed} places left out for want of room: see the parts")
    return notes


def _door_list(facts: Facts, doors: list[DoorLeaf], area: Area, notes: list[str]) -> list[Shape]:
    x = area.x1 - DOOR_LIST + 4
    shapes: list[Shape] = []
    if not doors:
        return [Text((area.x1, area.y1 - 4 - 4.6 * i), n, TEXT, "end") for i, n in enumerate(notes)]
    most = int((area.height - 14 - 5 * len(notes)) / 4.6)
    shapes += door_table(facts, doors[:most], (x, area.y1 - 2))
    y = area.y1 - 2 - 4.6 * (min(len(doors), most) + 1) - 8
    words = [*notes, *([f"{len(doors) - most} more doors not listed"] if len(doors) > most else [])]
    shapes += [Text((x, y - 4.6 * i), n, TEXT) for i, n in enumerate(words)]
    return shapes


def door_table(facts: Facts, doors: Sequence[DoorLeaf], corner: XY) -> list[Shape]:
    """Return the list of doors by letter from its upper left corner."""
    rows: list[list[Text | str]] = []
    for i, door in enumerate(doors):
        size = f"{facts.bare(door.width)} × {facts.bare(door.height)}"
        shows = (Shown(door.id, "width", door.width), Shown(door.id, "height", door.height))
        rows.append([mark_of(i), Text((0, 0), size, shows=shows), door.hinge_side])
    return table(corner, ("Door", "Width × height", "Hinges"), rows, (10, 36, 16))
