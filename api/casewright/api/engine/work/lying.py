"""How pieces lie in an operation, in words: which side is down or cut into, which rides the fence, where holes go."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from casewright.api.engine.work.naming import NamedParts, joined, part_of, pieces_summed_up, quoted
from casewright.sdk.joinery.layout import STEP
from casewright.sdk.model import Action, Machine, Operation, Side, Sides, Workpiece

__all__ = ["ENTERS", "TO_MIDDLE", "Writes", "lies", "piece_words", "shortened"]

ENTERS = frozenset(
    {
        Machine.ROUTER,
        Machine.DRILL,
        Machine.MORTISER,
        Machine.LOOSE_TENON_MACHINE,
        Machine.BISCUIT_MACHINE,
        Machine.JIGSAW,
        Machine.BAND_SAW,
        Machine.BY_HAND,
    }
)
"""What cuts from a side that does not lie on a table: the side a cut goes in by is spoken of, not what lies down."""

TO_MIDDLE = frozenset({Machine.BISCUIT_MACHINE, Machine.LOOSE_TENON_MACHINE})
"""Machines that are set to a mark for the middle of what they cut, and by a scale to the middle of their cutter."""
_PLACED = frozenset({Action.BORE, Action.POCKET})
"""What is bored at places that each line gives from two sides."""


def lies(operation: Operation, sides: Mapping[str, Sides]) -> str:
    """Return how the pieces of an operation lie, as far as all of them lie alike."""
    on, enters = operation.on, operation.machine in ENTERS
    down = {_lying(one, operation, sides) for one in on}
    against = {sides[one.part][one.against] for one in on if one.against is not None}
    first = f"into the {min(down)}" if enters else f"{min(down)} down"
    meets = _meets(operation)
    second = f"measured from the {min(against)}" if enters else f"{min(against)} to the {meets}"
    if operation.action in _PLACED:
        return first if len(down) == 1 else "each piece lying as its line says"
    if len(down) == len(against) == 1:
        return f"{first}, {second}"
    if len(down) == 1:
        return f"{first}, {'measured from' if enters else f'to the {meets}'} the side each line names"
    if len(against) == 1:
        return f"{second}, {'into' if enters else 'down'} the side each line names"
    return "each piece lying as its line says"


Writes = tuple[Callable[[int], str], Callable[[int], str]]
"""What writes a length for the bench, and what writes one that things are sold by, as the pitch of a row of holes."""
ROW = 4
"""So many places of one pitch are given as a row: the first, the last, and how far they are apart."""


def piece_words(operation: Operation, named: NamedParts, sides: Mapping[str, Sides], writes: Writes) -> list[str]:
    """Return a line for each way pieces lie in an operation: the pieces, how they lie where it differs, what is cut."""
    bored = operation.action in _PLACED
    alike = len({_lie(one, operation, sides)[: 1 if bored else 2] for one in operation.on}) == 1
    one_label = len({one.cuts for one in operation.on}) == 1
    lines: dict[str, list[Workpiece]] = {}
    for one, places, ends in _at_both_ends(operation, _merged(operation, sides, writes), sides):
        how = [] if alike else [*_lie(one, operation, sides)[: 1 if places else 2]]
        if len(ends) > 1 and how:
            how[0] = f"{joined(ends)} down in turn"
        if one.leads is not None and not one.at:
            leads = sides[one.part][one.leads]
            mitred = operation.setting.turn_deg is not None
            how.append(f"{leads} to the saw's fence" if mitred else f"measured from the {leads}")
        how += places
        if one.piece:
            how = _sawn_from(one, named)
        words = ", ".join([*how, *(() if one_label else shortened(one.cuts))])
        lines.setdefault(words, []).append(one)
    return [_line(on, how, named) for how, on in lines.items()]


def _at_both_ends(
    operation: Operation, rows: Iterable[tuple[Workpiece, list[str]]], sides: Mapping[str, Sides]
) -> Iterable[tuple[Workpiece, list[str], list[str]]]:
    """Return rows with the ends that lie down: fingers with the same marks at both ends of a part are one row."""
    out: dict[tuple[object, ...], tuple[Workpiece, list[str], list[str]]] = {}
    for number, (one, places) in enumerate(rows):
        if operation.action is not Action.TENON or not one.at:
            out[(number,)] = one, places, []
            continue
        key = one.part, one.against, one.count, tuple(places)
        first, _, ends = out.get(key, (one, places, []))
        cuts = tuple(dict.fromkeys((*first.cuts, *one.cuts)))
        out[key] = replace(first, cuts=cuts), places, list(dict.fromkeys([*ends, _lying(one, operation, sides)]))
    return out.values()


def _sawn_from(one: Workpiece, named: NamedParts) -> list[str]:
    """Return the piece that a cut parts, and what it leaves where that has a name of its own from then on."""
    how = [f"from {quoted(one.piece)}"] if part_of(one.piece, named.by_id) is None and one.piece != one.keeps else []
    if one.keeps and one.leaves and one.leaves not in (one.piece, one.keeps):
        left, _ = pieces_summed_up([one.leaves], named)
        how.append(f"leaving {left[0] if left else quoted(one.leaves)}")
    return how


def shortened(labels: Sequence[str]) -> list[str]:
    """Return labels as one that says once how they begin: `groove for top and bottom`."""
    words = [label.split() for label in labels]
    same = 0
    while len(labels) > 1 and all(len(one) > same + 1 and one[: same + 1] == words[0][: same + 1] for one in words):
        same += 1
    if same == 0:
        return list(labels)
    return [f"{' '.join(words[0][:same])} {joined([' '.join(one[same:]) for one in words])}"]


def _line(on: Sequence[Workpiece], how: str, named: NamedParts) -> str:
    names = [one.part or one.keeps or one.leaves for one in on]
    parts, others = pieces_summed_up(names, named)
    words = [*parts, *map(quoted, others)]
    count = sum(one.count for one in on)
    pieces = f" ({count} pieces)" if count > 1 else ""
    return f"{', '.join(words)}{pieces}{': ' + how if how else ''}"


def _lie(one: Workpiece, operation: Operation, sides: Mapping[str, Sides]) -> tuple[str, ...]:
    if one.down is None or one.against is None:
        return ()
    down, against = _lying(one, operation, sides), sides[one.part][one.against]
    if operation.machine in ENTERS:
        return f"into the {down}", f"from the {against}"
    return f"{down} down", f"{against} to the {_meets(operation)}"


def _meets(operation: Operation) -> str:
    """Return what the side that a cut is measured from is held against."""
    return "fence" if operation.setting.turn_deg is None else "stop"


def _lying(one: Workpiece, operation: Operation, sides: Mapping[str, Sides]) -> str:
    """Return the side that lies down, or that the tool goes in by: a bore goes in opposite what lies down."""
    if one.down is None:
        return ""
    bored = operation.action is Action.BORE and operation.machine in ENTERS
    return sides[one.part][one.down.across if bored else one.down]


def _merged(operation: Operation, sides: Mapping[str, Sides], writes: Writes) -> Iterable[tuple[Workpiece, list[str]]]:
    """Return pieces with the words for their places: rows that are alike but for their place across are one line."""
    text, _ = writes
    rows: dict[tuple[str, Side | None, str, int], tuple[Workpiece, dict[str, None]]] = {}
    for number, one in enumerate(_pooled(operation.on)):
        if one.against is None or one.leads is None or not one.at:
            rows[str(number), None, "", 0] = one, {}
            continue
        names = sides[one.part][one.against], sides[one.part][one.leads]
        across = 0 if len({place[0] for place in one.at}) < len({place[1] for place in one.at}) else 1
        lines: dict[int, list[int]] = {}
        for place in _marks(operation, one):
            lines.setdefault(place[across], []).append(place[1 - across])
        for at, marks in lines.items():
            along = f"{_row(sorted(marks), writes)} from the {names[1 - across]}"
            first, words = rows.setdefault((one.part, one.down, along, across), (one, {}))
            cuts = tuple(dict.fromkeys((*first.cuts, *one.cuts)))
            rows[one.part, one.down, along, across] = replace(first, cuts=cuts), words
            if at or operation.action is Action.BORE:
                words[f"{text(at)} from the {names[across]}"] = None
    swap = operation.action is not Action.BORE
    return [
        (one, _place(list(words), along, swap and across == 1)) for (_, _, along, across), (one, words) in rows.items()
    ]


def _marks(operation: Operation, one: Workpiece) -> list[tuple[int, int]]:
    """Return the places of cuts from the two sides as they are marked: where they begin, or their middles.

    A pocket is marked by its shoulder, and by its middle along the side it stands at.
    """
    setting = operation.setting
    middles = operation.machine in TO_MIDDLE
    across = (setting.cutter or 0) // 2 if middles else 0
    along = (setting.end or 0) // 2 if middles or operation.action is Action.POCKET else 0
    return [(first + across, second + along) for first, second in one.at]


def _row(marks: Sequence[int], writes: Writes) -> str:
    """Return rising places: one by one, or as a row of one pitch, which is stepped off or bored with a jig."""
    text, sold = writes
    pitches = {high - low for low, high in pairwise(marks)}
    if len(marks) < ROW or len(pitches) > 1:
        return joined(list(map(text, marks)))
    (pitch,) = pitches
    apart = sold(pitch) if pitch == STEP else text(pitch)  # the jigs for rows of holes are sold by that step
    return f"{len(marks)} places {apart} apart, the first {text(marks[0])} and the last {text(marks[-1])}"


def _pooled(on: Iterable[Workpiece]) -> list[Workpiece]:
    """Return pieces with the places together of those that differ in nothing else."""
    alike: dict[Workpiece | int, list[Workpiece]] = {}
    for number, one in enumerate(on):
        alike.setdefault(replace(one, at=()) if one.at else number, []).append(one)
    return [
        replace(some[0], at=tuple([place for one in some for place in one.at])) if len(some) > 1 else some[0]
        for some in alike.values()
    ]


def _place(spots: list[str], along: str, first_along: bool) -> list[str]:
    """Return where cuts go, first how far from the side at the fence; `first_along` says that `along` is that."""
    if not along:
        return []
    if not spots:
        return [along]
    first, second = (along, joined(spots)) if first_along else (joined(spots), along)
    return [f"{first}, at {second}"]
