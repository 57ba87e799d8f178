"""One part a page: face, end and edge by their names, every cut placed from a named side, and a row for each cut."""

from collections.abc import Mapping
from dataclasses import dataclass

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import running_reach, text_places
from casewright.api.papers.drawing.hidden import Eye
from casewright.api.papers.drawing.shapes import (
    TEXT,
    Circle,
    Dimension,
    Kind,
    Running,
    Shape,
    Shown,
    Text,
    View,
)
from casewright.api.papers.drawing.solids import solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import Stops, chosen, facing, moved, picture
from casewright.api.papers.views.cuts import CutRow, cuts_of
from casewright.api.papers.views.page import Area, Page, area_of, furniture, scale_for, table
from casewright.sdk.geometry import Place
from casewright.sdk.model import Part, Side, Sides

HOME = Place((0, 0, 0), 1, 2, 3)
FACE_UP = Eye((1, 0, 0), (0, 1, 0), (0, 0, 1))
FACE_DOWN = Eye((1, 0, 0), (0, -1, 0), (0, 0, -1))
END = Eye((0, 0, -1), (0, 1, 0), (1, 0, 0))
END_DOWN = Eye((0, 0, 1), (0, -1, 0), (1, 0, 0))
EDGE = Eye((1, 0, 0), (0, 0, 1), (0, -1, 0))
EDGE_DOWN = Eye((1, 0, 0), (0, 0, -1), (0, 1, 0))
LINE = 4.6
EDGE_UNDER = 16.0
"""How far under the face the edge is drawn, mm of paper."""
UNDER_TEXTS = 4.5
"""From the middle of the lowest running text to the foot of the end's name under it, mm of paper: 2 and 2.3 and air."""


def part(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return a page for each part; a second one for a part with more cuts than the first page holds."""
    known = list(facts.parts)
    return [page for one in chosen("part", subject, known) for page in _pages(facts, facts.parts[one], paper)]


def shown_from_below(part: Part) -> bool:
    """Return whether more cuts enter by the lower face than by the upper one, so that it is the one drawn."""
    upper = sum(1 for f in part.features if f.entry == 3)
    return sum(1 for f in part.features if f.entry == -3) > upper


def stops_of(facts: Facts, part: Part, rows: list[CutRow], side: Side, down: bool) -> Stops:
    """Return the running stops of a part from one of its sides, each place once."""
    places: dict[int, list[str]] = {}
    for row in rows:
        for way, nm in row.starts:
            if way is side and row.letter not in places.setdefault(nm, []):
                places[nm].append(row.letter)
    name = facts.sides[part.id][side]
    whole = part.length if side.axis == 1 else part.width
    stops = []
    for nm, marks in sorted(places.items()):
        at = mm(whole - nm) if side.high != (down and side.axis == 2) else mm(nm)
        words = ",".join(marks) if len(marks) < 6 else f"{marks[0]}…{marks[-1]}"
        stops.append((at, f"{facts.bare(nm)}  {words}", (Shown(part.id, f"{nm} from the {name}", nm),)))
    return tuple(stops)


ALONG_X = (Side.END_LOW, Side.END_HIGH)
ALONG_Y = (Side.EDGE_LOW, Side.EDGE_HIGH)


@dataclass(frozen=True, slots=True)
class _PartView:
    """A part, its running stops from each of its ends and edges, and whether its low face is shown (`down`)."""

    part: Part
    across: Mapping[Side, Stops]
    beside: Mapping[Side, Stops]
    down: bool


def _pages(facts: Facts, part: Part, paper: str) -> list[Page]:
    rows = cuts_of(facts, part)
    area = area_of(paper)
    down = shown_from_below(part)
    across = {side: stops_of(facts, part, rows, side, down) for side in ALONG_X}
    beside = {side: stops_of(facts, part, rows, side, down) for side in ALONG_Y}
    lines = min(len(rows), 11)
    low = area.y0 + (LINE * (lines + 1) + 6 if rows else 0)
    plot = Area(area.x0, low, area.x1, area.y1)
    views, scale = _views(facts, _PartView(part, across, beside, down), plot)
    extra: list[Shape] = [*_head(facts, part, area, down)]
    extra += _rows(rows[:lines], area, low - 2)
    pages = [Page(f"Part {metrics.clean(part.id)}", (*views, furniture("cuts", extra)), scale)]
    most = int((area.height - 10) / LINE)
    for start in range(lines, len(rows), most):
        more = _rows(rows[start : start + most], area, area.y1)
        pages.append(Page(f"Part {metrics.clean(part.id)}, more cuts", (furniture("cuts", more),)))
    return pages


def _head(facts: Facts, part: Part, area: Area, down: bool) -> list[Shape]:
    """Return the lines over the picture: name, number to make, material, thickness, grain, bands."""
    grain = {"along-length": "grain along the length", "along-width": "grain along the width", "free": "no grain"}
    thick = facts.text(part.thickness)
    words = f"{part.name}: {part.quantity} to make of {part.material}, {thick} thick, {grain[part.grain]}"
    shapes: list[Shape] = [
        Text((area.x0, area.y1 - 3), metrics.fitted(metrics.clean(words), 2.5, area.width), 2.5,
             shows=(Shown(part.id, "thickness", part.thickness),))
    ]  # fmt: skip
    names = facts.sides[part.id]
    face = names[Side.FACE_LOW if down else Side.FACE_HIGH]
    low, high = (Side.EDGE_HIGH, Side.EDGE_LOW) if down else (Side.EDGE_LOW, Side.EDGE_HIGH)
    seen = f"Seen on its {face}, {names[high]} up, {names[low]} down"
    if part.bands:
        bands = ", ".join(sorted({metrics.clean(b.material) for b in part.bands}))
        seen += f"; edge band {bands}, sizes are without it"
    shapes.append(Text((area.x0, area.y1 - 8), metrics.fitted(seen, TEXT, area.width), TEXT))
    return shapes


def _rows(rows: list[CutRow], area: Area, top: float) -> list[Shape]:
    if not rows:
        return []
    width = area.width
    widths = (8.0, width * 0.3, 40.0, width * 0.7 - 48)
    cells: list[list[Text | str]] = [
        [row.letter, row.what, row.enters, Text((0, 0), row.size, shows=tuple(row.shows))] for row in rows
    ]
    return table((area.x0, top), ("Cut", "What", "Enters by", "Size"), cells, widths)


def _views(facts: Facts, shown: _PartView, plot: Area) -> tuple[list[View], str]:
    """Return the face, far end and edge views, each at a scale that fits, and the face's scale."""
    part, across, beside, down = shown.part, shown.across, shown.beside, shown.down
    edge = any(abs(f.entry) == 2 for f in part.features)
    long, width, thick = mm(part.length), mm(part.width), mm(part.thickness)
    above = max((running_reach(stops) + 8 for stops in across.values() if stops), default=4.0)
    left = max((running_reach(stops) + 20 for stops in beside.values() if stops), default=22.0)
    side = 40.0
    under = 16.0
    room = (plot.width - left - side - 6, plot.height - above - under - 10)
    strip = thick if edge else 0.0
    scale, name = scale_for(facts, long, width, (room[0], room[1] - (EDGE_UNDER if edge else 0.0)))
    if edge:
        scale, name = scale_for(facts, long, width + strip, (room[0], room[1] - EDGE_UNDER))
    used = width * scale + (strip * scale + EDGE_UNDER if edge else 0.0)
    spare_x = max(0.0, (room[0] - long * scale) / 2)
    at_x = plot.x0 + left + spare_x
    at_y = plot.y0 + under + max(0.0, (room[1] - used) / 2) + (used - width * scale)
    face = _face(facts, shown, plot, scale)
    views = [View("face", tuple(face), (at_x, at_y), scale)]
    if edge:
        views.append(View("edge", tuple(_edge(part, down)), (at_x, at_y - EDGE_UNDER - (thick * scale)), scale))
    end_scale, end_name = scale_for(facts, thick, width, (side - 14, plot.height - 22), most=2.0)
    end_x = plot.x1 - side + (side - thick * end_scale) / 2
    end_y = plot.y0 + 6 + (plot.height - 22 - width * end_scale) / 2
    views.append(View("far end", tuple(_end(part, down)), (end_x, end_y), end_scale))
    names = facts.sides[part.id]
    words = [
        Text(
            (plot.x1 - side / 2, end_y + width * end_scale + 3),
            f"{names[Side.END_HIGH]}, {end_name}",
            TEXT,
            "middle",
        ),
        Text(
            (at_x, at_y - EDGE_UNDER - thick * scale - 4.5),
            names[Side.EDGE_HIGH if down else Side.EDGE_LOW] if edge else "",
            TEXT,
        ),
    ]
    views.append(furniture("captions", [t for t in words if t.text]))
    return views, name


def _face(facts: Facts, shown: _PartView, plot: Area, scale: float) -> list[Shape]:
    part, down = shown.part, shown.down
    eye = FACE_DOWN if down else FACE_UP
    drawn = solid(part, HOME)
    lift = mm(part.width) if down else 0.0
    shapes = moved(picture([drawn], eye, all_hidden=True), 0.0, lift)
    width, long = mm(part.width), mm(part.length)
    for feature in part.features:
        for hole in feature.holes:
            if abs(hole.into) == 3:
                y = mm(hole.mouth[1])
                seen = (hole.into == -3) != down or hole.depth >= part.thickness
                centre = (mm(hole.mouth[0]), width - y if down else y)
                shapes.append(Circle(centre, mm(hole.diameter) / 2, Kind.WIDE if seen else Kind.HIDDEN))
    rows = [Running("x", long if side.high else 0.0, stops, width, 8) for side, stops in shown.across.items()]
    columns = [
        Running("y", width if side.high != down else 0.0, stops, 0.0, -8) for side, stops in shown.beside.items()
    ]
    beside = facing(columns[0], columns[1], plot.height + 20)
    shapes += [*facing(rows[0], rows[1], plot.width - 20), *beside]
    shapes.append(Dimension("x", 0.0, long, 0.0, -8, facts.bare(part.length), (Shown(part.id, "length", part.length),)))
    shapes.append(Dimension("y", 0.0, width, long, 8, facts.bare(part.width), (Shown(part.id, "width", part.width),)))
    lowest = min((place * scale for column in beside for place in text_places(column, scale)), default=0.0)
    return [*shapes, *_names(facts.sides[part.id], long, min(-6.0, lowest - UNDER_TEXTS))]


def _names(names: Sides, long: float, left: float) -> list[Shape]:
    """Return the names of the ends under the picture, outside it on both hands; `left` mm up for the left one."""
    return [
        Text((0.0, 0.0), names[Side.END_LOW], TEXT, "end", shift=(-1.0, left)),
        Text((long, 0.0), names[Side.END_HIGH], TEXT, "start", shift=(1.0, -6.0)),
    ]


def _end(part: Part, down: bool) -> list[Shape]:
    drawn = solid(part, HOME)
    thick, width = mm(part.thickness), mm(part.width)
    if down:
        return moved(picture([drawn], END_DOWN, all_hidden=True), 0.0, width)
    return moved(picture([drawn], END, all_hidden=True), thick, 0.0)


def _edge(part: Part, down: bool) -> list[Shape]:
    drawn = solid(part, HOME)
    if down:
        return moved(picture([drawn], EDGE_DOWN, all_hidden=True), 0.0, mm(part.thickness))
    return picture([drawn], EDGE, all_hidden=True)
