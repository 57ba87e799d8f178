"""Stock with defects as the clean pieces it is cut into first: by hand, and as it must always be."""

from dataclasses import replace

from casewright.api import plan
from casewright.api.job.clean import cleared_of
from casewright.sdk.model import Defect, StockPiece
from hypothesis import given, settings
from hypothesis import strategies as st

MM = 1_000_000


def offcut(length, width, *defects, kind="offcut"):
    marks = tuple([Defect(*[MM * nm for nm in one]) for one in defects])
    return StockPiece("o", "ply", 18 * MM, length * MM, width * MM, 1, kind=kind, defects=marks)


def clean_of(piece, kerf, trim):
    return cleared_of(piece, kerf, trim).pieces


def places(pieces):
    return [tuple(nm // MM for nm in (one.x, one.y, one.piece.length, one.piece.width)) for one in pieces]


def test_a_knot_across_a_board_is_cross_cut_out():
    # the knot lies from 400 to 450 over the whole width: both sides are clean from its edges on
    assert places(clean_of(offcut(1000, 100, (400, 0, 50, 100)), 3 * MM, 0)) == [(0, 0, 400, 100), (450, 0, 550, 100)]


def test_a_knot_in_a_corner_leaves_the_larger_piece_whole():
    rects = clean_of(offcut(1000, 400, (900, 360, 100, 40)), 3 * MM, 0)
    # 100 off the end leaves 900 x 400, and, less the kerf of 3, 97 x 360 = 34,920 beside the knot; 40 off the side
    # leaves as much, 1000 x 360, but 900 x 37 = 33,300
    assert places(rects) == [(0, 0, 900, 400), (903, 0, 97, 360)]


def test_a_sheet_is_taken_within_its_trims_and_its_pieces_are_offcuts():
    (one, other) = clean_of(offcut(1000, 500, (500, 0, 20, 500), kind="sheet"), 3 * MM, 10 * MM)
    assert [one.piece.kind, other.piece.kind] == ["offcut", "offcut"]
    assert places([one, other]) == [(10, 10, 490, 480), (520, 10, 470, 480)]


def cuts(cleared):
    return [(one.along, one.fence // MM, one.keeps, one.leaves, one.purpose) for one in cleared.stock.cuts]


def test_stock_without_defects_or_taper_is_cut_as_it_is():
    assert cleared_of(offcut(1000, 100), 3 * MM, 10 * MM) is None


def test_the_cuts_measure_from_what_is_clear_of_the_defect():
    cleared = cleared_of(offcut(1000, 100, (400, 0, 50, 100)), 3 * MM, 0)
    # either 400 from the one end and then 550 from the other, or the other way round; both waste the knot
    assert cuts(cleared) == [
        ("width", 400, "o.1", "o: o.2", "defect"),
        ("width", 550, "o.2", "", "defect"),
    ]


def test_a_tapered_offcut_is_ripped_straight_before_all_else():
    piece = replace(offcut(1000, 300), taper=20 * MM)
    cleared = cleared_of(piece, 3 * MM, 0)
    assert cuts(cleared) == [("length", 280, "o.1", "", "taper")]
    assert places(cleared.pieces) == [(0, 0, 1000, 280)]
    assert [one.piece.taper for one in cleared.pieces] == [0]


def test_a_sheet_is_cut_within_its_other_trims_first():
    cleared = cleared_of(offcut(1000, 500, (500, 0, 20, 500), kind="sheet"), 3 * MM, 10 * MM)
    # one edge and one end are off: 490 and 990 are left to measure, 480 and 980 to keep
    assert cuts(cleared)[:2] == [("length", 480, "o", "", "edge"), ("width", 980, "o", "", "edge")]


RECTS = st.tuples(st.integers(0, 900), st.integers(0, 350), st.integers(1, 200), st.integers(1, 100))


@settings(max_examples=100)
@given(st.lists(RECTS, min_size=1, max_size=4), st.integers(0, 5))
def test_clean_pieces_lie_on_the_stock_apart_and_meet_no_defect(marks, kerf):
    clean = places(clean_of(offcut(1000, 400, *marks), kerf * MM, 0))
    rects = [(x, y, x + a, y + b) for x, y, a, b in clean]
    for i, (x0, y0, x1, y1) in enumerate(rects):
        assert 0 <= x0 < x1 <= 1000
        assert 0 <= y0 < y1 <= 400
        for a0, b0, a, b in marks:
            assert x1 <= a0 or x0 >= a0 + a or y1 <= b0 or y0 >= b0 + b
        for c0, d0, c1, d1 in rects[:i]:
            assert x1 <= c0 or x0 >= c1 or y1 <= d0 or y0 >= d1


def test_a_job_cuts_only_clean_wood_and_says_how_it_is_come_by():
    job = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [],
        "loose_parts": [{"id": "flap", "material": "ply", "length": 500, "width": 200}],
        "stock": {
            "kerf": 3,
            "offcuts": [
                {
                    "id": "knotty",
                    "material": "ply",
                    "length": 1000,
                    "width": 200,
                    "defects": [{"x": 400, "y": 0, "length": 50, "width": 200}],
                }
            ],
        },
    }
    answer = plan(job)
    assert [layout["stock"] for layout in answer["stock"]["layouts"]] == ["knotty.2"]
    assert answer["stock"]["clean"][1] == {
        "stock": "knotty", "piece": "knotty.2", "x": 450, "y": 0, "length": 550, "width": 200,
    }  # fmt: skip
    (caution,) = [check for check in answer["checks"] if check["code"] == "stock-defects"]
    assert (caution["subject"], caution["level"]) == ("knotty", "caution")
    # not begun, and clean: the other end is stock for the next job
    assert [(row["id"], row["length"]) for row in answer["stock"]["after"]["offcuts"]] == [("knotty.1", 400)]
    assert not [check for check in answer["checks"] if check["level"] == "stop"]
    job["loose_parts"][0]["length"] = 560
    assert plan(job)["stock"]["short"]
