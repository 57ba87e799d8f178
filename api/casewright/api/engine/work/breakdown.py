"""From stock to parts: trims, rips and crosscuts in the order of the cutting plan, or to plain sizes without one.

A piece on its way is named by what it will become. A full sheet is trimmed along one edge and one end when it comes
to the saw, `depth` off each and the blade in it. What a cut parts is `piece`; equal lines that follow each other are
one with their number. A board with rough edges has one straightened, and its taper off, before it is ripped. Rough
blanks are milled, left to rest, and cut to their final size after all else.
"""

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from casewright.api.engine.work.blanks import NO_BLANKS, of_blanks
from casewright.api.engine.work.clearing import clearing
from casewright.api.engine.work.late import LateCut, Sawn, last_cuts, late_cuts
from casewright.api.engine.work.machines import sawn_at
from casewright.api.engine.work.matching import Row, in_words, row_pieces, rows_of
from casewright.api.engine.work.milling import (
    SHORT,
    Milled,
    blanks_of,
    counted,
    is_under,
    labelled,
    milling,
    named_apart,
)
from casewright.api.engine.work.naming import joined, part_of, quoted, summed_up
from casewright.api.engine.work.panels import glued_up, panels_of, to_saw
from casewright.api.engine.work.pieces import names_of
from casewright.api.engine.work.plain_sizes import to_size
from casewright.api.engine.work.reach import better_saws, saws_of_cuts, sized_by_a_fence, within_reach
from casewright.api.engine.work.replay_records import Blank
from casewright.api.engine.work.trims import edge_cuts, first_after, trims_of
from casewright.api.engine.work.waiting import Waiting
from casewright.api.stock import SawCaution, Saws, begun_of, caution_texts, cautions_of
from casewright.sdk.model import Job, Part, SawCut, Stock, StockLayout, StockPlan
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece
from casewright.sdk.units import tape_text

__all__ = ["Breakdown", "breakdown_of"]

NO_STOCK_YET = "The stock listed does not yield these: do not begin before it is bought."
ON_A_BOARD = "Too short to lie safe under a track: fixed on a longer board, or planed by hand"

Made = tuple[StockLayout, SawCut]
Visits = Sequence[Sequence[Made]]
"""The cuts made at each setting of a saw, in working order."""
Halves = tuple[Sequence[Made], Sequence[Made]]
"""What of a visit is cut before boards are milled, and after."""


@dataclass(frozen=True, slots=True)
class Breakdown:
    """Operations that cut parts, unnumbered, in working order, and the numbers of the saw cuts that each makes.

    `late` are those that wait for a measurement on the work.
    """

    operations: tuple[Operation, ...]
    cuts: tuple[tuple[int, ...], ...]
    late: tuple[LateCut, ...] = ()

    @property
    def every(self) -> tuple[Sawn, ...]:
        """Every operation with its saw cuts, those that wait last."""
        return (*zip(self.operations, self.cuts, strict=True), *((one.operation, one.cuts) for one in self.late))


NOTHING_WAITS = Waiting()


def breakdown_of(
    job: Job,
    parts: Mapping[str, Part],
    plan: StockPlan | None,
    waiting: Waiting = NOTHING_WAITS,
    blanks: Mapping[str, Blank] = NO_BLANKS,
) -> Breakdown:
    """Return how parts are cut: those of the cutting plan from stock, all others to plain sizes.

    What is `waiting` for a measurement is cut late. `blanks` are parts' own that are at hand, by the parts' ids.
    """
    now, late = late_cuts(_broken_down(job, parts, plan, blanks), waiting)
    return Breakdown(tuple([operation for operation, _ in now]), tuple([cuts for _, cuts in now]), tuple(late))


def _broken_down(
    job: Job, parts: Mapping[str, Part], plan: StockPlan | None, blanks: Mapping[str, Blank]
) -> list[Sawn]:
    panels = panels_of(job, parts.values())
    wanted = {part.id: part for part in to_saw(job, tuple(parts.values()))}
    if plan is None or job.stock is None:
        return _plainly([*to_size(wanted.values(), job), *glued_up(job, panels, None)])
    sawn = _FromStock(job, job.stock, plan, parts).breakdown()
    cut = Counter(placed.part for layout in plan.layouts for placed in layout.placed)
    own = of_blanks(job, [part for part in wanted.values() if part.id in blanks], blanks)
    short = [replace(part, quantity=part.quantity - cut[part.id]) for part in wanted.values() if part.id not in blanks]
    missing = to_size((part for part in short if part.quantity), job)
    rest = [replace(operation, cautions=(*operation.cautions, NO_STOCK_YET)) for operation in missing]
    return [*sawn, *_plainly([*rest, *own, *last_cuts(job, plan, wanted), *glued_up(job, panels, job.stock)])]


def _split(visit: Sequence[Made], under: Collection[int], sheets_wait: bool) -> Halves:
    """Return what of a visit is cut before milling and after: cuts `under` blanks after, and sheets that wait."""
    late = [one[1].number in under or (sheets_wait and one[0].kind == "sheet") for one in visit]
    first = [one for one, after in zip(visit, late, strict=True) if not after]
    return first, [one for one, after in zip(visit, late, strict=True) if after]


def _in_turn(halves: Sequence[Halves]) -> tuple[Visits, Visits]:
    """Return the visits before milling and those after, without those at which nothing is cut."""
    return [first for first, _ in halves if first], [final for _, final in halves if final]


def _plainly(operations: Iterable[Operation]) -> list[Sawn]:
    """Return operations that make no saw cut of a layout."""
    return [(operation, ()) for operation in operations]


class _FromStock:
    """The layouts of one cutting plan with the names of their pieces, and what is trimmed and milled of them."""

    def __init__(self, job: Job, stock: Stock, plan: StockPlan, parts: Mapping[str, Part]) -> None:
        self.job, self.saws, self.keep = job, Saws.of(job.shop), job.shop.keep_offcut
        plan, self.rests = sized_by_a_fence(within_reach(plan, self.saws), self.saws)
        self.stock, self.plan, self.parts = stock, plan, parts
        full = {piece.id for piece in stock.sheets} if stock.edge_trim else set()
        self.trims = {layout.number: trims_of(layout) for layout in plan.layouts if layout.stock in full}
        self.opening = first_after(plan, self.trims)
        rough = {piece.id for piece in stock.boards if piece.surfaced != "all-sides"} if stock.mill_edge else set()
        taper = {piece.id: piece.taper for piece in stock.boards}
        depths = {one.number: stock.mill_edge + taper[one.stock] for one in plan.layouts if one.stock in rough}
        edges = {one.number: edge_cuts(one, depths[one.number]) for one in plan.layouts if one.stock in rough}
        self.edges = {cut.number: depths[number] for number, cuts in edges.items() for cut in cuts}
        sawn = {part.id: part for part in to_saw(job, tuple(parts.values()))}
        self.milled: Milled = blanks_of(plan, stock, sawn)
        self.better = better_saws(plan, stock, self.milled)
        self.saw_of = saws_of_cuts(plan, self.saws, self.better)
        self.saw_of.update(dict.fromkeys(self.edges, Machine.TRACK_SAW))
        rows = rows_of(job, tuple(parts.values()))
        self.rows = {(one.number, label): row for one in plan.layouts for label, row in row_pieces(one, rows).items()}
        kept = [(number, cut) for all_ in (self.trims, edges) for number, cuts in all_.items() for cut in cuts]
        same = {(number, cut.makes): cut.piece for number, cut in kept}
        self.names = named_apart(names_of(plan.layouts, self.milled, sawn, same), plan, stock, self.milled)

    def breakdown(self) -> list[Sawn]:
        """Return the operations that cut the layouts: each saw setting is one, or several in a row.

        There are several where a distance is used both along the stock and across it, or at two saws. A distance that
        serves both before milling and after it is set twice.
        """
        trimmed = {cut.number for cuts in self.trims.values() for cut in cuts}
        made = sorted(((layout, cut) for layout in self.plan.layouts for cut in layout.cuts), key=_turn)
        visits = [
            [one for one in visit if one[1].number not in trimmed]
            for _, visit in groupby(made, key=lambda one: one[1].setting)
        ]
        first, final = self._round_milling([visit for visit in visits if visit])
        begun = begun_of(self.stock, self.plan, self.keep)
        clear = _plainly(clearing(self.stock, begun, self.saws))
        mill = _plainly(milling(self.plan, self.stock, self.milled, self.names))
        return [*clear, *self._uncut(), *self._at_each(first), *mill, *self._at_each(final)]

    def _uncut(self) -> Iterator[Sawn]:
        """Yield the operation that marks stock which needs no cut as the part, or the blank, that it is."""
        whole = {f"{one.stock} {one.number}": self.names[one.number][one.tree.label] for one in self.plan.layouts}
        on = tuple([Workpiece(piece=piece, keeps=name) for piece, name in whole.items() if piece != name])
        if on:
            do = f"Mark {joined([quoted(one.piece) for one in on])}: of the size that is wanted as it comes"
            check = "its length and width"
            yield Operation(0, Stage.CUT, Machine.BY_HAND, Action.MARK, Setting(), on, do=do, check=check), ()

    def _round_milling(self, visits: Visits) -> tuple[Visits, Visits]:
        """Return what is cut before blanks are milled and after, so that the fewest settings are gone back to.

        Cuts of sheets wait for no blank: those of a first number of visits are made before milling, the others after.
        """
        if not self.milled:
            return visits, []
        made = [one for visit in visits for one in visit]
        under = {cut.number for layout, cut in made if is_under(self.milled, layout.number, cut.piece)}
        at_once, waiting = ([_split(visit, under, wait) for visit in visits] for wait in (False, True))
        splits = [_in_turn([*at_once[:before], *waiting[before:]]) for before in range(len(visits), -1, -1)]
        return min(splits, key=lambda split: len(_distances([*split[0], *split[1]])))

    def _at_each(self, visits: Visits) -> Iterator[Sawn]:
        """Yield the operations of each visit to a setting."""
        for visit in visits:
            for alike in _along_and_across(visit, self._done_with):
                yield from self._trim(alike)
                yield self._cut(alike)

    def _done_with(self, cut: SawCut) -> tuple[Machine, int]:
        """Return the saw that makes a cut, and how much it takes off an edge to make it straight; 0: it parts."""
        return self.saw_of[cut.number], self.edges.get(cut.number, 0)

    def _trim(self, cuts: Sequence[Made]) -> Iterator[Sawn]:
        """Yield the operation that trims the full sheets among those about to be cut for the first time."""
        coming = {layout.number: layout for layout, cut in cuts if cut.number == self.opening.get(layout.number)}
        if coming:
            setting = Setting(depth=self.stock.edge_trim, kerf=self.stock.kerf)
            sheets = [f"{layout.stock} {number}" for number, layout in coming.items()]
            on = tuple([Workpiece(piece=sheet, keeps=sheet) for sheet in sheets])
            numbers = tuple([cut.number for number in coming for cut in self.trims[number]])
            yield Operation(0, Stage.CUT, Machine.TRACK_SAW, Action.TRIM, setting, on), numbers

    def _cut(self, cuts: Sequence[Made]) -> Sawn:
        first = cuts[0][1]
        numbers = tuple([cut.number for _, cut in cuts])
        if first.number in self.edges:
            return self._edge(cuts), numbers
        rip, saw = first.along == "length", self.saw_of[first.number]
        operation = Operation(
            number=0,
            stage=Stage.CUT,
            machine=saw,
            action=Action.RIP if rip else Action.CROSSCUT,
            setting=sawn_at(saw, first.fence, first.kerf),
            on=tuple(counted([self._workpiece(layout, cut) for layout, cut in cuts])),
            cautions=(
                *dict.fromkeys(in_words(row) for layout, cut in cuts if (row := self._parted(layout, cut))),
                *dict.fromkeys(self._measured_first(layout, cut) for layout, cut in cuts if cut.number in self.rests),
                *caution_texts(
                    (caution, self._title(layout, cut, caution))
                    for layout, cut in cuts
                    for caution in cautions_of(layout, cut, saw, self.better.get(cut.number, ()))
                ),
            ),
        )
        return operation, numbers

    def _measured_first(self, layout: StockLayout, cut: SawCut) -> str:
        """Return that a sheet is measured before a cut whose rest is a part, and how large that must be."""
        piece = self.names[layout.number][cut.piece]
        rest = tape_text(self.rests[cut.number], self.job.units, self.job.tape)
        return f"What is left is used to its full size: measure {quoted(piece)} first, it must leave {rest}."

    def _parted(self, layout: StockLayout, cut: SawCut) -> Row | None:
        """Return the row that a cut is the first to part."""
        first = min(one.number for one in layout.cuts if one.piece == cut.piece)
        return self.rows.get((layout.number, cut.piece)) if cut.number == first else None

    def _edge(self, cuts: Sequence[Made]) -> Operation:
        """Return the operation that makes one edge of boards, or of lengths of them, straight."""
        pieces = [self.names[layout.number][cut.piece] for layout, cut in cuts]
        on = tuple(counted([Workpiece(piece=piece, keeps=piece) for piece in pieces]))
        short = [
            quoted(piece)
            for (layout, cut), piece in zip(cuts, pieces, strict=True)
            if labelled(layout.tree, cut.piece).dx < SHORT
        ]
        mind = (f"{ON_A_BOARD} ({', '.join(dict.fromkeys(short))}).",) if short else ()
        depth = self.edges[cuts[0][1].number]
        return Operation(0, Stage.MILL, Machine.TRACK_SAW, Action.EDGE, Setting(depth=depth), on, cautions=mind)

    def _workpiece(self, layout: StockLayout, cut: SawCut) -> Workpiece:
        names = self.names[layout.number]
        made, left = names[cut.makes], names.get(cut.leaves, "")
        keeps, leaves = (made, left) if cut.rides == "makes" else (left, made)
        return Workpiece(piece=names[cut.piece], keeps=keeps, leaves=leaves)

    def _title(self, layout: StockLayout, cut: SawCut, caution: SawCaution) -> str:
        """Return the piece that a caution is about in words: what a cut makes, or the whole sheet."""
        if caution is SawCaution.FIRST_CUT:
            return quoted(f"{layout.stock} {layout.number}")
        name = self.names[layout.number][cut.makes]
        part = part_of(name, self.parts)
        return quoted(name) if part is None else summed_up([part], Counter())


def _along_and_across(
    visit: Sequence[Made], done_with: Callable[[SawCut], tuple[Machine, int]]
) -> Iterator[list[Made]]:
    """Yield the cuts of a visit in as few lots as can be, each one way of the stock at one saw, none before its piece.

    Cuts that part one piece run the same way, so only what another lot makes, and a saw changed for, is waited for.
    """
    waiting = list(visit)
    while waiting:
        first = waiting[0][1]
        lot, late = list[Made](), list[Made]()
        for layout, cut in waiting:
            ready = all(cut.piece not in (other.piece, other.makes, other.leaves) for _, other in late)
            alike = (cut.along, cut.fence) == (first.along, first.fence)
            alike = alike and done_with(cut) == done_with(first)
            (lot if ready and alike else late).append((layout, cut))
        yield lot
        waiting = late


def _distances(visits: Visits) -> list[tuple[str, int]]:
    """Return what the saws are set to, visit by visit; two visits to one setting in a row are one."""
    return [setting for setting, _ in groupby((visit[0][1].tool, visit[0][1].fence) for visit in visits)]


def _turn(made: Made) -> tuple[int, int]:
    return made[1].setting, made[1].number
