"""Steps done leave less stock, and blanks over size that are not cut again: sums of areas and counts, by hand."""

import pytest
from casewright.api.job.limits import ID_LENGTH
from casewright.sdk.units import MM

SHORT = {"cabinet": "bay", "part": "side-left", "measure": "length", "value": 898}
FRAME = {"face_frame": {"material": "frame", "joint": {"method": "loose-tenon"}}}
STOCK = {
    "sheets": [{"id": "ply", "material": "case", "length": 2440, "width": 1220, "copies": 2}],
    "boards": [{"id": "oak", "material": "frame", "thickness": 25, "width": 150, "length": 2440, "copies": 3}],
    "kerf": 3,
}


def area(pieces):
    return sum(one.length * one.width * (one.copies or 0) for one in pieces if one.material == "case")


@pytest.fixture
def replanned(planned):
    """Return the plan as asked and a function that plans on with its first so many steps done."""
    first = planned(FRAME, stock=STOCK)

    def make(count):
        return planned(FRAME, stock=STOCK, built=[SHORT], done=list(range(1, count + 1)))

    return first, make


def test_what_steps_have_cut_is_gone_from_the_stock(replanned):
    first, make = replanned
    cuts = [one.number for one in first.steps if one.stage == "cut" and any(piece.keeps for piece in one.on)]
    side = next(one.number for one in first.steps if any(piece.keeps == "bay/side-left" for piece in one.on))
    for count in (side, cuts[-1]):
        plan = make(count)
        built = sum(part.length * part.width * part.built for part in plan.parts if part.material == "case")
        # Sheets are neither made nor thicker than they were: what is left, what is cut and the kerfs are the sheets.
        assert area(plan.job.stock.pieces) + built <= 2 * 2440 * 1220 * MM * MM
        assert {one.id for one in plan.job.stock.pieces} != {"ply", "oak"}
        assert not [one for one in plan.checks if one.code == "work-not-carried-out"]
        for layout in plan.stock.layouts:
            piece = next(one for one in plan.job.stock.pieces if one.id == layout.stock)
            assert (layout.length, layout.width) == (piece.length, piece.width)


def test_blanks_over_size_are_cut_to_their_measure_and_not_from_new_wood(replanned):
    first, make = replanned
    milled = max(one.number for one in first.steps if one.stage in ("cut", "mill") and "measured" not in one.do)
    waits = {
        piece.keeps for one in first.steps if "measured" in one.do and one.action == "crosscut" for piece in one.on
    }
    assert {name.partition("/")[2] for name in waits} >= {"frame-stile-left", "frame-rail-top"}
    plan = make(milled)
    left = [one for one in plan.steps if one.number not in plan.job.done and one.stage in ("cut", "mill")]
    assert [one for one in left if "measured" in one.do]
    assert not [one.do for one in left if "measured" not in one.do]
    assert not plan.stock.layouts
    assert not [one for one in plan.checks if one.code == "work-not-carried-out"]


def test_stock_is_as_it_is_listed_where_no_step_is_done(planned):
    plan = planned(FRAME, stock=STOCK, built=[SHORT])
    assert [(one.id, one.copies) for one in plan.job.stock.pieces] == [("ply", 2), ("oak", 3)]


def test_ids_of_sawn_pieces_are_ids_a_job_may_give_and_each_is_one_piece(replanned):
    first, make = replanned
    cuts = [one.number for one in first.steps if one.stage == "cut" and any(piece.keeps for piece in one.on)]
    ids = [one.id for one in make(cuts[2]).job.stock.pieces]
    assert len(set(ids)) == len(ids)
    assert all(len(name) <= ID_LENGTH for name in ids)
