"""The front of a cabinet, with its outside sizes, the places of its members, and its doors by letter."""

from string import ascii_uppercase

from casewright.api.papers.drawing.hidden import FRONT
from casewright.api.papers.drawing.marks import running_reach
from casewright.api.papers.drawing.shapes import Circle, Dimension, Kind, Line, Ring, Running, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import SKELETON, WALL_ROLES, bounds, chosen, faces, picture, running, solids_of
from casewright.api.papers.views.page import Area, Page, area_of, centred, furniture, scale_for, table
from casewright.sdk.model import Cabinet, DoorLeaf, Part, Purpose

DOOR_LIST = 62.0
"""Paper kept for the list of doors, mm."""


def elevation(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return one page a cabinet."""
    return [_page(facts, facts.cabinets[c], paper) for c in chosen("elevation", subject, list(facts.cabinets))]


def mark_of(number: int) -> str:
    """Return A, B … Z, AA, AB … for 0, 1 …."""
    letters = ascii_uppercase
    return letters[number] if number < 26 else mark_of(number // 26 - 1) + letters[number % 26]


def _page(facts: Facts, cabinet: Cabinet, paper: str) -> Page:
    solids = [s for s in solids_of(facts, cabinet.id) if s.part.role not in WALL_ROLES and s.part.group != "mounting"]
    doors = [door for door in facts.plan.doors if door.cabinet == cabinet.id]
    x0, z0, x1, z1 = bounds(solids, FRONT)
    frame = [s.part for s in solids if s.part.role in ("frame-stile", "frame-rail")]
    members = frame or [s.part for s in solids if s.part.role in ("side", "divider", "top", "bottom")]
    left = -(cabinet.face_frame.overhang if cabinet.face_frame else 0)
    upright = [p for p in members if p.role in ("frame-stile", "side", "divider")]
    level = [p for p in members if p.role in ("frame-rail", "top", "bottom")]
    stops_x = faces(facts, upright, 1, left, (cabinet.width,))
    stops_z = faces(facts, level, 3, 0, (cabinet.height,))
    area = area_of(paper)
    plot = Area(area.x0, area.y0, area.x1 - (DOOR_LIST if doors else 0), area.y1)
    below = running_reach(stops_x) + 10
    beside = running_reach(stops_z) + 10
    room = (plot.width - beside - 18, plot.height - below - 16)
    scale, name = scale_for(facts, x1 - x0, z1 - z0, room)
    shapes = picture(solids, FRONT, hidden=SKELETON)
    shapes += _door_marks(facts, doors, scale, [s for s in shapes if isinstance(s, Line)])
    shapes += _overall(facts, cabinet, left, z1, x0)
    row, missed_x = running(Running("x", mm(left), stops_x, min(0.0, z0), -8), plot.width - 20)
    column, missed_z = running(Running("y", 0.0, stops_z, x1, 8), plot.height - below)
    shapes += [*row, *column]
    at = centred((plot.x0 + 18, plot.y0 + below), room, (x0, z0, x1, z1), scale)
    notes = _notes(cabinet, missed_x + missed_z)
    extra = _door_list(facts, doors, area, notes)
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
    """Return each door's letter, the lines that meet at its hinge side, and its pull holes."""
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
            shapes += _pull(part)
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


def _pull(part: Part) -> list[Shape]:
    out: list[Shape] = []
    for feature in part.features:
        if feature.purpose is Purpose.PULL:
            for hole in feature.holes:
                placed = part.place.cylinder(hole)
                out.append(Circle((mm(placed.mouth[0]), mm(placed.mouth[2])), mm(hole.diameter) / 2, Kind.NARROW))
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
        return [Text((area.x1, area.y1 - 4 - 4.6 * i), n, 2.2, "end") for i, n in enumerate(notes)]
    most = int((area.height - 14 - 5 * len(notes)) / 4.6)
    rows: list[list[Text | str]] = []
    for i, door in enumerate(doors[:most]):
        size = f"{facts.bare(door.width)} × {facts.bare(door.height)}"
        shows = (Shown(door.id, "width", door.width), Shown(door.id, "height", door.height))
        rows.append([mark_of(i), Text((0, 0), size, shows=shows), door.hinge_side])
    shapes += table((x, area.y1 - 2), ("Door", "Width × height", "Hinge side"), rows, (10, 30, 18))
    y = area.y1 - 2 - 4.6 * (len(rows) + 1) - 8
    words = [*notes, *([f"{len(doors) - most} more doors not listed"] if len(doors) > most else [])]
    shapes += [Text((x, y - 4.6 * i), n, 2.2) for i, n in enumerate(words)]
    return shapes
