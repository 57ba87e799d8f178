"""How shapes become strokes on paper: hatching by hand, dimensions as ISO 129-1 (read) has them.

ISO 129-1: extension lines run from the outline past the dimension line, arrows end on them, the text stands over the
line, read from below or from the right.
"""

import math

import pytest
from casewright.api.papers.drawing.inked import Label, Mark, Round
from casewright.api.papers.drawing.marks import on_paper
from casewright.api.papers.drawing.shapes import Dimension, Hatch, Running, Sheet, View


def marks(shape, scale=1.0):
    """Return a shape's marks in true size: the sheet's, scaled back."""
    sheet = Sheet("", "", 400, 400, "mm", (View("v", (shape,), (0.0, 0.0), scale),))
    return list(on_paper(sheet))


def strokes(shape, scale=1.0):
    """Return a shape's open lines as pairs of points on paper, and its filled arrows as (tip, middle of the tail)."""
    inked = [mark for mark in marks(shape, scale) if isinstance(mark, Mark)]
    lines = [mark.points for mark in inked if not mark.solid]
    arrows = []
    for mark in inked:
        if mark.solid:
            tip, a, b = mark.points
            arrows.append((tip, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)))
    return lines, arrows


@pytest.mark.parametrize("scale", [1.0, 0.5])
def test_hatching_of_a_square(scale):
    # A square of 10 / scale, so 10 on paper; lines at 45 degrees, 2 apart: they stand at 0, ±2, ±4, ±6 from the
    # diagonal, whose half across is 7.07; each is 2 (7.07 − |k|) long.
    size = 10 / scale
    square = ((0.0, 0.0), (size, 0.0), (size, size), (0.0, size))
    lines, _ = strokes(Hatch((square,), 45, 2.0), scale)
    half = 10 / math.sqrt(2)
    hatching = sorted((round((b[1] - b[0]) / math.sqrt(2), 6), math.dist(a, b)) for a, b in lines)
    assert [place for place, _ in hatching] == [-6, -4, -2, 0, 2, 4, 6]
    assert [long for _, long in hatching] == pytest.approx([2 * (half - abs(k)) for k in (-6, -4, -2, 0, 2, 4, 6)])
    for line in lines:
        assert all(-1e-9 <= n <= 10 + 1e-9 for point in line for n in point)


def test_hatching_the_other_way_and_over_two_polygons():
    # At 135 degrees x + y is the same along a line. Two squares side by side are hatched as one region: no line ends
    # on their common side.
    left = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    right = tuple((x + 10, y) for x, y in left)
    lines, _ = strokes(Hatch((left, right), 135, 2.0))
    assert lines
    for a, b in lines:
        assert a[0] + a[1] == pytest.approx(b[0] + b[1])
        assert abs(a[0] - 10) > 1e-6 or a[1] in (pytest.approx(0), pytest.approx(10))
        assert abs(b[0] - 10) > 1e-6 or b[1] in (pytest.approx(0), pytest.approx(10))


@pytest.mark.parametrize(("along", "scale"), [("x", 1.0), ("y", 1.0), ("x", 0.25), ("y", 0.25)])
def test_a_dimension_with_room(along, scale):
    # From 20 to 100 (on paper) of an outline at 50, its line 8 beyond: at 58.
    shape = Dimension(along, 20 / scale, 100 / scale, 50 / scale, 8, "80", ())
    lines, arrows = strokes(shape, scale)
    lengthwise, across = (0, 1) if along == "x" else (1, 0)
    extensions = [line for line in lines if line[0][lengthwise] == pytest.approx(line[1][lengthwise])]
    (own,) = [line for line in lines if line not in extensions]
    assert sorted(p[lengthwise] for p in own) == pytest.approx([20, 100])
    assert [p[across] for p in own] == pytest.approx([58, 58])
    assert sorted(line[0][lengthwise] for line in extensions) == pytest.approx([20, 100])
    for line in extensions:
        low, high = sorted(p[across] for p in line)
        assert 50 < low < 52
        assert 58 < high < 61
    # Arrows lie between the extension lines and point outward, each with its tip on one.
    tips = sorted((tip[lengthwise], tail[lengthwise]) for tip, tail in arrows)
    assert [tip for tip, _ in tips] == pytest.approx([20, 100])
    assert tips[0][1] > 20
    assert tips[1][1] < 100
    (label,) = [mark for mark in marks(shape, scale) if isinstance(mark, Label)]
    assert label.at[lengthwise] == pytest.approx(60)
    # Over the line where it is read from below, left of it where it is read from the right.
    over = label.at[1] > 58 if along == "x" else label.at[0] < 58
    assert (over, label.angle) == (True, 0 if along == "x" else 90)


def test_a_dimension_without_room_has_its_arrows_outside():
    lines, arrows = strokes(Dimension("x", 20, 23, 50, 8, "3", ()))
    tips = sorted((tip[0], tail[0]) for tip, tail in arrows)
    assert [tip for tip, _ in tips] == pytest.approx([20, 23])
    assert tips[0][1] < 20
    assert tips[1][1] > 23
    (own,) = [line for line in lines if line[0][0] != pytest.approx(line[1][0])]
    assert min(p[0] for p in own) < tips[0][1] + 1e-9
    assert max(p[0] for p in own) > tips[1][1] - 1e-9


def test_a_dimension_below_the_outline_runs_downward():
    lines, _ = strokes(Dimension("x", 20, 100, 50, -8, "80", ()))
    for line in lines:
        assert all(y < 50 for _, y in line)
    (own,) = [line for line in lines if line[0][0] != pytest.approx(line[1][0])]
    assert own[0][1] == pytest.approx(42)


def test_running_dimensions_share_one_datum():
    # ISO 129-1: a ring marks the datum, one line runs to the last stop, each arrow points away from the datum.
    shape = Running("x", 10, ((40, "30", ()), (110, "100", ())), 50, -8)
    lines, arrows = strokes(shape)
    (ring,) = [mark for mark in marks(shape) if isinstance(mark, Round)]
    assert ring.centre == (10, 42)
    (own,) = [line for line in lines if len(line) == 2 and line[0][1] == line[1][1] == pytest.approx(42)]
    assert [p[0] for p in own] == [10, 110]
    assert sorted((tip[0], tail[0] < tip[0]) for tip, tail in arrows) == [(40, True), (110, True)]
    texts = {mark.text: mark.at for mark in marks(shape) if isinstance(mark, Label)}
    assert set(texts) == {"30", "100"}
    # Each text stands at its own stop, within its height.
    assert abs(texts["30"][0] - 40) < 2.5
    assert abs(texts["100"][0] - 110) < 2.5
    assert all(y < 42 for _, y in texts.values())


def test_running_dimensions_run_both_ways_from_the_datum():
    lines, arrows = strokes(Running("y", 50, ((20, "30", ()), (90, "40", ())), 0, 8))
    own = [line for line in lines if len(line) == 2 and line[0][0] == line[1][0] == pytest.approx(8)]
    reached = [p[1] for line in own for p in line]
    assert min(reached) <= 20
    assert max(reached) == 90
    assert sorted((tip[1], tip[1] > tail[1]) for tip, tail in arrows) == [(20, False), (90, True)]
    # The line ends at the last stop on either side.
    assert (min(reached), max(reached)) == (20, 90)
