"""Dimensions taken apart into marks: one between two places, or many running from one datum.

Sizes are true, those of paper divided by the view's scale.
"""

from collections.abc import Iterator, Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.inked import AnyMark, Label, Mark, Round
from casewright.api.papers.drawing.shapes import (
    USUAL,
    XY,
    Anchor,
    Dimension,
    Kind,
    Running,
    Shown,
)

ARROW, ARROW_HALF = 2.5, 0.33
GAP = 1.0
"""Between outline and extension line, mm of paper."""
BEYOND = 1.5
"""Extension line past the dimension line, mm of paper."""
ABOVE = 0.7
"""Between dimension line and text, mm of paper."""


def _turn(along: str, u: float, v: float) -> XY:
    """Return the point `u` along and `v` across a dimension's direction."""
    return (u, v) if along == "x" else (v, u)


def _arrow(along: str, tip: float, v: float, way: int, scale: float) -> Mark:
    tail = tip - way * ARROW / scale
    half = ARROW_HALF / scale
    points = tuple(_turn(along, *p) for p in ((tip, v), (tail, v - half), (tail, v + half)))
    return Mark(points, Kind.FINE, closed=True, solid=True)


def dimension_marks(d: Dimension, scale: float) -> Iterator[AnyMark]:
    """Yield a dimension's extension lines, its line with two arrows, and its text."""
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


def running_marks(d: Running, scale: float) -> Iterator[AnyMark]:
    """Yield the marks of running dimensions: their datum, then every place."""
    yield from datum_marks(d, scale)
    for _, drawn in stops_marks(d, scale):
        yield from drawn


def datum_marks(d: Running, scale: float) -> Iterator[AnyMark]:
    """Yield the datum of running dimensions, with the line that they count along."""
    way = 1 if d.off >= 0 else -1
    v = d.base + d.off / scale
    reach = [d.datum, *(stop[0] for stop in d.stops)]
    ends = [end for end in (min(reach), max(reach)) if end != d.datum]
    yield Mark((_turn(d.along, d.datum, d.base + way * GAP / scale), _turn(d.along, d.datum, v)), Kind.NARROW)
    yield Round(_turn(d.along, d.datum, v), 0.9 / scale, Kind.NARROW)
    for end in ends:
        yield Mark((_turn(d.along, d.datum, v), _turn(d.along, end, v)), Kind.NARROW)


def stops_marks(d: Running, scale: float) -> Iterator[tuple[float, tuple[AnyMark, ...]]]:
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
