"""Parts as convex pieces and edges, for drawing: the blank less its square cuts and its bevels.

Round holes are left out here; views draw them as circles. Everything is float mm, for pictures only.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

import numpy as np
from casewright.sdk.geometry import Box, Place, Wedge
from casewright.sdk.model import Part
from numpy.typing import NDArray

Floats = NDArray[np.float64]
XYZ = tuple[float, float, float]
Segment = tuple[XYZ, XYZ]
Plane = tuple[float, float, float, float]
"""n · p <= c holds inside: (nx, ny, nz, c)."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A convex piece of a part: a box (x0, y0, z0, x1, y1, z1 in mm), less what lies beyond its planes."""

    box: tuple[float, float, float, float, float, float]
    planes: tuple[Plane, ...] = ()


@dataclass(frozen=True, slots=True)
class Solid:
    """A part to be drawn, in the cabinet frame: its pieces, its real edges, and which part it is."""

    part: Part
    pieces: tuple[Piece, ...]
    edges: tuple[Segment, ...]

    def moved(self, by: XYZ) -> "Solid":
        """Return the solid moved by mm."""
        dx, dy, dz = by
        pieces = []
        for piece in self.pieces:
            b = piece.box
            box = (b[0] + dx, b[1] + dy, b[2] + dz, b[3] + dx, b[4] + dy, b[5] + dz)
            planes = tuple((n[0], n[1], n[2], n[3] + n[0] * dx + n[1] * dy + n[2] * dz) for n in piece.planes)
            pieces.append(Piece(box, planes))
        edges = tuple((_moved(a, by), _moved(b, by)) for a, b in self.edges)
        return Solid(self.part, tuple(pieces), edges)


def _moved(p: XYZ, by: XYZ) -> XYZ:
    return (p[0] + by[0], p[1] + by[1], p[2] + by[2])


def solid(part: Part, place: Place | None = None) -> Solid:
    """Return a part as it stands at `place` (its own place in the cabinet, where none is given)."""
    place = part.place if place is None else place
    blank = place.box(part.blank)
    waste = [place.box(box) for feature in part.features for box in feature.boxes]
    wedges = [place.wedge(wedge) for feature in part.features for wedge in feature.wedges]
    waste = [box.cut(blank) for box in waste if box.meets(blank)]
    grid, axes = _grid(blank, waste)
    slants = [(wedge, _plane(wedge)) for wedge in wedges if wedge.box.meets(blank)]
    pieces = [_piece(box, slants) for box in _boxes(grid, axes)]
    pieces += [Piece(_floats(place.box(band.box))) for band in part.bands]
    edges = _edges(grid, axes)
    for band in part.bands:
        edges += _box_edges(_floats(place.box(band.box)))
    for wedge, plane in slants:
        edges = [kept for edge in edges for kept in _outside(edge, plane, wedge)]
    for wedge, _ in slants:
        new = _wedge_edges(wedge)
        for other, plane in slants:
            if other is not wedge:
                new = [kept for edge in new for kept in _outside(edge, plane, other)]
        edges += new
    return Solid(part, tuple(pieces), tuple(edges))


def _floats(box: Box) -> tuple[float, float, float, float, float, float]:
    return (box.x0 / 1e6, box.y0 / 1e6, box.z0 / 1e6, box.x1 / 1e6, box.y1 / 1e6, box.z1 / 1e6)


def _grid(blank: Box, waste: Sequence[Box]) -> tuple[NDArray[np.bool_], list[list[int]]]:
    """Return which cells of the part are wood, and the cell bounds along each axis in nm."""
    axes = []
    for i in range(3):
        cuts = {blank[i], blank[i + 3]}
        for box in waste:
            cuts |= {box[i], box[i + 3]}
        axes.append(sorted(cuts))
    grid = np.ones([len(a) - 1 for a in axes], dtype=bool)
    index = [{value: i for i, value in enumerate(a)} for a in axes]
    for b in waste:
        grid[index[0][b.x0] : index[0][b.x1], index[1][b.y0] : index[1][b.y1], index[2][b.z0] : index[2][b.z1]] = False
    return grid, axes


def _boxes(grid: NDArray[np.bool_], axes: list[list[int]]) -> list[Box]:
    """Return boxes that together fill the wood. They overlap, so that no line of sight slips between two of them."""
    left = grid.copy()
    boxes: dict[Box, None] = {}
    while True:
        cells = np.argwhere(left)
        if not len(cells):
            return list(boxes)
        seed = (int(cells[0][0]), int(cells[0][1]), int(cells[0][2]))
        for order in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
            low, high = _grown(grid, seed, order)
            left[low[0] : high[0], low[1] : high[1], low[2] : high[2]] = False
            a = [axes[i][low[i]] for i in range(3)]
            b = [axes[i][high[i]] for i in range(3)]
            boxes[Box(a[0], a[1], a[2], b[0], b[1], b[2])] = None


def _grown(
    grid: NDArray[np.bool_], seed: tuple[int, int, int], order: tuple[int, int, int]
) -> tuple[list[int], list[int]]:
    """Return the box of wood cells round a seed, grown both ways along each axis in turn."""
    low, high = list(seed), [n + 1 for n in seed]

    def wood(axis: int, at: int) -> bool:
        span = [slice(a, b) for a, b in zip(low, high, strict=True)]
        span[axis] = slice(at, at + 1)
        return bool(grid[tuple(span)].all())

    for axis in order:
        while high[axis] < grid.shape[axis] and wood(axis, high[axis]):
            high[axis] += 1
        while low[axis] > 0 and wood(axis, low[axis] - 1):
            low[axis] -= 1
    return low, high


def _edges(grid: NDArray[np.bool_], axes: list[list[int]]) -> list[Segment]:
    """Return the edges of the wood: grid lines where one, three, or two opposite of the four cells are wood."""
    out: list[Segment] = []
    for axis in range(3):
        turned = np.moveaxis(grid, axis, 0)
        padded = np.pad(turned, ((0, 0), (1, 1), (1, 1)))
        a, b = padded[:, :-1, :-1], padded[:, 1:, :-1]
        c, d = padded[:, :-1, 1:], padded[:, 1:, 1:]
        count = a.astype(np.int8) + b + c + d
        real = (count == 1) | (count == 3) | ((count == 2) & (a == d))
        others = [i for i in range(3) if i != axis]
        for j, k in np.argwhere(real.any(axis=0)):
            line = real[:, j, k]
            start = None
            for i in range(len(line) + 1):
                on = i < len(line) and bool(line[i])
                if on and start is None:
                    start = i
                elif not on and start is not None:
                    low, high = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
                    low[axis], high[axis] = axes[axis][start] / 1e6, axes[axis][i] / 1e6
                    low[others[0]] = high[others[0]] = axes[others[0]][j] / 1e6
                    low[others[1]] = high[others[1]] = axes[others[1]][k] / 1e6
                    out.append(((low[0], low[1], low[2]), (high[0], high[1], high[2])))
                    start = None
    return out


def _box_edges(b: tuple[float, float, float, float, float, float]) -> list[Segment]:
    out: list[Segment] = []
    for axis in range(3):
        u, v = [i for i in range(3) if i != axis]
        for pu in (b[u], b[u + 3]):
            for pv in (b[v], b[v + 3]):
                low = [0.0, 0.0, 0.0]
                low[u], low[v] = pu, pv
                high = list(low)
                low[axis], high[axis] = b[axis], b[axis + 3]
                out.append(((low[0], low[1], low[2]), (high[0], high[1], high[2])))
    return out


def _sides(wedge: Wedge) -> tuple[int, int, float, float, float, float]:
    """Return a wedge's two cross axes, its right angle's corner there, and the far ends of its two legs, mm."""
    (u, su), (v, sv) = [(abs(a) - 1, a > 0) for a in wedge.corner]
    b = _floats(wedge.box)
    cu, fu = (b[u + 3], b[u]) if su else (b[u], b[u + 3])
    cv, fv = (b[v + 3], b[v]) if sv else (b[v], b[v + 3])
    return u, v, cu, cv, fu, fv


def _plane(wedge: Wedge) -> Plane:
    """Return the half space of the wood that a wedge of waste leaves."""
    u, v, cu, cv, fu, fv = _sides(wedge)
    normal = [0.0, 0.0, 0.0]
    normal[u], normal[v] = 1 / (cu - fu), 1 / (cv - fv)
    c = normal[u] * fu + normal[v] * cv
    return (normal[0], normal[1], normal[2], c)


def _piece(box: Box, slants: Sequence[tuple[Wedge, Plane]]) -> Piece:
    planes = tuple(plane for wedge, plane in slants if wedge.box.meets(box))
    return Piece(_floats(box), planes)


def _outside(edge: Segment, plane: Plane, wedge: Wedge) -> list[Segment]:
    """Return what a wedge leaves of an edge."""
    b = _floats(wedge.box)
    t0, t1 = 0.0, 1.0
    p, q = edge
    slack = 1e-6
    for i in range(3):
        d = q[i] - p[i]
        low, high = b[i] - slack, b[i + 3] + slack
        if abs(d) < 1e-12:
            if not low <= p[i] <= high:
                return [edge]
            continue
        a0, a1 = sorted(((low - p[i]) / d, (high - p[i]) / d))
        t0, t1 = max(t0, a0), min(t1, a1)
    f0 = fsum(plane[i] * p[i] for i in range(3)) - plane[3]
    f1 = fsum(plane[i] * q[i] for i in range(3)) - plane[3]
    if abs(f1 - f0) < 1e-12:
        if f0 <= 1e-9:
            return [edge]
    else:
        cross = -f0 / (f1 - f0)
        if f1 > f0:
            t0 = max(t0, cross)
        else:
            t1 = min(t1, cross)
    if t1 - t0 < 1e-9:
        return [edge]

    def at(t: float) -> XYZ:
        return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2]))

    out = []
    if t0 > 1e-6:
        out.append((p, at(t0)))
    if t1 < 1 - 1e-6:
        out.append((at(t1), q))
    return out


def _wedge_edges(wedge: Wedge) -> list[Segment]:
    """Return the four edges of the slanting face a wedge leaves."""
    u, v, cu, cv, fu, fv = _sides(wedge)
    w = abs(wedge.along) - 1
    b = _floats(wedge.box)

    def at(pu: float, pv: float, pw: float) -> XYZ:
        point = [0.0, 0.0, 0.0]
        point[u], point[v], point[w] = pu, pv, pw
        return (point[0], point[1], point[2])

    low, high = b[w], b[w + 3]
    return [
        (at(fu, cv, low), at(fu, cv, high)),
        (at(cu, fv, low), at(cu, fv, high)),
        (at(fu, cv, low), at(cu, fv, low)),
        (at(fu, cv, high), at(cu, fv, high)),
    ]
