"""Doors and face frames: front, back with its bores, outside sizes, and every member's place."""

from collections.abc import Mapping, Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import running_reach
from casewright.api.papers.drawing.hidden import BACK, FRONT
from casewright.api.papers.drawing.shapes import Circle, Dimension, Kind, Running, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import Stops, chosen, face_holes, faces, moved, picture, placed_box, running
from casewright.api.papers.views.page import Area, Page, area_of, caption, centred, furniture, scale_for, table
from casewright.sdk.model import Cabinet, DoorLeaf, Part

FRAME = "face-frame"


def door(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return a page for each face frame (`<cabinet>/face-frame`) and each door."""
    doors = {leaf.id: leaf for leaf in facts.plan.doors}
    known: list[str] = []
    for cabinet in facts.cabinets.values():
        if any(p.group == FRAME for p in facts.of(cabinet.id)):
            known.append(f"{cabinet.id}/{FRAME}")
        known += [d for d, leaf in doors.items() if leaf.cabinet == cabinet.id]
    pages = []
    for one in chosen("door", subject, known):
        if one in doors:
            pages.append(_door(facts, doors[one], paper))
        else:
            pages.append(_frame(facts, facts.cabinets[one.removesuffix(f"/{FRAME}")], paper))
    return pages


def _frame(facts: Facts, cabinet: Cabinet, paper: str) -> Page:
    parts = [p for p in facts.of(cabinet.id) if p.group == FRAME]
    solids = [facts.solid(p) for p in parts]
    left = min(placed_box(p).x0 for p in parts)
    right = max(placed_box(p).x1 for p in parts)
    low, high = min(placed_box(p).z0 for p in parts), max(placed_box(p).z1 for p in parts)
    area = area_of(paper)
    rows = _members(facts, parts)
    lines = 4.6 * (len(rows) + 1) + 6
    tall = lines > area.height * 0.4
    plot = Area(area.x0, area.y0 if tall else area.y0 + lines, area.x1 - (100 if tall else 0), area.y1)
    stops_x = faces(facts, [p for p in parts if p.role == "frame-stile"], 1, left, (right - left,))
    stops_z = faces(facts, [p for p in parts if p.role == "frame-rail"], 3, low, (high - low,))
    below, beside = running_reach(stops_x) + 10, running_reach(stops_z)
    room = (plot.width - beside - 30, plot.height - below - 16)
    scale, name = scale_for(facts, mm(right - left), mm(high - low), room)
    shapes = picture(solids, FRONT)
    row, _ = running(Running("x", mm(left), stops_x, mm(low), -8), plot.width - 20)
    column, _ = running(Running("y", mm(low), stops_z, mm(right), 8), plot.height - 10)
    shapes += [*row, *column]
    shapes += [
        Dimension("x", mm(left), mm(right), mm(high), 8, facts.bare(right - left),
                  (Shown(cabinet.id, "width", right - left),)),
        Dimension("y", mm(low), mm(high), mm(left), -8, facts.bare(high - low),
                  (Shown(cabinet.id, "height", high - low),)),
    ]  # fmt: skip
    at = centred((plot.x0 + 20, plot.y0 + below), room, (mm(left), mm(low), mm(right), mm(high)), scale)
    top = area.y1 if tall else area.y0 + lines - 2
    x = area.x1 - 96 if tall else area.x0
    widths = (58, 20, 18) if tall else (80, 30, 30)
    most = int((top - area.y0) / 4.6) - 1
    extra = table((x, top), ("Member", "Length", "Width"), rows[:most], widths)
    views = (View("face frame", tuple(shapes), at, scale), furniture("members", extra))
    return Page(f"Face frame of {cabinet.id}", views, name)


def _members(facts: Facts, parts: Sequence[Part]) -> list[list[Text | str]]:
    return [
        [
            metrics.clean(p.id.split("/", 1)[1]),
            Text((0, 0), facts.bare(p.length), shows=(Shown(p.id, "length", p.length),)),
            Text((0, 0), facts.bare(p.width), shows=(Shown(p.id, "width", p.width),)),
        ]
        for p in parts
    ]


def _door(facts: Facts, leaf: DoorLeaf, paper: str) -> Page:
    parts = [facts.parts[p] for p in leaf.parts if p in facts.parts]
    solids = [facts.solid(p) for p in parts]
    area = area_of(paper)
    front = _front_stops(facts, leaf, parts)
    back = _cup_stops(facts, leaf, parts)
    below = max(running_reach(front[0]), running_reach(back[0])) + 12
    side = max(running_reach(front[1]), running_reach(back[1])) + 10
    w, h = mm(leaf.width), mm(leaf.height)
    half = area.width / 2
    room = (half - side - 24, area.height - below - 22)
    scale, name = scale_for(facts, w, h, room)
    x, z = mm(leaf.at[0]), mm(leaf.at[2])
    seen: list[Shape] = [*moved(picture(solids, FRONT), -x, -z), *_bores(parts, leaf, False)]
    row, _ = running(Running("x", 0.0, front[0], 0.0, -8), half)
    column, _ = running(Running("y", 0.0, front[1], w, 8), area.height)
    seen += [*row, *column]
    seen.append(Dimension("x", 0.0, w, h, 8, facts.bare(leaf.width), (Shown(leaf.id, "width", leaf.width),)))
    seen.append(Dimension("y", 0.0, h, 0.0, -8, facts.bare(leaf.height), (Shown(leaf.id, "height", leaf.height),)))
    behind: list[Shape] = [*moved(picture(solids, BACK), x + w, -z), *_bores(parts, leaf, True)]
    row, _ = running(Running("x", 0.0, back[0], 0.0, -8), half)
    column, _ = running(Running("y", 0.0, back[1], w, 8), area.height)
    behind += [*row, *column]
    high = h * scale
    at_y = area.y0 + below + max(0.0, (room[1] - high) / 2)
    left = area.x0 + 18 + max(0.0, (room[0] - w * scale) / 2)
    views = (
        View("front", tuple(seen), (left, at_y), scale),
        View("back", tuple(behind), (left + half, at_y), scale),
    )
    words = f"hinges on the {leaf.hinge_side} seen from the front, {facts.text(leaf.thickness)} thick"
    captions: list[Shape] = [
        caption((area.x0, area.y1 - 4), f"Front; {words}", half),
        caption((area.x0 + half, area.y1 - 4), "Back, as it lies for boring", half - 2),
    ]
    return Page(f"Door {leaf.id}", (*views, furniture("captions", captions)), name)


def _bores(parts: Sequence[Part], leaf: DoorLeaf, behind: bool) -> list[Shape]:
    """Return the round holes of a door seen from its front or back, in the door's own frame."""
    out: list[Shape] = []
    for part in parts:
        for hole in face_holes(part):
            shows = hole.into == -2 or hole.depth >= part.thickness if behind else hole.into == 2
            if shows:
                x, z = hole.mouth[0] - leaf.at[0], hole.mouth[2] - leaf.at[2]
                at = (mm(leaf.width - x if behind else x), mm(z))
                out.append(Circle(at, mm(hole.diameter) / 2, Kind.WIDE))
    return out


def _front_stops(facts: Facts, leaf: DoorLeaf, parts: Sequence[Part]) -> tuple[Stops, Stops]:
    """Return running stops of a door's stiles, rails and pull holes, from its lower left corner seen from the front."""
    framed = [p for p in parts if p.role in ("door-stile", "door-rail")]
    xs = faces(facts, [p for p in framed if p.role == "door-stile"], 1, leaf.at[0], (leaf.width,))
    rails = [p for p in framed if p.role == "door-rail"]
    zs = faces(facts, rails, 3, leaf.at[2], (leaf.height,))
    return (
        tuple((x - mm(leaf.at[0]), label, shows) for x, label, shows in xs),
        tuple((z - mm(leaf.at[2]), label, shows) for z, label, shows in zs),
    )


def _cup_stops(facts: Facts, leaf: DoorLeaf, parts: Sequence[Part]) -> tuple[Stops, Stops]:
    """Return running stops of the round holes seen from behind: from the left there, and from the lower end."""
    xs: dict[int, Shown] = {}
    zs: dict[int, Shown] = {}
    for part in parts:
        for hole in face_holes(part):
            what = "cup" if hole.into == -2 else "pull"
            x, z = leaf.width - (hole.mouth[0] - leaf.at[0]), hole.mouth[2] - leaf.at[2]
            xs.setdefault(x, Shown(part.id, f"{what} centre from the left seen from behind", x))
            zs.setdefault(z, Shown(part.id, f"{what} centre from the lower end", z))
    return _stops(facts, xs), _stops(facts, zs)


def _stops(facts: Facts, places: Mapping[int, Shown]) -> Stops:
    return tuple((mm(nm), facts.bare(nm), (shown,)) for nm, shown in sorted(places.items()))
