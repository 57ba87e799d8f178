"""The pieces a sheet is parted into, by their rectangles: each lies in its parent and apart from the others."""

from itertools import combinations

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from worked import SHELF


def pieces(piece):
    yield piece
    for inner in piece.inside:
        yield from pieces(inner)


@pytest.mark.parametrize("trim", [0, 10])
def test_pieces_lie_in_their_parent_and_apart(registry, trim):
    job = {**SHELF, "stock": {**SHELF["stock"], "edge_trim": trim}}
    (layout,) = make_plan(read_job(job, registry), registry).stock.layouts
    for piece in pieces(layout.tree):
        for inner in piece.inside:
            assert piece.x <= inner.x
            assert piece.y <= inner.y
            assert inner.x + inner.dx <= piece.x + piece.dx
            assert inner.y + inner.dy <= piece.y + piece.dy
        for a, b in combinations(piece.inside, 2):
            beside = a.x + a.dx <= b.x or b.x + b.dx <= a.x
            assert beside or a.y + a.dy <= b.y or b.y + b.dy <= a.y
    leaves = {(p.part, p.x, p.y, p.dx, p.dy) for p in pieces(layout.tree) if p.part}
    assert leaves == {(p.part, p.x, p.y, p.dx, p.dy) for p in layout.placed}
    # What is no part and is not parted is left over: together with the parts and the sawdust it is the sheet.
    ends = [p for p in pieces(layout.tree) if not p.inside]
    sawdust = sum(cut.kerf * cut.run for cut in layout.cuts)
    assert sum(p.dx * p.dy for p in ends) == 2440 * 1220 * 10**12 - sawdust


@pytest.mark.parametrize("allowance", [{"width": 90}, {"length": 130}])
def test_what_falls_off_milled_wood_is_no_board_to_keep(registry, allowance):
    """With 90 mm allowed in width 86 falls off at the last rip, by half of that narrower from the edge: no 86 x 27."""
    job = {
        "units": "mm",
        "materials": {"oak": {"kind": "board", "stuff": "red-oak", "thickness": 19}},
        "loose_parts": [{"id": "rung", "material": "oak", "length": 500, "width": 60}],
        "stock": {
            "boards": [{"id": "plank", "material": "oak", "length": 2400, "width": 180, "thickness": 27}],
            "milling": allowance,
            "kerf": 4,
        },
        "shop": {"keep_offcut": [40, 100]},
    }
    plan = make_plan(read_job(job, registry), registry)
    (layout,) = plan.stock.layouts
    kept = {(left.length, left.width) for left in layout.leftovers if left.keep}
    assert kept
    assert not kept & {(500_000_000, 86_000_000), (126_000_000, 60_000_000)}
    assert "work-not-carried-out" not in {check.code for check in plan.checks}
