"""Copies of a cabinet that come out differently, each kind of them a cabinet of its own."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from casewright.api.engine.work.naming import first_of, in_a_row, joined
from casewright.sdk.model import BuiltPart, Cabinet, Wall

MOST = 6
"""How many numbers, or rows of numbers, a name has."""


@dataclass(frozen=True, slots=True)
class Alike:
    """Copies of a cabinet that come out alike: their numbers, and which parts of them are cut."""

    copies: tuple[int, ...]
    built: Mapping[str, BuiltPart]
    as_planned: bool


def parted(cabinet: Cabinet, kinds: Collection[Alike]) -> tuple[Cabinet, ...]:
    """Return a cabinet's kinds of copies as cabinets, each called as on the wall; all alike keep its id."""
    if len(kinds) == 1:
        return tuple([replace(cabinet, planned=cabinet.id, built=one.built) for one in kinds])
    return tuple([_cabinet(cabinet, one) for one in kinds])


def _cabinet(cabinet: Cabinet, kind: Alike) -> Cabinet:
    """Return the cabinet of a kind: `pair 1`, `pair 2 and 3`. No id of a job has a space, so none is taken."""
    runs = _runs(kind.copies)
    numbers = joined(runs) if len(runs) <= MOST else first_of(runs, MOST)
    return replace(
        cabinet,
        id=f"{cabinet.id} {numbers}",
        title=f"{cabinet.title}, {'copy' if len(kind.copies) == 1 else 'copies'} {numbers}" if cabinet.title else "",
        count=len(kind.copies),
        copies=kind.copies,
        planned=cabinet.id,
        built=kind.built,
    )


def _runs(copies: Iterable[int]) -> list[str]:
    """Return rising numbers in words, those that follow one another together: `1`, `3 to 40`."""
    words: list[str] = []
    for low, high in in_a_row(copies):
        words += [f"{low} to {high}"] if high > low + 1 else [f"{copy}" for copy in range(low, high + 1)]
    return words


def placed(wall: Wall | None, cabinets: Iterable[Cabinet]) -> Wall | None:
    """Return the wall with each copy at the place that was given for it."""
    if wall is None:
        return None
    at = dict(wall.cabinets_at)
    for one in cabinets:
        spots = wall.cabinets_at.get(one.planned, ())
        if one.copies and spots:
            at[one.id] = tuple([spots[copy - 1] for copy in one.copies])
    gone = {one.planned for one in cabinets if one.copies} - {one.id for one in cabinets}
    return replace(wall, cabinets_at={key: at[key] for key in sorted(at) if key not in gone})
