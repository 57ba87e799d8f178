"""Two cuts through a cabinet: one upright, seen toward the left side, and one level, seen from above."""

from collections.abc import Sequence

from casewright.api.papers.drawing.hidden import DOWNWARD, LEFTWARD, Eye
from casewright.api.papers.drawing.shapes import XY, Dimension, Hatch, Kind, Line, Running, Shape, Shown, Text, View
from casewright.api.papers.drawing.solids import XYZ, Piece, Segment, Solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import Drawn, bounds, chosen, faces, picture, placed_box, solids_of
from casewright.api.papers.views.page import Area, Page, area_of, caption, centred, furniture, scale_for
from casewright.sdk.model import Cabinet, Part

Polygon = tuple[XY, ...]


def section(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return one page a cabinet, two where both cuts do not fit one."""
    cabinets = [facts.cabinets[c] for c in chosen("section", subject, list(facts.cabinets))]
    return [page for cabinet in cabinets for page in _pages(facts, cabinet, paper)]


def _pages(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    solids = solids_of(facts, cabinet.id)
    x, z = cut_places(facts, cabinet)
    return [_upright(facts, cabinet, solids, x, paper), _level(facts, cabinet, solids, z, paper)]


THIN = 200_000_000
"""What is higher than this (200 mm, in nm) bounds no room from above or below, whatever its role."""


def cut_places(facts: Facts, cabinet: Cabinet) -> tuple[int, int]:
    """Return where the upright cut (x) and the level cut (z) run, in nm: through the middle of the widest room."""
    parts = facts.of(cabinet.id)
    level = ("top", "bottom", "shelf", "stretcher", "frame-rail", "door-rail", "strip", "cleat", "wall-cleat")
    return _middle(parts, 1, ("side", "divider", "frame-stile", "door-stile")), _middle(parts, 3, level)


def _middle(parts: Sequence[Part], axis: int, roles: Sequence[str]) -> int:
    boxes = [placed_box(p) for p in parts if p.role in roles]
    spans = sorted((b.low(axis), b.high(axis)) for b in boxes if axis == 1 or b.high(axis) - b.low(axis) <= THIN)
    best, at, end = 0, 0, spans[0][1] if spans else 0
    for low, high in spans:
        if low - end > best:
            best, at = low - end, (low + end) // 2
        end = max(end, high)
    return at


def upright(facts: Facts, cabinet: Cabinet, solids: Sequence[Solid], x: int) -> Drawn:
    """Return the cut at x, seen toward the left side: the front is on the left, the wall on the right."""
    y0, z0, y1, z1 = bounds(solids, LEFTWARD)
    across = [s.part for s in solids if s.part.role in ("top", "bottom", "shelf") and _crosses(s.part, 1, x)]
    depth = _depth_dimension(facts, cabinet)
    rear = round(depth[1] * 1e6) if depth[0] == 0 else 0
    stops_y = faces(facts, [s.part for s in solids if s.part.role in ("back", "shelf", "top")], 2, 0, (rear,))
    height = (Shown(cabinet.id, "height", cabinet.height),)
    made = [
        *cut_picture(solids, 1, mm(x), LEFTWARD),
        Dimension("y", 0.0, mm(cabinet.height), y0, -8, facts.bare(cabinet.height), height),
        Dimension("x", depth[0], depth[1], z1, 8, facts.bare(cabinet.depth), depth[2]),
    ]
    column = Running("y", 0.0, faces(facts, across, 3, 0, (cabinet.height,)), y1, 8)
    return Drawn((y0, z0, y1, z1), Running("x", 0.0, stops_y, z0, -8), column, lambda _: made)


def _upright(facts: Facts, cabinet: Cabinet, solids: Sequence[Solid], x: int, paper: str) -> Page:
    drawn = upright(facts, cabinet, solids, x)
    area = area_of(paper)
    room = (area.width - drawn.beside - 20, area.height - drawn.below - 22)
    scale, name = scale_for(facts, drawn.width, drawn.height, room)
    shapes, missed = drawn.dimensioned(scale, (area.width - 20, area.height - drawn.below))
    at = centred((area.x0 + 20, area.y0 + drawn.below), room, drawn.box, scale)
    words = _caption(area, f"Cut {facts.text(x)} from the left end of the case, seen toward it", missed)
    views = (View("upright section", tuple(shapes), at, scale), furniture("captions", [words]))
    return Page(f"Upright section of {cabinet.id}", views, name)


def _caption(area: Area, words: str, missed: int) -> Text:
    """Return what a cut is called, and how many places found no room to be dimensioned."""
    left = f"; {missed} places left out for want of room: see the parts" if missed else ""
    return caption((area.x0, area.y1 - 4), words + left, area.width)


def level(facts: Facts, cabinet: Cabinet, solids: Sequence[Solid], z: int) -> Drawn:
    """Return the cut at height z, seen from above: the front is below."""
    x0, y0, x1, y1 = bounds(solids, DOWNWARD)
    left = -(cabinet.face_frame.overhang if cabinet.face_frame else 0)
    across = [s.part for s in solids if s.part.role in ("side", "divider") and _crosses(s.part, 3, z)]
    width, depth = (Shown(cabinet.id, "width", cabinet.width),), _depth_dimension(facts, cabinet)
    made = [
        *cut_picture(solids, 3, mm(z), DOWNWARD),
        Dimension("x", mm(left), mm(left + cabinet.width), y1, 8, facts.bare(cabinet.width), width),
        Dimension("y", depth[0], depth[1], x0, -8, facts.bare(cabinet.depth), depth[2]),
    ]
    row = Running("x", mm(left), faces(facts, across, 1, left, (cabinet.width,)), y0, -8)
    return Drawn((x0, y0, x1, y1), row, None, lambda _: made)


def _level(facts: Facts, cabinet: Cabinet, solids: Sequence[Solid], z: int, paper: str) -> Page:
    drawn = level(facts, cabinet, solids, z)
    area = area_of(paper)
    room = (area.width - 30, area.height - drawn.below - 22)
    scale, name = scale_for(facts, drawn.width, drawn.height, room)
    shapes, missed = drawn.dimensioned(scale, (area.width - 20, area.height))
    at = centred((area.x0 + 20, area.y0 + drawn.below), room, drawn.box, scale)
    words = _caption(area, f"Cut {facts.text(z)} above the bottom of the case, seen from above", missed)
    views = (View("level section", tuple(shapes), at, scale), furniture("captions", [words]))
    return Page(f"Level section of {cabinet.id}", views, name)


def _depth_dimension(facts: Facts, cabinet: Cabinet) -> tuple[float, float, tuple[Shown, ...]]:
    """Return where the cabinet's depth runs from and to along y, mm: the face frame's front to the case's back."""
    frame = facts.job.materials[cabinet.face_frame.material].thickness if cabinet.face_frame else 0
    return mm(-frame), mm(cabinet.depth - frame), (Shown(cabinet.id, "depth", cabinet.depth),)


def _crosses(part: Part, axis: int, at: int) -> bool:
    box = placed_box(part)
    return box.low(axis) < at < box.high(axis)


def cut_picture(solids: Sequence[Solid], axis: int, at: float, eye: Eye) -> list[Shape]:
    """Return solids cut square to an axis: what is beyond in thin lines, cut wood outlined and hatched.

    The half toward the eye (beyond `at` along +axis) is taken away. Neighbours are hatched in opposite ways.
    """
    beyond = [half for solid in solids if (half := _half(solid, axis - 1, at)) is not None]
    shapes = picture(beyond, eye, Kind.NARROW)
    turn = 0
    for solid in solids:
        polygons = [p for piece in solid.pieces if (p := _cut(piece, axis - 1, at))]
        if not polygons:
            continue
        shapes += [Line(a, b, Kind.WIDE) for a, b in _outline(polygons)]
        shapes.append(Hatch(tuple(polygons), 45 if turn % 2 == 0 else 135, 1.6 + 0.3 * (turn % 3)))
        turn += 1
    return shapes


def cut_outlines(
    solid: Solid, axis: int, at: float, window: tuple[float, float, float, float]
) -> tuple[list[Polygon], list[tuple[XY, XY]]]:
    """Return the wood of a solid where a plane cuts it and what of its outline lies in a window, both cut off there."""
    u0, v0, u1, v1 = window
    polygons = []
    for piece in solid.pieces:
        polygon = list(_cut(piece, axis - 1, at) or ())
        for nu, nv, c in ((-1, 0, -u0), (1, 0, u1), (0, -1, -v0), (0, 1, v1)):
            polygon = _clipped(polygon, nu, nv, c)
        if len(polygon) > 2:
            polygons.append(tuple(polygon))
    return polygons, _outline(polygons)


def broken_off(a: XY, b: XY, window: tuple[float, float, float, float]) -> bool:
    """Return whether a line runs along an edge of the window, where the picture ends and not the wood."""
    return any(abs(a[0] - x) < 1e-6 and abs(b[0] - x) < 1e-6 for x in window[::2]) or any(
        abs(a[1] - y) < 1e-6 and abs(b[1] - y) < 1e-6 for y in window[1::2]
    )


def _half(solid: Solid, axis: int, at: float) -> Solid | None:
    pieces = []
    for piece in solid.pieces:
        if piece.box[axis] < at - 1e-9:
            box = list(piece.box)
            box[axis + 3] = min(box[axis + 3], at)
            pieces.append(Piece((box[0], box[1], box[2], box[3], box[4], box[5]), piece.planes))
    if not pieces:
        return None
    edges = [kept for edge in solid.edges if (kept := _below(edge, axis, at))]
    return Solid(solid.part, tuple(pieces), tuple(edges))


def _below(edge: Segment, axis: int, at: float) -> Segment | None:
    a, b = edge
    if a[axis] > b[axis]:
        a, b = b, a
    if a[axis] >= at - 1e-9:
        return None
    if b[axis] <= at:
        return (a, b)
    t = (at - a[axis]) / (b[axis] - a[axis])
    end: XYZ = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))
    return (a, end)


def _cut(piece: Piece, axis: int, at: float) -> Polygon | None:
    """Return the outline of a piece where the plane cuts it, in the two other axes, anticlockwise."""
    b = piece.box
    if not b[axis] < at < b[axis + 3]:
        return None
    u, v = [i for i in range(3) if i != axis]
    polygon: list[XY] = [(b[u], b[v]), (b[u + 3], b[v]), (b[u + 3], b[v + 3]), (b[u], b[v + 3])]
    for plane in piece.planes:
        polygon = _clipped(polygon, plane[u], plane[v], plane[3] - plane[axis] * at)
    return tuple(polygon) if len(polygon) > 2 else None


def _clipped(polygon: list[XY], nu: float, nv: float, c: float) -> list[XY]:
    out: list[XY] = []
    for i, p in enumerate(polygon):
        q = polygon[(i + 1) % len(polygon)]
        fp, fq = nu * p[0] + nv * p[1] - c, nu * q[0] + nv * q[1] - c
        if fp <= 1e-9:
            out.append(p)
        if (fp < -1e-9 and fq > 1e-9) or (fp > 1e-9 and fq < -1e-9):
            t = fp / (fp - fq)
            out.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
    return out


def _outline(polygons: Sequence[Polygon]) -> list[tuple[XY, XY]]:
    """Return the outline of overlapping convex polygons: each side less what lies inside another."""
    out: dict[tuple[float, ...], tuple[XY, XY]] = {}
    for i, polygon in enumerate(polygons):
        for k, p in enumerate(polygon):
            q = polygon[(k + 1) % len(polygon)]
            spans = [s for j, other in enumerate(polygons) if j != i if (s := _within(p, q, other)) is not None]
            for low, high in _left_over(spans):
                a = (p[0] + low * (q[0] - p[0]), p[1] + low * (q[1] - p[1]))
                b = (p[0] + high * (q[0] - p[0]), p[1] + high * (q[1] - p[1]))
                key = tuple(round(n, 3) for pt in sorted((a, b)) for n in pt)
                out.setdefault(key, (a, b))
    return list(out.values())


def _within(p: XY, q: XY, polygon: Polygon) -> tuple[float, float] | None:
    """Return the stretch of a segment strictly inside a convex polygon, or along a side it shares the wrong way."""
    t0, t1 = 0.0, 1.0
    dx, dy = q[0] - p[0], q[1] - p[1]
    for i, a in enumerate(polygon):
        b = polygon[(i + 1) % len(polygon)]
        nx, ny = b[1] - a[1], a[0] - b[0]
        size = (nx * nx + ny * ny) ** 0.5
        if size < 1e-9:
            continue
        f0 = ((p[0] - a[0]) * nx + (p[1] - a[1]) * ny) / size
        f1 = (dx * nx + dy * ny) / size
        if abs(f1) < 1e-9:
            if f0 > 1e-6 or (f0 > -1e-6 and dx * (b[0] - a[0]) + dy * (b[1] - a[1]) > 0):
                return None
            continue
        t = -f0 / f1
        if f1 > 0:
            t1 = min(t1, t)
        else:
            t0 = max(t0, t)
    return (t0, t1) if t1 - t0 > 1e-9 else None


def _left_over(spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    out, at = [], 0.0
    for low, high in sorted(spans):
        if low > at + 1e-9:
            out.append((at, low))
        at = max(at, high)
    if at < 1 - 1e-9:
        out.append((at, 1.0))
    return out
