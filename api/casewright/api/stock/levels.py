"""Filling a large piece with rows of many parts: each row exactly as wide as the piece, its parts nearly equal high.

With hundreds of parts, placing them one by one leaves more waste than choosing whole rows. For a row of height h,
parts and stacks of two parts are taken by how little of that height they leave empty, and the widths that can be
reached are kept as the bits of one whole number; as soon as the full width is reached the row is read back.

This module is compiled where a C compiler is at hand.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import TYPE_CHECKING, Final

from casewright.api.stock.search import Bin, Space, StepBudget
from casewright.api.stock.slicing import OVER, SIDE, Node, joined, leaf

if TYPE_CHECKING:
    from mypy_extensions import i64

MAX_BITS: Final = 30_000
HEIGHTS: Final = 24
"""Row heights tried for each row."""
TALLEST: Final = 8
"""Of these, the largest ones always."""
SLOT: Final = 8
"""Steps that a slot counts, and `BITS` of reach another for each slot of a row: as the time that they take."""
BITS: Final = 1_500


class Lie:
    """One way a part may lie: its size along and across the rows."""

    __slots__ = ("across", "along", "item", "turned")

    def __init__(self, item: int, along: i64, across: i64, turned: bool) -> None:
        self.item = item
        self.along: i64 = along
        self.across: i64 = across
        self.turned = turned


class Slot:
    """What stands side by side in a row: a part, or two one over another. `empty` is the mean height left over."""

    __slots__ = ("across", "along", "area", "empty", "first", "second")

    def __init__(self, height: i64, first: Lie, second: Lie | None) -> None:
        self.first = first
        self.second = second
        self.along: i64 = first.along
        self.across: i64 = first.across
        self.area = float(first.along) * float(first.across)
        if second is not None:
            self.along = max(first.along, second.along)
            self.across += second.across
            self.area += float(second.along) * float(second.across)
        self.empty = float(height) - self.area / float(self.along)


class Row:
    """Slots side by side, `across` high; `waste` is the empty share of the row."""

    __slots__ = ("across", "slots", "waste")

    def __init__(self, across: i64, slots: list[Slot], waste: float) -> None:
        self.across: i64 = across
        self.slots = slots
        self.waste = waste


class Pool:
    """The parts still to be laid in rows, by height across."""

    __slots__ = ("gone", "lies")

    def __init__(self, space: Space, b: Bin, items: list[int], columns: bool) -> None:
        lies: list[Lie] = []
        for i in items:
            ways = space.ways[b.size][i]
            lies.extend([Lie(i, w.h if columns else w.w, w.w if columns else w.h, w.turned) for w in ways])
        lies.sort(key=lambda x: (x.across, x.along, x.item))
        self.lies = lies
        self.gone: set[int] = set()

    def take(self, row: Row) -> None:
        """Take a row's parts out."""
        for slot in row.slots:
            self.gone.add(slot.first.item)
            if slot.second is not None:
                self.gone.add(slot.second.item)
        self.lies = [x for x in self.lies if x.item not in self.gone]

    def give_back(self, row: Row, lies: list[Lie]) -> None:
        """Undo `take`, `lies` being what was there before."""
        for slot in row.slots:
            self.gone.discard(slot.first.item)
            if slot.second is not None:
                self.gone.discard(slot.second.item)
        self.lies = lies


def fill_levels(
    space: Space, b: Bin, items: list[int], budget: StepBudget, columns: bool, spread: float, stacks: bool = False
) -> list[int]:
    """Fill what is free over a bin's rows (or beside its columns) with rows; returns the parts not used.

    `spread` is how far under the row's height a part may be, as a share; `stacks` allows two parts over one another.
    """
    wide: i64 = b.high if columns else b.wide
    room: i64 = b.wide if columns else b.high
    root = b.root
    if root is not None:
        room -= root.w if columns else root.h
    pool = Pool(space, b, items, columns)
    rows: list[Row] = []
    while pool.lies:
        found = _best(pool, wide, room, spread, stacks, budget)
        if not found:
            break
        for row in found:
            pool.take(row)
            rows.append(row)
            room -= row.across
    if rows:
        _build(b, rows, columns)
    return [i for i in items if i not in pool.gone]


def _heights(pool: Pool, room: i64, budget: StepBudget) -> list[int]:
    """Give the row heights to try, largest first."""
    found: list[int] = []
    last: i64 = -1
    for lie in reversed(pool.lies):
        if lie.across <= room and lie.across != last:
            last = lie.across
            found.append(last)
    if len(found) <= HEIGHTS:
        return found
    tries = found[:TALLEST]
    for _ in range(HEIGHTS - TALLEST):
        tries.append(found[budget.chance.below(len(found))])
    return tries


def _best(pool: Pool, wide: i64, room: i64, spread: float, stacks: bool, budget: StepBudget) -> list[Row]:
    """Give the row that wastes least for its height, with the one that fills the rest when it is the last but one."""
    heights = _heights(pool, room, budget)
    best: list[Row] = []
    best_rate = 1.0
    for h in heights:
        row = _row(pool, wide, h, spread, stacks, budget)
        if row is None:
            continue
        last = room - row.across
        found = [row]
        waste = row.waste * float(row.across)
        if last < heights[0] * 2:
            second: Row | None = None
            if last > 0:
                lies = pool.lies
                pool.take(row)
                second = _row(pool, wide, last, 1.0, stacks, budget)
                pool.give_back(row, lies)
            if second is None:
                waste += float(last)
            else:
                found.append(second)
                waste += second.waste * float(second.across) + float(last - second.across)
            rate = waste / float(room)
        else:
            rate = row.waste - 0.02 * float(row.across) / float(heights[0])
        if not best or rate < best_rate:
            best, best_rate = found, rate
    return best


def _slots(pool: Pool, wide: i64, h: i64, low: i64, stacks: bool, budget: StepBudget) -> list[Slot]:
    """Give the slots a row of height h may be made of, those that leave least empty first, each part once."""
    lies = pool.lies
    heights = [x.across for x in lies]
    near: list[tuple[float, int, int, Slot]] = []
    for k in range(bisect_left(heights, low), bisect_right(heights, h)):
        lie = lies[k]
        if lie.along <= wide:
            near.append((float(h - lie.across), -lie.along, lie.item, Slot(h, lie, None)))
    looks = len(near)
    if stacks:
        most = float(h - low)
        for k in range(bisect_left(heights, low // 2), bisect_left(heights, low)):
            lie = lies[k]
            if lie.along > wide:
                continue
            start = bisect_left(heights, low - lie.across)
            stop = min(k, bisect_right(heights, h - lie.across))
            best: Slot | None = None
            for j in range(start, stop):
                other = lies[j]
                looks += 1
                if other.item == lie.item or other.along > wide:
                    continue
                if float(max(other.along, lie.along) - min(other.along, lie.along)) * float(
                    other.across
                ) > most * float(lie.along):
                    continue
                slot = Slot(h, lie, other)
                if best is None or slot.empty < best.empty:
                    best = slot
            if best is not None and best.empty <= most:
                near.append((best.empty, -best.along, lie.item, best))
    budget.spend(looks + SLOT * len(near))
    near.sort(key=lambda x: (x[0], x[1], x[2]))
    seen: set[int] = set()
    out: list[Slot] = []
    for _, _, _, slot in near:
        second = slot.second
        if slot.first.item in seen or (second is not None and second.item in seen):
            continue
        seen.add(slot.first.item)
        if second is not None:
            seen.add(second.item)
        out.append(slot)
    return out


def _row(pool: Pool, wide: i64, h: i64, spread: float, stacks: bool, budget: StepBudget) -> Row | None:
    """Give the least wasteful row of height at most h that comes as near the full width as it can."""
    slots = _slots(pool, wide, h, h - int(float(h) * spread), stacks, budget)
    if not slots:
        return None
    scale: int = -(-wide // MAX_BITS)
    top: int = wide // scale
    full = (1 << (top + 1)) - 1
    goal = full ^ ((1 << (top - max(0, top // 400))) - 1)
    reach = 1
    steps: list[int] = []
    for slot in slots:
        steps.append(reach)
        along: int = slot.along
        reach |= (reach << -(-along // scale)) & full
        if reach & goal:
            break
    budget.spend(len(steps) * (1 + top // BITS))
    at: int = reach.bit_length() - 1
    chosen: list[Slot] = []
    area = 0.0
    tallest: i64 = 0
    for k in range(len(steps) - 1, -1, -1):
        if steps[k] >> at & 1:
            continue
        slot = slots[k]
        along = slot.along
        at -= -(-along // scale)
        chosen.append(slot)
        area += slot.area
        tallest = max(tallest, slot.across)
    if not chosen:
        return None
    return Row(tallest, chosen, 1.0 - area / (float(wide) * float(tallest)))


def _leaf(b: Bin, lie: Lie, columns: bool) -> Node:
    b.items.append(lie.item)
    b.free -= float(lie.along) * float(lie.across)
    return (
        leaf(lie.across, lie.along, lie.item, lie.turned)
        if columns
        else leaf(lie.along, lie.across, lie.item, lie.turned)
    )


def _build(b: Bin, rows: list[Row], columns: bool) -> None:
    """Put the rows into the bin's tree."""
    along, across = (OVER, SIDE) if columns else (SIDE, OVER)
    kids: list[Node] = []
    for row in rows:
        stands: list[Node] = []
        for slot in row.slots:
            node = _leaf(b, slot.first, columns)
            if slot.second is not None:
                node = joined(across, [node, _leaf(b, slot.second, columns)])
            stands.append(node)
        kids.append(stands[0] if len(stands) == 1 else joined(along, stands))
    kids = [grandkid for kid in kids for grandkid in (kid.kids if kid.axis == across else [kid])]
    root = b.root
    if root is not None:
        kids = (list(root.kids) if root.axis == across else [root]) + kids
    b.root = kids[0] if len(kids) == 1 else joined(across, kids)
    b.places = None
