"""Hidden lines against rays cast toward the eye."""

from casewright.api.papers.drawing.hidden import ISOMETRIC, sight
from casewright.api.papers.drawing.solids import solid
from casewright.sdk.model import Plan


def test_hidden_lines_agree_with_rays(bay: Plan) -> None:
    """Each sampled point of an edge is hidden just where a ray from it toward the eye goes through wood."""
    solids = [solid(part) for part in bay.parts if part.role in ("side", "top", "shelf", "frame-stile", "cleat")]
    toward = ISOMETRIC.toward
    order = iter(sight(solids, ISOMETRIC))
    tried = 0
    for i, one in enumerate(solids):
        for edge in one.edges:
            a, b = ISOMETRIC.flat(edge[0]), ISOMETRIC.flat(edge[1])
            if abs(a[0] - b[0]) + abs(a[1] - b[1]) <= 1e-6:
                continue
            found = next(order)
            assert found.solid == i
            long = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
            for share in (0.071, 0.137, 0.311, 0.503, 0.713, 0.871):
                point = tuple(p + share * (q - p) for p, q in zip(edge[0], edge[1], strict=True))
                margin, inside = _through(point, toward, solids)
                if margin < 0.3:
                    continue
                flat = ISOMETRIC.flat(point)  # type: ignore[arg-type]
                near = any(abs(_share(flat, p, q) - 0.5) <= 0.5 + 0.2 / long for p, q in found.seen)
                assert near != inside, (one.part.id, point)
                tried += 1
    assert tried > 300


def _share(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    return ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)


def _through(point: tuple[float, ...], toward: tuple[float, ...], solids: list[object]) -> tuple[float, bool]:
    """Return how clear the answer is (mm) and whether a ray meets wood: slab by slab, piece by piece."""
    least, hit = 1e9, False
    for one in solids:
        for piece in one.pieces:  # type: ignore[attr-defined]
            low, high = 0.05, 1e9
            for k in range(3):
                t0, t1 = (piece.box[k] - point[k]) / toward[k], (piece.box[k + 3] - point[k]) / toward[k]
                low, high = max(low, min(t0, t1)), min(high, max(t0, t1))
            for nx, ny, nz, c in piece.planes:
                along = nx * toward[0] + ny * toward[1] + nz * toward[2]
                left = c - nx * point[0] - ny * point[1] - nz * point[2]
                if abs(along) < 1e-12:
                    low, high = (low, high) if left > 0 else (low, low - abs(left))
                    continue
                low, high = (low, min(high, left / along)) if along > 0 else (max(low, left / along), high)
            least = min(least, abs(high - low))
            hit = hit or high > low
    return least, hit
