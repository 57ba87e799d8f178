"""Texts of running dimensions find room beside one another; distances by hand."""

from dataclasses import replace
from itertools import pairwise

from casewright.api.papers.drawing.dimensions import spread, text_places
from casewright.api.papers.drawing.shapes import Running


def test_running_texts_from_two_datums_on_one_line_keep_clear_of_each_other() -> None:
    # Five stops at 46, 48, 50, 52 and 54; one and a half of a text's 2.5 mm are 3.75 from text to text, about 50:
    # 42.5, 46.25, 50, 53.75 and 57.5, whichever datum they are measured from. At scale 1:2 they are twice as far apart.
    left = Running("x", 0, ((54, "54", ()), (46, "46", ()), (50, "50", ())), 0, 8)
    right = Running("x", 100, ((48, "52", ()), (52, "48", ())), 0, 8)
    assert text_places(replace(left, beside=right), 1.0) == [42.5, 50, 57.5]
    assert text_places(replace(right, beside=left), 1.0) == [46.25, 53.75]
    assert text_places(replace(right, beside=left), 0.5) == [42.5, 57.5]
    # A place measured from both: two texts, one to each hand of it.
    one, other = Running("x", 0, ((50, "50", ()),), 0, 8), Running("x", 100, ((50, "50", ()),), 0, 8)
    both = text_places(replace(one, beside=other), 1.0) + text_places(replace(other, beside=one), 1.0)
    assert sorted(both) == [48.125, 51.875]


def test_running_texts_keep_their_distance_and_order() -> None:
    places = spread([0, 1, 2, 3, 40, 41], 4.0)
    assert places == sorted(places)
    assert all(b - a >= 4.0 - 1e-9 for a, b in pairwise(places))
