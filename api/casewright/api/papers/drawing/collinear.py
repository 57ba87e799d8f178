"""Lines on one straight joined into runs, so that the dashes of one do not fill the gaps of another."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from casewright.api.papers.drawing.shapes import Line

Straight = tuple[float, float, float]
"""A straight of a picture: its way as a unit vector that points right, or up, and its distance from the origin, mm."""

Span = tuple[float, float]
"""From where to where along a straight, mm."""

SAME = 0.05
"""Runs nearer to one another than this (mm) are one, and shorter ones are nothing."""


def runs_left(lines: Sequence[Line], over: Iterable[Line]) -> list[Line]:
    """Return lines with those that overlap on one straight joined into one run, less what lies under lines `over`."""
    covered: defaultdict[Straight, list[Span]] = defaultdict(list)
    for line in over:
        straight, span = _on(line)
        covered[straight].append(span)
    drawn: defaultdict[Straight, list[Span]] = defaultdict(list)
    for line in lines:
        straight, span = _on(line)
        drawn[straight].append(span)
    return [
        _line(straight, part, lines[0])
        for straight, spans in drawn.items()
        for run in joined(spans)
        for part in _less(run, joined(covered.get(straight, ())))
    ]


def joined(spans: Iterable[Span]) -> list[Span]:
    """Return spans in rising order, those that touch or overlap made one."""
    out: list[Span] = []
    for low, high in sorted(spans):
        if out and low <= out[-1][1] + SAME:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _on(line: Line) -> tuple[Straight, Span]:
    (x0, y0), (x1, y1) = sorted((line.a, line.b), key=lambda p: (round(p[0], 2), p[1]))
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
    ux, uy = round((x1 - x0) / long, 6) + 0.0, round((y1 - y0) / long, 6) + 0.0
    return (ux, uy, round(uy * x0 - ux * y0, 2) + 0.0), (x0 * ux + y0 * uy, x1 * ux + y1 * uy)


def _line(straight: Straight, span: Span, like: Line) -> Line:
    ux, uy, off = straight
    low, high = span
    return Line((ux * low + uy * off, uy * low - ux * off), (ux * high + uy * off, uy * high - ux * off), like.kind)


def _less(run: Span, covered: Sequence[Span]) -> list[Span]:
    out, at = [], run[0]
    for low, high in (*covered, (run[1], run[1])):
        end = min(low, run[1])
        if end - at > SAME:
            out.append((at, end))
        at = max(at, high)
    return out
