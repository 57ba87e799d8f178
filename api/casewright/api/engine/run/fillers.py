"""Strips that close the gap beside a cabinet: as wide as the gap, with wood over it to be scribed."""

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.engine.run.standing import Stood, tell
from casewright.sdk.geometry import Box, seated
from casewright.sdk.model import LENGTH, Check, Filler, Job, Part, Term

GROUP = "fillers"
"""Group of the strips."""

LEAST_STRIP = 12_700_000
"""A strip narrower than half an inch can hardly be scribed or fixed (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Side:
    """A side of a cabinet that has a filler."""

    one: Stood
    side: str
    filler: Filler

    @property
    def pointer(self) -> str:
        """The filler's place in the job."""
        return f"{self.one.pointer}/fillers/{self.side}"


def strips_in(job: Job, sides: Sequence[Side], between: tuple[str, str], size: int, checks: list[Check]) -> list[Part]:
    """Return the strips in one gap of `size` nm. Strips without a width of their own share what is left evenly."""
    if not sides:
        return []
    given = sum(s.filler.width for s in sides if s.filler.width is not None)
    open_ = [s for s in sides if s.filler.width is None]
    share = (size - given) // len(open_) if open_ else 0
    if open_ and share <= 0:
        tell(
            checks,
            "filler-no-room",
            "stop",
            open_[0].pointer,
            f"between {between[0]} and {between[1]} there is no room for a filler",
            size - given,
            0,
            LENGTH,
            "dry-fit",
        )
        sides = [s for s in sides if s.filler.width is not None]
    label = f"gap between {between[0]} and {between[1]}"
    if len(open_) > 1 or (open_ and given):
        label = f"share of the {label}"
    made = [_strip(job, s, s.filler.width or share, "filler width" if s.filler.width else label, checks) for s in sides]
    if sides and not open_:
        _tell_fit(sides, between, size - given, sum(s.filler.scribe for s in sides), checks)
    return made


def alone(job: Job, side: Side, checks: list[Check]) -> list[Part]:
    """Return the strip beside a cabinet that nothing stands beside: only its own width can say how wide it is."""
    if side.filler.width is None:
        tell(
            checks,
            "filler-width-unknown",
            "stop",
            side.pointer,
            "nothing stands on this side, so the filler's width is not known; give its width, or the wall's length",
        )
        return []
    return [_strip(job, side, side.filler.width, "filler width", checks)]


def _tell_fit(sides: Sequence[Side], between: tuple[str, str], over: int, scribe: int, checks: list[Check]) -> None:
    """Widths given must fill the gap, within the wood left to scribe."""
    where = f"the filler between {between[0]} and {between[1]}"
    if over > scribe:
        message = f"{where} leaves part of the gap open even with its scribe; make it wider"
        tell(checks, "filler-narrow", "caution", sides[0].pointer, message, over, scribe, LENGTH, "dry-fit")
    elif over < 0:
        message = f"{where} is wider than the gap; make it narrower or move a cabinet"
        tell(checks, "filler-wide", "stop", sides[0].pointer, message, -over, 0, LENGTH, "dry-fit")


def _strip(job: Job, side: Side, width: int, label: str, checks: list[Check]) -> Part:
    one, filler = side.one, side.filler
    cabinet = one.cabinet
    material = job.materials[filler.material]
    t = material.thickness
    if width < LEAST_STRIP:
        tell(
            checks,
            "filler-slight",
            "caution",
            side.pointer,
            "the strip is too narrow to be ripped, scribed and fixed safely; move the cabinets closer or farther apart",
            width,
            LEAST_STRIP,
            LENGTH,
        )
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
