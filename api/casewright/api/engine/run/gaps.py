"""Neighbours along a wall: overlaps, the gaps between them, stiles they might share, and ends that show."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.engine.run.fillers import LEAST_STRIP, Side, alone, strips_in
from casewright.api.engine.run.standing import Stood, level_with, tell
from casewright.sdk.model import LENGTH, Check, Filler, Gap, Job, Part, Wall

WALL = "wall"
"""What a gap calls the wall's end."""

CLOSED = 1_000_000
"""Cabinets nearer than this are drawn together with clamps and screws (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two neighbours, or one and the wall's end (`None`), and the room between them in nm."""

    left: Stood | None
    right: Stood | None
    size: int

    @property
    def names(self) -> tuple[str, str]:
        """What stands left and right."""
        return (self.left.name if self.left else WALL, self.right.name if self.right else WALL)


def close_gaps(
    job: Job, wall: Wall, stood: Sequence[Stood], checks: list[Check]
) -> tuple[tuple[Gap, ...], tuple[Part, ...]]:
    """Return every gap from left to right and the strips made for them; what is wrong with them becomes checks.

    A strip beside a cabinet that has several neighbours on that side is made for the nearest of them.
    """
    for first, second in _overlapping(stood):
        _tell_overlap(first, second, checks)
    pairs = _pairs(wall, stood)
    beside: dict[tuple[str, str], list[Pair]] = {}
    for pair in sorted(pairs, key=lambda p: p.size):
        for one, side in _sides(pair):
            beside.setdefault((one.name, side), []).append(pair)
    gaps: list[Gap] = []
    strips: list[Part] = []
    for pair in pairs:
        mine = [
            Side(one, side, filler)
            for one, side in _sides(pair)
            if (filler := _filler(one, side)) is not None and beside[one.name, side][0] is pair
        ]
        made = strips_in(job, mine, pair.names, pair.size, checks)
        strips += made
        gaps.append(Gap(*pair.names, pair.size, tuple([part.id for part in made])))
        _tell_gap(pair, bool(mine), checks)
    for one in stood:
        for side in ("left", "right"):
            filler, there = _filler(one, side), beside.get((one.name, side), [])
            if filler is not None and not there:
                strips += alone(job, Side(one, side, filler), checks)
            _tell_end(one, side, there, filler is not None, checks)
    return tuple(gaps), tuple(strips)


def _filler(one: Stood, side: str) -> Filler | None:
    return one.spot.filler_left if side == "left" else one.spot.filler_right


def _sides(pair: Pair) -> list[tuple[Stood, str]]:
    """Return the cabinets of a pair, each with the side that faces the gap."""
    out = []
    if pair.left is not None:
        out.append((pair.left, "right"))
    if pair.right is not None:
        out.append((pair.right, "left"))
    return out


def _overlapping(stood: Sequence[Stood]) -> Iterator[tuple[Stood, Stood]]:
    """Yield every two cabinets that would fill the same room, fronts and counters counted."""
    ordered = sorted(stood, key=lambda s: (s.hull.x0, s.hull.z0, s.name))
    for i, first in enumerate(ordered):
        for second in ordered[i + 1 :]:
            if second.hull.x0 >= first.hull.x1:
                break
            if any(a.box.meets(b.box) for a in first.bodies for b in second.bodies):
                yield first, second


def _pairs(wall: Wall, stood: Sequence[Stood]) -> list[Pair]:
    """Return every two neighbours at a height, and each end of the wall that is known, from left to right."""
    found: dict[tuple[int, int], Pair] = {}
    firsts = [next((j for j in range(i - 1, -1, -1) if level_with(stood[j].outline, one.outline)), None)
              for i, one in enumerate(stood)]  # fmt: skip
    lasts = [next((j for j in range(i + 1, len(stood)) if level_with(stood[j].outline, one.outline)), None)
             for i, one in enumerate(stood)]  # fmt: skip
    for i, one in enumerate(stood):
        before, after = firsts[i], lasts[i]
        if before is None:
            if wall.corners in ("both", "left"):
                found[-1, i] = Pair(None, one, one.outline.x0)
        else:
            found[before, i] = Pair(stood[before], one, one.outline.x0 - stood[before].outline.x1)
        if after is None:
            if wall.length is not None and wall.corners in ("both", "right"):
                found[i, len(stood)] = Pair(one, None, wall.length - one.outline.x1)
        else:
            found[i, after] = Pair(one, stood[after], stood[after].outline.x0 - one.outline.x1)
    return [found[key] for key in sorted(found)]


def _tell_overlap(first: Stood, second: Stood, checks: list[Check]) -> None:
    """Name the groups that meet and the least move that parts them."""
    common = [(a, b, a.box.cut(b.box).size) for a in first.bodies for b in second.bodies if a.box.meets(b.box)]
    across = max(size[0] for _, _, size in common)
    up = max(size[2] for _, _, size in common)
    a, b, _ = max(common, key=lambda row: row[2][0])
    way = "along the wall" if across <= up else "up or down"
    tell(
        checks,
        "cabinets-overlap",
        "stop",
        second.pointer,
        f"{second.name} ({b.name}) and {first.name} ({a.name}) would fill the same room; the least move that parts "
        f"them is {way}, by the value",
        min(across, up),
        0,
        LENGTH,
        "dry-fit",
    )


def _tell_gap(pair: Pair, filled: bool, checks: list[Check]) -> None:
    subject = next(one for one, _ in _sides(pair)).pointer
    if CLOSED < pair.size < LEAST_STRIP and not filled:
        tell(
            checks,
            "gap-too-small",
            "caution",
            subject,
            f"the gap between {pair.names[0]} and {pair.names[1]} is too small for a strip that can be scribed; close "
            "it or make it wider",
            pair.size,
            LEAST_STRIP,
            LENGTH,
        )
    left, right = pair.left, pair.right
    if left is None or right is None or not -CLOSED <= pair.size < LEAST_STRIP:
        return
    a, b = left.cabinet.face_frame, right.cabinet.face_frame
    if a and b and (left.outline.z0, left.outline.z1) == (right.outline.z0, right.outline.z1):
        tell(
            checks,
            "stile-could-be-shared",
            "note",
            subject,
            f"{left.name} and {right.name} stand with two stiles side by side; one shared stile could stand for both "
            "where the frames are joined into one before they are hung",
            a.stile + b.stile + pair.size,
            None,
            LENGTH,
        )


def _tell_end(one: Stood, side: str, there: Sequence[Pair], filled: bool, checks: list[Check]) -> None:
    """Say where an end that is meant to be hidden shows, and where a finished end is covered."""
    kind = one.cabinet.ends.left if side == "left" else one.cabinet.ends.right
    hidden = any(_covers(pair, one, side, filled) for pair in there)
    subject = f"{one.cabinet.pointer}/ends/{side}"
    if kind == "hidden" and not hidden:
        message = (
            f"the {side} end of {one.name} shows, in whole or part; make it finished, or open if its side may be seen"
        )
        tell(checks, "end-shows", "note", subject, message)
    if kind == "finished" and hidden:
        message = f"the finished {side} end of {one.name} is hidden by what stands beside it"
        tell(checks, "end-covered", "note", subject, message)


def _covers(pair: Pair, one: Stood, side: str, filled: bool) -> bool:
    other = pair.left if side == "left" else pair.right
    near = filled or pair.size <= CLOSED
    if other is None:
        return near
    a, b = other.outline, one.outline
    return near and a.y0 <= b.y0 and a.z0 <= b.z0 and a.z1 >= b.z1
