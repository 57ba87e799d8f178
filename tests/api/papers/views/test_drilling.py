"""Drawings of drilling: every hole on one of them, where it is; like parts once, each drawing with its steps."""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest
from casewright.api import papers
from casewright.api.papers.drawing.shapes import Circle
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.cuts import cuts_of
from casewright.api.papers.views.drilling import drawings_of, drillings
from casewright.sdk.geometry import Cylinder
from casewright.sdk.model import Action, Part, Plan, Side


def entered(hole: Cylinder) -> Side:
    """Return the side a bit goes in by: it goes away from that side."""
    return next(side for side in Side if side.axis == abs(hole.into) and side.high == (hole.into < 0))


def holes(part: Part, side: Side) -> list[Cylinder]:
    return [hole for feature in part.features for hole in feature.holes if entered(hole) is side]


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "bays-framed", "largest"])
def test_every_hole_stands_on_one_drawing(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    facts = Facts(made)
    drawn = Counter(
        (part.id, side) for one in drillings(facts) for part, side in zip(one.parts, one.sides, strict=True)
    )
    wanted = {(part.id, entered(hole)) for part in made.parts for f in part.features for hole in f.holes}
    assert wanted
    assert drawn == Counter(wanted)


@pytest.mark.parametrize("name", ["repair-bay", "six-bays"])
def test_holes_are_drawn_where_they_are_seen(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    views = {v.name: v for sheet in papers.draw(made, "drilling") for v in sheet.views if not v.furniture}
    for one in drillings(Facts(made)):
        part, side = one.parts[0], one.side
        sizes = (part.length, part.width, part.thickness)
        right, up = [axis for axis in (1, 2, 3) if axis != side.axis]
        # Who looks at a side sees its two axes right-handed where they turn as the side's own normal does (right hand).
        seen = (right, up, side.axis) in ((1, 2, 3), (2, 3, 1)) if side.high else (right, up, side.axis) == (1, 3, 2)
        places = sorted(
            (hole.mouth[right - 1] / 1e6, (hole.mouth[up - 1] if seen else sizes[up - 1] - hole.mouth[up - 1]) / 1e6)
            for hole in holes(part, side)
        )
        circles = sorted(s.centre for s in views[f"drilling {one.number}"].shapes if isinstance(s, Circle))
        assert [n for place in circles for n in place] == pytest.approx([n for place in places for n in place])


@pytest.mark.parametrize("name", ["repair-bay", "six-bays"])
def test_every_step_that_bores_has_its_drawings(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    drawings = {one.number: one for one in drillings(Facts(made))}
    shown = drawings_of(Facts(made))
    steps = [step for step in made.steps if step.action is Action.BORE and step.on[0].at]
    assert steps
    for step in steps:
        drawn = {part.id for number in shown[step.number] for part in drawings[number].parts}
        assert {piece.part for piece in step.on} <= drawn


def test_both_sides_of_a_case_are_drawn_once(bay: Plan) -> None:
    cups = [one for one in drillings(Facts(bay)) if "hinge cups" in one.whats]
    assert [sorted(part.id.rpartition("/")[2] for part in one.parts) for one in cups] == [["stile-left", "stile-right"]]


def test_a_row_with_a_gap_is_two_rows_of_one_pitch(plan: Callable[[str], Plan]) -> None:
    """Pins 32 apart, four and then five after a gap, by hand: 40, 72, 104, 136 and 300, 332 … 428 of 600."""
    made = plan("six-bays")
    part = next(part for part in made.parts if any(f.holes for f in part.features))
    first = next(f for f in part.features if f.holes)
    hole = first.holes[0]
    places = [40, 72, 104, 136, 300, 332, 364, 396, 428]
    row = tuple(hole._replace(mouth=(1_000_000 * place, *hole.mouth[1:])) for place in places)
    changed = replace(part, features=(replace(first, holes=row),))
    (cut,) = cuts_of(Facts(made), changed)
    assert "4 and 5 along length every 32" in cut.size
    assert [nm for side, nm in cut.starts if side.axis == 1] == [40_000_000, 300_000_000]
