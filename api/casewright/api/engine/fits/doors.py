"""Gaps round inset doors, overlaps of others, and the gap where a pair meets."""

from collections.abc import Iterator, Sequence
from itertools import groupby, product

from casewright.api.engine.fits.chains import Face
from casewright.api.engine.fits.judged import Question, Unanswered, loose, turned
from casewright.api.engine.fits.laid import Laid
from casewright.sdk.materials import Hinge
from casewright.sdk.model import Action, DoorLeaf, FitKind, FitLink, WhyUnproved

Walls = tuple[Face, Face]
EIGHTHS = (4, 2, 6, 1, 3, 5, 7)
"""Eighths of a door's side at which an opening is looked for, the middle first."""


def door_fits(laid: Laid, hinge: Hinge) -> Iterator[Question | Unanswered]:
    """Yield the fits of every door of a cabinet across and up.

    A gap or overlap may come out from half to one and a half of what is planned (common practice, no source).
    """
    kind = FitKind.DOOR_GAP if laid.inset else FitKind.DOOR_OVERLAP
    bounded = [(leaf, walls) for leaf in laid.doors if (walls := _walls(laid, leaf, 1))]
    for walls, group in groupby(bounded, key=lambda one: one[1]):
        pair = [leaf for leaf, _ in group]
        for leaves in (pair,) if len(pair) == 2 and pair[0].at[2] == pair[1].at[2] else ([leaf] for leaf in pair):
            yield from _across(laid, leaves, walls, hinge)
    within = {leaf.id for leaf, _ in bounded}
    for leaf in laid.doors:
        if leaf.id not in within:
            yield Unanswered(kind, f"{leaf.id} across", 1, WhyUnproved.NO_BOUNDS)
        up = _walls(laid, leaf, 3)
        if up:
            yield from _up(laid, leaf, up, hinge)
        else:
            yield Unanswered(kind, f"{leaf.id} up", 3, WhyUnproved.NO_BOUNDS)


def _walls(laid: Laid, leaf: DoorLeaf, axis: int) -> Walls | None:
    """Return what bounds the opening behind a door along an axis, where a line through it meets no shelf or divider.

    It is looked for within an inset door, and just behind another, where the wood of the case begins.
    """
    back = leaf.at[1] + leaf.thickness
    fronts = sorted({box.y0 for part, box in laid.boxes.items() if part not in leaf.parts and box.y0 >= back})
    depths = [leaf.at[1] + leaf.thickness // 2] if laid.inset else [front + 1 for front in fronts[:2]]
    across, up = leaf.at[0] + leaf.width // 2, leaf.at[2] + leaf.height // 2
    for y, eighth in product(depths, EIGHTHS):
        x = across if axis == 1 else leaf.at[0] + leaf.width * eighth // 8
        z = up if axis == 3 else leaf.at[2] + leaf.height * eighth // 8
        walls = laid.walls((x, y, z), axis)
        if walls:
            return walls
    return None


def _across(laid: Laid, leaves: Sequence[DoorLeaf], walls: Walls, hinge: Hinge) -> Iterator[Question | Unanswered]:
    opening = laid.chain(1, *walls, without=[part for leaf in leaves for part in leaf.parts])
    widths = [laid.across(1, leaf.parts) for leaf in leaves]
    if opening is None or any(width is None for width in widths):
        kind = FitKind.DOOR_GAP if laid.inset else FitKind.DOOR_OVERLAP
        yield Unanswered(kind, f"{leaves[0].id} across", 1, WhyUnproved.NO_CHAIN)
        return
    first, last = leaves[0], leaves[-1]
    outer = min(first.at[0] - walls[0][1], walls[1][1] - last.at[0] - last.width)
    meeting = last.at[0] - first.at[0] - first.width
    inset = outer > 0
    nominal = min(outer, meeting) if inset and len(leaves) == 2 else meeting if len(leaves) == 2 else abs(outer)
    total = (*opening, *[link for width in widths for link in turned(width or ())])
    cups = [_bored(laid, leaf, hinge) for leaf in leaves]
    yield Question(
        kind=FitKind.DOOR_GAP if inset or len(leaves) == 2 else FitKind.DOOR_OVERLAP,
        id=f"{first.id} across",
        axis=1,
        nominal=nominal,
        least=nominal - nominal // 2,
        most=nominal + nominal // 2,
        links=(*total, *cups),
        cut=tuple([leaf.parts for leaf in leaves]),
        between=(walls[0][0], walls[1][0]),
        room=walls[1][1] - walls[0][1],
        opening=opening,
        own=(*turned([link for width in widths for link in width or ()]), *cups),
        shared=total,
        places=len(leaves) + 1,
        adjust=hinge.side_adjustment * len(leaves),
        lean=abs(laid.cabinet.leaning(first.height)) if laid.inset and laid.cabinet.face_frame is None else 0,
    )


def _up(laid: Laid, leaf: DoorLeaf, walls: Walls, hinge: Hinge) -> Iterator[Question | Unanswered]:
    opening, height = laid.chain(3, *walls, without=leaf.parts), laid.across(3, leaf.parts)
    if opening is None or height is None:
        kind = FitKind.DOOR_GAP if laid.inset else FitKind.DOOR_OVERLAP
        yield Unanswered(kind, f"{leaf.id} up", 3, WhyUnproved.NO_CHAIN)
        return
    outer = min(leaf.at[2] - walls[0][1], walls[1][1] - leaf.at[2] - leaf.height)
    nominal, total = abs(outer), (*opening, *turned(height))
    plates = loose(leaf.id, f"plates {leaf.id}", Action.MARK, laid.accuracy.of(Action.MARK))
    yield Question(
        kind=FitKind.DOOR_GAP if outer > 0 else FitKind.DOOR_OVERLAP,
        id=f"{leaf.id} up",
        axis=3,
        nominal=nominal,
        least=nominal - nominal // 2,
        most=nominal + nominal // 2,
        links=(*total, plates),
        cut=(leaf.parts,),
        between=(walls[0][0], walls[1][0]),
        room=walls[1][1] - walls[0][1],
        opening=opening,
        own=(*turned(height), plates),
        shared=total,
        places=2,
        adjust=hinge.height_adjustment,
    )


def _bored(laid: Laid, leaf: DoorLeaf, hinge: Hinge) -> FitLink:
    """Return the link of how far a door's cups are from its edge, by the step that bores them where there is one."""
    step = laid.set_ups.bored(leaf.parts, hinge.bore)
    half = laid.accuracy.of(Action.BORE)
    return loose(leaf.id, f"{step or leaf.id} cups edge", Action.BORE, half, step)
