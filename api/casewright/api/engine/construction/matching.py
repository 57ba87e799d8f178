"""Fronts over which the grain runs on: parts of one row, that are cut in sequence of one piece.

A space that asks for it matches its doors and drawer fronts, those of its bays or tiers too; a door made of several
parts is matched by its panel. The row goes from left to right or from top to bottom, as the fronts hang.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.sdk.model import Finding, Matched, Role, Space

LEAST = 2
"""Fronts that make a row."""
FACES: tuple[Role, ...] = ("door", "drawer-front", "door-panel")
"""What of a front is matched: the first of these that it has."""


@dataclass(frozen=True, slots=True)
class _Front:
    """A door or drawer front: the pointer of the space it closes, and the group that its parts are of."""

    space: str
    group: str


def with_matched(built: Construction, doors: Sequence[PlacedDoor], drawers: Sequence[Drawer]) -> Construction:
    """Return a construction whose parts know their place in the rows that its spaces ask for.

    Fronts that cannot be matched are a stop at their space.
    """
    fronts = [
        *(_Front(one.opening.leaf.space.pointer, one.key) for one in doors),
        *(_Front(one.space, one.key) for one in drawers),
    ]
    for number, space in enumerate(_matching(built.cabinet.space), start=1):
        closing = [front for front in fronts if f"{front.space}/".startswith(f"{space.pointer}/")]
        faces = [_face(built, front) for front in closing]
        whole = [face for face in faces if face is not None]
        row = _row(whole)
        if row is None or len(whole) < len(faces):
            built = built.with_findings(f"{space.pointer}/match", _unmatched(faces))
        else:
            runs, faces_of_row = row
            built = built.with_parts(*_in_sequence(faces_of_row, runs, (f"{built.id}/match-{number}", space)))
    return built


def _matching(space: Space) -> Iterator[Space]:
    """Yield the spaces that ask for it, the outermost only."""
    if space.match:
        yield space
        return
    for part in space.parts:
        yield from _matching(part)


def _face(built: Construction, front: _Front) -> Draft | None:
    """Return the one part of a front that shows its grain, or `None`."""
    parts = [draft for draft in built.drafts.values() if draft.group == front.group]
    for role in FACES:
        drafts = [draft for draft in parts if draft.role == role]
        if drafts:
            return drafts[0] if len(drafts) == 1 else None
    return None


def _row(faces: Sequence[Draft]) -> tuple[Literal["across", "down"], list[Draft]] | None:
    """Return which way a row runs and its parts in order; `None` where they are no row or not of one piece."""
    alike = {(one.material.key, one.thickness, one.grain, abs(one.length_axis)) for one in faces}
    if len(faces) < LEAST or len(alike) > 1:
        return None
    if len({(one.box.z0, one.box.z1) for one in faces}) == 1:
        return "across", sorted(faces, key=lambda one: one.box.x0)
    if len({(one.box.x0, one.box.x1) for one in faces}) == 1:
        return "down", sorted(faces, key=lambda one: -one.box.z1)
    return None


def _in_sequence(row: Sequence[Draft], runs: Literal["across", "down"], of: tuple[str, Space]) -> Iterator[Draft]:
    """Yield the parts of a row with their places in it; `of` are its name and the space that asks for it."""
    axis, (name, space) = 1 if runs == "across" else 3, of
    for place, draft in enumerate(row, start=1):
        way: Literal["length", "width"] = "length" if abs(draft.length_axis) == axis else "width"
        yield replace(draft, matched=Matched(name, place, len(row), way, f"{space.pointer}/match"))


def _unmatched(faces: Sequence[Draft | None]) -> Finding:
    """Return why fronts are not matched, and what to do."""
    if len(faces) < LEAST:
        why, do = "a row has two fronts or more", "Match a door pair, drawers, or the bays or tiers they are in"
    elif any(face is None for face in faces):
        why, do = "each front shows its grain in one slab or one panel", "Choose a door style with one panel"
    else:
        why = "the fronts of a row are of one material and one grain, all as high or all as wide"
        do = 'Give "match" to each row of fronts by itself'
    message = f'the grain cannot run on over these fronts: {why}. {do}, or leave out "match".'
    return Finding("match", "stop", message, len(faces), None, "fronts")
