"""One material at one thickness: the packing problem in reduced units, solved, and given back as blocks to saw."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import gcd
from typing import Literal

from casewright.api.stock.bounds import lower_bound
from casewright.api.stock.choose import Effort, pack
from casewright.api.stock.forest import (
    Block,
    Keeper,
    Sawing,
    in_sequence,
    leftovers_of,
    never,
    parted,
    sheet_blocks,
    trimmed,
)
from casewright.api.stock.request import Demand, ShopLimits, worth_keeping
from casewright.api.stock.rip_first import ripped_first
from casewright.api.stock.search import Bin, Option, Space
from casewright.api.stock.slicing import Node
from casewright.api.stock.sources import Source, bought_of, cost_of, measured_by_area, prices_of
from casewright.sdk.model import CutKind, GrainRule

UNLIMITED = 10**9


def grouped(demands: Iterable[Demand]) -> list[list[Demand]]:
    """Give the parts of each way of cutting, material and thickness, in the order of these, one entry a piece."""
    groups: dict[tuple[CutKind, str, int], list[Demand]] = {}
    for one in demands:
        if one.quantity > 0:
            groups.setdefault((one.kind, one.material, one.thickness), []).extend([one] * one.quantity)
    return [parts for _, parts in sorted(groups.items())]


@dataclass(slots=True)
class GroupResult:
    """One group packed: bins in reduced units, the parts (indices into `parts`) with no place, and the bound.

    `fit[k]` is the part that item k of the packing stands for; `used` is what is bought, by `measure`.
    """

    parts: list[Demand]
    sources: list[Source]
    limits: ShopLimits
    space: Space
    unit: int
    fit: list[int]
    bins: list[Bin]
    absent: list[int]
    bound: int
    how: str
    measure: Literal["cost", "area"]
    used: int
    steps: int

    @property
    def kind(self) -> CutKind:
        """Give how the group is cut."""
        return self.parts[0].kind

    @property
    def pieces(self) -> list[Demand]:
        """Give what the items of blocks number: the parts, then those of each row, one row after another."""
        return [*self.parts, *[one for part in self.parts for one in part.row]]

    def ways(self, b: Bin, root: Node, keeper: Keeper = never) -> list[Block]:
        """Give the blocks a tree can be sawn as: what is taken off first, and which edge is trimmed first."""
        source = self.sources[b.size]
        kerf = self.limits.kerf
        if self.space.strips:
            if source.across:
                return [self._crosscut_first(root, source)]
            return [_board_edge(self._board_block(root, source.room), source, kerf)]
        blocks = sheet_blocks(root, *source.room, Sawing(self.unit, kerf, keeper))
        blocks = [ripped_first(block, kerf, self._keeps) for block in blocks]
        for block in blocks:
            _rename(block, self.fit)
        blocks = [self._apart(block) for block in blocks]
        if not source.trim:
            return blocks
        return [trimmed(block, source.trim, kerf, first) for block in blocks for first in (0, 1)]

    def _keeps(self, block: Block) -> int:
        return keep_area(block, self.limits)

    def _board_block(self, root: Node, room: tuple[int, int]) -> Block:
        """Rip strips, crosscut them to blanks, and trim each blank to its finished size."""
        strips = root.kids if root.axis == 1 else [root]
        kerf = self.limits.kerf
        ripped = []
        for strip in strips:
            kids = strip.kids if strip.axis == 0 else [strip]
            width = strip.h * self.unit - kerf
            blanks = [self._finish(kid, kid.w * self.unit - kerf, width) for kid in kids]
            over = room[0] - sum(blank.dx for blank in blanks) - kerf * (len(blanks) - 1)
            if len(blanks) == 1 and over == 0:
                ripped.append(blanks[0])
            else:
                ripped.append(parted(room[0], width, 0, blanks, kerf))
        if len(ripped) == 1 and ripped[0].dy == room[1]:
            return ripped[0]
        return parted(room[0], room[1], 1, ripped, kerf)

    def _crosscut_first(self, root: Node, source: Source) -> Block:
        """Crosscut a board to lengths, make one edge of each straight, rip blanks and trim each to its finished size.

        The tree lies across the board: its rows are the lengths.
        """
        kerf, (long, wide) = self.limits.kerf, source.room
        lengths = []
        for row in root.kids if root.axis == 1 else [root]:
            length = row.h * self.unit - kerf
            kids = row.kids if row.axis == 0 else [row]
            blanks = [self._finish(kid, length, kid.w * self.unit - kerf) for kid in kids]
            ripped = blanks[0] if len(blanks) == 1 and blanks[0].dy == wide else parted(length, wide, 1, blanks, kerf)
            lengths.append(_board_edge(ripped, source, kerf))
        if len(lengths) == 1 and lengths[0].dx == long:
            return lengths[0]
        return parted(long, wide + source.trim, 0, lengths, kerf)

    def _finish(self, kid: Node, dx: int, dy: int) -> Block:
        """Give a blank, or the blanks of a row one after another, each as wide as the row at first."""
        item = self.fit[kid.item]
        row = self.parts[item].row
        if not row:
            return self._to_size(item, kid.turned)
        kerf = self.limits.kerf
        blanks = [self._to_size(one, kid.turned) for one in range(self._first_of(item), self._first_of(item + 1))]
        wide = [blank if blank.dy == dy else parted(blank.dx, dy, 1, [blank], kerf) for blank in blanks]
        return in_sequence(wide, dx, dy, 0, kerf)

    def _to_size(self, item: int, turned: bool) -> Block:
        """Give a blank with its milling allowance taken off by a last rip and a last crosscut."""
        limits = self.limits
        part = self.pieces[item]
        along, across = lying(part, turned)
        dx, dy = _blank(part, turned, limits)
        block = Block(along, across, item=item, turned=turned)
        if limits.mill_length:
            block = Block(dx, across, axis=0, kids=[block], rest=max(0, limits.mill_length - limits.kerf), milled=True)
        if limits.mill_width:
            block = Block(dx, dy, axis=1, kids=[block], rest=max(0, limits.mill_width - limits.kerf), milled=True)
        return block

    def _first_of(self, item: int) -> int:
        """Give the number of the first part of a row."""
        return len(self.parts) + sum(len(part.row) for part in self.parts[:item])

    def _apart(self, block: Block) -> Block:
        """Give a block of sheet with each row in it cut apart (in place but for itself)."""
        block.kids = [self._apart(kid) for kid in block.kids]
        if block.item < 0 or not self.parts[block.item].row:
            return block
        whole, turned = self.parts[block.item], block.turned
        pieces = [
            Block(*lying(part, turned), item=item, turned=turned)
            for item, part in enumerate(whole.row, start=self._first_of(block.item))
        ]
        return in_sequence(pieces, block.dx, block.dy, int(whole.along == turned), self.limits.kerf)


def turn_options(demand: Demand, grain: GrainRule) -> tuple[bool, ...]:
    """Give the ways (turned or not) a part may lie: its grain must run with the stock's unless either is free."""
    if demand.grain == "free" or grain == "free":
        return (False,) if demand.length == demand.width else (False, True)
    return (demand.grain != grain,)


def lying(demand: Demand, turned: bool) -> tuple[int, int]:
    """Give a part's finished size along and across its stock."""
    return (demand.width, demand.length) if turned else (demand.length, demand.width)


def _blank(demand: Demand, turned: bool, limits: ShopLimits) -> tuple[int, int]:
    """Give the size along and across its stock that a part is cut to first: finished, or with what milling takes."""
    along, across = lying(demand, turned)
    if demand.kind == "board":
        return along + limits.mill_length * len(demand.pieces), across + limits.mill_width
    return along, across


def _shape(demand: Demand) -> tuple[int, int, str, bool, int]:
    """Give all that says how a part may lie on a piece of stock, and how large it is cut."""
    return demand.length, demand.width, demand.grain, demand.seen, len(demand.pieces)


def space_of(parts: Sequence[Demand], sources: Sequence[Source], limits: ShopLimits) -> tuple[Space, int, int]:
    """Give the packing problem, the size of its unit in nm, and how much of its price one unit bought is."""
    kerf = limits.kerf
    grains = {source.piece.grain for source in sources}
    lies = {_shape(d): {t for g in grains for t in turn_options(d, g)} for d in parts}
    blanks = [[_blank(d, t, limits) for t in lies[_shape(d)]] for d in parts]
    unit = max(1, gcd(*[size + kerf for ways in blanks for blank in ways for size in blank]))
    sizes = [((a + kerf) // unit, (b + kerf) // unit) for a, b in [_across(s, *s.room) for s in sources]]
    options: list[list[tuple[Option, ...]]] = []
    for source, (wide, high) in zip(sources, sizes, strict=True):
        known: dict[tuple[int, int, str, bool, int], tuple[Option, ...]] = {}
        row = []
        for demand in parts:
            key = _shape(demand)
            if key not in known:
                ways = []
                for turned in turn_options(demand, source.piece.grain):
                    along, across = _across(source, *_blank(demand, turned, limits))
                    ways.append(((along + kerf) // unit, (across + kerf) // unit, turned))
                if demand.seen and source.piece.grade == "hidden":
                    ways = []
                known[key] = tuple(o for o in ways if o[0] <= wide and o[1] <= high)
            row.append(known[key])
        options.append(row)
    area = [min([(a + kerf) // unit * ((b + kerf) // unit) for a, b in ways], default=0) for ways in blanks]
    copies = [UNLIMITED if s.piece.copies is None else s.piece.copies for s in sources]
    prices, share = prices_of(sources)
    # stock narrower than a unit yields nothing: as good as none, but of some size
    copies = [many if min(size) > 0 else 0 for many, size in zip(copies, sizes, strict=True)]
    sizes = [(max(1, wide), max(1, high)) for wide, high in sizes]
    return Space(sizes, copies, prices, options, area, parts[0].kind == "board"), unit, share


def lying_somewhere(space: Space) -> list[int]:
    """Give the parts, by their places, that lie on some source in some way."""
    return [i for i in range(len(space.area)) if any(row[i] for row in space.options)]


def _across(source: Source, along: int, across: int) -> tuple[int, int]:
    """Give sizes along and across a piece of stock as the packer takes them: it rips first."""
    return (across, along) if source.across else (along, across)


def solve_group(parts: list[Demand], sources: list[Source], limits: ShopLimits, effort: Effort) -> GroupResult:
    """Pack one group. Parts that lie on no source in any way are absent from the start."""
    space, unit, share = space_of(parts, sources, limits)
    fit = lying_somewhere(space)
    never = sorted(set(range(len(parts))) - set(fit))
    measure: Literal["cost", "area"] = "area" if measured_by_area(sources) else "cost"
    sub = Space(
        space.sizes,
        space.copies,
        space.price,
        [[row[i] for i in fit] for row in space.options],
        [space.area[i] for i in fit],
        space.strips,
    )
    if not fit:
        return GroupResult(
            parts, sources, limits, sub, unit, fit, [], never, 0, "no part fits the stock", measure, 0, 0
        )
    bound, how = _bought_bound(sub, sources, effort.level)
    packing = pack(sub, effort, bound, share)
    used = bought_of([sources[b.size] for b in packing.bins], sources)
    absent = sorted(never + [fit[i] for i in packing.absent])
    if absent:
        bound, how = 0, "not every part is cut"
    least, bins, steps = min(bound, used), packing.bins, packing.steps
    return GroupResult(parts, sources, limits, sub, unit, fit, bins, absent, least, how, measure, used, steps)


def _bought_bound(sub: Space, sources: Sequence[Source], effort: int) -> tuple[int, str]:
    """Give the proved least of what must be bought (on-hand pieces without cost count nothing)."""
    costs = [cost_of(s, sources) for s in sources]
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


def _board_edge(block: Block, source: Source, kerf: int) -> Block:
    if source.trim <= 0:
        return block
    return Block(block.dx, block.dy + source.trim, axis=1, kids=[block], rest=max(0, source.trim - kerf))


def keep_area(block: Block, limits: ShopLimits) -> int:
    """Area of the leftovers worth keeping, the largest counted twice."""
    kept = [a * b for a, b in leftovers_of(block, []) if worth_keeping(a, b, limits.keep_offcut)]
    return sum(kept) + max(kept, default=0)
