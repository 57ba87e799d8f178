"""Lines with gaps where rings stand on them."""

from collections.abc import Sequence

from casewright.api.papers.drawing.shapes import XY, Line


def ringed(lines: Sequence[Line], centres: Sequence[XY], r: float) -> list[Line]:
    """Return lines with what lies in circles of radius `r` left out."""
    out: list[Line] = []
    for line in lines:
        (ax, ay), (bx, by) = line.a, line.b
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        if long == 0.0:
            continue
        u, v = (bx - ax) / long, (by - ay) / long
        gaps = []
        for x, y in centres:
            t, away = (x - ax) * u + (y - ay) * v, abs((y - ay) * u - (x - ax) * v)
            if away < r and -r < t < long + r:
                half = (r * r - away * away) ** 0.5
                gaps.append((t - half, t + half))
        at = 0.0
        for low, high in [*sorted(gaps), (long, long)]:
            if low > at + 1e-9:
                end = min(low, long)
                out.append(Line((ax + at * u, ay + at * v), (ax + end * u, ay + end * v), line.kind))
            at = max(at, high)
    return out
