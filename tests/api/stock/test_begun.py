"""Which stock with defects is begun, and which of its clean pieces are cut free; by hand, in mm."""

from casewright.api.job.clean import cleared_of
from casewright.api.stock import begun_of
from casewright.sdk.model import Defect, Stock, StockPiece
from stock_cases import MM, part, planned

KEEP = (300 * MM, 150 * MM)


def stock(copies=1):
    """Return an offcut of 1000 by 200 with a knot across it from 400 to 450: 400 are clear before it, 550 after."""
    knot = Defect(400 * MM, 0, 50 * MM, 200 * MM)
    offcut = StockPiece("knotty", "birch", 18 * MM, 1000 * MM, 200 * MM, copies, kind="offcut", defects=(knot,))
    cleared = cleared_of(offcut, 3 * MM, 0)
    assert cleared is not None
    return Stock((), tuple([one.piece for one in cleared.pieces]), (), 3 * MM, 0, 2, clean=cleared.pieces,
                 cleared=(cleared.stock,))  # fmt: skip


def begun(parts, keep=KEEP, copies=1):
    have = stock(copies)
    return begun_of(have, planned(parts, list(have.offcuts)), keep)


def test_stock_that_no_part_is_cut_from_is_not_begun():
    assert begun([part("board", 1000, 200)]) == ()


def test_a_clean_piece_is_cut_free_where_it_is_used_or_worth_keeping():
    (one,) = begun([part("flap", 500, 200)])
    assert (one.name, [piece.id for piece in one.spare]) == ("knotty", ["knotty.1"])
    assert [(cut.piece, cut.fence // MM, cut.keeps, cut.leaves) for cut in one.cuts] == [
        ("knotty", 400, "knotty.1", "knotty: piece for knotty.2"),
        ("knotty: piece for knotty.2", 550, "knotty.2 1", ""),
    ]


def test_what_is_not_worth_keeping_is_waste_and_the_rest_keeps_its_name():
    (one,) = begun([part("flap", 500, 200)], keep=(401 * MM, 150 * MM))
    assert one.spare == ()
    assert [(cut.piece, cut.keeps, cut.leaves) for cut in one.cuts] == [
        ("knotty", "", "knotty"), ("knotty", "knotty.2 1", ""),
    ]  # fmt: skip


def test_as_many_copies_are_begun_as_of_the_piece_that_is_cut_most():
    pieces = begun([part("flap", 500, 200, quantity=2), part("lid", 390, 200)], copies=3)
    assert [one.name for one in pieces] == ["knotty (1 of 2)", "knotty (2 of 2)"]
    assert [len(one.used) for one in pieces] == [2, 1]
    assert [[piece.id for piece in one.spare] for one in pieces] == [[], ["knotty.1"]]
