"""Shapes taken apart into marks: strokes, rounds and labels, which every writer draws in the same way.

Marks are in true size; dividing paper sizes by the view's scale happens here, once.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import (
    USUAL,
    XY,
    Anchor,
    Circle,
    Dimension,
    Hatch,
    Kind,
    Line,
    Path,
    Ring,
    Running,
    Shape,
    Sheet,
    Shown,
    Stroke,
    Text,
    View,
)

ARROW, ARROW_HALF = 2.5, 0.33
GAP = 1.0
"""Between outline and extension line, mm of paper."""
BEYOND = 1.5
"""Extension line past the dimension line, mm of paper."""
ABOVE = 0.7
"""Between dimension line and text, mm of paper."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A polyline: `solid` filled in black, `closed` back to its first point."""

    points: tuple[XY, ...]
    kind: Kind
    closed: bool = False
    solid: bool = False


@dataclass(frozen=True, slots=True)
class Round:
    """A circle or an arc of it, anticlockwise from `start` to `end` degrees."""

    centre: XY
    radius: float
    kind: Kind
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text; `height` stays mm on paper. `dimension` tells a dimension's text from other text."""

    at: XY
    text: str
    height: float
    anchor: Anchor = "start"
    angle: int = 0
    bold: bool = False
    shows: tuple[Shown, ...] = ()
    dimension: bool = False


AnyMark = Mark | Round | Label


@dataclass(frozen=True, slots=True)
class Measure:
    """A dimension: between which places along a direction, where outline and its line stand across, and its marks.

    `running` says that it counts from a datum that others on its line count from too; the datum's own marks are none
    of its.
    """

    along: Literal["x", "y"]
    a: float
    b: float
    base: float
    line: float
    running: bool
    marks: tuple[AnyMark, ...]


Rectangle = tuple[float, float, float, float]


def marks(view: View) -> Iterator[AnyMark]:
    """Yield the marks of a view in true size."""
    for shape in view.shapes:
        yield from _marks(shape, view.scale)


def measures(view: View) -> Iterator[Measure]:
    """Yield the dimensions of a view in true size."""
    for shape in view.shapes:
        if isinstance(shape, Dimension):
            line = shape.base + shape.off / view.scale
            drawn = tuple(_dimension(shape, view.scale))
            yield Measure(shape.along, min(shape.a, shape.b), max(shape.a, shape.b), shape.base, line, False, drawn)
        elif isinstance(shape, Running):
            line = shape.base + shape.off / view.scale
            for place, drawn in _stops(shape, view.scale):
                yield Measure(shape.along, shape.datum, place, shape.base, line, True, drawn)


def unmeasured(view: View) -> Iterator[AnyMark]:
    """Yield the marks of a view that belong to no single dimension, in true size."""
    for shape in view.shapes:
        if isinstance(shape, Running):
            yield from _datum(shape, view.scale)
        elif not isinstance(shape, Dimension):
            yield from _marks(shape, view.scale)


def on_paper(sheet: Sheet) -> Iterator[AnyMark]:
    """Yield the marks of a sheet in mm of paper."""
    for view in sheet.views:
        for mark in marks(view):
            yield carried(mark, view)


def box_of(label: Label) -> Rectangle:
    """Return the box round a label on paper: x0, y0, x1, y1 in mm."""
    long = metrics.width(label.text, label.height, label.bold)
    start = {"start": 0.0, "middle": -long / 2, "end": -long}[label.anchor]
    x, y = label.at
    drop = 0.28 * label.height
    if label.angle == 90:
        return (x - label.height, y + start, x + drop, y + start + long)
    return (x + start, y - drop, x + start + long, y + label.height)


def carried(mark: AnyMark, view: View) -> AnyMark:
    """Return a mark carried from true size to the paper."""
    s, (x, y) = view.scale, view.at

    def to(p: XY) -> XY:
        return (x + s * p[0], y + s * p[1])

    if isinstance(mark, Mark):
        return Mark(tuple(to(p) for p in mark.points), mark.kind, mark.closed, mark.solid)
    if isinstance(mark, Round):
        return Round(to(mark.centre), mark.radius * s, mark.kind, mark.start, mark.end)
    return Label(to(mark.at), mark.text, mark.height, mark.anchor, mark.angle, mark.bold, mark.shows, mark.dimension)


def _marks(shape: Shape, scale: float) -> Iterator[AnyMark]:
    if isinstance(shape, Line):
        yield Mark((shape.a, shape.b), shape.kind)
    elif isinstance(shape, Path):
        yield Mark(shape.points, shape.kind, shape.closed, shape.solid)
    elif isinstance(shape, Circle):
        yield Round(shape.centre, shape.radius, shape.kind, shape.start, shape.end)
    elif isinstance(shape, Hatch):
        yield from _hatch(shape, scale)
    elif isinstance(shape, Text):
        at = (shape.at[0] + shape.shift[0] / scale, shape.at[1] + shape.shift[1] / scale)
        yield Label(at, shape.text, shape.height, shape.anchor, shape.angle, shape.bold, shape.shows)
    elif isinstance(shape, Ring):
        at = (shape.centre[0] + shape.shift[0] / scale, shape.centre[1] + shape.shift[1] / scale)
        yield Round(at, shape.radius / scale, shape.kind)
    elif isinstance(shape, Stroke):
        points = [(shape.at[0] + dx / scale, shape.at[1] + dy / scale) for dx, dy in shape.moves]
        yield Mark(tuple(points), shape.kind, shape.solid, shape.solid)
    elif isinstance(shape, Dimension):
        yield from _dimension(shape, scale)
    else:
        yield from _running(shape, scale)


def _hatch(shape: Hatch, scale: float) -> Iterator[Mark]:
    """Yield lines through a region of convex polygons; each line is cut where it leaves the region."""
    c, s = cos(shape.angle * pi / 180), sin(shape.angle * pi / 180)
    gap = shape.gap / scale
    spans: dict[int, list[tuple[float, float]]] = {}
    for polygon in shape.polygons:
        turned = [(x * c + y * s, y * c - x * s) for x, y in polygon]
        low, high = min(v for _, v in turned), max(v for _, v in turned)
        for i in range(int(low // gap) + 1, int(high // gap) + 1):
            cut = _crossings(turned, i * gap)
            if len(cut) >= 2 and cut[-1] - cut[0] > 1e-9:
                spans.setdefault(i, []).append((cut[0], cut[-1]))
    for i, found in sorted(spans.items()):
        v = i * gap
        for u0, u1 in _joined(found):
            yield Mark(((u0 * c - v * s, u0 * s + v * c), (u1 * c - v * s, u1 * s + v * c)), Kind.FINE)


def _crossings(polygon: Sequence[XY], v: float) -> list[float]:
    out = []
    for i, (u0, v0) in enumerate(polygon):
        u1, v1 = polygon[(i + 1) % len(polygon)]
        if (v0 <= v) != (v1 <= v):
            out.append(u0 + (u1 - u0) * (v - v0) / (v1 - v0))
    return sorted(out)


def _joined(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if out and low <= out[-1][1] + 1e-6:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _turn(along: str, u: float, v: float) -> XY:
    """Return the point `u` along and `v` across a dimension's direction."""
    return (u, v) if along == "x" else (v, u)


def _arrow(along: str, tip: float, v: float, way: int, scale: float) -> Mark:
    tail = tip - way * ARROW / scale
    half = ARROW_HALF / scale
    points = tuple(_turn(along, *p) for p in ((tip, v), (tail, v - half), (tail, v + half)))
    return Mark(points, Kind.FINE, closed=True, solid=True)


def _dimension(d: Dimension, scale: float) -> Iterator[AnyMark]:
    low, high = min(d.a, d.b), max(d.a, d.b)
    way = 1 if d.off >= 0 else -1
    v = d.base + d.off / scale
    for u in (low, high):
        start, stop = d.base + way * GAP / scale, v + way * BEYOND / scale
        yield Mark((_turn(d.along, u, start), _turn(d.along, u, stop)), Kind.NARROW)
    room = (high - low) * scale
    long = metrics.width(d.text, USUAL)
    inside = room >= 2 * ARROW + 1
    first = low if inside else low - 2 * ARROW / scale
    middle = (low + high) / 2
    last, centre = (high, middle) if inside else (high + 2 * ARROW / scale, middle)
    if long + 1 > room:
        centre = high + (2 * ARROW + long / 2) / scale
        last = dimension_end(d, scale)
    yield Mark((_turn(d.along, first, v), _turn(d.along, last, v)), Kind.NARROW)
    yield _arrow(d.along, low, v, -1 if inside else 1, scale)
    yield _arrow(d.along, high, v, 1 if inside else -1, scale)
    above = v + ABOVE / scale if d.along == "x" else v - ABOVE / scale
    angle = 0 if d.along == "x" else 90
    yield Label(_turn(d.along, centre, above), d.text, USUAL, "middle", angle, shows=d.shows, dimension=True)


def dimension_end(d: Dimension, scale: float) -> float:
    """Return how far along its direction a dimension goes: to its end, or past it for text with no room between."""
    high, long = max(d.a, d.b), metrics.width(d.text, USUAL)
    return high if long + 1 <= abs(d.b - d.a) * scale else high + (2 * ARROW + long + 0.5) / scale


def spread(wanted: Sequence[float], apart: float) -> list[float]:
    """Return places near the wanted (rising) ones, none nearer to its neighbour than `apart`."""
    groups: list[tuple[float, int]] = []  # (centre, how many)
    for place in wanted:
        groups.append((place, 1))
        while len(groups) > 1:
            (c0, n0), (c1, n1) = groups[-2], groups[-1]
            if c1 - c0 >= apart * (n0 + n1) / 2 - 1e-9:
                break
            whole = n0 + n1
            start = (c0 * n0 + c1 * n1) / whole
            groups[-2:] = [(start, whole)]
    out: list[float] = []
    for centre, count in groups:
        out += [centre + (i - (count - 1) / 2) * apart for i in range(count)]
    return out


def running_reach(stops: Sequence[tuple[float, str, tuple[Shown, ...]]]) -> float:
    """Return how far past its line the text of running dimensions goes, mm of paper."""
    return BEYOND + 2.5 + max((metrics.width(label, USUAL) for _, label, _ in stops), default=0.0)


def text_places(d: Running, scale: float) -> list[float]:
    """Return where along its line the middle of each text of running dimensions comes, by rising coordinate."""
    own = [(stop[0], d.datum, True) for stop in d.stops]
    other = [(stop[0], d.beside.datum, False) for stop in d.beside.stops] if d.beside else []
    every = sorted(own + other)
    places = spread([u for u, _, _ in every], USUAL * 1.5 / scale)
    return [place for (_, _, mine), place in zip(every, places, strict=True) if mine]


def _running(d: Running, scale: float) -> Iterator[AnyMark]:
    yield from _datum(d, scale)
    for _, drawn in _stops(d, scale):
        yield from drawn


def _datum(d: Running, scale: float) -> Iterator[AnyMark]:
    """Yield the datum of running dimensions, with the line that they count along."""
    way = 1 if d.off >= 0 else -1
    v = d.base + d.off / scale
    reach = [d.datum, *(stop[0] for stop in d.stops)]
    ends = [end for end in (min(reach), max(reach)) if end != d.datum]
    yield Mark((_turn(d.along, d.datum, d.base + way * GAP / scale), _turn(d.along, d.datum, v)), Kind.NARROW)
    yield Round(_turn(d.along, d.datum, v), 0.9 / scale, Kind.NARROW)
    for end in ends:
        yield Mark((_turn(d.along, d.datum, v), _turn(d.along, end, v)), Kind.NARROW)


def _stops(d: Running, scale: float) -> Iterator[tuple[float, tuple[AnyMark, ...]]]:
    """Yield each place of running dimensions with its marks: arrow, leader and text."""
    way = 1 if d.off >= 0 else -1
    v = d.base + d.off / scale
    stops = sorted(d.stops, key=lambda stop: stop[0])
    jog, foot = 2.5 / scale, BEYOND / scale
    end = v + way * (foot + jog)
    anchor: Anchor = "start" if way > 0 else "end"
    for (u, label, shows), place in zip(stops, text_places(d, scale), strict=True):
        points = [(u, d.base + way * GAP / scale), (u, v + way * foot), (place, end)]
        across = place + (USUAL / 2 / scale if d.along == "x" else -USUAL / 2 / scale)
        at = _turn(d.along, across, end + way * 0.6 / scale)
        yield (
            u,
            (
                _arrow(d.along, u, v, 1 if u >= d.datum else -1, scale),
                Mark(tuple(_turn(d.along, *p) for p in points), Kind.NARROW),
                Label(at, label, USUAL, anchor, 90 if d.along == "x" else 0, shows=shows, dimension=True),
            ),
        )
