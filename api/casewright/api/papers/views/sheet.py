"""A cabinet on one sheet: its front, the upright cut beside it and the level cut under it, at one scale and aligned."""

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, Shape, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.common import solids_of
from casewright.api.papers.views.elevation import door_table, elevation, front
from casewright.api.papers.views.page import Page, area_of, furniture, scale_for
from casewright.api.papers.views.section import cut_places, level, section, upright
from casewright.sdk.model import Cabinet

LEFT, TOP, GAP = 18.0, 13.0, 4.0
"""Paper kept for overall heights, for overall widths, and between two views, mm."""

LIST = 64.0
"""Width of the list of doors and the notes, mm."""

LINE = 4.6


def cabinet_sheet(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    """Return the cabinet's sheet; its views on sheets of their own where one does not hold them."""
    solids, area = solids_of(facts, cabinet.id), area_of(paper)
    x, z = cut_places(facts, cabinet)
    face, side, plan = (front(facts, cabinet), upright(facts, cabinet, solids, x), level(facts, cabinet, solids, z))
    left, right = min(face.box[0], plan.box[0]), max(face.box[2], plan.box[2])
    across = LEFT + face.beside + LEFT + side.beside
    down = TOP + max(face.below, side.below) + TOP + plan.below
    room = (area.width - across, area.height - down)
    scale, name = scale_for(facts, right - left + side.width, face.height + plan.height, room)
    origin_x = area.x0 + LEFT - left * scale
    beside = origin_x + right * scale + face.beside + LEFT - side.box[0] * scale
    origin_z = area.y1 - TOP - max(face.box[3], side.box[3]) * scale
    low = origin_z + min(face.box[1], side.box[1]) * scale
    under = low - max(face.below, side.below) - TOP - plan.box[3] * scale
    notes = _notes(facts, cabinet, x, z)
    doors = [door for door in facts.plan.doors if door.cabinet == cabinet.id]
    high = LINE * (len(notes) + (len(doors) + 2 if doors else 0)) + GAP
    corner = (max(area.x1 - LIST, origin_x + right * scale + GAP), low - side.below - GAP)
    if min(room) <= 0 or area.x1 - corner[0] < LIST - 0.01 or corner[1] - area.y0 < high:
        return [*elevation(facts, cabinet.id, paper), *section(facts, cabinet.id, paper)]
    places = (("front", face, origin_x, origin_z), ("upright section", side, beside, origin_z),
              ("level section", plan, origin_x, under))  # fmt: skip
    views = []
    for words, drawn, at_x, at_y in places:
        shapes, missed = drawn.dimensioned(scale, (drawn.width * scale + 2 * LEFT, drawn.height * scale + TOP))
        if missed:
            return [*elevation(facts, cabinet.id, paper), *section(facts, cabinet.id, paper)]
        views.append(View(words, tuple(shapes), (at_x, at_y), scale))
    extra: list[Shape] = door_table(facts, doors, corner) if doors else []
    top = corner[1] - LINE * (len(doors) + 2 if doors else 0)
    extra += [Text((corner[0], top - LINE * (i + 1)), line, TEXT) for i, line in enumerate(notes)]
    return [Page(f"{cabinet.id}: front and sections", (*views, furniture("doors and notes", extra)), name)]


def _notes(facts: Facts, cabinet: Cabinet, x: int, z: int) -> list[str]:
    sentences = (
        f"{cabinet.count} to make" if cabinet.count > 1 else "One to make",
        f"Beside the front: cut {facts.text(x)} from the left end of the case, seen toward it",
        f"Under it: cut {facts.text(z)} above the bottom of the case, seen from above",
    )
    return [line for words in sentences for line in metrics.wrapped(words, TEXT, LIST - 2, 2)]
