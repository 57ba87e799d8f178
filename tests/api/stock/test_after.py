"""The pile after a job is what the next job starts from."""

from casewright.api import plan
from casewright.api.stock import pieces_after
from casewright.sdk.model import StockPiece
from stock_cases import MM, part, planned, sheet


def job(units="mm", **stock):
    return {
        "units": units,
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [],
        "loose_parts": [{"id": "flap", "material": "ply", "length": 600, "width": 300}],
        "stock": {"kerf": 3, **stock},
    }


def test_what_is_not_begun_and_what_is_worth_keeping_is_left() -> None:
    pieces = [sheet("scrap", 1000, 300, copies=2, kind="offcut"), sheet("other", 500, 200, copies=1, kind="offcut")]
    made = planned([part("flap", 600, 300)], pieces)
    after = pieces_after(pieces, made.layouts)
    # 1000 less 600 and a kerf of 3 is 397 by 300, over the 300 by 150 that is kept; one scrap is not begun
    assert [(p.id, p.length // MM, p.width // MM, p.copies, p.kind) for p in after] == [
        ("scrap", 1000, 300, 1, "offcut"),
        ("other", 500, 200, 1, "offcut"),
        ("scrap-1-left-1", 397, 300, 1, "offcut"),
    ]


def test_the_pile_as_written_is_the_stock_of_the_next_job() -> None:
    first = plan(job(offcuts=[{"id": "scrap", "material": "ply", "length": 1250, "width": 300}]))
    after = first["stock"]["after"]
    assert after["offcuts"] == [
        {"id": "scrap-1-left-1", "material": "ply", "length": 647, "width": 300, "copies": 1, "grain": "along-length"}
    ]
    second = plan(job(**after))
    assert second["stock"]["layouts"][0]["stock"] == "scrap-1-left-1"
    assert second["stock"]["short"] == []
    # 647 less 600 and a kerf is 44: nothing is left
    assert second["stock"]["after"] == {"sheets": [], "offcuts": [], "boards": []}


def test_a_leftover_of_a_leftover_is_called_after_the_first_piece() -> None:
    # 900 less 250 and a kerf of 3 is 647 by 300; the first leftover is cut up, so that its own id is not free yet
    pieces = [sheet("scrap-1-left-1", 900, 300, copies=1, kind="offcut")]
    made = planned([part("flap", 250, 300)], pieces)
    (left,) = pieces_after(pieces, made.layouts)
    assert (left.id, left.length // MM, left.width // MM) == ("scrap-1-left-2", 647, 300)


def test_a_long_id_stays_an_id() -> None:
    piece = StockPiece("s" * 40, "birch", 18 * MM, 1000 * MM, 300 * MM, 1, kind="offcut")
    made = planned([part("flap", 600, 300)], [piece])
    (left,) = pieces_after([piece], made.layouts)
    assert len(left.id) <= 40
    assert left.id.endswith("-1-left-1")


def test_ids_of_pieces_still_there_are_not_given_again() -> None:
    # the offcut is too small for the part, so a new sheet is cut, as the one before it was
    sheets = [{"id": "full", "material": "ply", "length": 1250, "width": 610}]
    first = plan(job(sheets=sheets))["stock"]["after"]
    assert [row["id"] for row in first["offcuts"]] == ["full-1-left-1", "full-1-left-2"]
    larger = job(**{**first, "sheets": sheets})
    larger["loose_parts"][0]["width"] = 310
    second = plan(larger)["stock"]["after"]
    ids = [row["id"] for row in second["offcuts"]]
    assert len(set(ids)) == len(ids) > 2
    assert plan(job(**{**second, "sheets": sheets}))["stock"]["short"] == []


def test_stock_that_is_not_begun_keeps_its_cost() -> None:
    rows = [
        {"id": "scrap", "material": "ply", "length": 650, "width": 310},
        {"id": "other", "material": "ply", "length": 1250, "width": 610, "cost": 12.5},
    ]
    assert plan(job(offcuts=rows))["stock"]["after"]["offcuts"] == [
        {"id": "other", "material": "ply", "length": 1250, "width": 610, "copies": 1, "cost": 12.5,
         "grain": "along-length"}
    ]  # fmt: skip
