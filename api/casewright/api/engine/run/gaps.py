"""Neighbours along a wall: overlaps, the gaps between them, stiles they might share, and ends that show."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.run.fillers import LEAST_STRIP, Side, strip_alone, strips_in
from casewright.api.engine.run.placed import PRACTICE, PlacedCabinet, level_with
from casewright.api.engine.run.readings import reach
from casewright.sdk.model import LENGTH, Check, Filler, Finding, Gap, Job, Part, ReadingOf, Wall

WALL = "wall"
"""What a gap calls the wall's end."""

CLOSED = 1_000_000
"""Cabinets nearer than this are drawn together with clamps and screws (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two neighbours, or one and the wall's end (`None`), and the room between them in nm."""

    left: PlacedCabinet | None
    right: PlacedCabinet | None
    size: int

    @property
    def names(self) -> tuple[str, str]:
        """What stands left and right."""
        return (self.left.name if self.left else WALL, self.right.name if self.right else WALL)


@dataclass(frozen=True, slots=True)
class ClosedGaps:
    """Every gap from left to right, the strips made for them, and what is wrong with them."""

    gaps: tuple[Gap, ...]
    strips: tuple[Part, ...]
    checks: tuple[Check, ...]


def close_gaps(job: Job, wall: Wall, placed: Sequence[PlacedCabinet]) -> ClosedGaps:
    """Return every gap and the strips made for them.

    A strip beside a cabinet that has several neighbours on that side is made for the nearest of them.
    """
    pairs = _pairs(wall, placed)
    beside: dict[tuple[str, str], list[Pair]] = {}
    for pair in sorted(pairs, key=lambda p: p.size):
        for one, side in _sides(pair):
            beside.setdefault((one.name, side), []).append(pair)
    checks = [_overlap(first, second) for first, second in _overlapping(placed)]
    gaps: list[Gap] = []
    parts: list[Part] = []
    for pair in pairs:
        mine = [
            _scribed(wall, pair, Side(one, side, filler))
            for one, side in _sides(pair)
            if (filler := _filler(one, side)) is not None and beside[one.name, side][0] is pair
        ]
        strips = strips_in(job, mine, pair.names, pair.size)
        parts += strips.parts
        gaps.append(Gap(*pair.names, pair.size, tuple([part.id for part in strips.parts])))
        checks += [*strips.checks, *_gap(pair, bool(mine))]
    for one in placed:
        for side in ("left", "right"):
            filler, there = _filler(one, side), beside.get((one.name, side), [])
            if filler is not None and not there:
                strips = strip_alone(job, Side(one, side, filler))
                parts += strips.parts
                checks += strips.checks
            checks += _end(one, side, there, filler is not None)
    return ClosedGaps(tuple(gaps), tuple(parts), tuple(checks))


def _filler(one: PlacedCabinet, side: str) -> Filler | None:
    return one.spot.filler_left if side == "left" else one.spot.filler_right


def _sides(pair: Pair) -> list[tuple[PlacedCabinet, str]]:
    """Return the cabinets of a pair, each with the side that faces the gap."""
    out = []
    if pair.left is not None:
        out.append((pair.left, "right"))
    if pair.right is not None:
        out.append((pair.right, "left"))
    return out


def _overlapping(placed: Sequence[PlacedCabinet]) -> Iterator[tuple[PlacedCabinet, PlacedCabinet]]:
    """Yield every two cabinets that would fill the same room, fronts and counters counted."""
    ordered = sorted(placed, key=lambda s: (s.hull.x0, s.hull.z0, s.name))
    for i, first in enumerate(ordered):
        for second in ordered[i + 1 :]:
            if second.hull.x0 >= first.hull.x1:
                break
            if any(a.box.meets(b.box) for a in first.bodies for b in second.bodies):
                yield first, second


def _pairs(wall: Wall, placed: Sequence[PlacedCabinet]) -> list[Pair]:
    """Return every two neighbours at a height, and each end of the wall that is known, from left to right."""
    pairs: dict[tuple[int, int], Pair] = {}
    firsts = [next((j for j in range(i - 1, -1, -1) if level_with(placed[j].outline, one.outline)), None)
              for i, one in enumerate(placed)]  # fmt: skip
    lasts = [next((j for j in range(i + 1, len(placed)) if level_with(placed[j].outline, one.outline)), None)
             for i, one in enumerate(placed)]  # fmt: skip
    for i, one in enumerate(placed):
        before, after = firsts[i], lasts[i]
        if before is None:
            if wall.corners in ("both", "left"):
                pairs[-1, i] = Pair(None, one, one.outline.x0 - _leaning(wall, "left", one)[1])
        else:
            pairs[before, i] = Pair(placed[before], one, one.outline.x0 - placed[before].outline.x1)
        if after is None:
            if wall.length is not None and wall.corners in ("both", "right"):
                off = _leaning(wall, "right", one)[1]
                pairs[i, len(placed)] = Pair(one, None, wall.length - one.outline.x1 - off)
        else:
            pairs[i, after] = Pair(one, placed[after], placed[after].outline.x0 - one.outline.x1)
    return [pairs[key] for key in sorted(pairs)]


def _leaning(wall: Wall, of: ReadingOf, one: PlacedCabinet) -> tuple[int, int]:
    """Return the least and the most that the wall at an end stands into the room beside a cabinet."""
    return reach(wall, of, one.outline.z0, one.outline.z1)


def _scribed(wall: Wall, pair: Pair, side: Side) -> Side:
    """Return a side whose strip has wood to scribe for all that the wall at that end is out of plumb."""
    if None not in (pair.left, pair.right):
        return side
    least, most = _leaning(wall, "left" if pair.left is None else "right", side.one)
    return replace(side, filler=replace(side.filler, scribe=max(side.filler.scribe, most - least)))


def _overlap(first: PlacedCabinet, second: PlacedCabinet) -> Check:
    """Return the groups that meet and the least move that parts them."""
    common = [(a, b, a.box.cut(b.box).size) for a in first.bodies for b in second.bodies if a.box.meets(b.box)]
    across = max(size[0] for _, _, size in common)
    up = max(size[2] for _, _, size in common)
    a, b, _ = max(common, key=lambda row: row[2][0])
    way = "along the wall" if across <= up else "up or down"
    message = (
        f"{second.name} ({b.name}) and {first.name} ({a.name}) would fill the same room; the least move that parts "
        f"them is {way}, by the value"
    )
    finding = Finding("cabinets-overlap", "stop", message, min(across, up), 0, LENGTH, "dry-fit")
    return Check(second.pointer, finding)


def _gap(pair: Pair, filled: bool) -> Iterator[Check]:
    """Yield that a gap cannot be closed as it is, and that two stiles side by side could be one."""
    subject = next(one for one, _ in _sides(pair)).pointer
    if CLOSED < pair.size < LEAST_STRIP and not filled:
        message = (
            f"the gap between {pair.names[0]} and {pair.names[1]} is too small for a strip that can be scribed; "
            "close it or make it wider"
        )
        yield Check(subject, Finding("gap-too-small", "caution", message, pair.size, LEAST_STRIP, LENGTH, PRACTICE))
    left, right = pair.left, pair.right
    if left is None or right is None or not -CLOSED <= pair.size < LEAST_STRIP:
        return
    a, b = left.cabinet.face_frame, right.cabinet.face_frame
    if a and b and (left.outline.z0, left.outline.z1) == (right.outline.z0, right.outline.z1):
        message = (
            f"{left.name} and {right.name} stand with two stiles side by side; one shared stile could stand for both "
            "where the frames are joined into one before they are hung"
        )
        both = a.stile + b.stile + pair.size
        yield Check(subject, Finding("stile-could-be-shared", "note", message, both, None, LENGTH, PRACTICE))


def _end(one: PlacedCabinet, side: str, there: Sequence[Pair], filled: bool) -> Iterator[Check]:
    """Yield where an end that is meant to be hidden shows, and where a finished end is covered."""
    kind = one.cabinet.ends.left if side == "left" else one.cabinet.ends.right
    hidden = any(_covers(pair, one, side, filled) for pair in there)
    subject = f"{one.cabinet.pointer}/ends/{side}"
    if kind == "hidden" and not hidden:
        message = (
            f"the {side} end of {one.name} shows, in whole or part; make it finished, or open if its side may be seen"
        )
        yield Check(subject, Finding("end-shows", "note", message, source=PRACTICE))
    if kind == "finished" and hidden:
        message = f"the finished {side} end of {one.name} is hidden by what stands beside it"
        yield Check(subject, Finding("end-covered", "note", message, source=PRACTICE))


def _covers(pair: Pair, one: PlacedCabinet, side: str, filled: bool) -> bool:
    other = pair.left if side == "left" else pair.right
    near = filled or pair.size <= CLOSED
    if other is None:
        return near
    a, b = other.outline, one.outline
    return near and a.y0 <= b.y0 and a.z0 <= b.z0 and a.z1 >= b.z1
