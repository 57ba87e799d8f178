"""Rough blanks of board parts made flat, straight and of their thickness, before they are cut to their final size.

A blank of a rough board is the part with the job's milling allowances on its length and width. Half of what is over in
thickness is taken off the first face, or all that the board is cupped and twisted by, and the rest by the planer; half
of what is over in width, once the kerf of the final rip is off it, is taken off the first edge (common practice, no
source). A board with planed faces is planed to its thickness, where it is thicker, and made flat first where it is
crooked.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import groupby

from casewright.api.engine.work.naming import OVER_SIZE, left_over_size, summed_up, totals
from casewright.api.stock import is_milled
from casewright.sdk.model import CutPiece, Part, Stock, StockLayout, StockPlan
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece
from casewright.sdk.units import INCH

__all__ = ["SHORT", "Milled", "blanks_of", "counted", "is_under", "labelled", "milling", "named_apart"]

OVERNIGHT = 12 * 60
"""Minutes that milled pieces rest before they are cut to size (common practice, no source)."""
SHORT = 12 * INCH
"""A piece shorter than this goes by itself over no jointer, through no planer and under no track (common practice, no
source)."""
ON_A_CARRIER = "Too short for the machine by itself: fixed on a longer carrier board, or planed by hand"
Milled = Mapping[tuple[int, str], Part]
"""The part that each blank becomes, by the number of its layout and its label in it."""


def blanks_of(plan: StockPlan, stock: Stock, parts: Mapping[str, Part]) -> Milled:
    """Return the blanks that are milled: all of boards that are thicker than the part or left over size."""
    return {
        (layout.number, label): part
        for layout in plan.layouts
        if layout.kind == "board"
        for label, part in _blanks(layout, layout.tree, sum(size > 0 for size in _over(stock, layout.material)), parts)
    }


def _over(stock: Stock, material: str) -> tuple[int, int]:
    """Return what parts of a material carry in length and width until they are milled."""
    return (stock.mill_length, stock.mill_width) if is_milled(material, stock.pieces) else (0, 0)


def _blanks(layout: StockLayout, piece: CutPiece, final: int, parts: Mapping[str, Part]) -> Iterator[tuple[str, Part]]:
    """Yield the label of each piece that is one part but for so many final cuts, or is to be planed."""
    inner = piece
    for _ in range(final):
        inner = inner.inside[0] if inner.inside else inner
    if inner.what == "part":
        if final or layout.thickness > parts[inner.part].thickness:
            yield piece.label, parts[inner.part]
        return
    for inside in piece.inside:
        yield from _blanks(layout, inside, final, parts)


def named_apart(
    names: Mapping[int, Mapping[str, str]], plan: StockPlan, stock: Stock, milled: Milled
) -> dict[int, Mapping[str, str]]:
    """Return names in which blanks of one part say which stock they are of where that is milled in several ways."""
    of = {layout.number: layout for layout in plan.layouts}
    boards = {piece.id: piece for piece in stock.boards}
    ways: dict[str, set[tuple[int, bool, int]]] = {}
    for (number, _), part in milled.items():
        board = boards[of[number].stock]
        ways.setdefault(part.id, set()).add((of[number].thickness, board.rough, board.crooked))
    out = dict(names)
    for number, part in {(number, part.id): (number, part) for (number, _), part in milled.items()}.values():
        if len(ways[part.id]) > 1:
            alike, own = f"{part.id}, {OVER_SIZE}", f"{part.id}, of {of[number].stock}, {OVER_SIZE}"
            out[number] = {label: own if name == alike else name for label, name in out[number].items()}
    return out


def is_under(milled: Milled, layout: int, label: str) -> bool:
    """Return whether a piece is a milled blank or comes of one."""
    ends = [i for i, sign in enumerate(label) if sign == "."]
    return any((layout, part) in milled for part in (label, *(label[:i] for i in ends)))


def milling(plan: StockPlan, stock: Stock, milled: Milled, names: Mapping[int, Mapping[str, str]]) -> list[Operation]:
    """Return the operations that mill blanks, unnumbered: face, edge, thickness, each setting once, and rest."""
    layouts = {layout.number: layout for layout in plan.layouts}
    rough = {piece.id for piece in stock.boards if piece.rough}
    crooked = {piece.id: piece.crooked for piece in stock.boards}
    edge = max(0, stock.mill_width - stock.kerf) // 2
    faced, edged, planed = [], [], []
    short: dict[str, Part] = {}
    for (number, label), part in milled.items():
        layout, name = layouts[number], names[number][label]
        last = name if any(_over(stock, layout.material)) else left_over_size(labelled(layout.tree, label), part)
        if labelled(layout.tree, label).dx < SHORT:
            short |= {name: part, last: part}
        over = layout.thickness - part.thickness
        off = max(over // 2 if layout.stock in rough else 0, crooked[layout.stock])
        if over > 0 and off:
            faced.append((off, Workpiece(piece=name, keeps=name)))
        if over > 0:
            planed.append((part.thickness, Workpiece(piece=name, keeps=last)))
        if edge and layout.stock in rough:
            edged.append((edge, Workpiece(piece=name, keeps=name)))
    resting = tuple(counted([Workpiece(piece=one.keeps, keeps=one.keeps) for _, one in (planed or edged)]))
    rest = _operation(Machine.BY_HAND, Action.WAIT, Setting(), resting)
    milled_by = [
        *(_operation(Machine.JOINTER, Action.FACE, Setting(depth=nm), on) for nm, on in _by_setting(faced)),
        *(_operation(Machine.JOINTER, Action.EDGE, Setting(depth=nm), on) for nm, on in _by_setting(edged)),
        *(_operation(Machine.PLANER, Action.THICKNESS, Setting(height=nm), on) for nm, on in _by_setting(planed)),
    ]
    return [*(_on_a_carrier(one, short) for one in milled_by), *([replace(rest, minutes=OVERNIGHT)] if resting else [])]


def _on_a_carrier(operation: Operation, short: Mapping[str, Part]) -> Operation:
    """Return an operation with a caution for the blanks in it that are too short to be fed by themselves.

    `short` are the parts that such blanks become, by what a blank is called before and after it is milled.
    """
    there = {piece.keeps for piece in operation.on}
    parts = list({part.id: part for name, part in short.items() if name in there}.values())
    if not parts:
        return operation
    return replace(operation, cautions=(*operation.cautions, f"{ON_A_CARRIER} ({summed_up(parts, totals(parts))})."))


def labelled(piece: CutPiece, label: str) -> CutPiece:
    """Return the piece of a label, which begins with those of the pieces that it lies in."""
    while piece.label != label:
        piece = next(one for one in piece.inside if one.label == label or label.startswith(f"{one.label}."))
    return piece


def _by_setting(pieces: list[tuple[int, Workpiece]]) -> Iterator[tuple[int, tuple[Workpiece, ...]]]:
    """Yield each setting with what is done at it, from the largest down."""
    for nm in sorted({nm for nm, _ in pieces}, reverse=True):
        yield nm, tuple(counted([one for at, one in pieces if at == nm]))


def counted(pieces: Iterable[Workpiece]) -> list[Workpiece]:
    """Return pieces with equal ones that follow each other as one line with their number."""
    lots = [list(alike) for _, alike in groupby(pieces)]
    return [lot[0] if len(lot) == 1 else replace(lot[0], count=sum(one.count for one in lot)) for lot in lots]


def _operation(machine: Machine, action: Action, setting: Setting, on: tuple[Workpiece, ...]) -> Operation:
    return Operation(0, Stage.MILL, machine, action, setting, on)
