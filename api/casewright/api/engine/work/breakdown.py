"""From stock to parts: rip and cross-cut operations in the order of the cutting plan, or to plain sizes without one.

A piece on its way is named by what it will become. Boards with something left on for milling are cut rough, milled,
left to rest, and cut to their final size.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby

from casewright.sdk.model import CutPiece, MachineSetting, Part, SawCut, StockLayout, StockPlan
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece

__all__ = ["from_stock", "to_size"]

SAWS: Mapping[str, Machine] = {
    "fence": Machine.TABLE_SAW,
    "stop": Machine.CROSSCUT_SLED,
    "track": Machine.TRACK_SAW,
}
NAMED = 3
"""Parts that the name of a piece lists before it says how many more it holds."""


def from_stock(plan: StockPlan, parts: Mapping[str, Part]) -> list[Operation]:
    """Return the operations that cut a plan's layouts, unnumbered, in working order.

    Each saw setting is one operation, or several in a row where it is used both along the stock and across it. What
    is milled is cut to its final size after that.
    """
    names = {layout.number: _names(layout, parts) for layout in plan.layouts}
    cuts = {cut.number: (layout, cut) for layout in plan.layouts for cut in layout.cuts}
    rough = {layout.number: dict(_rough(layout, parts)) for layout in plan.layouts}
    first: list[Operation] = []
    final: list[Operation] = []
    for setting in plan.settings:
        if setting.tool not in SAWS:
            continue
        made = _made_at(setting, cuts)
        for milled, out in ((False, first), (True, final)):
            chosen = [(layout, cut) for layout, cut in made if _is_final(cut, rough[layout.number]) is milled]
            for _, alike in groupby(chosen, key=lambda one: one[1].along):
                out.append(_operation(setting, [(names[layout.number], cut) for layout, cut in alike]))
    return [*first, *_milling(plan, names, rough, parts), *final]


def _rough(layout: StockLayout, parts: Mapping[str, Part]) -> Iterator[tuple[str, Part]]:
    """Yield the label of each piece of a rough board that is milled, with the one part it becomes."""

    def visit(piece: CutPiece) -> Iterator[tuple[str, Part]]:
        held = list(_parts(piece))
        spare = piece.what == "piece" and not any(one.what == "leftover" for one in piece.inside)
        if (spare or piece.what == "part") and len(held) == 1 and layout.thickness > parts[held[0]].thickness:
            yield piece.label, parts[held[0]]
        else:
            for inside in piece.inside:
                yield from visit(inside)

    return visit(layout.tree) if layout.kind == "board" else iter(())


def _is_final(cut: SawCut, rough: Mapping[str, Part]) -> bool:
    """Return whether a cut parts a piece that has been milled: a rough one, or what came of one."""
    return any(cut.piece == label or cut.piece.startswith(f"{label}.") for label in rough)


def _milling(
    plan: StockPlan,
    names: Mapping[int, Mapping[str, str]],
    rough: Mapping[int, Mapping[str, Part]],
    parts: Mapping[str, Part],
) -> list[Operation]:
    """Return the operations that make rough pieces flat, straight and of their thickness, each over all pieces."""
    pieces: dict[int, list[Workpiece]] = {}
    for layout in plan.layouts:
        for label, part in rough[layout.number].items():
            name = names[layout.number][label]
            pieces.setdefault(part.thickness, []).append(Workpiece(piece=name, keeps=name))
    if not pieces:
        return []
    everything = tuple(piece for group in pieces.values() for piece in group)
    return [
        Operation(0, Stage.MILL, Machine.JOINTER, Action.FACE, Setting(), everything),
        Operation(0, Stage.MILL, Machine.JOINTER, Action.EDGE, Setting(), everything),
        *(
            Operation(0, Stage.MILL, Machine.PLANER, Action.THICKNESS, Setting(height=thickness), tuple(group))
            for thickness, group in sorted(pieces.items(), reverse=True)
        ),
    ]


def _made_at(
    setting: MachineSetting, cuts: Mapping[int, tuple[StockLayout, SawCut]]
) -> list[tuple[StockLayout, SawCut]]:
    return [cuts[one.cut] for one in setting.passes if one.cut]


def _operation(setting: MachineSetting, cuts: Sequence[tuple[Mapping[str, str], SawCut]]) -> Operation:
    first = cuts[0][1]
    rip = first.along == "length"
    return Operation(
        number=0,
        stage=Stage.CUT,
        machine=SAWS[setting.tool],
        action=Action.RIP if rip else Action.CROSSCUT,
        setting=Setting(
            fence=setting.distance if rip else None, stop=None if rip else setting.distance, kerf=first.kerf
        ),
        on=tuple(_workpiece(names, cut) for names, cut in cuts),
    )


def _workpiece(names: Mapping[str, str], cut: SawCut) -> Workpiece:
    made, left = names.get(cut.makes, ""), names.get(cut.leaves, "")
    keeps, leaves = (made, left) if cut.rides == "makes" else (left, made)
    return Workpiece(piece=names[cut.piece], keeps=keeps, leaves=leaves)


def _names(layout: StockLayout, parts: Mapping[str, Part]) -> dict[str, str]:
    """Return what each piece of a layout is called, by its label: stock, parts by id, others by what they become."""
    taken: Counter[str] = Counter()
    out: dict[str, str] = {}

    def visit(piece: CutPiece, above: CutPiece | None) -> None:
        match piece.what:
            case "stock":
                name = f"{layout.stock} {layout.number}"
            case "part":
                name = piece.part
            case "leftover":
                name = f"leftover {piece.label}"
            case "waste":
                name = ""
            case "piece":
                held = list(_parts(piece))
                kind = "strip" if above is not None and piece.dx == above.dx else "piece"
                name = f"{kind} for {_list(held, parts)} from {layout.stock} {layout.number}"
        if piece.what == "piece":
            taken[name] += 1
            if taken[name] > 1:
                name = f"{name} ({taken[name]})"
        out[piece.label] = name
        for inside in piece.inside:
            visit(inside, piece)

    visit(layout.tree, None)
    return out


def _parts(piece: CutPiece) -> Iterator[str]:
    if piece.what == "part":
        yield piece.part
    for inside in piece.inside:
        yield from _parts(inside)


def _list(held: Sequence[str], parts: Mapping[str, Part]) -> str:
    """Return the parts a piece holds in a few words: `2 × left side of tools, top of tools and 3 more`."""
    counts = Counter(held)
    words = [(f"{count} × " if count > 1 else "") + _title(parts[part]) for part, count in list(counts.items())[:NAMED]]
    more = len(counts) - len(words)
    return ", ".join(words) + (f" and {more} more" if more else "")


def _title(part: Part) -> str:
    return f"{part.name} of {part.cabinet}" if part.cabinet else part.name


def to_size(parts: Iterable[Part], kerf: int = 0) -> list[Operation]:
    """Return the operations that cut parts to their sizes where no stock is given: rips, then cross-cuts."""
    rips: dict[tuple[str, int], list[Part]] = {}
    stops: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        rips.setdefault((part.material, part.width), []).append(part)
        stops.setdefault((part.material, part.length), []).append(part)
    out = []
    for (material, width), group in sorted(rips.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(
            Workpiece(piece=material, count=part.quantity, keeps=f"{part.id}, ripped", leaves=material)
            for part in group
        )
        out.append(Operation(0, Stage.CUT, Machine.TABLE_SAW, Action.RIP, Setting(fence=width, kerf=kerf), on))
    for (_, length), group in sorted(stops.items(), key=lambda item: (item[0][0], -item[0][1])):
        on = tuple(Workpiece(piece=f"{part.id}, ripped", count=part.quantity, keeps=part.id) for part in group)
        out.append(Operation(0, Stage.CUT, Machine.CROSSCUT_SLED, Action.CROSSCUT, Setting(stop=length, kerf=kerf), on))
    return out
