"""Which pieces of rough boards are milled, and by how much; sizes in mm."""

from dataclasses import replace

import pytest
from casewright.api import plan
from casewright.api.engine.work.milling import blanks_of, counted, is_under, milling
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.geometry import Place
from casewright.sdk.model import Action, Part, Stock, StockPiece, Workpiece

MM = 1_000_000
ROUGH = StockPiece("plank", "oak", 27 * MM, 2400 * MM, 180 * MM, kind="board")


def part(name, thickness=19):
    return Part(
        name, "", "loose", name, 1, "oak", 500 * MM, 60 * MM, thickness * MM, "along-length", (), (),
        Place((0, 0, 0), 1, 2, 3),
    )  # fmt: skip


PARTS = {one.id: one for one in (part("rung"), part("slat", 12))}


def planned(length=0, width=0):
    """Return the cutting plan of a rung and a slat from one plank with allowances, and the stock."""
    demands = tuple(Demand(p.id, "oak", p.thickness, p.length, p.width, kind="board") for p in PARTS.values())
    limits = ShopLimits(kerf=4 * MM, mill_length=length * MM, mill_width=width * MM)
    stock = Stock((), (), (ROUGH,), 4 * MM, 0, 2, length * MM, width * MM)
    return plan_stock(StockRequest(demands, (ROUGH,), limits)), stock


@pytest.mark.parametrize(("length", "width"), [(25, 8), (25, 0), (0, 8), (0, 0)])
def test_the_innermost_rough_block_is_milled_with_its_allowances(length, width):
    plan, stock = planned(length, width)
    blanks = blanks_of(plan, stock, PARTS)
    assert {part.id for part in blanks.values()} == {"rung", "slat"}
    for layout in plan.layouts:
        for piece in pieces(layout.tree):
            if (layout.number, piece.label) in blanks:
                assert (piece.dx, piece.dy) == ((500 + length) * MM, (60 + width) * MM)
                assert all(is_under(blanks, layout.number, inner.label) for inner in pieces(piece))
        assert not is_under(blanks, layout.number, layout.tree.label)


def pieces(piece):
    return [piece, *(inner for one in piece.inside for inner in pieces(one))]


def test_half_of_what_is_over_comes_off_the_face_and_the_planer_makes_the_thickness():
    """27 to 19: 8 over, 4 off the face. 27 to 12: 15 over, 7.5 off. In width 8 less a kerf of 4: 2 off the edge."""
    plan, stock = planned(25, 8)
    milled = blanks_of(plan, stock, PARTS)
    names = {number: {label: f"blank {part.id}" for (n, label), part in milled.items() if n == number}
             for number, _ in milled}  # fmt: skip
    operations = milling(plan, stock, milled, names)
    assert [(one.action, one.setting.depth, one.setting.height) for one in operations] == [
        (Action.FACE, 7_500_000, None),
        (Action.FACE, 4 * MM, None),
        (Action.EDGE, 2 * MM, None),
        (Action.THICKNESS, None, 19 * MM),
        (Action.THICKNESS, None, 12 * MM),
        (Action.WAIT, None, None),
    ]
    assert operations[-1].minutes == 12 * 60  # overnight (common practice)
    assert {one.keeps for one in operations[-1].on} == {"blank rung", "blank slat"}


def test_equal_pieces_that_follow_each_other_are_one_line():
    a, b = Workpiece(piece="a"), Workpiece(piece="b", count=2)
    assert [(one.piece, one.count) for one in counted([a, a, b, b, a])] == [("a", 2), ("b", 4), ("a", 1)]


@pytest.mark.parametrize(("mm_long", "short"), [(279, True), (280, False)])
def test_what_is_too_short_for_jointer_and_planer_goes_on_a_carrier(mm_long, short):
    """12 in is 304.8 mm: a blank of 279 with 25 over is shorter, one of 280 is not (common practice, no source)."""
    rung = replace(PARTS["rung"], length=mm_long * MM)
    demand = Demand(rung.id, "oak", rung.thickness, rung.length, rung.width, kind="board")
    limits = ShopLimits(kerf=4 * MM, mill_length=25 * MM, mill_width=8 * MM)
    plan = plan_stock(StockRequest((demand,), (ROUGH,), limits))
    stock = Stock((), (), (ROUGH,), 4 * MM, 0, 2, 25 * MM, 8 * MM)
    milled = blanks_of(plan, stock, {rung.id: rung})
    names = {number: {label: part.id} for (number, label), part in milled.items()}
    *by_machine, rest = milling(plan, stock, milled, names)
    assert [bool(one.cautions) for one in by_machine] == [short] * 3
    assert all("carrier" in one.cautions[0] and "rung" in one.cautions[0] for one in by_machine if short)
    assert not rest.cautions


@pytest.mark.parametrize(
    ("bought", "names"),
    [
        ({}, {"loose/rail, of bought, over size", "loose/rail, of rough, over size"}),
        ({"thickness": "7/8"}, {"loose/rail, of bought, over size", "loose/rail, of rough, over size"}),
        ({"thickness": 1}, {"loose/rail, over size"}),
    ],
)
def test_blanks_of_one_part_that_are_milled_otherwise_are_told_apart(bought, names):
    # A board 34 by 5 yields two rails 31 by 2 3/8 with a kerf of 1/8, so three rails take two boards. One of 3/4 is of
    # its thickness already; of 7/8 half of the 1/8 over comes off the face, of 1 in half of 1/4.
    board = {"material": "oak", "length": 34, "width": 5}
    job = {
        "units": "in",
        "materials": {"oak": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"}},
        "loose_parts": [{"id": "rail", "material": "oak", "length": 30, "width": 2, "quantity": 3}],
        "stock": {
            "boards": [
                {"id": "rough", **board, "thickness": 1, "copies": 1},
                {"id": "bought", **board, "copies": None, **bought},
            ],
            "milling": {"width": "3/8"},
        },
    }
    made = plan(job)
    assert [check["message"] for check in made["checks"] if check["level"] == "stop"] == []
    pieces = {one.get("piece", "") for step in made["steps"] if step["action"] == "rip" for one in step["on"]}
    assert {piece for piece in pieces if piece.startswith("loose/rail")} == names
