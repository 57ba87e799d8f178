"""Shapes taken apart into marks: strokes, rounds and labels, which every writer draws in the same way.

Marks are in true size; dividing paper sizes by the view's scale happens here, once.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.dimensions import datum_marks, dimension_marks, running_marks, stops_marks
from casewright.api.papers.drawing.inked import AnyMark, Label, Mark, Round
from casewright.api.papers.drawing.shapes import (
    XY,
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
    Stroke,
    Text,
    View,
)


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
            drawn = tuple(dimension_marks(shape, view.scale))
            yield Measure(shape.along, min(shape.a, shape.b), max(shape.a, shape.b), shape.base, line, False, drawn)
        elif isinstance(shape, Running):
            line = shape.base + shape.off / view.scale
            for place, drawn in stops_marks(shape, view.scale):
                yield Measure(shape.along, shape.datum, place, shape.base, line, True, drawn)


def unmeasured(view: View) -> Iterator[AnyMark]:
    """Yield the marks of a view that belong to no single dimension, in true size."""
    for shape in view.shapes:
        if isinstance(shape, Running):
            yield from datum_marks(shape, view.scale)
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
        yield from dimension_marks(shape, scale)
    else:
        yield from running_marks(shape, scale)


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
    for i, span in sorted(spans.items()):
        v = i * gap
        for u0, u1 in _joined(span):
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
