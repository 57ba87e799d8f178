"""Details of joints, cut through and as large as they are or half as large; those alike once."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import dimension_end
from casewright.api.papers.drawing.shapes import TEXT, XY, Dimension, Hatch, Kind, Line, Path, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import chosen, placed_box
from casewright.api.papers.views.figure import BETWEEN, Figure, stacked
from casewright.api.papers.views.page import Page, area_of, furniture
from casewright.api.papers.views.section import broken_off, cut_outlines
from casewright.sdk.geometry import Box
from casewright.sdk.model import Joint, Part

ACROSS = 4
"""Details beside one another on a page."""

LARGE = 20.0
"""A part thicker than this (mm) on either side of a joint is drawn half as large."""

MOST, TALL, FOOT, SIDE = 50.0, 28.0, 9.0, 15.0
"""Width and height of a detail at most, and paper under it and on its left for dimensions, mm."""

LINE = 3.7

CUT_THROUGH = frozenset({"loose-mortise", "mortise", "dovetail", "fingers"})
"""Cuts that stand here and there along a joint, which is cut through the first of them."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Where a joint is cut: the axis its run lies along, the place on it, and the middle of the contact; nm."""

    axis: int
    at: int
    middle: tuple[int, int, int]


def joint(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return the details of joints that are cut into wood; those of one cabinet where it is named."""
    wanted = set(chosen("joint", subject, list(facts.cabinets)))
    area = area_of(paper)
    return stacked("Joints, cut through", details(facts, area.width, ACROSS, wanted), area)


def details(facts: Facts, width: float, across: int, cabinets: set[str]) -> Iterator[list[Figure]]:
    """Yield rows of the details of the joints of cabinets, the highest first, so many on paper of a width in mm."""
    wide = (width - BETWEEN * (across - 1)) / across
    made = [_detail(facts, like, wide) for like in _alike(facts) if like[0].cabinet in cabinets]
    ordered = sorted(made, key=lambda one: -one.high)
    yield from (ordered[start : start + across] for start in range(0, len(ordered), across))


def _alike(facts: Facts) -> list[list[Joint]]:
    """Return joints by method, sizes of what meets and of what is cut; only those of which something is cut."""
    groups: dict[tuple[object, ...], list[Joint]] = {}
    for one in facts.plan.joints:
        host, guest = facts.parts[one.host], facts.parts[one.guest]
        cut = [
            (part is host, feature.kind, tuple(sorted(box.high(a) - box.low(a) for a in (1, 2, 3)))[:2])
            for part in (host, guest)
            for feature in part.features
            if feature.joint == one.id
            for box in feature.boxes[:1] or [w.box for w in feature.wedges[:1]] or [Box(0, 0, 0, 0, 0, 0)]
        ]
        if cut or one.seat:
            key = (one.method, host.thickness, guest.thickness, one.seat, one.clearance, tuple(sorted(set(cut))))
            groups.setdefault(key, []).append(one)
    return list(groups.values())


def _where(one: Joint, host: Part, guest: Part) -> Cut:
    a, b = placed_box(host), placed_box(guest)
    low = [max(a.low(i), b.low(i)) for i in (1, 2, 3)]
    high = [min(a.high(i), b.high(i)) for i in (1, 2, 3)]
    spans = [high[i] - low[i] for i in range(3)]
    axis = max(range(3), key=lambda i: spans[i])
    middle = tuple((low[i] + high[i]) // 2 for i in range(3))
    at = middle[axis]
    for part in (guest, host):
        for feature in part.features:
            if feature.joint == one.id:
                for hole in feature.holes[:1]:
                    at = part.place.cylinder(hole).mouth[axis]
                for box in feature.boxes[:1] if feature.kind in CUT_THROUGH else ():
                    placed = part.place.box(box)
                    at = (placed.low(axis + 1) + placed.high(axis + 1)) // 2
    return Cut(axis + 1, at, (middle[0], middle[1], middle[2]))


def _detail(facts: Facts, like: Sequence[Joint], wide: float) -> Figure:
    one = like[0]
    host, guest = facts.parts[one.host], facts.parts[one.guest]
    cut = _where(one, host, guest)
    u, v = (axis for axis in (1, 2, 3) if axis != cut.axis)
    scale = 1.0 if max(mm(host.thickness), mm(guest.thickness), _reach(one, host, guest, (u, v))) <= LARGE else 0.5
    half = min(wide - SIDE - 2, MOST) / 2 / scale
    centre = (mm(cut.middle[u - 1]), mm(cut.middle[v - 1]))
    tall = min(half, TALL / 2 / scale)
    window = (centre[0] - half, centre[1] - tall, centre[0] + half, centre[1] + tall)
    shapes: list[Shape] = []
    points: list[XY] = []
    for turn, part in enumerate((host, guest)):
        outlines = cut_outlines(facts.solid(part), cut.axis, mm(cut.at), window)
        shapes += [Line(p, q, Kind.FINE if broken_off(p, q, window) else Kind.WIDE) for p, q in outlines[1]]
        points += [point for line in outlines[1] for point in line]
        if outlines[0]:
            shapes.append(Hatch(tuple(outlines[0]), 45 if turn == 0 else 135, 1.6 + 0.4 * turn))
        shapes += _bores(part, one, (u, v), window)
    low, high = min((p[1] for p in points), default=window[1]), max((p[1] for p in points), default=window[3])
    left = min((p[0] for p in points), default=window[0])
    sizes = list(_dimensions(facts, one, (u, v), (left, low, window[2], high)))
    shapes += sizes
    lines = _words(facts, like, wide)
    top = max([high, *(dimension_end(size, scale) for size in sizes if size.along == "y")])
    paper = FOOT + (top - low) * scale + LINE * len(lines) + 4
    extra = [Text((0.0, paper - LINE * (i + 1)), line, TEXT) for i, line in enumerate(lines)]
    views = (
        View("detail", tuple(shapes), (SIDE - window[0] * scale, FOOT - low * scale), scale),
        furniture("words", extra),
    )
    return Figure(views, wide, paper, "1:1" if scale == 1.0 else "1:2")


def _words(facts: Facts, like: Sequence[Joint], wide: float) -> list[str]:
    """Return the lines over a detail: the joint, what goes into what, how many more, depth and room."""
    one = like[0]
    host, guest = facts.parts[one.host], facts.parts[one.guest]
    more = f", and {len(like) - 1} more" if len(like) > 1 else ""
    words = [f"{one.method.replace('-', ' ')}: {guest.name} into {host.name} of {one.cabinet}{more}"]
    if one.seat:
        words.append(f"depth {facts.both(one.seat)}, room {facts.both(one.clearance)}")
    return [line for text in words for line in metrics.wrapped(metrics.clean(text), TEXT, wide, 3)]


def _reach(one: Joint, host: Part, guest: Part, axes: tuple[int, int]) -> float:
    """Return how far the joint's cuts reach in the plane of the picture, mm, where they do not run along the joint."""
    boxes = [
        part.place.box(box)
        for part in (host, guest)
        for feature in part.features
        if feature.joint == one.id and feature.kind in CUT_THROUGH
        for box in feature.boxes
    ]
    return max((mm(box.high(axis) - box.low(axis)) for box in boxes for axis in axes), default=0.0)


def _bores(part: Part, one: Joint, axes: tuple[int, int], window: tuple[float, float, float, float]) -> Iterator[Shape]:
    """Yield the joint's bores that lie in the plane of the cut and begin in the window: dowels and screws."""
    for feature in part.features:
        if feature.joint != one.id:
            continue
        for hole in feature.holes[:1]:
            placed = part.place.cylinder(hole)
            along = abs(placed.into)
            if along not in axes:
                continue
            mouth = (mm(placed.mouth[axes[0] - 1]), mm(placed.mouth[axes[1] - 1]))
            if not (window[0] <= mouth[0] <= window[2] and window[1] <= mouth[1] <= window[3]):
                continue
            sign = 1 if placed.into > 0 else -1
            way: XY = (sign, 0) if along == axes[0] else (0, sign)
            long, r = mm(hole.depth), mm(hole.diameter) / 2
            end = (
                min(max(mouth[0] + way[0] * long, window[0]), window[2]),
                min(max(mouth[1] + way[1] * long, window[1]), window[3]),
            )
            side = (way[1] * r, way[0] * r)
            corners = [(mouth[0] + side[0], mouth[1] + side[1]), (end[0] + side[0], end[1] + side[1]),
                       (end[0] - side[0], end[1] - side[1]), (mouth[0] - side[0], mouth[1] - side[1])]  # fmt: skip
            yield Path(tuple(corners), Kind.NARROW, closed=True)
            yield Line(mouth, end, Kind.CENTRE)


def _dimensions(
    facts: Facts, one: Joint, axes: tuple[int, int], window: tuple[float, float, float, float]
) -> Iterator[Dimension]:
    """Yield the width and the depth of the first cut of the joint that lies in the window."""
    for part in (facts.parts[one.host], facts.parts[one.guest]):
        for feature in part.features:
            if feature.joint != one.id:
                continue
            for raw in feature.boxes:
                box = part.place.box(raw)
                ends = [(mm(box.low(axis)), mm(box.high(axis))) for axis in axes]
                spans = zip(ends, window[:2], window[2:], strict=True)
                if not all(low <= span[0] and span[1] <= high for span, low, high in spans):
                    continue
                sides: tuple[tuple[Literal["x", "y"], float], ...] = (("x", window[1]), ("y", window[0]))
                for axis, span, (along, base) in zip(axes, ends, sides, strict=True):
                    nm = box.high(axis) - box.low(axis)
                    shows = (Shown(part.id, f"{feature.kind} {'xyz'[axis - 1]}", nm),)
                    yield Dimension(along, *span, base, -6, facts.bare(nm), shows)
                return
    yield from _seat(facts, one, axes, window)


def _seat(
    facts: Facts, one: Joint, axes: tuple[int, int], window: tuple[float, float, float, float]
) -> Iterator[Dimension]:
    """Yield how far the guest stands in its host, where no cut is the joint's own: a groove that runs on past it."""
    a, b = placed_box(facts.parts[one.host]), placed_box(facts.parts[one.guest])
    sides: tuple[tuple[Literal["x", "y"], float], ...] = (("x", window[1]), ("y", window[0]))
    for axis, (along, base) in zip(axes, sides, strict=True):
        low, high = max(a.low(axis), b.low(axis)), min(a.high(axis), b.high(axis))
        if one.seat and high - low == one.seat:
            shows = (Shown(one.id, "seat", one.seat),)
            yield Dimension(along, mm(low), mm(high), base, -6, facts.bare(one.seat), shows)
