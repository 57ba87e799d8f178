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
