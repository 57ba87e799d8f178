"""A cabinet on one sheet: its front, the upright cut beside it and the level cut under it, at one scale and aligned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, XY, Shape, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.common import Drawn, solids_of
from casewright.api.papers.views.elevation import door_table, elevation, front, mark_of
from casewright.api.papers.views.page import Area, Page, area_of, furniture, scale_for
from casewright.api.papers.views.section import cut_places, level, section, upright
from casewright.sdk.model import Cabinet, DoorLeaf

LEFT, TOP, GAP = 18.0, 13.0, 4.0
"""Paper kept for overall heights, for overall widths, and between two views, mm."""

LIST = 64.0
"""Width of the list of doors and the notes, mm."""

LINE = 4.6


def cabinet_sheet(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    """Return the cabinet's sheet, its paper the way that it is drawn larger; more sheets where one does not hold it."""
    solids = solids_of(facts, cabinet.id)
    x, z = cut_places(facts, cabinet)
    drawn = (front(facts, cabinet), upright(facts, cabinet, solids, x), level(facts, cabinet, solids, z))
    doors = [door for door in facts.plan.doors if door.cabinet == cabinet.id]
    notes = _notes(facts, cabinet, doors, (x, z))
    pages: list[tuple[float, Page]] = []
    for turned in (False, True):
        area = area_of(paper, upright=turned)
        placed = _placed(facts, drawn, area, LINE * (len(notes) + (len(doors) + 2 if doors else 0)) + GAP)
        if placed is not None:
            extra = [*_list(facts, doors, notes, placed.corner)]
            views = (*placed.views, furniture("doors and notes", extra))
            name = f"{cabinet.id}: front and sections"
            pages.append((placed.scale, Page(name, views, placed.name, upright=turned)))
    if not pages:
        return [*elevation(facts, cabinet.id, paper), *section(facts, cabinet.id, paper)]
    return [max(pages, key=lambda one: one[0])[1]]


@dataclass(frozen=True, slots=True)
class _Placed:
    """Views on their paper, their scale and its name, and the upper left corner of the list of doors and the notes."""

    views: tuple[View, ...]
    scale: float
    name: str
    corner: XY


def _placed(facts: Facts, drawn: tuple[Drawn, Drawn, Drawn], area: Area, high: float) -> _Placed | None:
    """Return the front with its cuts beside and under it, and a list so many mm high; nothing without room for all."""
    face, side, plan = drawn
    left, right = min(face.box[0], plan.box[0]), max(face.box[2], plan.box[2])
    across = LEFT + face.beside + LEFT + side.beside
    down = TOP + max(face.below, side.below) + TOP + plan.below
    room = (area.width - across, area.height - down)
    if min(room) <= 0:
        return None
    scale, name = scale_for(facts, right - left + side.width, face.height + plan.height, room)
    origin_x = area.x0 + LEFT - left * scale
    beside = origin_x + right * scale + face.beside + LEFT - side.box[0] * scale
    origin_z = area.y1 - TOP - max(face.box[3], side.box[3]) * scale
    low = origin_z + min(face.box[1], side.box[1]) * scale
    under = low - max(face.below, side.below) - TOP - plan.box[3] * scale
    corner = (max(area.x1 - LIST, origin_x + right * scale + GAP), low - side.below - GAP)
    if area.x1 - corner[0] < LIST - 0.01 or corner[1] - area.y0 < high:
        return None
    places = (("front", face, origin_x, origin_z), ("upright section", side, beside, origin_z),
              ("level section", plan, origin_x, under))  # fmt: skip
    views = []
    for words, one, at_x, at_y in places:
        shapes, missed = one.dimensioned(scale, (one.width * scale + 2 * LEFT, one.height * scale + TOP))
        if missed:
            return None
        views.append(View(words, tuple(shapes), (at_x, at_y), scale))
    return _Placed(tuple(views), scale, name, corner)


def _list(facts: Facts, doors: Sequence[DoorLeaf], notes: Sequence[str], corner: XY) -> Iterator[Shape]:
    """Yield the list of doors and the notes under it."""
    if doors:
        yield from door_table(facts, doors, corner)
    top = corner[1] - LINE * (len(doors) + 2 if doors else 0)
    yield from (Text((corner[0], top - LINE * (i + 1)), line, TEXT) for i, line in enumerate(notes))


def _notes(facts: Facts, cabinet: Cabinet, doors: Sequence[DoorLeaf], cut: tuple[int, int]) -> list[str]:
    sentences = (
        f"{cabinet.count} to make" if cabinet.count > 1 else "One to make",
        f"Beside the front: cut {facts.text(cut[0])} from the left end of the case, seen toward it",
        f"Under it: cut {facts.text(cut[1])} above the bottom of the case, seen from above",
    )
    fronts = [part for part in facts.plan.parts if part.cabinet == cabinet.id and part.role == "drawer-front"]
    edges = [(mark_of(number), door.at) for number, door in enumerate(doors)]
    edges += [(part.group.replace("-", " "), part.place.at) for part in fronts]
    rows = [f"{name}: {facts.text(at[0])} from the left, {facts.text(at[2])} up" for name, at in edges]
    return [line for words in (*sentences, *rows) for line in metrics.wrapped(words, TEXT, LIST - 2, 2)]
