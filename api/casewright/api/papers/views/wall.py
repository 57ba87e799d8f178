"""The wall: studs, cabinets in their places, wall cleats, fasteners, and the height each cabinet is lifted to."""

from collections.abc import Iterator
from math import hypot

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import running_reach
from casewright.api.papers.drawing.shapes import (
    TEXT,
    USUAL,
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
from casewright.api.papers.facts import Facts, counted, mm
from casewright.api.papers.views.common import WALL_ROLES, Stops, placed_box, running, strip_box
from casewright.api.papers.views.page import Page, area_of, furniture, scale_for
from casewright.sdk.model import Cabinet, HungCabinet, Obstacle, Spot, StandingCabinet, Wall

BEYOND = 150.0
"""Wall drawn past the outermost cabinet and stud where its length is not given, mm."""

RING, RING_LEAST = 0.9, 0.3
"""Radius of the ring that is a fastener, mm of paper: as it is usually, and where fasteners stand closest."""

RING_SHARE = 0.45
"""Its most, as a part of the way to the next fastener: the rings of two stay apart."""


def wall(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return the wall's page; none where the job says nothing of its wall."""
    job_wall = facts.job.wall
    if job_wall is None or not any(job_wall.cabinets_at.get(c) for c in facts.cabinets):
        return []
    return [_page(facts, paper)]


def spots(facts: Facts) -> Iterator[tuple[Cabinet, int, Spot]]:
    """Yield every cabinet with its number among its like and its place on the wall, if the job has one."""
    known = facts.job.wall
    for cabinet in facts.cabinets.values():
        for i, spot in enumerate(known.cabinets_at.get(cabinet.id, ()) if known else ()):
            yield cabinet, i, spot


def _page(facts: Facts, paper: str) -> Page:
    job_wall = facts.job.wall
    assert job_wall is not None
    area = area_of(paper)
    placed = list(spots(facts))
    studs = job_wall.studs.at if job_wall.studs else ()
    left = min([0.0, *(mm(s.x) - mm(_overhang(c)) for c, _, s in placed)])
    ends = [one.x + one.width for one in job_wall.obstacles]
    right = max(map(mm, [*(s.x + c.width for c, _, s in placed), *studs, *ends])) + BEYOND
    right = right if job_wall.length is None else mm(job_wall.length)
    top = max(mm(s.z + c.height + lift_of(facts, c)) for c, i, s in placed) + 60
    top = max(top, mm(job_wall.ceiling)) if job_wall.ceiling is not None else top
    lefts = [(s.x, f"{c.id}/{i + 1}", "left") for c, i, s in placed]
    stops_x = _stops(facts, [*lefts, *((one.x, one.id, "left") for one in job_wall.obstacles)])
    stops_s = _stops(facts, [(x, f"stud {i + 1}", "centre") for i, x in enumerate(studs)])
    things = [(one.z, one.id, "bottom") for one in job_wall.obstacles]
    heights = dict.fromkeys([*_heights(facts, placed), *things])
    stops_z = _stops(facts, list(heights))
    words = _words(facts, placed)
    lines = [line for sentence in words for line in metrics.wrapped(sentence, TEXT, area.width, 2)]
    foot = area.y0 + 4.2 * len(lines) + 4
    deep = running_reach(stops_x) + 9
    above = running_reach(stops_s) + 9 if studs else 4
    beside = running_reach(stops_z) + 10
    room = (area.width - beside - 34, area.y1 - foot - deep - above)
    scale, name = scale_for(facts, right - left, top, room)
    shapes = [*_wall(job_wall, (left, right, top)), *_studs(facts, placed, top, scale)]
    shapes += _cabinets(facts, placed, scale)
    for thing in job_wall.obstacles:
        shapes += _obstacle(facts, thing, placed, scale)
    row, _ = running(Running("x", 0.0, stops_x, 0.0, -7), area.width - 20)
    upper, _ = running(Running("x", 0.0, stops_s, top, 7), area.width - 20)
    column, _ = running(Running("y", 0.0, stops_z, right, 7), area.height)
    shapes += [*row, *upper, *column]
    if job_wall.ceiling is not None:
        shapes.append(
            Dimension("y", 0.0, mm(job_wall.ceiling), left, -8, facts.bare(job_wall.ceiling),
                      (Shown("wall", "ceiling", job_wall.ceiling),))
        )  # fmt: skip
    at = (
        area.x0 + 20 + max(0.0, (room[0] - (right - left) * scale) / 2) - left * scale,
        foot + deep + max(0.0, (room[1] - top * scale) / 2),
    )
    extra: list[Shape] = [Text((area.x0, foot - 4 - 4.2 * i), line, TEXT) for i, line in enumerate(lines)]
    return Page("Wall", (View("wall", tuple(shapes), at, scale), furniture("words", extra)), name)


def _overhang(cabinet: Cabinet) -> int:
    return cabinet.face_frame.overhang if cabinet.face_frame else 0


def lift_of(facts: Facts, cabinet: Cabinet) -> int:
    """Return how far a cabinet is lifted past its place to hang it, nm."""
    return max((m.lift for m in facts.plan.mounting if m.cabinet == cabinet.id), default=0)


def _stops(facts: Facts, places: list[tuple[int, str, str]]) -> Stops:
    seen: dict[int, Shown] = {}
    for nm, who, what in places:
        if nm:
            seen.setdefault(nm, Shown(who, what, nm))
    return tuple((mm(nm), facts.bare(nm), (shown,)) for nm, shown in sorted(seen.items()))


def _heights(facts: Facts, placed: list[tuple[Cabinet, int, Spot]]) -> Iterator[tuple[int, str, str]]:
    """Yield the heights that matter: each cabinet's bottom, its wall cleat's lower edge, its top when lifted."""
    for cabinet, i, spot in placed:
        who = f"{cabinet.id}/{i + 1}"
        yield spot.z, who, "bottom"
        for part in facts.of(cabinet.id):
            if part.role in WALL_ROLES:
                yield spot.z + placed_box(part).z0, who, "wall cleat, lower edge"
        lift = lift_of(facts, cabinet)
        if lift:
            yield spot.z + cabinet.height + lift, who, "top when lifted on"


def _wall(wall: Wall, reach: tuple[float, float, float]) -> list[Shape]:
    """Return floor, ceiling and the middles of studs; `reach` is how far left, right and up the picture goes, mm."""
    left, right, top = reach
    shapes: list[Shape] = [Line((left, 0), (right, 0), Kind.WIDE)]
    if wall.ceiling is not None:
        shapes.append(Line((left, mm(wall.ceiling)), (right, mm(wall.ceiling)), Kind.WIDE))
    studs = wall.studs.at if wall.studs else ()
    return [*shapes, *(Line((mm(x), 0), (mm(x), top), Kind.CENTRE) for x in studs)]


def _studs(facts: Facts, placed: list[tuple[Cabinet, int, Spot]], top: float, scale: float) -> Iterator[Shape]:
    """Yield studs as wood: edges and grain, dashed and without grain where a cabinet stands before them."""
    job_wall = facts.job.wall
    if job_wall is None or job_wall.studs is None or mm(job_wall.studs.width) * scale <= 1.2:
        return
    half = mm(job_wall.studs.width) / 2
    for x in map(mm, job_wall.studs.at):
        before = sorted(
            (mm(spot.z), mm(spot.z + cabinet.height))
            for cabinet, _, spot in placed
            if mm(spot.x) - half < x < mm(spot.x + cabinet.width) + half
        )
        at = 0.0
        for low, high in [*before, (top, top)]:
            if low > at:
                yield from (Line((x + side, at), (x + side, low), Kind.NARROW) for side in (-half, half))
                ends = (at + 0.06 * (low - at), low - 0.06 * (low - at))
                grain = (-0.5 * half, 0.5 * half)
                yield from (Line((x + side, ends[0]), (x + side, ends[1]), Kind.FINE) for side in grain)
            if high > low:
                yield from (Line((x + side, low), (x + side, high), Kind.HIDDEN) for side in (-half, half))
            at = max(at, high)


def _cabinets(facts: Facts, placed: list[tuple[Cabinet, int, Spot]], scale: float) -> list[Shape]:
    shapes: list[Shape] = []
    for cabinet, i, spot in placed:
        x0 = mm(spot.x - _overhang(cabinet))
        x1, z0, z1 = x0 + mm(cabinet.width), mm(spot.z), mm(spot.z + cabinet.height)
        shapes += [Line(p, q, Kind.WIDE) for p, q in _sides(x0, z0, x1, z1)]
        lift = mm(lift_of(facts, cabinet))
        if lift:
            shapes.append(Line((x0, z1 + lift), (x1, z1 + lift), Kind.CENTRE))
        for part in facts.of(cabinet.id):
            if part.role in WALL_ROLES or part.group == "counter":
                b = placed_box(part).moved(spot.x, 0, spot.z)
                shapes += [Line(p, q, Kind.NARROW) for p, q in _sides(mm(b.x0), mm(b.z0), mm(b.x1), mm(b.z1))]
        shapes += _fasteners(facts, cabinet, i, spot, scale)
        name = metrics.fitted(cabinet.copy_name(i), 2.5, mm(cabinet.width) * scale - 4)
        start = _free(facts, x0, x1, metrics.width(name, 2.5) / scale, scale)
        if start is None:
            shapes.append(Text((x0, z0), name, 2.5, angle=90, shift=(4.5, 2.0)))
        else:
            shapes.append(Text((start, z0), name, 2.5, shift=(0, 2.0)))
    return shapes


def _obstacle(facts: Facts, thing: Obstacle, placed: list[tuple[Cabinet, int, Spot]], scale: float) -> Iterator[Shape]:
    """Yield what is on the wall: its outline crossed through, what is left free round it, and its name."""
    x0, z0, x1, z1 = mm(thing.x), mm(thing.z), mm(thing.x + thing.width), mm(thing.z + thing.height)
    yield from (Line(p, q, Kind.WIDE) for p, q in _sides(x0, z0, x1, z1))
    yield from (Line(p, q, Kind.FINE) for p, q in (((x0, z0), (x1, z1)), ((x0, z1), (x1, z0))))
    free = mm(thing.keep_clear)
    if free:
        yield from (Line(p, q, Kind.CENTRE) for p, q in _sides(x0 - free, z0 - free, x1 + free, z1 + free))
    name, level = metrics.clean(thing.id), z1 + free
    sides = [
        (mm(spot.x - _overhang(cabinet)) - 1 / scale, mm(spot.x - _overhang(cabinet)))
        for cabinet, _, spot in placed
        if mm(spot.z) - USUAL / scale < level < mm(spot.z + cabinet.height)
    ]
    start = _before([*sides, *_bands(facts, scale)], x0, metrics.width(name, USUAL) / scale)
    yield Text((start, level), name, shift=(0, 0.8))


def _bands(facts: Facts, scale: float) -> list[tuple[float, float]]:
    """Return where studs stand along the wall, with some air on either hand, mm."""
    job_wall = facts.job.wall
    half = mm(job_wall.studs.width) / 2 + 1 / scale if job_wall and job_wall.studs else 0.0
    return [(mm(x) - half, mm(x) + half) for x in (job_wall.studs.at if job_wall and job_wall.studs else ())]


def _free(facts: Facts, x0: float, x1: float, long: float, scale: float) -> float | None:
    """Return where text `long` mm (true size) may begin between x0 and x1 and cross no stud; nothing where nowhere."""
    bands = _bands(facts, scale)
    starts = [x0 + 2 / scale, *(high + 1 / scale for _, high in bands)]
    for start in sorted(starts):
        if x0 < start and start + long < x1 and not any(low < start + long and start < high for low, high in bands):
            return start
    return None


def _before(bands: list[tuple[float, float]], x: float, long: float) -> float:
    """Return where text `long` mm (true size) begins that is to begin at x: so far left that it ends before a band."""
    return min([x, *(low - long for low, high in bands if x < high and low < x + long)])


def _sides(x0: float, z0: float, x1: float, z1: float) -> list[tuple[XY, XY]]:
    corners = [(x0, z0), (x1, z0), (x1, z1), (x0, z1)]
    return [(p, corners[(i + 1) % 4]) for i, p in enumerate(corners)]


def _fasteners(facts: Facts, cabinet: Cabinet, number: int, spot: Spot, scale: float) -> Iterator[Shape]:
    """Yield a ring for each fastener that engineering placed, at its true place, smaller where they stand close."""
    result = facts.hanging(cabinet.id, number)
    base = mm(spot.z) + _strip_low(facts, cabinet, result)
    placed = result.fasteners if result else ()
    for one in placed:
        x, z = one.at_mm, base + one.up_mm
        near = min((hypot(one.at_mm - o.at_mm, one.up_mm - o.up_mm) for o in placed if o is not one), default=x)
        radius = max(RING_LEAST, min(RING, RING_SHARE * near * scale))
        yield Ring((x, z), radius, Kind.NARROW)
        if radius == RING:
            yield Circle((x, z), 2.5, Kind.WIDE)


def _strip_low(facts: Facts, cabinet: Cabinet, result: HungCabinet | StandingCabinet | None) -> float:
    """Return the lower edge of the wood the fasteners pass through, over the cabinet's bottom, mm."""
    box = strip_box(facts, cabinet.id, result.case) if result and result.case else None
    return mm(box.z0) if box else 0.0


def _placed(facts: Facts, cabinet: Cabinet, number: int) -> bool:
    result = facts.hanging(cabinet.id, number)
    return result is not None and bool(result.fasteners)


def _words(facts: Facts, placed: list[tuple[Cabinet, int, Spot]]) -> list[str]:
    out = [
        "Small rings are the wall fasteners; chain lines over the cabinets are where their tops pass when lifted on."
    ]
    missing = [c.copy_name(i) for c, i, _ in placed if not _placed(facts, c, i)]
    if missing:
        out.append("No fasteners could be placed for " + ", ".join(missing) + ": see the checks.")
    if facts.stops:
        out.append(f"DO NOT HANG YET: the plan has {counted(len(facts.stops), 'stop')}; see its checks.")
    out.append(
        "Find every stud and every pipe and cable before drilling. Lift with as many people as each cabinet's weight "
        "asks for. Local building code and a licensed person's judgement come before this drawing."
    )
    return out
