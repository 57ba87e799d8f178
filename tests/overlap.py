"""What is wrong with a sheet's layout: text over text, lines through dimension text, marks off the paper."""

import itertools
from collections.abc import Iterator

from casewright.api.papers.drawing.inked import Label, Mark, Round
from casewright.api.papers.drawing.marks import Rectangle, box_of, on_paper
from casewright.api.papers.drawing.shapes import XY, Sheet

EDGE = 4.0
"""Paper left free round the sheet, mm: what a usual printer cannot reach."""


def overlaps(sheet: Sheet) -> list[str]:
    """Return a sentence for each fault in a sheet's layout; none for a sound one."""
    inked = list(on_paper(sheet))
    labels = [(mark, box_of(mark)) for mark in inked if isinstance(mark, Label) and mark.text]
    out = list(_off_paper(sheet, inked))
    for i, (first, a) in enumerate(labels):
        for second, b in labels[i + 1 :]:
            if _meet(a, b, 0.15):
                out.append(f"text over text: {first.text!r} and {second.text!r}")
    strokes = [mark for mark in inked if isinstance(mark, Mark) and not mark.solid]
    for label, box in labels:
        if not label.dimension:
            continue
        inner = (box[0] + 0.2, box[1] + 0.2 + 0.28 * label.height, box[2] - 0.2, box[3] - 0.2)
        if label.angle == 90:
            inner = (box[0] + 0.2, box[1] + 0.2, box[2] - 0.2 - 0.28 * label.height, box[3] - 0.2)
        for stroke in strokes:
            if any(_crosses(inner, p, q) for p, q in _segments(stroke)):
                out.append(f"a line through the dimension {label.text!r}")
                break
    return out


def _off_paper(sheet: Sheet, inked: list[Mark | Round | Label]) -> Iterator[str]:
    for mark in inked:
        if isinstance(mark, Label):
            box = box_of(mark)
            name = f"the text {mark.text!r}"
        elif isinstance(mark, Mark):
            xs, ys = [p[0] for p in mark.points], [p[1] for p in mark.points]
            box, name = (min(xs), min(ys), max(xs), max(ys)), "a line"
        else:
            (x, y), r = mark.centre, mark.radius
            box, name = (x - r, y - r, x + r, y + r), "a circle"
        if not all(abs(v) < 1e6 for v in box):
            yield f"{name} has no sound place"
        elif box[0] < EDGE or box[1] < EDGE or box[2] > sheet.width - EDGE or box[3] > sheet.height - EDGE:
            yield f"off the paper: {name} at {tuple(round(v, 1) for v in box)}"


def _meet(a: Rectangle, b: Rectangle, slack: float) -> bool:
    return a[0] + slack < b[2] and b[0] + slack < a[2] and a[1] + slack < b[3] and b[1] + slack < a[3]


def _segments(mark: Mark) -> Iterator[tuple[XY, XY]]:
    points = mark.points
    yield from itertools.pairwise(points)
    if mark.closed:
        yield points[-1], points[0]


def _crosses(box: Rectangle, p: XY, q: XY) -> bool:
    """Return whether a segment enters a box (clipping by Liang and Barsky's rule)."""
    if max(p[0], q[0]) <= box[0] or min(p[0], q[0]) >= box[2] or max(p[1], q[1]) <= box[1] or min(p[1], q[1]) >= box[3]:
        return False
    t0, t1 = 0.0, 1.0
    dx, dy = q[0] - p[0], q[1] - p[1]
    for d, low in ((-dx, p[0] - box[0]), (dx, box[2] - p[0]), (-dy, p[1] - box[1]), (dy, box[3] - p[1])):
        if d == 0:
            if low < 0:
                return False
            continue
        t = low / d
        if d < 0:
            t0 = max(t0, t)
        else:
            t1 = min(t1, t)
    return t0 < t1
