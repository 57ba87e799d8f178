"""An independent checker of cutting plans: it knows rectangles, a kerf and a saw, and nothing of the planner's inside.

`edge_to_edge` proves from the placed rectangles alone that straight edge-to-edge cuts part them. `replay` works through
the cuts as a saw would. `check_plan` does both and counts parts, stock and settings.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import groupby

from casewright.api.stock import StockRequest
from casewright.sdk.model import SawCut, StockLayout, StockPlan

Rect = tuple[int, int, int, int]  # x, y, dx, dy


def edge_to_edge(rects: Sequence[Rect], kerf: int) -> bool:
    """Whether straight cuts right across can part all rectangles, each cut losing one kerf.

    Any cut that goes through no rectangle may be made first without loss, so trying cuts greedily decides it.
    """
    todo = [list(rects)]
    while todo:
        group = todo.pop()
        if len(group) < 2:
            continue
        for axis in (0, 1):
            ordered = sorted(group, key=lambda r: r[axis])
            split = None
            reach = ordered[0][axis] + ordered[0][axis + 2]
            for i, rect in enumerate(ordered[1:], 1):
                if rect[axis] - reach >= kerf:
                    split = i
                    break
                reach = max(reach, rect[axis] + rect[axis + 2])
            if split is not None:
                todo += [ordered[:split], ordered[split:]]
                break
        else:
            return False
    return True


def overlap_free(rects: Sequence[Rect], length: int, width: int) -> bool:
    """Whether all rectangles lie inside the stock and apart (sweep along x)."""
    live: list[Rect] = []
    for rect in sorted(rects):
        x, y, dx, dy = rect
        if x < 0 or y < 0 or x + dx > length or y + dy > width:
            return False
        live = [r for r in live if r[0] + r[2] > x]
        if any(y < r[1] + r[3] and r[1] < y + dy for r in live):
            return False
        live.append(rect)
    return True


def replay(plan: StockPlan, sizes: dict[str, tuple[int, int]], kerf: int) -> None:
    """Work through the cuts like a saw: every cut on a piece that exists, parts exact, nothing else consumed."""
    bench: dict[str, tuple[int, int]] = {}
    for layout in plan.layouts:
        assert str(layout.number) == layout.tree.label
        bench[layout.tree.label] = (layout.length, layout.width)
    lost = 0
    whole = sum(x * y for x, y in bench.values())
    done: list[int] = []
    sized: dict[tuple[str, int, str], set[int]] = {}
    part_at = {label: demand for layout in plan.layouts for label, demand in parts_of(layout)}
    lies = {piece: size for layout in plan.layouts for piece, size in lying(layout)}
    for cuts in settings_of(plan):
        for cut in cuts:
            assert cut.fence == cuts[0].fence, "the fence stands elsewhere"
            assert cut.tool == cuts[0].tool
            assert cut.kerf == kerf
            assert cut.piece in bench, f"cut {cut.number} on {cut.piece}, which does not exist"
            dx, dy = bench.pop(cut.piece)
            along = dx if cut.along == "width" else dy
            assert 0 < cut.fence < along, f"cut {cut.number} misses its piece"
            assert along == cut.across
            assert cut.run == (dy if cut.along == "width" else dx)
            other = along - cut.fence - cut.kerf
            got, rest = (cut.fence, other) if cut.rides == "makes" else (other, cut.fence)
            assert got > 0
            assert cut.makes not in bench
            bench[cut.makes] = (got, dy) if cut.along == "width" else (dx, got)
            if rest > 0:
                assert cut.leaves, f"cut {cut.number} forgets {rest} nm"
                assert cut.leaves not in bench
                bench[cut.leaves] = (rest, dy) if cut.along == "width" else (dx, rest)
            else:
                assert not cut.leaves
            lost += (along - got - max(rest, 0)) * cut.run
            done.append(cut.number)
            if cut.makes in part_at and cut.rides == "makes" and cut.tool != "track":
                sized.setdefault((part_at[cut.makes], cut.fence, cut.tool), set()).add(cut.setting)
    assert done == list(range(1, len(done) + 1)), "cuts are not numbered in working order, each once"
    assert whole == lost + sum(x * y for x, y in bench.values()), "wood came from or went nowhere"
    made: Counter[str] = Counter()
    rests = {(left.piece, left.length, left.width) for left in plan.leftovers}
    for label, (dx, dy) in bench.items():
        if label in part_at:
            made[part_at[label]] += 1
            length, width = sizes[part_at[label]]
            turned = lies[label]
            assert (dx, dy) == ((width, length) if turned else (length, width)), f"part {label} is {dx} x {dy}"
        else:
            assert (label, dx, dy) in rests, f"{label} is neither part nor leftover"
    wanted = Counter(p.part for layout in plan.layouts for p in layout.placed)
    assert made == wanted
    if plan.returns.count == 0:
        assert all(len(at) == 1 for at in sized.values()), "equal parts were cut at two settings"


def parts_of(layout: StockLayout) -> Iterable[tuple[str, str]]:
    """Label and id of every part in a layout's tree."""
    todo = [layout.tree]
    while todo:
        piece = todo.pop()
        if piece.what == "part":
            yield piece.label, piece.part
        todo += piece.inside


def lying(layout: StockLayout) -> Iterable[tuple[str, bool]]:
    """Label of every part in a layout's tree, and whether the part that stands there lies turned."""
    todo = [layout.tree]
    turned = {(p.part, p.x, p.y, p.dx, p.dy): p.turned for p in layout.placed}
    while todo:
        piece = todo.pop()
        if piece.what == "part":
            yield piece.label, turned[piece.part, piece.x, piece.y, piece.dx, piece.dy]
        todo += piece.inside


def settings_of(plan: StockPlan) -> list[list[SawCut]]:
    """Return the cuts in working order, those of each visit to a setting together."""
    cuts = sorted((cut for layout in plan.layouts for cut in layout.cuts), key=lambda cut: cut.number)
    return [list(visit) for _, visit in groupby(cuts, key=lambda cut: cut.setting)]


def count_returns(plan: StockPlan) -> int:
    """How often the cuts go back to a distance they left; a track is laid for each cut."""
    seen = [(cuts[0].tool, cuts[0].fence) for cuts in settings_of(plan) if cuts[0].tool != "track"]
    return len(seen) - len(set(seen))


def check_plan(plan: StockPlan, request: StockRequest) -> None:
    """Everything a plan claims about cutting, checked without the planner."""
    limits = request.limits
    by_id = {d.id: d for d in request.demands}
    rows = {piece.id: piece for piece in request.pieces}
    placed: Counter[str] = Counter()
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        row = rows[layout.stock]
        used[row.id] += 1
        assert (layout.length, layout.width) == (row.length, row.width)
        trim = limits.edge_trim if row.kind == "sheet" else 0
        rects = [(p.x, p.y, p.dx, p.dy) for p in layout.placed]
        assert rects, "stock is used for nothing"
        assert overlap_free(rects, row.length - trim, row.width - trim)
        assert edge_to_edge(rects, limits.kerf)
        for p in layout.placed:
            d = by_id[p.part]
            placed[p.part] += 1
            assert d.material == row.material
            assert (p.dx, p.dy) == ((d.width, d.length) if p.turned else (d.length, d.width))
            if d.grain != "free" and row.grain != "free":
                assert p.turned == (d.grain != row.grain)
            if row.kind == "board":
                assert d.thickness + limits.mill_thickness <= row.thickness
            else:
                assert d.thickness == row.thickness
    for name, count in used.items():
        copies = rows[name].copies
        assert copies is None or count <= copies
    short = Counter({s.part: s.quantity for s in plan.short})
    assert placed + short == Counter({d.id: d.quantity for d in request.demands if d.quantity})
    replay(plan, {d.id: (d.length, d.width) for d in request.demands}, limits.kerf)
    assert count_returns(plan) == plan.returns.count
    assert plan.returns.bound <= plan.returns.count
    for bound in plan.bounds:
        assert bound.least <= bound.bought
