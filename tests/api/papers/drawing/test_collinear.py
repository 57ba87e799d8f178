"""Runs on one straight, worked by hand: what overlaps is joined once, what is drawn over is left out."""

from casewright.api.papers.drawing.collinear import joined, runs_left
from casewright.api.papers.drawing.shapes import Kind, Line


def spans(lines: list[Line]) -> set[tuple[tuple[float, ...], ...]]:
    return {tuple(sorted(tuple(round(n, 2) for n in end) for end in (line.a, line.b))) for line in lines}


def test_overlapping_runs_become_one_whichever_way_they_are_drawn():
    lines = [
        Line((0, 5), (40, 5), Kind.HIDDEN),
        Line((60, 5), (30, 5), Kind.HIDDEN),
        Line((80, 5), (90, 5), Kind.HIDDEN),
    ]
    runs = runs_left(lines, ())
    assert spans(runs) == {((0, 5), (60, 5)), ((80, 5), (90, 5))}
    assert {line.kind for line in runs} == {Kind.HIDDEN}


def test_what_lies_under_a_line_that_is_seen_is_left_out():
    seen = [Line((3, 20), (3, 10)), Line((4, 0), (4, 30))]
    assert spans(runs_left([Line((3, 0), (3, 30), Kind.HIDDEN)], seen)) == {((3, 0), (3, 10)), ((3, 20), (3, 30))}


def test_slanting_runs_stay_where_they_are():
    # A 3-4-5 triangle's long side, in two pieces that overlap.
    lines = [Line((0, 0), (30, 40), Kind.HIDDEN), Line((60, 80), (15, 20), Kind.HIDDEN)]
    assert spans(runs_left(lines, ())) == {((0, 0), (60, 80))}


def test_spans_that_touch_are_one():
    assert joined([(5, 6), (0, 1), (1, 3)]) == [(0, 3), (5, 6)]
