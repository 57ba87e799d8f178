"""Which copy each measured thing belongs to: copies by their number, loose parts to the first that has none yet."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from itertools import groupby

from casewright.sdk.model import BuiltMeasure, BuiltSize, Cabinet

Measured = Mapping[tuple[str, BuiltMeasure], BuiltSize]
"""What was measured of one copy, by the part's id in its cabinet (empty for the case) and the measure."""


def by_copy(cabinet: Cabinet, sizes: Iterable[BuiltSize]) -> Mapping[int, Measured]:
    """Return what was measured of each copy of a cabinet; loose parts go to the first copies, the least first.

    Of a part or an opening measured at several places the least size counts, for there it goes in; of a case the
    greatest, for what goes over it must go over all of it.
    """
    out: dict[int, dict[tuple[str, BuiltMeasure], BuiltSize]] = {n: {} for n in range(1, cabinet.count + 1)}
    mine = sorted((one for one in sizes if one.cabinet == cabinet.id), key=_what)
    for (part, measure), group in groupby(mine, key=_what):
        for copy, one in _copies(cabinet.count, list(group)).items():
            out[copy][part, measure] = one
    return out


def _what(size: BuiltSize) -> tuple[str, BuiltMeasure]:
    return size.part or "", size.measure


def _copies(count: int, sizes: list[BuiltSize]) -> dict[int, BuiltSize]:
    """Return one thing as measured, by the copy it is of."""
    known: defaultdict[int, list[BuiltSize]] = defaultdict(list)
    for size in sizes:
        if size.copy is not None:
            known[size.copy].append(size)
    loose = sorted((one for one in sizes if one.count is not None), key=lambda one: (one.nm, one.at))
    free = [copy for copy in range(1, count + 1) if copy not in known]
    for size in loose:
        for _ in range(size.count or 0):
            if free:
                known[free.pop(0)].append(size)
    for size in sizes:
        if size.copy is None and size.count is None:
            for copy in free:
                known[copy].append(size)
    pick = max if sizes[0].measure.of_case else min
    return {copy: pick(measured, key=lambda one: one.nm) for copy, measured in known.items()}
