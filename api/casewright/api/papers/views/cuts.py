"""The cuts of a part as rows: a letter each, its size, and how far from which named side it starts.

Every cut is measured from the sides that its step measures it from. Every number of a cut is in one place only: starts
along the length and the width are running dimensions on the picture, all else stands in the row. What follows from the
part's own outline ("full length") is not a number.
"""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.cut import Measured, side_of
from casewright.api.engine.work.machining import measured_box
from casewright.api.engine.work.naming import joined
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import Shown
from casewright.api.papers.facts import Facts
from casewright.sdk.geometry import Box, Wedge
from casewright.sdk.model import Feature, Part, Side

ALONG = {1: "length", 2: "width", 3: "thickness"}
MANY = 3
"""Equally spaced holes from which on a row of holes is given by its first hole, count and pitch."""


@dataclass(slots=True)
class CutRow:
    """One row: its letter, what is done, by which side and what that is called, sizes in words, starts, if of holes."""

    letter: str
    what: str
    side: Side
    enters: str
    size: str
    shows: list[Shown]
    starts: list[tuple[Side, int]]
    holes: bool = False


def letters(number: int) -> str:
    """Return a, b … z, aa … for 0, 1 …."""
    last = chr(ord("a") + number % 26)
    return last if number < 26 else letters(number // 26 - 1) + last


def cuts_of(facts: Facts, part: Part) -> list[CutRow]:
    """Return the rows of a part's cuts, in the order of the plan."""
    rows: list[CutRow] = []
    for feature in part.features:
        for row in _rows(facts, part, feature):
            row.letter = letters(len(rows))
            for i, shown in enumerate(row.shows):
                row.shows[i] = Shown(shown.subject, f"cut {row.letter} {shown.what}", shown.nm)
            rows.append(row)
    return rows


def _rows(facts: Facts, part: Part, feature: Feature) -> Iterator[CutRow]:
    what = metrics.clean(feature.label)
    if feature.kind not in what and not feature.holes:
        what = f"{feature.kind.replace('-', ' ')}: {what}"
    for box in feature.boxes:
        yield _box(facts, part, feature, box, what)
    for wedge in feature.wedges:
        yield _wedge(facts, part, feature, wedge, what)
    if feature.holes:
        yield _holes(facts, part, feature, what)


class _Words:
    """Size words of one row and the numbers they show."""

    def __init__(self, facts: Facts, part: Part) -> None:
        self.facts, self.part = facts, part
        self.names = facts.sides[part.id]
        self.piece = Measured(part, self.names)
        self.words: list[str] = []
        self.shows: list[Shown] = []

    def add(self, before: str, name: str, nm: int, after: str) -> None:
        self.words.append(f"{before}{self.facts.bare(nm)}{after}")
        self.shows.append(Shown(self.part.id, name, nm))


def _row(words: _Words, what: str, feature: Feature, starts: list[tuple[Side, int]], holes: bool = False) -> CutRow:
    side = side_of(feature.entry)
    size = ", ".join(words.words)
    return CutRow("", what, side, words.names[side], size, words.shows, starts, holes)


def _box(facts: Facts, part: Part, feature: Feature, box: Box, what: str) -> CutRow:
    words = _Words(facts, part)
    entry = abs(feature.entry)
    whole = measured_box(feature, box)
    starts: list[tuple[Side, int]] = []
    words.add("", "depth", box.high(entry) - box.low(entry), " deep")
    for axis in (1, 2, 3):
        if axis == entry:
            continue
        low, high = box.low(axis), box.high(axis)
        if low <= 0 and high >= words.piece.size(axis):
            words.words.append(f"full {ALONG[axis]}")
            continue
        words.add("", ALONG[axis], high - low, f" along {ALONG[axis]}")
        side = words.piece.nearest(axis, whole.low(axis), whole.high(axis))
        start = words.piece.span(side, low, high)[0]
        name = words.names[side]
        if start <= 0:
            words.words.append(f"from the {name}")
        elif axis == 3:
            words.add("", f"from the {name}", start, f" from the {name}")
        else:
            starts.append((side, start))
    return _row(words, what, feature, starts)


def _wedge(facts: Facts, part: Part, feature: Feature, wedge: Wedge, what: str) -> CutRow:
    words = _Words(facts, part)
    if feature.angle_deg is not None:
        words.words.append(f"{feature.angle_deg:g}° from square")
    for axis in sorted(abs(a) for a in wedge.corner):
        words.add("", ALONG[axis], wedge.box.high(axis) - wedge.box.low(axis), f" of the {ALONG[axis]}")
    return _row(words, what, feature, [])


def _rows_of(places: Sequence[int]) -> list[list[int]]:
    """Return rising places as rows of one pitch with gaps between them; none where some stand in no such row."""
    pitch = min((b - a for a, b in itertools.pairwise(places)), default=0)
    rows: list[list[int]] = []
    for place in places:
        if rows and place - rows[-1][-1] == pitch:
            rows[-1].append(place)
        else:
            rows.append([place])
    return rows if all(len(row) >= MANY for row in rows) else []


def _holes(facts: Facts, part: Part, feature: Feature, what: str) -> CutRow:
    words = _Words(facts, part)
    first = feature.holes[0]
    into = abs(first.into)
    words.words.append(f"⌀ {facts.bare_bit(first.diameter)}")
    words.shows.append(Shown(part.id, "diameter", first.diameter))
    if first.depth >= words.piece.size(into):
        words.words.append("through")
    else:
        words.add("", "depth", first.depth, " deep")
    starts: list[tuple[Side, int]] = []
    for axis in (1, 2, 3):
        if axis == into:
            continue
        marks = [hole.mouth[axis - 1] for hole in feature.holes]
        side = words.piece.nearest(axis, min(marks), max(marks))
        places = sorted({words.piece.span(side, mark, mark)[0] for mark in marks})
        name = words.names[side]
        rows = _rows_of(places)
        if axis == 3:
            for i, place in enumerate(places):
                words.add("", f"from the {name} {i + 1}" if i else f"from the {name}", place, f" from the {name}")
        elif rows:
            starts += [(side, row[0]) for row in rows]
            counts = joined([str(len(row)) for row in rows])
            words.add(f"{counts} along {ALONG[axis]} every ", f"pitch along {ALONG[axis]}", rows[0][1] - rows[0][0], "")
        else:
            starts += [(side, place) for place in places]
    return _row(words, what, feature, starts, holes=True)
