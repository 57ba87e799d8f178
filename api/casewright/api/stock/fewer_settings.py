"""Choosing among equally good layouts: the same pieces of stock, fewer returns, then fewer settings.

A move lays the parts of one or two pieces out again (rows, columns or free, in some order), or keeps the layout and
parts it by other cuts, or changes which leftover comes off first. It is kept when the settings list gets no worse and
the leftovers worth keeping do not fall under four fifths of what they were. The number of moves is counted.

How good a list could be is judged without making it: setting a comes before setting b when a piece cut at a is cut
again at b. Each setting is visited once exactly when these arrows make no ring (an arrow from a setting to itself is
done in one visit), so the settings left after peeling off all that have no arrow in, or none out, are counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.stock.forest import Block, Keeper, never
from casewright.api.stock.group import GroupResult, keep_area
from casewright.api.stock.moves import Mover
from casewright.api.stock.regroup import regrouped
from casewright.api.stock.saw_settings import EVERY, saws_of
from casewright.api.stock.saws import SAW_TOOLS, StraightCut
from casewright.api.stock.search import COLUMNS, FREE, ROWS, SCORERS, Bin, StepBudget, new_bin, place
from casewright.api.stock.slicing import PART, Node
from casewright.sdk.model.stock import SawTool

Score = tuple[int, int, int, int, int]
Name = tuple[SawTool, int, int, int]
"""A setting: what measures, how far, and for a track which piece it is laid on of which piece of stock."""


@dataclass(slots=True)
class SawnPiece:
    """One piece of stock as it is to be sawn: its group, its bin, its tree, and the block chosen."""

    group: int
    bin: Bin
    root: Node
    block: Block
    keep: int
    arrows: frozenset[tuple[int, int]] = frozenset()
    used: frozenset[int] = frozenset()
    across: int = 0
    """Cuts of a sheet that are shorter than the piece is across: it does not ride a fence for them."""


def rings(arrows: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """Give the arrows on a ring, or between two rings; none means an order without returns exists."""
    left = {arrow for arrow in arrows if arrow[0] != arrow[1]}
    while left:
        core = {a for a, _ in left} & {b for _, b in left}
        kept = {(a, b) for a, b in left if a in core and b in core}
        if len(kept) == len(left):
            return left
        left = kept
    return left


def first_choice(results: Sequence[GroupResult]) -> list[SawnPiece]:
    """Give the packer's own trees, each sawn so that most is left worth keeping."""
    choices = []
    for at, result in enumerate(results):
        for b in result.bins:
            assert b.root is not None
            ways = result.ways(b, b.root)
            keeps = [keep_area(way, result.limits) for way in ways]
            best = max(range(len(ways)), key=lambda i, keeps=keeps: (keeps[i], -i))  # type: ignore[misc]
            choices.append(SawnPiece(at, b, b.root, ways[best], keeps[best]))
    return choices


class Improver:
    """Looks for a layout of the same stock with a better settings list."""

    def __init__(self, results: Sequence[GroupResult], sawn: list[SawnPiece], turn: int = 0) -> None:
        self.results = results
        self.sawn = sawn
        self.budget = StepBudget(10**9, seed=20_240_229 + turn)
        self.movers = [Mover(result.space, [], [], self.budget) for result in results]
        self.names: dict[Name, int] = {}
        self.known: dict[tuple[int, int, int, int], SawTool] = {}
        for at, s in enumerate(sawn):
            self.mark(s, at)
        self.least_keep = sum(s.keep for s in sawn) * 4 // 5
        self.ring: set[tuple[int, int]] = set()
        self.best = self.score(sawn)
        self.trouble: list[int] = []
        self.find_trouble()

    def mark(self, s: SawnPiece, at: int) -> None:
        """Note the settings that the piece at a place needs and which comes before which."""
        board = self.results[s.group].space.strips
        arrows: set[tuple[int, int]] = set()
        used: set[int] = set()
        short = pieces = 0

        def walk(block: Block, before: int) -> None:
            nonlocal short, pieces
            pieces += 1
            place = (at, pieces)
            run, across = block.size(1 - block.axis), block.size(block.axis)
            for kid in block.kids:
                size = kid.size(block.axis)
                tool = self.tool(s.group, run, across, size)
                short += run < across and not board
                name = (tool, size, *(place if tool == "track" else (EVERY, EVERY)))
                number = self.names.setdefault(name, len(self.names))
                used.add(number)
                if before >= 0:
                    arrows.add((before, number))
                if kid.kids:
                    walk(kid, number)

        walk(s.block, -1)
        s.arrows = frozenset(arrows)
        s.used = frozenset(used)
        s.across = short

    def tool(self, group: int, run: int, across: int, size: int) -> SawTool:
        """Give what measures a cut `run` long at `size` of a piece that is so large `across`."""
        key = (group, run, across, size)
        if key not in self.known:
            saw = saws_of(self.results[group].limits).machine(StraightCut(run, across, size))
            self.known[key] = SAW_TOOLS[saw]
        return self.known[key]

    def score(self, sawn: Sequence[SawnPiece]) -> Score:
        """Give settings on rings, settings, cuts that ride no fence, and kept leftover (less is better) of a choice."""
        arrows = set().union(*[s.arrows for s in sawn])
        used = set().union(*[s.used for s in sawn])
        self.ring = rings(arrows)
        settings = {a for a, _ in self.ring}
        keep = sum(s.keep for s in sawn)
        return len(settings), len(self.ring), len(used), sum(s.across for s in sawn), -keep

    def run(self, trials: int) -> list[SawnPiece]:
        """Try so many moves and give the best choice met."""
        tried = 0
        misses = 0
        while tried < (trials if self.best[0] else trials // 4) and misses < 4 * trials:
            moved = self.move()
            if moved is None:
                misses += 1
                continue
            tried += 1
            after = list(self.sawn)
            for at, new in moved:
                after[at] = new
            if sum(s.keep for s in after) < self.least_keep:
                continue
            score = self.score(after)
            if score <= self.best:
                self.sawn, self.best = after, score
                self.find_trouble()
        return self.sawn

    def find_trouble(self) -> None:
        """Give the pieces that have an arrow on a ring."""
        self.trouble = [i for i, s in enumerate(self.sawn) if s.arrows & self.ring]

    def move(self) -> list[tuple[int, SawnPiece]] | None:
        """Give a changed piece or two, or None when the parts could not be laid out again."""
        chance = self.budget.chance.random
        among = self.trouble if self.trouble and chance() < 0.7 else range(len(self.sawn))
        at = among[int(chance() * len(among))]
        now = self.sawn[at]
        result = self.results[now.group]
        chosen = [at]
        kind = chance()
        if kind < 0.3:
            root = regrouped(now.root, int(chance() * 2)) if kind < 0.2 and not result.space.strips else now.root
            return [(at, self.saw(now.group, now.bin, root, at))]
        others = [i for i, s in enumerate(self.sawn) if s.group == now.group and i != at]
        if others and kind < 0.65:
            chosen.append(others[int(chance() * len(others))])
        form = FREE if result.space.strips else (FREE, ROWS, COLUMNS)[int(chance() * 3)]
        pool: list[int] = []
        bins = []
        partly = chance() < 0.4
        for i in chosen:
            b = self.sawn[i].bin
            if partly and form == FREE:
                out = self.movers[now.group].pick(b)
                pool += sorted(out)
                bins.append(b.without(out, result.space))
            else:
                pool += b.items
                bins.append(new_bin(result.space, b.size))
        self.order(result, pool)
        scorer = SCORERS[int(chance() * 4)]
        left = pool
        if chance() < 0.5:
            left = place(result.space, bins, left, self.budget, 0.02, scorer, form)
        else:
            for b in bins:
                left = place(result.space, [b], left, self.budget, 0.02, scorer, form)
        if left or any(b.root is None for b in bins):
            return None
        pairs = zip(chosen, bins, strict=True)
        return [(i, self.saw(now.group, b, b.root, i)) for i, b in pairs if b.root is not None]

    def saw(self, group: int, b: Bin, root: Node, at: int) -> SawnPiece:
        """One of the ways to saw a tree on the piece at a place."""
        ways = self.results[group].ways(b, root, self.keeper())
        way = ways[int(self.budget.chance.random() * len(ways))]
        new = SawnPiece(group, b, root, way, keep_area(way, self.results[group].limits))
        self.mark(new, at)
        return new

    def keeper(self) -> Keeper:
        """At times, and by chance, which kid of a node keeps the rest beside it."""
        chance = self.budget.chance.random
        share = (0.0, 0.0, 0.3, 0.7)[int(chance() * 4)]
        if not share:
            return never

        def keeps(node: Node) -> tuple[int, bool]:
            if chance() >= share:
                return -1, False
            return (0 if node.axis == PART else int(chance() * len(node.kids))), chance() < 0.3

        return keeps

    def order(self, result: GroupResult, pool: list[int]) -> None:
        """Large first by one of the sizes, equal parts together, with a little noise between kinds."""
        chance = self.budget.chance.random
        options = result.space.options[0]
        for row in result.space.options[1:]:
            options = [a or b for a, b in zip(options, row, strict=True)]
        kind = int(chance() * 4)
        noise = (0.0, 0.2, 0.6)[int(chance() * 3)]
        keys: dict[tuple[tuple[int, int, bool], ...], float] = {}
        for i in pool:
            if options[i] not in keys:
                w, h, _ = options[i][0]
                size = (w, h, max(w, h), (w * h) ** 0.5)[kind]
                keys[options[i]] = -size * (1 + noise * (chance() - 0.5))
        pool.sort(key=lambda i: (keys[options[i]], options[i], i))
