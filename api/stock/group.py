"""One material at one thickness: the packing problem in reduced units, solved, and given back as blocks to saw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

from casewright.api.stock.bounds import lower_bound
from casewright.api.stock.choose import pack
from casewright.api.stock.forest import Block, leftovers_of, parted, shape_key, sheet_blocks, trimmed
from casewright.api.stock.model import Board, Demand, Grain, ShopLimits, StockPiece
from casewright.api.stock.search import SCORERS, Bin, Option, Space, Work, new_bin, orders, place

UNLIMITED = 10**9


@dataclass(frozen=True, slots=True)
class Source:
    """A size of stock as the packer sees it: its full size, its usable size, and what stands behind it."""

    row: StockPiece | Board
    room: tuple[int, int]
    trim: int
    grain: Grain

    @property
    def area(self) -> int:
        return self.row.length * self.row.width


@dataclass(slots=True)
class Sheet:
    """One used piece of stock with the ways found to cut the same parts from it."""

    source: Source
    items: list[int]
    ways: list[Block]
    keeps: list[int]


@dataclass(slots=True)
class GroupResult:
    """The sheets of one group, the parts (indices into `parts`) with no place, and the bound on the price."""

    parts: list[Demand]
    sheets: list[Sheet]
    absent: list[int]
    bound: int
    how: str
    measure: str
    used: int
    steps: int


def turn_options(demand: Demand, grain: Grain) -> tuple[bool, ...]:
    """The ways (turned or not) a part may lie: its grain must run with the stock's unless either is free."""
    if demand.grain == "free" or grain == "free":
        return (False,) if demand.length == demand.width else (False, True)
    return (demand.grain != grain,)


def _blank(demand: Demand, limits: ShopLimits) -> tuple[int, int]:
    """The size a part is cut to first: finished, or with its milling allowance."""
    if demand.kind == "board":
        return demand.length + limits.mill_length, demand.width + limits.mill_width
    return demand.length, demand.width


def _space(parts: Sequence[Demand], sources: Sequence[Source], limits: ShopLimits, strips: bool) -> tuple[Space, int]:
    """The packing problem and the size of its unit in nm."""
    kerf = limits.kerf
    unit = 0
    blanks = [_blank(d, limits) for d in parts]
    for length, width in set(blanks):
        unit = gcd(unit, gcd(length + kerf, width + kerf))
    unit = max(unit, 1)
    sizes = [((s.room[0] + kerf) // unit, (s.room[1] + kerf) // unit) for s in sources]
    options: list[list[tuple[Option, ...]]] = []
    for source, (wide, high) in zip(sources, sizes, strict=True):
        known: dict[tuple[int, int, str], tuple[Option, ...]] = {}
        row = []
        for demand, (length, width) in zip(parts, blanks, strict=True):
            key = (length, width, demand.grain)
            if key not in known:
                a, b = (length + kerf) // unit, (width + kerf) // unit
                ways = [((b, a, True) if t else (a, b, False)) for t in turn_options(demand, source.grain)]
                known[key] = tuple(o for o in ways if o[0] <= wide and o[1] <= high)
            row.append(known[key])
        options.append(row)
    area = [((a + kerf) // unit) * ((b + kerf) // unit) for a, b in blanks]
    copies = [UNLIMITED if s.row.copies is None else s.row.copies for s in sources]
    return Space(sizes, copies, _prices(sources), options, area, strips), unit


def _prices(sources: Sequence[Source]) -> list[int]:
    """Prices in one whole number: what is bought first, then area of whole sheets on hand, then area of offcuts."""
    costs = [_cost(s, sources) for s in sources]
    areas = [max(1, s.area // 10**10) for s in sources]
    top = 1 + sum(a * min(s.row.copies or 50, 50) for a, s in zip(areas, sources, strict=True))
    prices = []
    for cost, area, source in zip(costs, areas, sources, strict=True):
        offcut = isinstance(source.row, StockPiece) and source.row.offcut
        prices.append(cost * top * 10 + (area if offcut else area * 10))
    return prices


def measured_by_area(sources: Sequence[Source]) -> bool:
    """Whether what is bought counts by area: some size that can be bought has no cost."""
    return any(s.row.copies is None and s.row.cost is None for s in sources)


def _cost(source: Source, sources: Sequence[Source]) -> int:
    """What one piece counts as bought: its cost, or its area in mm² when some size has none; 0 when on hand."""
    if source.row.copies is None and measured_by_area(sources):
        return max(1, source.area // 10**12)
    return source.row.cost or 0


def solve_group(
    parts: list[Demand], sources: list[Source], limits: ShopLimits, effort: int, strips: bool
) -> GroupResult:
    """Pack one group. Parts that lie on no source in any way are absent from the start."""
    space, unit = _space(parts, sources, limits, strips)
    fit = [i for i in range(len(parts)) if any(row[i] for row in space.options)]
    never = sorted(set(range(len(parts))) - set(fit))
    by_area = measured_by_area(sources)
    if not fit:
        return GroupResult(parts, [], never, 0, "no part fits", "area" if by_area else "cost", 0, 0)
    sub = Space(
        space.sizes,
        space.copies,
        space.price,
        [[row[i] for i in fit] for row in space.options],
        [space.area[i] for i in fit],
        strips,
    )
    packing = pack(sub, effort)
    bound = _bought_bound(sub, sources, effort)
    work = Work(limit=40_000 * effort)
    sheets = []
    alike: dict[tuple[object, ...], list[Block]] = {}
    for b in packing.bins:
        key = (b.size, tuple(sorted((sub.options[b.size][i], i) for i in b.items)))
        source = sources[b.size]
        ways = alike.get(key)
        if ways is None:
            ways = [_rename(w, fit) for w in _ways(sub, b, source, unit, limits, work, parts, fit)]
        keeps = [_keep_area(w, limits) for w in ways]
        sheets.append(Sheet(source, [fit[i] for i in b.items], ways, keeps))
    used = sum(_cost(s.source, sources) for s in sheets)
    absent = never + [fit[i] for i in packing.absent]
    value = min(bound[0], used) if not absent else 0
    return GroupResult(
        parts, sheets, sorted(absent), value, bound[1], "area" if by_area else "cost", used, packing.steps
    )


def _bought_bound(sub: Space, sources: Sequence[Source], effort: int) -> tuple[int, str]:
    """The proved least of what must be bought (on-hand pieces without cost count nothing)."""
    costs = [_cost(s, sources) for s in sources]
    if not any(costs):
        return 0, "nothing need be bought"
    return lower_bound(Space(sub.sizes, sub.copies, costs, sub.options, sub.area), effort)


def _rename(block: Block, names: Sequence[int]) -> Block:
    """Item numbers of the packing turned into part numbers of the group (in place)."""
    if block.item >= 0:
        block.item = names[block.item]
    for kid in block.kids:
        _rename(kid, names)
    return block


def _ways(
    space: Space,
    b: Bin,
    source: Source,
    unit: int,
    limits: ShopLimits,
    work: Work,
    parts: Sequence[Demand],
    fit: Sequence[int],
) -> list[Block]:
    """Different ways to cut the same parts from the same piece, the packer's own first."""
    found: list[Block] = []
    seen: set[tuple[object, ...]] = set()
    roots = [b.root]
    subset = set(b.items)
    start = work.steps
    share = max(2_000, work.left // 20)
    for order in orders(space) if len(b.items) > 1 else []:
        mine = [i for i in order if i in subset]
        for scorer in SCORERS:
            if work.steps - start > share or work.left <= 0:
                break
            other = new_bin(space, b.size)
            if not place(space, [other], mine, work, 0.0, scorer):
                roots.append(other.root)
    room = source.room
    for root in roots:
        if root is None:
            continue
        blocks = (
            [_board_block(root, room, unit, limits, parts, fit)]
            if space.strips
            else sheet_blocks(root, room[0], room[1], unit, limits.kerf)
        )
        for block in blocks:
            key = shape_key(block)
            if key in seen:
                continue
            seen.add(key)
            if space.strips:
                found.append(_board_edge(block, source, limits.kerf))
            elif source.trim:
                found += [trimmed(block, source.trim, limits.kerf, first) for first in (0, 1)]
            else:
                found.append(block)
            if len(found) >= 12:
                return found
    return found


def _board_edge(block: Block, source: Source, kerf: int) -> Block:
    if source.trim <= 0:
        return block
    return Block(block.dx, block.dy + source.trim, axis=1, kids=[block], rest=max(0, source.trim - kerf))


def _board_block(
    root: list[object],
    room: tuple[int, int],
    unit: int,
    limits: ShopLimits,
    parts: Sequence[Demand],
    fit: Sequence[int],
) -> Block:
    """Rip strips, cross-cut them to blanks, and trim each blank to its finished size."""
    strips = root[3] if root[0] == 1 else [root]
    kerf = limits.kerf
    assert isinstance(strips, list)
    ripped = []
    for strip in strips:
        kids = strip[3] if strip[0] == 0 else [strip]
        width = strip[2] * unit - kerf
        blanks = [_finish(kid, kid[1] * unit - kerf, width, limits, parts[fit[kid[5]]]) for kid in kids]
        over = room[0] - sum(blank.dx for blank in blanks) - kerf * (len(blanks) - 1)
        if len(blanks) == 1 and over == 0:
            ripped.append(blanks[0])
        else:
            ripped.append(parted(room[0], width, 0, blanks, kerf))
    if len(ripped) == 1 and ripped[0].dy == room[1]:
        return ripped[0]
    return parted(room[0], room[1], 1, ripped, kerf)


def _finish(kid: list[int], dx: int, dy: int, limits: ShopLimits, demand: Demand) -> Block:
    """A blank with its milling allowance taken off by a last rip and a last cross-cut."""
    block = Block(demand.length, demand.width, item=kid[5])
    if limits.mill_length:
        block = Block(dx, demand.width, axis=0, kids=[block], rest=max(0, limits.mill_length - limits.kerf))
    if limits.mill_width:
        block = Block(dx, dy, axis=1, kids=[block], rest=max(0, limits.mill_width - limits.kerf))
    return block


def _keep_area(block: Block, limits: ShopLimits) -> int:
    """Area of the leftovers worth keeping, the largest counted twice."""
    kept = [a * b for a, b in leftovers_of(block, []) if worth_keeping(a, b, limits)]
    return sum(kept) + max(kept, default=0)


def worth_keeping(a: int, b: int, limits: ShopLimits) -> bool:
    """Whether a leftover reaches the size the shop keeps."""
    least = sorted(limits.keep_offcut)
    have = sorted((a, b))
    return have[0] >= least[0] and have[1] >= least[1]
