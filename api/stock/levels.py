"""Filling a large piece with rows of many parts: each row exactly as wide as the piece, its parts nearly equal high.

With hundreds of parts, placing them one by one leaves more waste than choosing whole rows. For a row of height h the
parts are taken by how little they are lower than h, and the widths that can be reached are kept as the bits of one
whole number; as soon as the full width is reached the row is read back from the bits.
"""

from __future__ import annotations

from collections.abc import Sequence

from casewright.api.stock.search import Bin, Space, Work
from casewright.api.stock.slicing import Node, leaf

Row = tuple[float, int, list[tuple[int, int, int, bool]]]  # waste share, height, (item, w, h, turned)
MAX_BITS = 30_000


def fill_levels(space: Space, b: Bin, pool: Sequence[int], work: Work, columns: bool, spread: float) -> list[int]:
    """Fill an empty bin with rows (or columns) from the pool; returns the parts not used.

    `spread` is how far under the row's height a part may be, as a share.
    """
    wide, high = (b.high, b.wide) if columns else (b.wide, b.high)
    options = space.options[b.size]
    shapes: dict[int, list[tuple[int, int, bool]]] = {}
    for i in pool:
        shapes[i] = [((o[1], o[0], o[2]) if columns else o) for o in options[i]]
    left = dict.fromkeys(pool)
    room = high
    rows: list[Row] = []
    while left:
        heights = sorted({o[1] for i in left for o in shapes[i] if o[1] <= room}, reverse=True)
        if not heights:
            break
        best: list[Row] = []
        best_rate = 1.0
        tall = heights[0]
        tries = (
            heights
            if len(heights) <= 24
            else heights[:8] + [heights[int(work.random.random() * len(heights))] for _ in range(16)]
        )
        for h in tries:
            row = _row(left, shapes, wide, h, spread, work)
            if row is None:
                continue
            last = room - row[1]
            found = [row]
            waste = row[0] * row[1]
            if last < tall * 2:
                used = {x[0] for x in row[2]}
                rest = {i: None for i in left if i not in used}
                second = _row(rest, shapes, wide, last, 1.0, work) if last > 0 else None
                if second is not None:
                    found.append(second)
                    waste += second[0] * second[1] + (last - second[1])
                else:
                    waste += last
                rate = waste / room
            else:
                rate = waste / row[1] - 0.02 * row[1] / tall
            if not best or rate < best_rate:
                best, best_rate = found, rate
        if not best:
            break
        for row in best:
            rows.append(row)
            room -= row[1]
            for item, _, _, _ in row[2]:
                del left[item]
    _build(b, rows, columns)
    return [i for i in pool if i in left]


def _row(
    left: dict[int, None], shapes: dict[int, list[tuple[int, int, bool]]], wide: int, h: int, spread: float, work: Work
) -> Row | None:
    """Give the least wasteful row of height at most h that comes as near the full width as it can."""
    near: list[tuple[int, int, int, int, bool]] = []
    low = h - int(h * spread)
    for i in left:
        for w, high, turned in shapes[i]:
            if low <= high <= h and w <= wide:
                near.append((h - high, -w, i, w, turned))
    if not near:
        return None
    near.sort()
    scale = -(-wide // MAX_BITS)
    top = wide // scale
    full = (1 << (top + 1)) - 1
    tolerance = max(0, top // 400)
    goal = full ^ ((1 << (top - tolerance)) - 1)
    reach = 1
    steps: list[tuple[int, tuple[int, int, int, int, bool]]] = []
    seen: set[int] = set()
    for entry in near:
        if entry[2] in seen:
            continue
        seen.add(entry[2])
        steps.append((reach, entry))
        reach |= (reach << -(-entry[3] // scale)) & full
        if reach & goal:
            break
    work.spend(len(steps))
    at = reach.bit_length() - 1
    chosen = []
    area = 0
    tallest = 0
    for before, (under, _, i, w, turned) in reversed(steps):
        if before >> at & 1:
            continue
        at -= -(-w // scale)
        chosen.append((i, w, h - under, turned))
        area += w * (h - under)
        tallest = max(tallest, h - under)
    if not chosen:
        return None
    return 1 - area / (wide * tallest), tallest, chosen


def _build(b: Bin, rows: Sequence[Row], columns: bool) -> None:
    """Put the rows into the bin as one tree."""
    along = 1 if columns else 0
    kids: list[Node] = []
    for _, _, row in rows:
        leaves = []
        for item, w, h, turned in row:
            new = leaf(h, w, item, turned) if columns else leaf(w, h, item, turned)
            leaves.append(new)
            b.items.append(item)
            b.free -= w * h
        kids.append(leaves[0] if len(leaves) == 1 else _node(along, leaves))
    if kids:
        b.root = kids[0] if len(kids) == 1 else _node(1 - along, kids)
    b.places = None


def _node(axis: int, kids: list[Node]) -> Node:
    new: Node = [axis, 0, 0, kids, None, -1]
    new[1 + axis] = sum(kid[1 + axis] for kid in kids)
    new[2 - axis] = max(kid[2 - axis] for kid in kids)
    for kid in kids:
        kid[4] = new
    return new
