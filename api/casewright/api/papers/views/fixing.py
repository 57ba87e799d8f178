"""How a cabinet is fixed to its wall: the cut through strip, wall and stud at a screw, and every screw's place."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.hidden import LEFTWARD
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Line, Path, Shape, Shown, Text, View
from casewright.api.papers.drawing.solids import XYZ, Piece, Solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import chosen, placed_box, solids_of, strip_box, wall_face
from casewright.api.papers.views.page import (
    TABLE_LINE,
    Area,
    Page,
    area_of,
    caption,
    furniture,
    scale_for,
    table,
)
from casewright.api.papers.views.section import broken_off, cut_picture
from casewright.api.papers.views.wall import lift_of, spots
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.hardware import Lag, Screw
from casewright.sdk.model import Cabinet, HungCabinet, Spot, StandingCabinet
from casewright.sdk.units import MM

UNDER, OVER, BEFORE = 45.0, 25.0, 70.0
"""Shown under the strip, over the cabinet, and before the front of the strip, mm of the thing."""

TALL = 180.0
"""Shown over the strip at most where the cabinet goes on further, mm of the thing."""

ROWS = 14
"""Screws listed under a picture; the booklet's appendix has all."""

GAP, LINE = 6.0, 3.6
"""Between picture and words, and from one line of words to the next, mm of paper."""


@dataclass(frozen=True, slots=True)
class Fixed:
    """Copies of a cabinet that are fixed alike, at one height: what each is called, where it is, what holds it."""

    cabinet: Cabinet
    copies: tuple[tuple[str, Spot, HungCabinet | StandingCabinet], ...]

    @property
    def spot(self) -> Spot:
        """Where the first of them is."""
        return self.copies[0][1]

    @property
    def result(self) -> HungCabinet | StandingCabinet:
        """What holds the first of them."""
        return self.copies[0][2]


def fixing(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return the details of how cabinets are fixed to the wall, two a page; none where nothing is known of it."""
    wanted = set(chosen("fixing", subject, list(facts.cabinets)))
    fixed = [one for one in _fixed(facts) if one.cabinet.id in wanted]
    area = area_of(paper)
    half = area.width / min(2, max(1, len(fixed)))
    pages = []
    for start in range(0, len(fixed), 2):
        views: list[View] = []
        names: dict[str, None] = {}
        for i, one in enumerate(fixed[start : start + 2]):
            made, name = _detail(facts, one, Area(area.x0 + i * half, area.y0, area.x0 + (i + 1) * half - GAP, area.y1))
            views += made
            names[name] = None
        pages.append(Page("Fixing to the wall", tuple(views), " and ".join(names)))
    return pages


def _fixed(facts: Facts) -> list[Fixed]:
    alike: dict[tuple[object, ...], list[tuple[str, Spot, HungCabinet | StandingCabinet]]] = {}
    for cabinet, i, spot in spots(facts):
        result = facts.hanging(cabinet.id, i)
        if result and result.case and result.fasteners:
            ups = tuple(sorted({one.up_mm for one in result.fasteners}))
            alike.setdefault((cabinet.id, spot.z, ups), []).append((cabinet.copy_name(i), spot, result))
    return [Fixed(facts.cabinets[str(key[0])], tuple(copies)) for key, copies in alike.items()]


def _detail(facts: Facts, one: Fixed, area: Area) -> tuple[list[View], str]:
    """Return one detail: the picture and its words over the table of its screws."""
    case = one.result.case
    assert case is not None
    rows = list(_rows(facts, one))
    deep = TABLE_LINE * (min(len(rows), ROWS) + 2)
    parts = [p for p in facts.of(one.cabinet.id) if p.group == "mounting"]
    head, low = _strip(facts, one)
    lift = mm(lift_of(facts, one.cabinet))
    wall = wall_face(facts, one.cabinet)
    top = min(mm(one.cabinet.height), low + case.strip.width_mm + TALL)
    top = max(top, *(mm(placed_box(p).z1) for p in parts if mm(placed_box(p).z0) < top))
    box = (head - BEFORE, low - UNDER, wall + case.wall.lining_mm + _depth(case), top + lift + OVER)
    room = (area.width * 0.45, area.height - deep - 10)
    scale, name = scale_for(facts, box[2] - box[0], box[3] - box[1], room, 0.5)
    x = one.result.fasteners[0].at_mm - mm(one.spot.x)
    shapes = [*_cut(facts, one.cabinet, x, box), *_wall(case, wall, box)]
    for up in sorted({f.up_mm for f in one.result.fasteners}):
        shapes += _screw(case.fastener, head - case.before_strip_mm, low + up, scale)
    shapes += [line for at in _anti_lift(facts, one, case) for line in _screw(case.anti_lift, *at, scale)]
    if lift:
        shapes.append(Line((box[0], mm(one.cabinet.height) + lift), (wall, mm(one.cabinet.height) + lift), Kind.CENTRE))
    at = (area.x0 - box[0] * scale, area.y1 - 8 - box[3] * scale)
    words: list[Shape] = [caption((area.x0, area.y1 - 4), _called(one), area.width)]
    words += _words(facts, one, (at, scale, box), area)
    words += table(
        (area.x0, at[1] + box[1] * scale - 4),
        ("No.", "Cabinet", "From the wall's left", "Over the floor"),
        rows[:ROWS],
        (8, 36, 40, 40),
    )
    return [View("detail", tuple(shapes), at, scale), furniture("words", words)], name


def _called(one: Fixed) -> str:
    names = [name for name, _, _ in one.copies]
    return f"{' and '.join(names)}: cut through the first screw, seen toward the left"


def _cut(facts: Facts, cabinet: Cabinet, x: float, box: tuple[float, float, float, float]) -> list[Shape]:
    """Return the cabinet cut at x, as much of it as stands in the window."""
    solids = [s for solid in solids_of(facts, cabinet.id) if (s := _windowed(solid, box)) is not None]
    shapes = cut_picture(solids, 1, x, LEFTWARD)
    return [Line(s.a, s.b, Kind.FINE) if isinstance(s, Line) and broken_off(s.a, s.b, box) else s for s in shapes]


def _windowed(solid: Solid, box: tuple[float, float, float, float]) -> Solid | None:
    """Return what of a solid stands in the window over depth and height: its pieces and edges cut off there."""
    pieces = []
    for piece in solid.pieces:
        b = piece.box
        cut = (b[0], max(b[1], box[0]), max(b[2], box[1]), b[3], min(b[4], box[2]), min(b[5], box[3]))
        if cut[4] - cut[1] > 1e-6 and cut[5] - cut[2] > 1e-6:
            pieces.append(Piece(cut, piece.planes))
    edges = []
    for a, z in solid.edges:
        t0, t1 = 0.0, 1.0
        for axis, low, high in ((1, box[0], box[2]), (2, box[1], box[3])):
            way = z[axis] - a[axis]
            if abs(way) < 1e-9:
                t1 = t1 if low <= a[axis] <= high else -1.0
                continue
            ends = sorted(((low - a[axis]) / way, (high - a[axis]) / way))
            t0, t1 = max(t0, ends[0]), min(t1, ends[1])
        if t1 - t0 > 1e-9:
            edges.append((_along(a, z, t0), _along(a, z, t1)))
    return Solid(solid.part, tuple(pieces), tuple(edges)) if pieces else None


def _along(a: XYZ, b: XYZ, t: float) -> XYZ:
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))


def _wall(case: HangingCase, face: float, box: tuple[float, float, float, float]) -> Iterator[Shape]:
    """Yield the wall's face and lining, and behind it the stud as wood: its outline and its grain."""
    stud = face + case.wall.lining_mm
    yield Line((face, box[1]), (face, box[3]), Kind.WIDE)
    if case.wall.lining_mm:
        yield Line((stud, box[1]), (stud, box[3]), Kind.NARROW)
    if case.wall.kind == "studs":
        yield Line((box[2], box[1]), (box[2], box[3]), Kind.NARROW)
        for i in range(1, 5):
            at = stud + (box[2] - stud) * i / 5
            yield Line((at, box[1] + 12 * (i % 3)), (at, box[3] - 9 * ((i + 1) % 3)), Kind.FINE)


def _depth(case: HangingCase) -> float:
    return case.wall.stud_depth_mm if case.wall.kind == "studs" else 90.0


def _strip(facts: Facts, one: Fixed) -> tuple[float, float]:
    """Return where the front of the strip and its lower edge are in the cabinet frame, mm."""
    case = one.result.case
    assert case is not None
    box = strip_box(facts, one.cabinet.id, case)
    if box is None:
        return wall_face(facts, one.cabinet) - case.strip.thickness_mm, case.strip.low_mm
    return mm(box.y0), mm(box.z0)


def _anti_lift(facts: Facts, one: Fixed, case: HangingCase) -> list[tuple[float, float]]:
    """Return where the fastener against lifting stands, mm: depth of its head, height."""
    if case.anti_lift is None:
        return []
    high = _strip(facts, one)[1] + case.strip.width_mm
    points = [
        (mm(at[1]), mm(at[2]))
        for line in facts.plan.hardware
        if line.cabinet == one.cabinet.id and line.item == case.anti_lift.id
        for at in line.at
        if mm(at[2]) > high
    ]
    return points[:1]


def _screw(fastener: Screw | Lag | None, head: float, z: float, scale: float) -> Iterator[Shape]:
    """Yield a screw or bolt from the side: washer or head, shank and point; only its axis where none is chosen."""
    if fastener is None:
        yield Line((head - 8, z), (head + 80, z), Kind.CENTRE)
        return
    long, half = mm(fastener.length), mm(fastener.diameter) / 2
    wide = mm(fastener.washer if isinstance(fastener, Lag) else fastener.head) / 2
    thick = max(2.0, 0.4 / scale)
    corners: list[XY] = [(head, z - wide), (head, z + wide), (head - thick, z + wide), (head - thick, z - wide)]
    yield Path(tuple(corners), Kind.NARROW, closed=True, solid=True)
    point = 2 * half
    neck = head + long - point
    shank: list[XY] = [(head, z + half), (neck, z + half), (head + long, z), (neck, z - half), (head, z - half)]
    yield Path(tuple(shank), Kind.NARROW)
    yield Line((head - 3 * thick, z), (head + long + 6, z), Kind.CENTRE)


def _heights(facts: Facts, one: Fixed) -> Iterator[tuple[float, str, int, str]]:
    """Yield what has a height in the picture: the height in it, mm, what it is, the same over the floor, and more."""
    case = one.result.case
    assert case is not None
    floor = one.spot.z
    low = _strip(facts, one)[1]
    lift, high = lift_of(facts, one.cabinet), one.cabinet.height
    if lift:
        yield mm(high + lift), "top when lifted on", floor + high + lift, f"lift {facts.both(lift)}"
    for _, z in _anti_lift(facts, one, case):
        yield z, _title(case.anti_lift), floor + round(z * MM), "against lifting off"
    for up in sorted({f.up_mm for f in one.result.fasteners}, reverse=True):
        nm = round(up * MM)
        yield low + up, _title(case.fastener), floor + round((low + up) * MM), f"{facts.both(nm)} up the strip"
    yield low, "strip, lower edge", floor + round(low * MM), ""


def _title(fastener: Screw | Lag | None) -> str:
    return "fastener" if fastener is None else fastener.title


def _words(
    facts: Facts, one: Fixed, picture: tuple[XY, float, tuple[float, float, float, float]], area: Area
) -> Iterator[Shape]:
    """Yield what stands beside the picture, each with a line to its height."""
    at, scale, box = picture
    x = at[0] + box[2] * scale + GAP
    rows = sorted(_heights(facts, one), key=lambda row: -row[0])
    room = area.x1 - x - 1
    highest = area.y1 - 8
    for height, what, nm, more in rows:
        at_floor = f"{facts.both(nm)} over the floor"
        whole = f"{at_floor}: {what}"
        lines = [whole] if metrics.width(whole, TEXT) <= room else [at_floor, what]
        lines += [more] if more else []
        wrapped = [piece for line in lines for piece in metrics.wrapped(line, TEXT, room, 2)]
        y = min(at[1] + height * scale + LINE * len(wrapped) / 2, highest)
        middle = y - LINE * len(wrapped) / 2
        yield Line((x - 1, middle), (x - GAP + 1, at[1] + height * scale), Kind.FINE)
        for i, piece in enumerate(wrapped):
            shows = (Shown(one.copies[0][0], f"height of {what}", nm),) if i == 0 else ()
            yield Text((x, y - LINE * i - TEXT - 0.4), piece, TEXT, shows=shows)
        highest = y - LINE * len(wrapped) - 1.5


def _rows(facts: Facts, one: Fixed) -> Iterator[Sequence[Text | str]]:
    """Yield the table's rows: every screw of every copy."""
    low = _strip(facts, one)[1]
    for name, spot, result in one.copies:
        for number, screw in enumerate(result.fasteners, start=1):
            across, up = round(screw.at_mm * MM), spot.z + round((low + screw.up_mm) * MM)
            shows = (Shown(name, "screw from the wall's left", across), Shown(name, "screw over the floor", up))
            yield [str(number), name, *(Text((0, 0), facts.both(cell.nm), shows=(cell,)) for cell in shows)]
