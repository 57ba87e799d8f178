"""Parts as they are drilled: the face the bit goes in by, every hole, and running dimensions; like ones once."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import takewhile

from casewright.api.engine.work.cut import side_of
from casewright.api.engine.work.naming import joined, summed_up
from casewright.api.engine.work.schedule import ranges
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import running_reach, text_places
from casewright.api.papers.drawing.shapes import TEXT, XY, Circle, Kind, Line, Path, Running, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, counted, mm
from casewright.api.papers.views.common import Stops, chosen, facing
from casewright.api.papers.views.cuts import CutRow, cuts_of
from casewright.api.papers.views.figure import BETWEEN, Figure, stacked
from casewright.api.papers.views.page import Page, area_of, furniture, scale_for
from casewright.api.papers.views.part import stops_of
from casewright.sdk.model import Action, Part, Side

LINE = 3.7
"""Height of a line of words, mm."""

OFF = 6.0
"""From the part's outline to the line of its running dimensions, mm of paper."""

CROSS = 1.2
"""Centre lines reach this far past a hole, mm of paper."""

LEAST = 1 / 25
"""A part that would be drawn smaller than this in half of the paper takes all of its width."""

MOST, FULL = 45.0, 1000.0
"""Height of a part's outline at most, and paper for running dimensions that does not end, mm."""

Key = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Drilling:
    """Parts drilled alike: the drawing's number, each part's side, the holes in rows, what each is, and the steps.

    A part whose both ends are drilled alike stands there twice.
    """

    number: int
    parts: tuple[Part, ...]
    sides: tuple[Side, ...]
    rows: tuple[CutRow, ...]
    whats: tuple[str, ...]
    steps: tuple[int, ...]

    @property
    def side(self) -> Side:
        """The side of the first part, which is drawn."""
        return self.sides[0]


def drilling(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return pages of every different drilling, or of those of one cabinet's parts."""
    wanted = set(chosen("drilling", subject, list(facts.cabinets)))
    return stacked("Drilling", rows_of(facts, area_of(paper).width, wanted), area_of(paper))


def drillings(facts: Facts) -> list[Drilling]:
    """Return what is drilled, each side of a part once; those of one outline with the same holes from it together.

    Narrow sides come first, so that drawings of like height stand beside one another.
    """
    groups: dict[Key, list[tuple[Part, Side, tuple[CutRow, ...]]]] = {}
    for part in facts.plan.parts:
        names = facts.sides[part.id]
        holes = [row for row in cuts_of(facts, part) if row.holes]
        for side in dict.fromkeys(row.side for row in holes):
            rows = tuple(row for row in holes if row.side is side)
            made = tuple((row.size, tuple((names[one], nm) for one, nm in row.starts)) for row in rows)
            key = (_size(part, side), "" if side.axis == 1 else names[side], made)
            groups.setdefault(key, []).append((part, side, rows))
    out = []
    ordered = sorted(groups.values(), key=lambda alike: _size(alike[0][0], alike[0][1])[1])
    for number, alike in enumerate(ordered, start=1):
        parts = tuple(part for part, _, _ in alike)
        steps = dict.fromkeys(n for part, side, _ in alike for n in _steps(facts, part, side))
        whats = tuple(_common([rows[i].what for _, _, rows in alike]) for i in range(len(alike[0][2])))
        sides = tuple(side for _, side, _ in alike)
        out.append(Drilling(number, parts, sides, alike[0][2], whats, tuple(sorted(steps))))
    return out


def drawings_of(facts: Facts) -> Mapping[int, tuple[int, ...]]:
    """Return for each step that bores the numbers of the drawings of its holes."""
    numbers: dict[int, tuple[int, ...]] = {}
    for one in drillings(facts):
        for step in one.steps:
            numbers[step] = (*numbers.get(step, ()), one.number)
    return numbers


def _common(words: Sequence[str]) -> str:
    """Return words for all of several holes: what they have in common, up to a comma."""
    columns = zip(*(one.split(", ") for one in words), strict=False)
    return ", ".join(column[0] for column in takewhile(lambda column: len(set(column)) == 1, columns)) or "holes"


def _steps(facts: Facts, part: Part, side: Side) -> Iterator[int]:
    """Yield the steps that bore a part from a side: the one opposite that on which it lies."""
    for step in facts.plan.steps:
        if step.action is Action.BORE and any(o.part == part.id and o.down is side.across for o in step.on):
            yield step.number


def rows_of(facts: Facts, width: float, cabinets: set[str]) -> Iterator[list[Figure]]:
    """Yield the drawings of the parts of cabinets, two beside one another where they are not too small so."""
    half = (width - BETWEEN) / 2
    waiting: list[Figure] = []
    for one in drillings(facts):
        if not any(part.cabinet in cabinets for part in one.parts):
            continue
        long, deep = _size(one.parts[0], one.side)
        narrow = scale_for(facts, long, deep, _room(facts, one, half))[0] >= LEAST
        made = _drawn(facts, one, half if narrow else width)
        if waiting and (not narrow or len(waiting) == 2):
            yield waiting
            waiting = []
        waiting.append(made)
        if not narrow:
            yield waiting
            waiting = []
    if waiting:
        yield waiting


def _axes(side: Side) -> tuple[int, int]:
    """Return the part axes that run to the right and up on the picture of a side."""
    return {3: (1, 2), 2: (1, 3), 1: (2, 3)}[side.axis]


def _turned(side: Side) -> bool:
    """Return whether the part is turned over its axis that runs to the right, to be seen on this side."""
    return side in (Side.FACE_LOW, Side.EDGE_HIGH, Side.END_LOW)


def _size(part: Part, side: Side) -> XY:
    """Return how long and how high a side of a part is drawn, mm."""
    sizes = (part.length, part.width, part.thickness)
    right, up = _axes(side)
    return mm(sizes[right - 1]), mm(sizes[up - 1])


def _stops(facts: Facts, one: Drilling, axis: int) -> list[tuple[Side, Stops]]:
    """Return the running stops of the holes along an axis, by the side that they are measured from."""
    down = one.side is Side.FACE_LOW
    sides = [side for side in Side if side.axis == axis]
    rows = [(side, stops_of(facts, one.parts[0], list(one.rows), side, down)) for side in sides]
    return [(side, stops) for side, stops in rows if stops]


def _room(facts: Facts, one: Drilling, width: float) -> XY:
    """Return the paper for the part's outline, mm."""
    beside = _stops(facts, one, 2) if one.side.axis == 3 else []
    left = max((running_reach(stops) + OFF + 1 for _, stops in beside), default=3.0)
    return width - left - 4.0, MOST


def _drawn(facts: Facts, one: Drilling, width: float) -> Figure:
    long, deep = _size(one.parts[0], one.side)
    room = _room(facts, one, width)
    scale, name = scale_for(facts, long, deep, room)
    across = [Running("x", long if side.high else 0.0, stops, deep, OFF)
              for side, stops in _stops(facts, one, _axes(one.side)[0])]  # fmt: skip
    down = one.side is Side.FACE_LOW
    columns = [Running("y", deep if side.high != down else 0.0, stops, 0.0, -OFF)
               for side, stops in (_stops(facts, one, 2) if one.side.axis == 3 else [])]  # fmt: skip
    sizes = [
        shape for pair in (across, columns) for shape in (facing(pair[0], pair[1], FULL) if len(pair) == 2 else pair)
    ]
    spots = [(place * scale, row.along) for row in sizes for place in text_places(row, scale)]
    under = max([0.0, *(-at for at, along in spots if along == "y")]) + 2.5
    over = max([deep * scale + 2.5, *(at + 2 for at, along in spots if along == "y")])
    over = max([over, *(deep * scale + OFF + running_reach(row.stops) + 1 for row in across)])
    lines = list(_rows(one, width))
    foot = LINE * len(lines) + 1.5
    heads = list(_heads(facts, one, name, width))
    high = foot + under + over + LINE * len(heads)
    shapes = [*_outline(long, deep), *_holes(one, scale), *sizes]
    at = (width - 4.0 - room[0], foot + under)
    words = [Text((0.0, high - LINE * (i + 1) + 1.2), line, TEXT, bold=b) for i, (line, b) in enumerate(heads)]
    words += [Text((0.0, foot - LINE * (i + 1)), line, TEXT, shows=shows) for i, (line, shows) in enumerate(lines)]
    views = (View(f"drilling {one.number}", tuple(shapes), at, scale), furniture(f"words {one.number}", words))
    return Figure(views, width, high, name)


def _outline(long: float, deep: float) -> Iterator[Shape]:
    yield Path(((0.0, 0.0), (long, 0.0), (long, deep), (0.0, deep)), Kind.WIDE, closed=True)


def _holes(one: Drilling, scale: float) -> Iterator[Shape]:
    """Yield each hole at its place, and the cross of its centre lines where it is not too small to be seen."""
    right, up = _axes(one.side)
    part = one.parts[0]
    for feature in part.features:
        for hole in feature.holes:
            if side_of(feature.entry) is not one.side:
                continue
            x, y = mm(hole.mouth[right - 1]), _height(part, one.side, hole.mouth[up - 1])
            r = mm(hole.diameter) / 2
            yield Circle((x, y), r, Kind.NARROW)
            far = r + CROSS / scale
            yield Line((x - far, y), (x + far, y), Kind.FINE)
            yield Line((x, y - far), (x, y + far), Kind.FINE)


def _heads(facts: Facts, one: Drilling, scale: str, width: float) -> Iterator[tuple[str, bool]]:
    """Yield the lines over the picture, bold or not: its number, steps and parts; scale and how the part is seen."""
    parts = dict.fromkeys(one.parts)
    pieces = counted(sum(part.quantity for part in parts), "piece")
    names = facts.sides[one.parts[0].id]
    where = f", {_sides(facts, one)}" if one.side.axis == 1 else ""
    steps = f", {ranges(one.steps)}" if one.steps else ""
    title = f"Drawing {one.number}{steps}: {summed_up(parts, facts.named.every)} ({pieces}){where}"
    yield from ((line, True) for line in metrics.wrapped(metrics.clean(title), TEXT, width, 3, True))
    right, up = _axes(one.side)
    turned = _turned(one.side)
    left = next(side for side in Side if side.axis == right and not side.high)
    upper = next(side for side in Side if side.axis == up and side.high != turned)
    seen = f"{scale}, {names[one.side]}, {names[upper]} up, {names[left]} left"
    yield from ((line, False) for line in metrics.wrapped(metrics.clean(seen), TEXT, width, 3))


def _sides(facts: Facts, one: Drilling) -> str:
    names = dict.fromkeys(facts.sides[part.id][side] for part, side in zip(one.parts, one.sides, strict=True))
    return joined(list(names))


def _height(part: Part, side: Side, up: int) -> float:
    """Return how high over the lower edge of the picture something stands, mm."""
    return _size(part, side)[1] - mm(up) if _turned(side) else mm(up)


def _rows(one: Drilling, width: float) -> Iterator[tuple[str, tuple[Shown, ...]]]:
    """Yield the lines under the picture, with the numbers that they show: what the holes of each letter are."""
    alike: dict[str, list[tuple[CutRow, str]]] = {}
    for row, what in zip(one.rows, one.whats, strict=True):
        alike.setdefault(row.size, []).append((row, what))
    for size, rows in alike.items():
        marks, what = ",".join(row.letter for row, _ in rows), _common([words for _, words in rows])
        for i, line in enumerate(metrics.wrapped(metrics.clean(f"{marks}  {what}: {size}"), TEXT, width, 3)):
            yield line, () if i else tuple(shown for row, _ in rows for shown in row.shows)
