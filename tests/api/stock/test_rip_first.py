"""Which way first: cuts shorter than the piece is across, by hand in whole units."""

from casewright.api.stock.forest import Block, leftovers_of, parted
from casewright.api.stock.rip_first import cuts_across, ripped_first

KERF = 3


def area(block):
    return sum(dx * dy for dx, dy in leftovers_of(block, []))


def nothing(block):
    return 0


def test_a_piece_cross_cut_and_then_ripped_is_ripped_first():
    # 100 x 50 to 40 x 30. Crosscut first: 50 long, 100 across; then ripped, 40 long, 50 across: both are across.
    # Ripped first: 100 long, 50 across; then crosscut, 30 long, 100 across: one is.
    before = parted(100, 50, 0, [parted(40, 50, 1, [Block(40, 30, item=0)], KERF)], KERF)
    after = ripped_first(before, KERF, nothing)
    assert (cuts_across(before), cuts_across(after)) == (2, 1)
    assert (after.axis, after.kids[0].axis, after.kids[0].dx, after.kids[0].dy) == (1, 0, 100, 30)
    assert after.kids[0].kids == [Block(40, 30, item=0)]


def test_one_rip_serves_pieces_of_one_width():
    kids = [parted(dx, 50, 1, [Block(dx, 30, item=i)], KERF) for i, dx in enumerate((40, 35))]
    after = ripped_first(parted(100, 50, 0, kids, KERF), KERF, nothing)
    assert [(kid.dx, kid.dy) for kid in after.kids] == [(100, 30)]
    assert [(kid.dx, kid.dy, kid.item) for kid in after.kids[0].kids] == [(40, 30, 0), (35, 30, 1)]


def test_pieces_of_two_widths_stay_as_they_are():
    kids = [parted(40, 50, 1, [Block(40, dy, item=i)], KERF) for i, dy in enumerate((30, 25))]
    before = parted(100, 50, 0, kids, KERF)
    assert ripped_first(before, KERF, nothing) == before


def test_a_leftover_worth_keeping_is_kept():
    # Crosscut first leaves 57 x 50 and 40 x 17: of 20 at least on both sides 2,850. Ripped first 100 x 17 is none.
    before = parted(100, 50, 0, [parted(40, 50, 1, [Block(40, 30, item=0)], KERF)], KERF)

    def keeps(block):
        return sum(dx * dy for dx, dy in leftovers_of(block, []) if min(dx, dy) >= 20)

    assert (keeps(before), ripped_first(before, KERF, keeps)) == (2850, before)
