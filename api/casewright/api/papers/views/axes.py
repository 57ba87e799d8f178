"""Axes of a frame and arrow heads, as drawings of methods show them."""

from casewright.api.papers.drawing.hidden import Eye
from casewright.api.papers.drawing.shapes import TEXT, XY, Kind, Line, Shape, Stroke, Text
from casewright.api.papers.drawing.solids import XYZ

ARROW = 12.0
"""Length of an axis, mm of paper."""


def axes(eye: Eye, scale: float, ways: tuple[XYZ, XYZ, XYZ], at: XYZ = (0.0, 0.0, 0.0)) -> list[Shape]:
    """Return x, y and z of a frame, which run along `ways` from `at`; one that goes into the paper is left out."""
    shapes: list[Shape] = []
    x0, y0 = eye.flat(at)
    for way, name in zip(ways, "xyz", strict=True):
        x, y = eye.flat(way)
        if abs(x) + abs(y) < 1e-6:
            continue
        tip = (x0 + x * ARROW / scale, y0 + y * ARROW / scale)
        shapes += [Line((x0, y0), tip, Kind.NARROW), *head((x0, y0), tip)]
        shapes.append(Text(tip, name, TEXT, bold=True, shift=(x * 2 - 0.8, y * 2 - 0.8)))
    return shapes


def head(tail: XY, tip: XY) -> list[Shape]:
    """Return an arrow's head, 2.5 mm of paper long."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    long = (dx * dx + dy * dy) ** 0.5
    if long == 0:
        return []
    u, v = dx / long, dy / long
    wings = ((-2.5 * u - 0.8 * v, -2.5 * v + 0.8 * u), (-2.5 * u + 0.8 * v, -2.5 * v - 0.8 * u))
    return [Stroke(tip, ((0.0, 0.0), *wings), solid=True)]
