"""Strips that close the gap beside a cabinet: as wide as the gap, with wood over it to be scribed."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.engine.run.placed import PRACTICE, PlacedCabinet
from casewright.sdk.geometry import Box, seated
from casewright.sdk.model import LENGTH, Check, Filler, Finding, Job, Part, Term

GROUP = "fillers"
"""Group of the strips."""

LEAST_STRIP = 12_700_000
"""A strip narrower than half an inch can hardly be scribed or fixed (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Side:
    """A side of a cabinet that has a filler."""

    one: PlacedCabinet
    side: str
    filler: Filler

    @property
    def pointer(self) -> str:
        """The filler's place in the job."""
        return f"{self.one.pointer}/fillers/{self.side}"


@dataclass(frozen=True, slots=True)
class Strips:
    """Strips made for a gap, and what was found of them."""

    parts: tuple[Part, ...] = ()
    checks: tuple[Check, ...] = ()


def strips_in(job: Job, sides: Sequence[Side], between: tuple[str, str], size: int) -> Strips:
    """Return the strips in one gap of `size` nm. Strips without a width of their own share what is left evenly."""
    checks: list[Check] = []
    given = sum(s.filler.width for s in sides if s.filler.width is not None)
    open_ = [s for s in sides if s.filler.width is None]
    share = (size - given) // len(open_) if open_ else 0
    if open_ and share <= 0:
        message = f"between {between[0]} and {between[1]} there is no room for a filler"
        finding = Finding("filler-no-room", "stop", message, size - given, 0, LENGTH, "dry-fit")
        checks.append(Check(open_[0].pointer, finding))
        sides = [s for s in sides if s.filler.width is not None]
    label = f"gap between {between[0]} and {between[1]}"
    if len(open_) > 1 or (open_ and given):
        label = f"share of the {label}"
    made = [_strip(job, s, s.filler.width or share, "filler width" if s.filler.width else label) for s in sides]
    checks += [check for side, part in zip(sides, made, strict=True) for check in _slight(side, part)]
    if sides and not open_:
        checks += _fit(sides, between, size - given)
    return Strips(tuple(made), tuple(checks))


def strip_alone(job: Job, side: Side) -> Strips:
    """Return the strip beside a cabinet that nothing stands beside: only its own width can say how wide it is."""
    if side.filler.width is None:
        message = (
            "nothing stands on this side, so the filler's width is not known; give its width, or the wall's length"
        )
        finding = Finding("filler-width-unknown", "stop", message, source=PRACTICE)
        return Strips(checks=(Check(side.pointer, finding),))
    made = _strip(job, side, side.filler.width, "filler width")
    return Strips((made,), tuple(_slight(side, made)))


def _fit(sides: Sequence[Side], between: tuple[str, str], over: int) -> Iterator[Check]:
    """Yield where widths given do not fill the gap, within the wood left to scribe."""
    where = f"the filler between {between[0]} and {between[1]}"
    scribe = sum(side.filler.scribe for side in sides)
    if over > scribe:
        message = f"{where} leaves part of the gap open even with its scribe; make it wider"
        finding = Finding("filler-narrow", "caution", message, over, scribe, LENGTH, "dry-fit")
        yield Check(sides[0].pointer, finding)
    elif over < 0:
        message = f"{where} is wider than the gap; make it narrower or move a cabinet"
        yield Check(sides[0].pointer, Finding("filler-wide", "stop", message, -over, 0, LENGTH, "dry-fit"))


def _slight(side: Side, strip: Part) -> Iterator[Check]:
    """Yield that a strip is too narrow, its scribe not counted."""
    width = strip.width - side.filler.scribe
    if width < LEAST_STRIP:
        message = (
            "the strip is too narrow to be ripped, scribed and fixed safely; move the cabinets closer or farther apart"
        )
        finding = Finding("filler-slight", "caution", message, width, LEAST_STRIP, LENGTH, PRACTICE)
        yield Check(side.pointer, finding)


def _strip(job: Job, side: Side, width: int, label: str) -> Part:
    one, filler = side.one, side.filler
    cabinet = one.cabinet
    material = job.materials[filler.material]
    t = material.thickness
    frame = job.materials[cabinet.face_frame.material].thickness if cabinet.face_frame else 0
    floor = cabinet.base.height if cabinet.base else 0
    wide = width + filler.scribe
    edge = one.outline.x1 - one.at[0] if side.side == "right" else one.outline.x0 - one.at[0] - wide
    box = Box(edge, -frame, floor, edge + wide, t - frame, cabinet.height)
    why_width = [Term(label, width)]
    if filler.scribe:
        why_width.append(Term("scribe, cut to the line of what it meets", filler.scribe))
    why_length = [Term("cabinet height", cabinet.height)]
    if floor:
        why_length.append(Term("base under the case", -floor))
    number = f"-{one.standing.number}" if cabinet.count > 1 else ""
    return Part(
        id=f"{cabinet.id}/filler-{side.side}{number}",
        cabinet=cabinet.id,
        role="strip",
        name=f"{side.side} filler{number.replace('-', ' ')}",
        quantity=1,
        material=filler.material,
        length=cabinet.height - floor,
        width=wide,
        thickness=t,
        grain="along-length",
        why_length=tuple(why_length),
        why_width=tuple(why_width),
        place=seated(box, 3, 1),
        group=GROUP,
    )
