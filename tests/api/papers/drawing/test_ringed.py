"""Gaps where rings stand on lines."""

import pytest
from casewright.api.papers.drawing.ringed import ringed
from casewright.api.papers.drawing.shapes import Line


def test_a_ring_on_a_line_parts_it() -> None:
    # 3, 4, 5: a ring of radius 5 whose middle is 3 off the line leaves out 4 to each side.
    left, right = ringed([Line((0, 0), (20, 0))], [(10, 3)], 5)
    assert (left.a, left.b) == ((0, 0), (6, 0))
    assert (right.a, right.b) == ((14, 0), (20, 0))


def test_slanting_lines_and_rings_past_an_end() -> None:
    (rest,) = ringed([Line((0, 0), (30, 40))], [(0, 0)], 10)
    assert rest.a == pytest.approx((6, 8))
    assert rest.b == pytest.approx((30, 40))
    assert ringed([Line((0, 0), (3, 0))], [(1.5, 0)], 5) == []
    whole = Line((0, 0), (3, 0))
    assert ringed([whole], [(1.5, 9)], 5) == [whole]
