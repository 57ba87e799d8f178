"""Which stretches of edges an eye sees: exact for convex pieces, by half spaces along the line of sight.

A point e + s·d of an edge is hidden by a piece where some e + s·d + t·v (t > 0, v toward the eye) lies inside it.
Every bounding plane then gives t a lower or an upper bound that is linear in s; the piece hides the s for which the
greatest lower bound stays under the least upper bound, and that is one interval.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from casewright.api.papers.drawing.shapes import XY
from casewright.api.papers.drawing.solids import XYZ, Floats, Piece, Segment, Solid
from numpy.typing import NDArray

SKIN = 0.02
"""Pieces count as smaller by this (mm), so that touching faces hide nothing of one another."""


@dataclass(frozen=True, slots=True)
class Eye:
    """A parallel view: paper x and y directions in space, and the way toward the eye."""

    right: XYZ
    up: XYZ
    toward: XYZ

    def flat(self, p: XYZ) -> XY:
        """Return where a point falls on the picture."""
        r, u = self.right, self.up
        return (p[0] * r[0] + p[1] * r[1] + p[2] * r[2], p[0] * u[0] + p[1] * u[1] + p[2] * u[2])


_R2, _R3, _R6 = 2**-0.5, 3**-0.5, 6**-0.5
FRONT = Eye((1, 0, 0), (0, 0, 1), (0, -1, 0))
LEFTWARD = Eye((0, 1, 0), (0, 0, 1), (1, 0, 0))
DOWNWARD = Eye((1, 0, 0), (0, 1, 0), (0, 0, 1))
ISOMETRIC = Eye((_R2, _R2, 0.0), (-_R6, _R6, 2 * _R6), (_R3, -_R3, _R3))
BACK = Eye((-1, 0, 0), (0, 0, 1), (0, 1, 0))
FROM_BEHIND = Eye((-_R2, -_R2, 0.0), (_R6, -_R6, 2 * _R6), (-_R3, _R3, _R3))
"""`ISOMETRIC` from behind: the same cabinet after half a turn."""


@dataclass(frozen=True, slots=True)
class Seen:
    """An edge's stretches on the picture: those seen and those hidden, and which solid it belongs to."""

    solid: int
    seen: tuple[tuple[XY, XY], ...]
    hidden: tuple[tuple[XY, XY], ...]


def sight(solids: Sequence[Solid], eye: Eye) -> list[Seen]:
    """Return every edge of the solids as the eye sees it; edges seen end on are left out."""
    edges: list[tuple[int, Segment]] = []
    for i, solid in enumerate(solids):
        for edge in solid.edges:
            (x0, y0), (x1, y1) = eye.flat(edge[0]), eye.flat(edge[1])
            if abs(x1 - x0) + abs(y1 - y0) > 1e-6:
                edges.append((i, edge))
    if not edges:
        return []
    start = np.array([e[0] for _, e in edges], dtype=float)
    way = np.array([e[1] for _, e in edges], dtype=float) - start
    toward = np.array(eye.toward, dtype=float)
    flat = np.array([[*eye.flat(e[0]), *eye.flat(e[1])] for _, e in edges])
    bounds = np.stack(
        [flat[:, ::2].min(axis=1), flat[:, 1::2].min(axis=1), flat[:, ::2].max(axis=1), flat[:, 1::2].max(axis=1)],
        axis=1,
    )
    depth = np.minimum(start @ toward, (start + way) @ toward)
    gone: list[list[tuple[float, float]]] = [[] for _ in edges]
    for solid in solids:
        for piece in solid.pieces:
            near = _near(piece, eye, bounds, depth, toward)
            if len(near):
                low, high = _covered(piece, start[near], way[near], toward)
                for n in np.nonzero(high - low > 1e-9)[0]:
                    gone[int(near[n])].append((float(low[n]), float(high[n])))
    return [_split(i, edge, eye, spans) for (i, edge), spans in zip(edges, gone, strict=True)]


def _near(piece: Piece, eye: Eye, bounds: Floats, depth: Floats, toward: Floats) -> NDArray[np.intp]:
    """Return which edges a piece may hide, by boxes on the picture and depth."""
    b = piece.box
    corners = [(b[i], b[j], b[k]) for i in (0, 3) for j in (1, 4) for k in (2, 5)]
    flat = [eye.flat(c) for c in corners]
    x0, x1 = min(p[0] for p in flat), max(p[0] for p in flat)
    y0, y1 = min(p[1] for p in flat), max(p[1] for p in flat)
    front = max(float(np.dot(c, toward)) for c in corners)
    hit = (bounds[:, 0] < x1) & (bounds[:, 2] > x0) & (bounds[:, 1] < y1) & (bounds[:, 3] > y0) & (depth < front)
    return np.nonzero(hit)[0]


def _covered(piece: Piece, start: Floats, way: Floats, toward: Floats) -> tuple[Floats, Floats]:
    """Return for each edge the stretch (low, high) of its 0 to 1 that the piece hides; low >= high for none."""
    b = piece.box
    planes = [(-1.0, 0.0, 0.0, -b[0]), (0.0, -1.0, 0.0, -b[1]), (0.0, 0.0, -1.0, -b[2])]
    planes += [(1.0, 0.0, 0.0, b[3]), (0.0, 1.0, 0.0, b[4]), (0.0, 0.0, 1.0, b[5])]
    planes += list(piece.planes)
    low, high = np.zeros(len(start)), np.ones(len(start))
    lowers: list[tuple[Floats, Floats]] = [(np.full(len(start), SKIN), np.zeros(len(start)))]
    uppers: list[tuple[Floats, Floats]] = []
    for plane in planes:
        n = np.array(plane[:3])
        size = float(np.sqrt(n @ n))
        n = n / size
        c = plane[3] / size - SKIN
        along = float(n @ toward)
        f0, f1 = c - start @ n, -(way @ n)  # inside: along * t < f0 + f1 * s
        if abs(along) < 1e-9:
            low, high = _keep(low, high, f0, f1)
        elif along > 0:
            uppers.append((f0 / along, f1 / along))
        else:
            lowers.append((f0 / along, f1 / along))
    for a0, a1 in lowers:
        for b0, b1 in uppers:
            low, high = _keep(low, high, b0 - a0, b1 - a1)
    return low, high


def _keep(low: Floats, high: Floats, f0: Floats, f1: Floats) -> tuple[Floats, Floats]:
    """Narrow stretches to where f0 + f1·s > 0."""
    with np.errstate(divide="ignore", invalid="ignore"):
        root = -f0 / f1
    rising, falling = f1 > 1e-12, f1 < -1e-12
    low = np.where(rising, np.maximum(low, root), low)
    high = np.where(falling, np.minimum(high, root), high)
    return low, np.where(~rising & ~falling & (f0 <= 0), low - 1, high)


def _split(solid: int, edge: Segment, eye: Eye, spans: list[tuple[float, float]]) -> Seen:
    a, b = eye.flat(edge[0]), eye.flat(edge[1])
    if not spans:
        return Seen(solid, ((a, b),), ())
    long = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    least = 0.05 / long
    merged: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        low, high = max(0.0, low - least), min(1.0, high + least)
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))

    def part(low: float, high: float) -> tuple[XY, XY]:
        p = a if low == 0 else (a[0] + low * (b[0] - a[0]), a[1] + low * (b[1] - a[1]))
        q = b if high == 1 else (a[0] + high * (b[0] - a[0]), a[1] + high * (b[1] - a[1]))
        return (p, q)

    seen, at = [], 0.0
    for low, high in merged:
        if low - at > least:
            seen.append(part(at, low))
        at = high
    if 1 - at > least:
        seen.append(part(at, 1.0))
    return Seen(solid, tuple(seen), tuple(part(low, high) for low, high in merged))
