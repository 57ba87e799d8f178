"""How pieces lie in an operation, in words: which side is down or cut into, which rides the fence, where holes go."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from casewright.api.engine.work.naming import joined, summed_up, totals
from casewright.sdk.model import Machine, Operation, Part, Side, Sides, Workpiece
from casewright.sdk.model.parts import Role

__all__ = ["ENTERS", "lies", "piece_words"]

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


def lies(on: Sequence[Workpiece], sides: Mapping[str, Sides], enters: bool) -> str:
    """Return how pieces lie, as far as all of them lie alike."""
    down = {sides[one.part][one.down] for one in on if one.down is not None}
    against = {sides[one.part][one.against] for one in on if one.against is not None}
    first = f"into the {min(down)}" if enters else f"{min(down)} down"
    second = f"measured from the {min(against)}" if enters else f"{min(against)} to the fence"
    if len(down) == len(against) == 1:
        return f"{first}, {second}"
    if len(down) == 1:
        return f"{first}, {'measured from' if enters else 'to the fence'} the side each line names"
    if len(against) == 1:
        return f"{second}, {'into' if enters else 'down'} the side each line names"
    return "each piece as its line says"


def piece_words(
    operation: Operation, parts: Mapping[str, Part], sides: Mapping[str, Sides], text: Callable[[int], str]
) -> list[str]:
    """Return a line for each way pieces lie in an operation: the pieces, how they lie where it differs, what is cut.

    `text` writes a length for the bench.
    """
    enters = operation.machine in ENTERS
    alike = len({_lie(one, sides, enters) for one in operation.on}) == 1
    one_label = len({one.cuts for one in operation.on}) == 1
    lines: dict[str, list[Workpiece]] = {}
    for one, places in _merged(operation.on, sides, text):
        how = [] if alike else [*_lie(one, sides, enters)[: 1 if places else 2]]
        if one.leads is not None and not one.at:
            how.append(f"measured from the {sides[one.part][one.leads]}")
        how += places
        if one.piece:
            how = [f"from {one.piece}"] if one.piece != one.keeps else []
        words = ", ".join([*how, *(() if one_label else one.cuts)])
        lines.setdefault(words, []).append(one)
    every = totals(parts.values())
    return [_line(on, how, parts, every) for how, on in lines.items()]


def _line(on: Sequence[Workpiece], how: str, parts: Mapping[str, Part], every: Mapping[tuple[str, Role], int]) -> str:
    names = [one.part or one.keeps or one.leaves for one in on]
    known = [parts[name] for name in names if name in parts]
    words = [summed_up(known, every)] if known else []
    words += [name for name in dict.fromkeys(names) if name not in parts]
    count = sum(one.count for one in on)
    pieces = f" ({count} pieces)" if count > 1 else ""
    return f"{', '.join(words)}{pieces}{': ' + how if how else ''}"


def _lie(one: Workpiece, sides: Mapping[str, Sides], enters: bool) -> tuple[str, ...]:
    if one.down is None or one.against is None:
        return ()
    down, against = sides[one.part][one.down], sides[one.part][one.against]
    if enters:
        return f"into the {down}", f"from the {against}"
    return f"{down} down", f"{against} to the fence"


def _merged(
    on: Iterable[Workpiece], sides: Mapping[str, Sides], text: Callable[[int], str]
) -> Iterable[tuple[Workpiece, list[str]]]:
    """Return pieces with the words for their holes: rows that are alike but for their place across are one line."""
    rows: dict[tuple[str, Side | None, str], tuple[Workpiece, list[str]]] = {}
    for number, one in enumerate(on):
        if one.against is None or one.leads is None or not one.at:
            rows[str(number), None, ""] = one, []
            continue
        by_across: dict[int, list[int]] = {}
        for along, across in one.at:
            by_across.setdefault(across, []).append(along)
        for across, marks in by_across.items():
            along_words = f"{', '.join(map(text, sorted(marks)))} from the {sides[one.part][one.against]}"
            row = rows.setdefault((one.part, one.down, along_words), (one, []))
            row[1].append(f"{text(across)} from the {sides[one.part][one.leads]}")
    return [
        (one, [f"{joined(list(dict.fromkeys(across)))}: {key[2]}"] if across else [])
        for key, (one, across) in rows.items()
    ]
