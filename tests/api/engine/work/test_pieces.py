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
        part("tools/back", "back"), replace(part("spares/top", "top"), quantity=2),
    )
}  # fmt: skip


def strip(*pieces, label="1.1", dy=10, cuts=None):
    inside = tuple(CutPiece(f"{label}.{i}", "part", 0, 0, 10, 10, name) for i, name in enumerate(pieces, 1))
    return CutPiece(label, "piece", 0, 0, 100, dy, cuts=cuts or tuple(range(len(pieces))), inside=inside)


def layout(*inside, number=1):
    tree = CutPiece(str(number), "stock", 0, 0, 100, 100, cuts=(1,), inside=inside)
    return StockLayout(number, "case-sheet", "sheet", "ply", 18 * MM, 100, 100, (), tree, (), (), 0)


@pytest.mark.parametrize(
    ("inside", "name"),
    [
        (["tools/side-left", "tools/side-right"], "strip for tools sides"),
        (["tools/shelf-1", "tools/shelf-1"], "strip for 2 × tools shelf-1"),
        (["spares/top", "spares/top"], "strip for 2 × spares top"),
        (["tools/shelf-1", "tools/shelf-2"], "strip for 2 tools shelves"),
        (["tools/shelf-1", "spares/shelf-1", "tools/shelf-2"], "strip for spares shelf-1 and 2 tools shelves"),
        (["tools/top", "tools/back"], "strip for tools back and top"),
        (["tools/top", "spares/shelf-1"], "strip for spares shelf-1 and tools top"),
        (["tools/top", "tools/back", "tools/shelf-2", "tools/shelf-3"], "strip for tools back and 3 more"),
    ],
)
def test_a_loose_piece_is_named_by_its_sheet_and_what_it_becomes(inside, name):
    assert names_of([layout(strip(*inside))], {}, PARTS, {})[1]["1.1"] == f"case-sheet 1: {name}"


def test_the_largest_part_stands_for_the_others():
    parts = [("tools/back", 3), ("tools/top", 5), ("tools/shelf-2", 2)]
    inside = tuple(CutPiece(f"1.1.{dx}", "part", 0, 0, dx, 10, name) for name, dx in parts)
    piece = CutPiece("1.1", "piece", 0, 0, 100, 10, cuts=(1, 2, 3), inside=inside)
    assert names_of([layout(piece)], {}, PARTS, {})[1]["1.1"] == "case-sheet 1: strip for tools top and 2 more"


def test_the_sheet_keeps_its_name_when_it_is_trimmed_and_waste_has_none():
    tree = layout(strip("tools/back"), CutPiece("1.2", "waste", 0, 0, 1, 1))
    names = names_of([tree], {}, PARTS, {(1, "1.1"): "1"})[1]
    assert names == {"1": "case-sheet 1", "1.1": "case-sheet 1", "1.1.1": "tools/back", "1.2": ""}


def test_pieces_with_the_same_words_are_numbered_but_equal_ones_share_a_name():
    wide, other = strip("tools/back", label="1.2", dy=12), strip("tools/back", label="1.3", dy=12)
    first = strip("tools/back", dy=20)
    names = names_of([layout(first, wide, other)], {}, PARTS, {})[1]
    assert names["1.1"] == "case-sheet 1: tools back 1, over size"
    assert names["1.2"] == names["1.3"] == "case-sheet 1: tools back 2, over size"


def test_strips_of_many_parts_are_numbered_on_their_sheet():
    many = ["tools/top", "tools/shelf-1", "tools/back"]
    first = layout(strip(*many), strip(*many, label="1.2"))
    again = layout(strip(*many, label="2.1"), CutPiece("2.2", "leftover", 0, 0, 50, 50), number=2)
    names = names_of([first, again], {}, PARTS, {})
    both = ["case-sheet 1: strip 1 for tools back and 2 more", "case-sheet 1: strip 2 for tools back and 2 more"]
    assert [names[1]["1.1"], names[1]["1.2"]] == both
    assert names[2]["2.1"] == "case-sheet 2: strip for tools back and 2 more"
    assert names[2]["2.2"] == "case-sheet 2: leftover"


@pytest.mark.parametrize(
    ("size", "word"),
    [((60, 80), "half with"), ((60, 40), "piece with"), ((80, 40), "strip for"), ((40, 100), "strip for")],
)
def test_a_piece_goes_by_its_shape(size, word):
    """Of a sheet 100 × 100: 48 % of it; 24 % of it; twice as long as wide, along the sheet or across."""
    strip_pieces = strip("tools/back", "tools/top").inside
    piece = CutPiece("1.1", "piece", 0, 0, *size, cuts=(1, 2), inside=strip_pieces)
    assert names_of([layout(piece)], {}, PARTS, {})[1]["1.1"] == f"case-sheet 1: {word} tools back and top"


@pytest.mark.parametrize(
    ("size", "words"),
    [((12, 10), "over length"), ((10, 12), "over width"), ((12, 12), "over size")],
)
def test_a_piece_of_one_part_says_by_what_it_is_too_large(size, words):
    part = CutPiece("1.1.1", "part", 0, 0, 10 * MM, 10 * MM, "tools/back")
    piece = CutPiece("1.1", "piece", 0, 0, size[0] * MM, size[1] * MM, cuts=(1,), inside=(part,))
    assert names_of([layout(piece)], {}, PARTS, {})[1]["1.1"] == f"case-sheet 1: tools back, {words}"


def test_a_part_that_lies_turned_is_over_length_across_the_sheet():
    long = replace(PARTS["tools/back"], length=20 * MM)
    part = CutPiece("1.1.1", "part", 0, 0, 10 * MM, 20 * MM, "tools/back")
    piece = CutPiece("1.1", "piece", 0, 0, 10 * MM, 24 * MM, cuts=(1,), inside=(part,))
    names = names_of([layout(piece)], {}, {**PARTS, "tools/back": long}, {})[1]
    assert names["1.1"] == "case-sheet 1: tools back, over length"
