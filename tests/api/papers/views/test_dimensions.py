"""Dimensions of all views: they read as the plan's numbers, and every number of a part is shown once."""

from collections import Counter
from collections.abc import Callable
from fractions import Fraction

import pytest
import samples
from casewright.api import papers as documents
from casewright.api.papers.drawing.inked import Label
from casewright.api.papers.drawing.marks import on_paper
from casewright.api.papers.drawing.shapes import Sheet, Shown
from casewright.sdk.model import Part, Plan

NM = {"in": 25_400_000, "mm": 1_000_000}
ROUNDED = {"in": Fraction(1, 2000), "mm": Fraction(1, 200)}


def labels(sheet: Sheet) -> list[Label]:
    return [mark for mark in on_paper(sheet) if isinstance(mark, Label)]


def shown(sheets: tuple[Sheet, ...]) -> list[Shown]:
    return [one for sheet in sheets for label in labels(sheet) for one in label.shows]


def read_number(text: str) -> Fraction:
    """Read a dimension's own text: decimals or inches and a fraction, cut letters after two blanks dropped."""
    number = text.split("  ")[0].removeprefix("−")
    return sum((Fraction(piece) for piece in number.split()), Fraction(0))


@pytest.mark.parametrize("name", samples.JOBS)
@pytest.mark.parametrize(
    "view", ["elevation", "section", "part", "door", "wall", "template", "fixing", "joint", "drilling", "layout"]
)
def test_every_dimension_reads_as_the_number_it_stands_for(plan: Callable[[str], Plan], name: str, view: str) -> None:
    made = plan(name)
    units = made.job.units
    for sheet in documents.draw(made, view):
        for label in labels(sheet):
            if label.dimension:
                assert label.shows, (sheet.name, label.text)
                assert not label.text.startswith("−") or label.shows[0].nm < 0
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
            out |= {size[a - 1] - box.high(a) for a in (1, 2, 3)}
        for hole in feature.holes:
            out |= {*hole.mouth, hole.diameter, hole.depth}
            out |= {whole - at for whole, at in zip(size, hole.mouth, strict=True)}
    return out | set(size)


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "bays-framed", "smallest"])
def test_every_part_dimension_is_shown_once(plan: Callable[[str], Plan], name: str) -> None:
    made = plan(name)
    for part in made.parts:
        dimensions = shown(documents.draw(made, "part", subject=part.id))
        counts = Counter((one.subject, one.what) for one in dimensions)
        assert {subject for subject, _ in counts} == {part.id}
        assert max(counts.values()) == 1, counts.most_common(3)
        by_name = {one.what: one.nm for one in dimensions}
        assert (by_name["length"], by_name["width"], by_name["thickness"]) == (part.length, part.width, part.thickness)
        pitches = {one.nm for one in dimensions if "pitch" in one.what}
        assert {one.nm for one in dimensions} <= numbers_of(part) | pitches
        starts = {one.nm for one in dimensions}
        for feature in part.features:
            entry = abs(feature.entry)
            for box in feature.boxes:
                assert box.high(entry) - box.low(entry) in starts
                for axis, whole in ((1, part.length), (2, part.width)):
                    if axis != entry and not (box.low(axis) == 0 or box.high(axis) - box.low(axis) == whole):
                        assert {box.low(axis), whole - box.high(axis)} & (starts | {0})
            for hole in feature.holes[:1]:
                assert hole.diameter in starts


@pytest.mark.parametrize("name", ["repair-bay", "six-bays", "bays-framed"])
@pytest.mark.parametrize("view", ["joint", "drilling"])
def test_every_number_of_a_detail_is_one_of_its_parts(plan: Callable[[str], Plan], name: str, view: str) -> None:
    made = plan(name)
    parts = {part.id: part for part in made.parts}
    dimensions = shown(documents.draw(made, view))
    assert dimensions
    seats = {joint.id: joint.seat for joint in made.joints}
    for one in dimensions:
        if one.subject in seats:
            assert one.nm == seats[one.subject]
            continue
        pitches = {b - a for a in numbers_of(parts[one.subject]) for b in numbers_of(parts[one.subject])}
        assert one.nm in (pitches if "pitch" in one.what else numbers_of(parts[one.subject])), one
