"""What a piece on its way to parts is called."""

from dataclasses import replace

import pytest
from casewright.api.engine.work.pieces import names_of
from casewright.sdk.geometry import Place
from casewright.sdk.model import CutPiece, Part, StockLayout, Term

MM = 1_000_000


def part(name, role="side", words=""):
    why = (Term("given", 10 * MM),)
    cabinet = name.partition("/")[0]
    return Part(
        name, cabinet, role, words or name.partition("/")[2], 1, "ply", 10 * MM, 10 * MM, 18 * MM, "free", why, why,
        Place((0, 0, 0), 1, 2, 3),
    )  # fmt: skip


PARTS = {
    one.id: one
    for one in (
        part("tools/side-left"), part("tools/side-right"), part("tools/top", "top"), part("tools/shelf-1", "shelf"),
        part("tools/shelf-2", "shelf"), part("tools/shelf-3", "shelf"), part("spares/shelf-1", "shelf"),
        part("tools/back", "back"),
    )
}  # fmt: skip


def strip(*held, label="1.1", dy=10, cuts=None):
    inside = tuple(CutPiece(f"{label}.{i}", "part", 0, 0, 10, 10, name) for i, name in enumerate(held, 1))
    return CutPiece(label, "piece", 0, 0, 100, dy, cuts=cuts or tuple(range(len(held))), inside=inside)


def layout(*inside, number=1):
    tree = CutPiece(str(number), "stock", 0, 0, 100, 100, cuts=(1,), inside=inside)
    return StockLayout(number, "case-sheet", "sheet", "ply", 18 * MM, 100, 100, (), tree, (), (), 0)


@pytest.mark.parametrize(
    ("held", "name"),
    [
        (["tools/side-left", "tools/side-right"], "strip for both sides of tools"),
        (["tools/side-left", "tools/side-left"], "strip for side-left of tools"),
        (["tools/shelf-1", "tools/shelf-2"], "strip for shelf-1 and shelf-2 of tools"),
        (["tools/shelf-1", "spares/shelf-1", "tools/shelf-2"], "strip for 3 shelves"),
        (["tools/top", "tools/shelf-1", "tools/shelf-2", "tools/shelf-3"], "strip for top and all 3 shelves of tools"),
        (["tools/top", "tools/shelf-1", "tools/back"], "strip of case-sheet 1"),
        (["tools/top", "spares/shelf-1"], "strip of case-sheet 1"),
        (["tools/back"], "strip for back of tools"),
    ],
)
def test_a_strip_is_named_by_what_it_becomes_in_few_words(held, name):
    assert names_of([layout(strip(*held))], {}, PARTS, ())[1]["1.1"] == name


def test_the_sheet_keeps_its_name_when_it_is_trimmed_and_waste_has_none():
    tree = layout(strip("tools/back"), CutPiece("1.2", "waste", 0, 0, 1, 1))
    names = names_of([tree], {}, PARTS, {(1, "1.1")})[1]
    assert names == {"1": "case-sheet 1", "1.1": "case-sheet 1", "1.1.1": "tools/back", "1.2": ""}


def test_pieces_with_the_same_words_are_numbered_but_equal_ones_share_a_name():
    wide, other = strip("tools/back", label="1.2", dy=12), strip("tools/back", label="1.3")
    names = names_of([layout(strip("tools/back"), wide, other)], {}, PARTS, ())[1]
    assert names["1.1"] == names["1.3"] == "strip 1 for back of tools"
    assert names["1.2"] == "strip 2 for back of tools"


def test_strips_of_many_parts_are_numbered_on_their_sheet():
    many = ["tools/top", "tools/shelf-1", "tools/back"]
    first = layout(strip(*many), strip(*many, label="1.2"))
    again = layout(strip(*many, label="2.1"), CutPiece("2.2", "leftover", 0, 0, 50, 50), number=2)
    names = names_of([first, again], {}, PARTS, ())
    assert [names[1]["1.1"], names[1]["1.2"]] == ["strip 1 of case-sheet 1", "strip 2 of case-sheet 1"]
    assert [names[2]["2.1"], names[2]["2.2"]] == ["strip of case-sheet 2", "leftover of case-sheet 2"]


def test_a_piece_across_the_sheet_is_no_strip():
    piece = replace(strip("tools/back"), dx=40)
    assert names_of([layout(piece)], {}, PARTS, ())[1]["1.1"] == "piece for back of tools"
