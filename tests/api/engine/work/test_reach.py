"""Which side of the blade is measured: a part is sized by a fence, not by what a bought sheet happens to reach."""

from dataclasses import replace

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.reach import sized_by_a_fence
from casewright.api.job.document import read_job
from casewright.api.stock import Saws
from casewright.sdk.model import Action, CutPiece, Returns, SawCut, StockLayout, StockPlan

MM = 1_000_000


def part(label, x, y, dx, dy, name):
    return CutPiece(label, "part", x * MM, y * MM, dx * MM, dy * MM, name)


def crosscut(number, piece, made, left, at, across, rides="makes"):
    sizes = (at * MM, rides, 3 * MM, 600 * MM, across * MM)
    return SawCut(number, piece, made, left, "width", "track", *sizes, setting=number)


def plan(shelf, *more, kind="sheet"):
    """Return a sheet sold as 1703 × 600, crosscut at 1000: on the near side shelves, and 700 are left for a door."""
    shelves = tuple(part(f"1.1.{i}", 0, 301 * (i - 1), shelf, 298, "shelf") for i in (1, 2))
    near = CutPiece("1.1", "piece", 0, 0, 1000 * MM, 600 * MM, inside=shelves)
    tree = CutPiece(
        "1", "stock", 0, 0, 1703 * MM, 600 * MM, cuts=(1,), inside=(near, part("1.2", 1003, 0, 700, 600, "door"))
    )
    cuts = (crosscut(1, "1", "1.1", "1.2", 1000, 1703), *more)
    layout = StockLayout(1, "sheet", kind, "ply", 18 * MM, 1703 * MM, 600 * MM, (), tree, cuts, (), 0)
    return StockPlan((layout,), Returns(0, True, 0, 1), (), (), (), 1.0, (), (), (), 2, 0)


def first_cut(made):
    return made.layouts[0].cuts[0]


ANY = Saws(frozenset())


def test_a_part_that_would_be_left_rides_the_fence():
    """The sheet is 4 mm longer than sold: the shelves' piece is too, and the door is 700 as planned."""
    made, rests = sized_by_a_fence(plan(990), ANY)
    assert (first_cut(made).fence, first_cut(made).rides, rests) == (700 * MM, "leaves", {})


def test_where_both_sides_are_finished_the_sheet_is_measured():
    made, rests = sized_by_a_fence(plan(1000), ANY)
    assert (first_cut(made).fence, rests) == (1000 * MM, {1: 700 * MM})


def test_no_distance_is_gone_back_to():
    other = crosscut(2, "1.1", "1.1.1", "1.1", 700, 1000)
    made, rests = sized_by_a_fence(plan(990, other), ANY)
    assert (first_cut(made).fence, rests) == (1000 * MM, {1: 700 * MM})


def test_what_a_fence_has_sized_may_be_parted_to_its_end():
    """A strip that a fence made 1000 long leaves 700 for certain, however long the sheet is."""
    sized = plan(990)
    (layout,) = sized.layouts
    near = replace(
        layout.tree.inside[0], inside=(part("1.1.1", 0, 0, 297, 600, "rail"), part("1.1.2", 300, 0, 700, 600, "door"))
    )
    waste = CutPiece("1.2", "waste", 1003 * MM, 0, 700 * MM, 600 * MM)
    cuts = (*layout.cuts, crosscut(2, "1.1", "1.1.1", "1.1.2", 297, 1000))
    sized = replace(sized, layouts=(replace(layout, tree=replace(layout.tree, inside=(near, waste)), cuts=cuts),))
    assert sized_by_a_fence(sized, ANY) == (sized, {})


def test_boards_are_cut_over_size_and_to_length_later():
    boards = plan(990, kind="board")
    assert sized_by_a_fence(boards, ANY) == (boards, {})


@pytest.mark.parametrize(("units", "size", "left"), [("mm", 1, "700.0 mm"), ("in", 1 / 25.4, "27 9/16 in")])
def test_the_step_says_to_measure_the_sheet_first(registry, units, size, left):
    """Two parts and one kerf fill an offcut: 1703 − 1000 − 3 = 700 mm, which is 27.56 in."""
    parts = [
        {"id": name, "material": "ply", "length": length * size, "width": 600 * size}
        for name, length in (("deck", 1000), ("flap", 700))
    ]
    offcut = {"id": "rest", "material": "ply", "length": 1703 * size, "width": 600 * size}
    job = {
        "units": units,
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18 * size}},
        "loose_parts": parts,
        "stock": {"offcuts": [offcut], "kerf": 3 * size},
    }  # fmt: skip
    (cut,) = [step for step in make_plan(read_job(job, registry), registry).steps if step.action is Action.CROSSCUT]
    kept = round(cut.setting.distance / MM)
    left = left if kept == 1000 else {"mm": "1000.0 mm", "in": "39 3/8 in"}[units]
    assert f"What is left is used to its full size: measure “rest 1” first, it must leave {left}." in cut.cautions
