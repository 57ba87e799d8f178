"""How an assembly goes together, as a picture: its pieces apart, numbered as they go in, and clamped."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from casewright.api.papers.drawing.hidden import FRONT, ISOMETRIC, Eye
from casewright.api.papers.drawing.ringed import ringed
from casewright.api.papers.drawing.shapes import TEXT, XY, Circle, Kind, Line, Path, Shape, Text, View
from casewright.api.papers.drawing.solids import XYZ, solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import bounds, picture, placed_box
from casewright.api.papers.views.isometric import anchors
from casewright.sdk.model import Action, Operation, Part, Way, Workpiece

APART = 0.42
"""How far apart two pieces are drawn, as a share of the assembly's greatest size."""

FLAT = 0.12
"""What is thinner than this share of its greatest size is drawn from the front."""

RING, GAP, EDGE = 2.6, 4.0, 5.0
"""Radius of the ring round a number, room between two pictures and round each, mm of paper."""

ARROW = 5.0
"""Length of an arrow, mm of paper."""

_WAYS: Mapping[Way, XYZ] = {
    Way.RIGHT: (1, 0, 0), Way.LEFT: (-1, 0, 0), Way.BACK: (0, 1, 0), Way.FRONT: (0, -1, 0), Way.UP: (0, 0, 1),
    Way.DOWN: (0, 0, -1),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Assembly:
    """Parts in the order in which they go together, where each comes from in mm, and what is clamped."""

    parts: tuple[Part, ...]
    offsets: tuple[XYZ, ...]
    clamped: tuple[Workpiece, ...]


def assembly(facts: Facts, steps: Sequence[Operation]) -> Assembly | None:
    """Return the assembly that the steps of one card make; nothing where no step sets a piece into another."""
    inserts = [step for step in steps if step.action is Action.INSERT and step.moves]
    pieces = [piece for step in inserts for piece in step.on]
    if not pieces:
        return None
    set_in = {piece.part for piece in pieces}
    first = [one for piece in pieces for one in piece.into if one not in set_in]
    ids = list(dict.fromkeys([*first, *(piece.part for piece in pieces)]))
    parts = tuple(facts.parts[one] for one in ids)
    far = APART * max(_extents(parts))
    offsets: dict[str, XYZ] = {}
    for step in inserts:
        way = _WAYS[step.moves[0].towards]
        for piece in step.on:
            before = [offsets.get(one, (0.0, 0.0, 0.0)) for one in piece.into]
            behind = max([0.0, *(-fsum(o * w for o, w in zip(offset, way, strict=True)) for offset in before)])
            offsets[piece.part] = (-way[0] * (behind + far), -way[1] * (behind + far), -way[2] * (behind + far))
    clamped = tuple(piece for step in steps if step.action is Action.CLAMP for piece in step.on)
    return Assembly(parts, tuple(offsets.get(one, (0.0, 0.0, 0.0)) for one in ids), clamped)


def _extents(parts: Sequence[Part]) -> tuple[float, float, float]:
    boxes = [placed_box(part) for part in parts]
    x, y, z = (max(box.high(axis) for box in boxes) - min(box.low(axis) for box in boxes) for axis in (1, 2, 3))
    return mm(x), mm(y), mm(z)


def assembly_views(one: Assembly, width: float, most: float) -> tuple[list[View], float]:
    """Return the pictures of an assembly, one over the other, `width` mm wide, and how high they are.

    The upper one, its pieces apart, is at most `most` mm high; the lower one shows the clamps. y runs up from its foot.
    """
    extents = _extents(one.parts)
    eye = FRONT if extents[1] <= FLAT * max(extents) else ISOMETRIC
    shut = [solid(part) for part in one.parts]
    apart = [whole.moved(by) for whole, by in zip(shut, one.offsets, strict=True)]
    presses = list(_clamps(one, eye))
    views: list[View] = []
    foot = 0.0
    if presses:
        scale, at, high = _fitted(bounds(shut, eye), (width, most * 0.55), 0.0)
        shapes = [*picture(shut, eye, Kind.FINE), *(shape for press in presses for shape in press.shapes(scale))]
        views.append(View("clamped", tuple(shapes), at, scale))
        foot = high + GAP
    scale, at, high = _fitted(bounds(apart, eye), (width, most), foot)
    spots = {i: (at[0] + x * scale, at[1] + y * scale) for i, (x, y) in anchors(apart, eye).items()}
    ways = [eye.flat((-x, -y, -z)) for x, y, z in one.offsets]
    rings = _rings(spots, ways)
    lines = [line for line in picture(apart, eye, Kind.NARROW) if isinstance(line, Line)]
    centres = [((x - at[0]) / scale, (y - at[1]) / scale) for x, y in rings.values()]
    views.append(View("apart", tuple(ringed(lines, centres, RING / scale)), at, scale))
    views.append(View("numbers", tuple(_numbers(spots, rings, ways)), furniture=True))
    return views, high


def _fitted(box: tuple[float, float, float, float], room: XY, foot: float) -> tuple[float, XY, float]:
    """Return scale and place of a picture as large as its room, kept clear of its edges, and where it ends."""
    (x0, y0, x1, y1) = box
    scale = min((room[0] - 2 * EDGE) / (x1 - x0), (room[1] - 2 * EDGE) / (y1 - y0))
    return scale, (room[0] / 2 - (x0 + x1) / 2 * scale, foot + EDGE - y0 * scale), foot + 2 * EDGE + (y1 - y0) * scale


def _rings(spots: Mapping[int, XY], ways: Sequence[XY]) -> dict[int, XY]:
    """Return where each part's ring stands: at its spot, or near it where another ring or its arrow is there."""
    out: dict[int, XY] = {}
    taken: list[XY] = []
    for i, (x, y) in spots.items():
        tries = [(x + dx * step, y + dy * step) for step in range(9) for dx, dy in ((0, 2), (0, -2), (2, 0), (-2, 0))]
        clear = [at for at in tries if all(_far(mine, other) for mine in _marks(at, ways[i]) for other in taken)]
        out[i] = clear[0] if clear else (x, y)
        taken += _marks(out[i], ways[i])
    return out


def _marks(ring: XY, way: XY) -> list[XY]:
    """Return the middle of a ring and, where its piece moves, of its arrow."""
    long = (way[0] ** 2 + way[1] ** 2) ** 0.5
    far = (RING + ARROW) / long if long else 0.0
    return [ring, (ring[0] + far * way[0], ring[1] + far * way[1])] if long else [ring]


def _far(a: XY, b: XY) -> bool:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 > (2.2 * RING) ** 2


def _numbers(spots: Mapping[int, XY], rings: Mapping[int, XY], ways: Sequence[XY]) -> Iterator[Shape]:
    """Yield each part's number in its ring, and an arrow the way it goes in."""
    for i, ring in rings.items():
        away = (spots[i][0] - ring[0], spots[i][1] - ring[1])
        long = (away[0] ** 2 + away[1] ** 2) ** 0.5
        if long > RING:
            yield Line((ring[0] + away[0] * RING / long, ring[1] + away[1] * RING / long), spots[i], Kind.FINE)
        yield Circle(ring, RING, Kind.NARROW)
        yield Text((ring[0], ring[1] - TEXT / 2), str(i + 1), TEXT, "middle")
        if any(ways[i]):
            yield from _arrow(ring, ways[i])


def _arrow(ring: XY, way: XY) -> Iterator[Shape]:
    """Yield an arrow from a ring the way the piece goes."""
    long = (way[0] ** 2 + way[1] ** 2) ** 0.5 or 1.0
    u, v = way[0] / long, way[1] / long
    start = (ring[0] + RING * u, ring[1] + RING * v)
    tip = (start[0] + ARROW * u, start[1] + ARROW * v)
    yield Line(start, (tip[0] - u, tip[1] - v), Kind.WIDE)
    yield Path(_head(tip, (u, v), 2.4), Kind.FINE, closed=True, solid=True)


def _head(tip: XY, way: XY, long: float) -> tuple[XY, ...]:
    (x, y), (u, v) = tip, way
    half = long * 0.32
    foot = (x - long * u, y - long * v)
    return (tip, (foot[0] - half * v, foot[1] + half * u), (foot[0] + half * v, foot[1] - half * u))


@dataclass(frozen=True, slots=True)
class Press:
    """A clamp on a picture: the two places, mm of the thing, at which it presses toward one another."""

    ends: tuple[XY, XY]

    def shapes(self, scale: float) -> Iterator[Shape]:
        """Yield its screw as a chain line and a jaw at each end."""
        (ax, ay), (bx, by) = self.ends
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
        u, v = (bx - ax) / long, (by - ay) / long
        yield Line(self.ends[0], self.ends[1], Kind.CENTRE)
        for (x, y), way in ((self.ends[0], (u, v)), (self.ends[1], (-u, -v))):
            yield Path(_head((x, y), way, 3.0 / scale), Kind.FINE, closed=True, solid=True)
            back = (x - 3.0 / scale * way[0], y - 3.0 / scale * way[1])
            half = 1.6 / scale
            yield Line(
                (back[0] - half * way[1], back[1] + half * way[0]), (back[0] + half * way[1], back[1] - half * way[0])
            )


def _clamps(one: Assembly, eye: Eye) -> Iterator[Press]:
    """Yield every clamp: along the part it presses, from outside to outside, spread over the part's width."""
    parts = {part.id: part for part in one.parts}
    boxes = [placed_box(part) for part in one.parts]
    for piece in one.clamped:
        part = parts.get(piece.part)
        if part is None or not piece.clamps:
            continue
        box = placed_box(part)
        along, across = abs(part.place.x), abs(part.place.y)
        low, high = min(b.low(along) for b in boxes), max(b.high(along) for b in boxes)
        for i in range(piece.clamps):
            share = 0.5 if piece.clamps == 1 else 0.08 + 0.84 * i / (piece.clamps - 1)
            at = [(box.low(axis) + box.high(axis)) / 2e6 for axis in (1, 2, 3)]
            at[across - 1] = mm(box.low(across)) + share * mm(box.high(across) - box.low(across))
            ends = []
            for end in (low, high):
                at[along - 1] = mm(end)
                ends.append(eye.flat((at[0], at[1], at[2])))
            yield Press((ends[0], ends[1]))
