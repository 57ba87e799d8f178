"""Gaps round inset doors, overlaps of others, and the gap where a pair meets."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from casewright.api.engine.fits.chains import Face
from casewright.api.engine.fits.judged import Question, loose, turned
from casewright.api.engine.fits.laid import Laid
from casewright.sdk.engineering.hinges import HEIGHT_ADJUSTMENT
from casewright.sdk.materials import Hinge
from casewright.sdk.model import Action, DoorLeaf, FitKind, FitLink

Walls = tuple[Face, Face]


def door_fits(laid: Laid, hinge: Hinge) -> Iterator[Question]:
    """Yield the fits of every door of a cabinet across and up.

    A gap or overlap may come out from half to one and a half of what is planned (common practice, no source).
    """
    bounded = [(leaf, walls) for leaf in laid.doors if (walls := laid.walls(_middle(laid, leaf), 1))]
    for walls, group in groupby(bounded, key=lambda one: one[1]):
        pair = [leaf for leaf, _ in group]
        for leaves in (pair,) if len(pair) == 2 and pair[0].at[2] == pair[1].at[2] else ([leaf] for leaf in pair):
            yield from _across(laid, leaves, walls, hinge)
    for leaf in laid.doors:
        up = laid.walls(_middle(laid, leaf), 3)
        if up:
            yield from _up(laid, leaf, up)


def _middle(laid: Laid, leaf: DoorLeaf) -> tuple[int, int, int]:
    """Return a point in the opening in the middle of a door: within an inset one, just behind another."""
    doors = laid.cabinet.doors
    inset = doors is not None and doors.hang == "inset"
    behind = leaf.thickness // 2 if inset else leaf.thickness + (doors.stand_off if doors else 0) + 1
    return leaf.at[0] + leaf.width // 2, leaf.at[1] + behind, leaf.at[2] + leaf.height // 2


def _across(laid: Laid, leaves: Sequence[DoorLeaf], walls: Walls, hinge: Hinge) -> Iterator[Question]:
    opening = laid.chain(1, *walls, without=[part for leaf in leaves for part in leaf.parts])
    widths = [laid.across(1, leaf.parts) for leaf in leaves]
    if opening is None or any(width is None for width in widths):
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
        shared=total,
        places=len(leaves) + 1,
        adjust=hinge.side_adjustment * len(leaves),
    )


def _up(laid: Laid, leaf: DoorLeaf, walls: Walls) -> Iterator[Question]:
    opening, height = laid.chain(3, *walls, without=leaf.parts), laid.across(3, leaf.parts)
    if opening is None or height is None:
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
        shared=total,
        places=2,
        adjust=HEIGHT_ADJUSTMENT,
    )


def _bored(laid: Laid, leaf: DoorLeaf, hinge: Hinge) -> FitLink:
    """Return the link of how far a door's cups are from its edge, by the step that bores them where there is one."""
    step = laid.set_ups.bored(leaf.parts, hinge.bore)
    half = laid.accuracy.of(Action.BORE)
    return loose(leaf.id, f"{step or leaf.id} cups edge", Action.BORE, half, step)
