"""Every sheet of every sample job: nothing overlaps, nothing is cut off, and every number shown is the plan's."""

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest
import samples
from casewright.api import papers as documents
from casewright.api.papers.drawing.hidden import ISOMETRIC, sight
from casewright.api.papers.drawing.marks import Label, on_paper, spread
from casewright.api.papers.drawing.shapes import Dimension, Sheet, Shown, Text, View
from casewright.api.papers.drawing.solids import solid
from casewright.sdk.model import Part, Plan

NM = {"in": 25_400_000, "mm": 1_000_000}
ROUNDED = {"in": Fraction(1, 2000), "mm": Fraction(1, 200)}
"""Half of the last decimal a drawing writes, in job units."""


def labels(sheet: Sheet) -> list[Label]:
    return [mark for mark in on_paper(sheet) if isinstance(mark, Label)]


def shown(sheets: tuple[Sheet, ...]) -> list[Shown]:
    return [one for sheet in sheets for label in labels(sheet) for one in label.shows]


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("view", documents.VIEWS)
def test_nothing_overlaps_or_is_cut_off(plan: Callable[[str], Plan], name: str, view: str, full: bool) -> None:
    papers = tuple(documents.PAPERS) if full else (None,)
    for paper in papers:
        for sheet in documents.draw(plan(name), view, paper=paper, fingerprint="0123456789ab"):
            assert documents.overlaps(sheet) == [], (paper, sheet.name)


def test_the_layout_check_sees_faults() -> None:
    one = Text((50, 50), "12.5")
    over = Sheet("", "", 210, 297, "mm", (View("v", (one, Text((52, 50.5), "30"))),))
    off = Sheet("", "", 210, 297, "mm", (View("v", (Text((205, 50), "30"),)),))
    a = Dimension("x", 20, 60, 100, 8, "40", ())
    b = Dimension("x", 30, 70, 96.5, 13.5, "40", ())
    crossed = Sheet("", "", 210, 297, "mm", (View("v", (a, b)),))
    assert any("text over text" in fault for fault in documents.overlaps(over))
    assert any("off the paper" in fault for fault in documents.overlaps(off))
    assert documents.overlaps(crossed)


def read_number(text: str) -> Fraction:
    """Read a dimension's own text: decimals or inches and a fraction, cut letters after two blanks dropped."""
    said = text.split("  ")[0]
    return sum((Fraction(piece) for piece in said.split()), Fraction(0))


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("view", ["elevation", "section", "part", "door", "wall", "template"])
def test_every_dimension_reads_as_the_number_it_stands_for(plan: Callable[[str], Plan], name: str, view: str) -> None:
    made = plan(name)
    units = made.job.units
    for sheet in documents.draw(made, view):
        for label in labels(sheet):
            if label.dimension:
                assert label.shows, (sheet.name, label.text)
                exact = Fraction(abs(label.shows[0].nm), NM[units])
                assert abs(read_number(label.text) - exact) <= ROUNDED[units], (sheet.name, label.text)


def places(part: Part) -> set[int]:
    """Return every face place of a part in the cabinet frame, nm."""
    return set(part.place.box(part.blank))


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize("view", ["elevation", "section", "isometric"])
def test_every_dimension_of_the_whole_is_in_the_plan(plan: Callable[[str], Plan], name: str, view: str) -> None:
    made = plan(name)
    parts = {part.id: part for part in made.parts}
    cabinets = {cabinet.id: cabinet for cabinet in made.job.cabinets}
    doors = {door.id: door for door in made.doors}
    for one in shown(documents.draw(made, view)):
        if one.subject in cabinets:
            assert one.nm == getattr(cabinets[one.subject], one.what)
        elif one.subject in doors:
            assert one.nm == getattr(doors[one.subject], one.what)
        elif one.what in ("length", "width", "thickness"):
            assert one.nm == getattr(parts[one.subject], one.what)
        else:
            frame = cabinets[parts[one.subject].cabinet].face_frame
            assert one.nm - (frame.overhang if frame and one.what[0] == "x" else 0) in places(parts[one.subject])


def numbers_of(part: Part) -> set[int]:
    """Return every number a part's cuts have, told apart only where the part's own outline does not give it."""
    out: set[int] = set()
    size = (part.length, part.width, part.thickness)
    for feature in part.features:
        for box in (*feature.boxes, *(w.box for w in feature.wedges)):
            out |= {box.high(a) - box.low(a) for a in (1, 2, 3)} | {box.low(a) for a in (1, 2, 3)}
        for hole in feature.holes:
            out |= {*hole.mouth, hole.diameter, hole.depth}
    return out | set(size)


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "bays-framed", "smallest"])
def test_every_part_dimension_is_shown_once(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    for part in made.parts:
        found = shown(documents.draw(made, "part", subject=part.id))
        counts = Counter((one.subject, one.what) for one in found)
        assert {subject for subject, _ in counts} == {part.id}
        assert max(counts.values()) == 1, counts.most_common(3)
        by_name = {one.what: one.nm for one in found}
        assert (by_name["length"], by_name["width"], by_name["thickness"]) == (part.length, part.width, part.thickness)
        pitches = {one.nm for one in found if "pitch" in one.what}
        assert {one.nm for one in found} <= numbers_of(part) | pitches
        starts = {one.nm for one in found}
        for feature in part.features:
            entry = abs(feature.entry)
            for box in feature.boxes:
                assert box.high(entry) - box.low(entry) in starts
                for axis, whole in ((1, part.length), (2, part.width)):
                    if axis != entry and not (box.low(axis) == 0 or box.high(axis) - box.low(axis) == whole):
                        assert box.low(axis) in starts
            for hole in feature.holes[:1]:
                assert hole.diameter in starts


def test_running_texts_keep_their_distance_and_order() -> None:
    places_found = spread([0, 1, 2, 3, 40, 41], 4.0)
    assert places_found == sorted(places_found)
    assert all(b - a >= 4.0 - 1e-9 for a, b in pairwise(places_found))


def test_hidden_lines_agree_with_rays(bay: Plan) -> None:
    """Each sampled point of an edge is hidden just where a ray from it toward the eye goes through wood."""
    solids = [solid(part) for part in bay.parts if part.role in ("side", "top", "shelf", "frame-stile", "cleat")]
    toward = ISOMETRIC.toward
    order = iter(sight(solids, ISOMETRIC))
    tried = 0
    for i, one in enumerate(solids):
        for edge in one.edges:
            a, b = ISOMETRIC.flat(edge[0]), ISOMETRIC.flat(edge[1])
            if abs(a[0] - b[0]) + abs(a[1] - b[1]) <= 1e-6:
                continue
            found = next(order)
            assert found.solid == i
            long = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
            for share in (0.071, 0.137, 0.311, 0.503, 0.713, 0.871):
                point = tuple(p + share * (q - p) for p, q in zip(edge[0], edge[1], strict=True))
                margin, inside = _through(point, toward, solids)
                if margin < 0.3:
                    continue
                flat = ISOMETRIC.flat(point)  # type: ignore[arg-type]
                near = any(abs(_share(flat, p, q) - 0.5) <= 0.5 + 0.2 / long for p, q in found.seen)
                assert near != inside, (one.part.id, point)
                tried += 1
    assert tried > 300


def _share(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    return ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)


def _through(point: tuple[float, ...], toward: tuple[float, ...], solids: list[object]) -> tuple[float, bool]:
    """Return how clear the answer is (mm) and whether a ray meets wood: slab by slab, piece by piece."""
    least, hit = 1e9, False
    for one in solids:
        for piece in one.pieces:  # type: ignore[attr-defined]
            low, high = 0.05, 1e9
            for k in range(3):
                t0, t1 = (piece.box[k] - point[k]) / toward[k], (piece.box[k + 3] - point[k]) / toward[k]
                low, high = max(low, min(t0, t1)), min(high, max(t0, t1))
            for nx, ny, nz, c in piece.planes:
                along = nx * toward[0] + ny * toward[1] + nz * toward[2]
                left = c - nx * point[0] - ny * point[1] - nz * point[2]
                if abs(along) < 1e-12:
                    low, high = (low, high) if left > 0 else (low, low - abs(left))
                    continue
                low, high = (low, min(high, left / along)) if along > 0 else (max(low, left / along), high)
            least = min(least, abs(high - low))
            hit = hit or high > low
    return least, hit
