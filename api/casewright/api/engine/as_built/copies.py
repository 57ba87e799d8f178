"""Copies of a cabinet that come out differently, each kind of them a cabinet of its own."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from casewright.sdk.model import BuiltPart, Cabinet, Wall


@dataclass(frozen=True, slots=True)
class Alike:
    """Copies of a cabinet that come out alike: their numbers, and which parts of them are cut."""

    copies: tuple[int, ...]
    built: Mapping[str, BuiltPart]
    as_planned: bool


def parted(cabinet: Cabinet, kinds: Collection[Alike], taken: Iterable[str]) -> tuple[Cabinet, ...]:
    """Return a cabinet's kinds of copies as cabinets; those as planned, or all where all are alike, keep its id."""
    if len(kinds) == 1:
        return tuple([replace(cabinet, planned=cabinet.id, built=one.built) for one in kinds])
    return tuple([_cabinet(cabinet, one, frozenset(taken)) for one in kinds])


def name_of(cabinet: Cabinet) -> str:
    """Return what copies that come out alike are called: `pair 1`, `pair 2 and 3`; the cabinet's id where all do."""
    return f"{cabinet.planned} {' and '.join(map(str, cabinet.copies))}" if cabinet.copies else cabinet.id


def _cabinet(cabinet: Cabinet, kind: Alike, taken: frozenset[str]) -> Cabinet:
    numbers = " and ".join(map(str, kind.copies))
    return replace(
        cabinet,
        id=cabinet.id if kind.as_planned else _id(f"{cabinet.id}.{kind.copies[0]}", taken),
        title=f"{cabinet.title}, copy {numbers}" if cabinet.title else "",
        count=len(kind.copies),
        copies=kind.copies,
        planned=cabinet.id,
        built=kind.built,
    )


def _id(name: str, taken: frozenset[str]) -> str:
    """Return a name that no cabinet of the job has."""
    while name in taken:
        name += "."
    return name


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
