"""Cuts whose sides are neither level nor upright: a dovetail cutter's, and a slot that goes square into a bevel."""

from dataclasses import dataclass, replace
from math import atan2, degrees, sqrt

from casewright.api.engine.work.cut import SPARE, Cut, Measured, side_of
from casewright.sdk.geometry import Axis, Box, opposite
from casewright.sdk.model.operations import Setting, Tilts
from casewright.sdk.model.parts import Feature

__all__ = ["slot_in_bevel", "undercut"]

PAIR = 2
"""A slot, or the waste on either side of a tail."""
SQUARE_DEG = 45.0
"""The tilt of a cut square to a mitre of equal parts."""


def undercut(piece: Measured, feature: Feature) -> list[Cut]:
    """Return the passes of a dovetail cutter that make a slot or the waste beside a tail; none where it cannot.

    Each is a slab from one side of the part whose flanks lean out alike, but where the part ends at the slab. More than
    two are all measured from the same side, as places marked on it.
    """
    mouths = _mouths(piece, feature)
    if not mouths:
        return []
    whole = feature.envelope()
    down = side_of(feature.entry)
    top, height = piece.span(down, whole.low(down.axis), whole.high(down.axis))
    if top:
        return []
    lean = degrees(atan2(mouths[0].lean, height))
    along = abs(feature.run or 0)
    across = 6 - along - down.axis
    leads = piece.nearest(along, whole.low(along), whole.high(along))
    start, end = piece.stops(leads, whole.low(along), whole.high(along))
    many = len(mouths) > PAIR
    cuts = []
    for mouth in mouths:
        low, high = (whole.low(across), whole.high(across)) if many else (mouth.low, mouth.high)
        against = piece.nearest(across, low, high)
        near, far = piece.span(against, mouth.low, mouth.high)
        setting = Setting(fence=near, cutter=far - near, height=height, tilt_deg=lean, start=start, end=end)
        cuts.append(Cut(feature.kind, setting, down, against, leads, feature.label))
    return _alike_at_both_ends(cuts, piece.size(across)) if many else cuts


def _alike_at_both_ends(cuts: list[Cut], size: int) -> list[Cut]:
    """Return cuts with what an odd division leaves over cut off the far end: as wide there as at the near end."""
    wide = {cut.setting.cutter or 0 for cut in cuts if cut.setting.fence == 0}
    return [
        replace(cut, setting=replace(cut.setting, cutter=max(wide)))
        if wide
        and (cut.setting.fence or 0) + (cut.setting.cutter or 0) == size
        and 0 <= max(wide) - (cut.setting.cutter or 0) <= SPARE
        else cut
        for cut in cuts
    ]


@dataclass(frozen=True, slots=True)
class _Mouth:
    """Where a dovetail cutter goes in, from and to across its way, and how far its flanks lean out."""

    low: int
    high: int
    lean: int


def _mouths(piece: Measured, feature: Feature) -> list[_Mouth]:
    """Return where a dovetail cutter goes in to make a feature; none where its waste is not of that form."""
    into, along = opposite(feature.entry), abs(feature.run or 0)
    if feature.kind != "dovetail" or along in (0, abs(into)):
        return []
    across = 6 - along - abs(into)
    spans = {(box.low(along), box.high(along), box.low(abs(into)), box.high(abs(into))) for box in feature.waste_boxes}
    leans = {wedge.box.high(across) - wedge.box.low(across) for wedge in feature.wedges}
    if len(spans) != 1 or len(leans) != 1 or any(into not in wedge.corner for wedge in feature.wedges):
        return []
    flanks = {  # the edge of the mouth that a flank leans out from, and whether it is the mouth's low one
        (wedge.box.high(across), True) if across in wedge.corner else (wedge.box.low(across), False)
        for wedge in feature.wedges
    }
    ends = {(0, True), (piece.size(across), False)}
    slabs = {(box.low(across), box.high(across)) for box in feature.boxes}
    bare = {edge for edge, low in flanks if not any(slab[not low] == edge for slab in slabs)}
    spots = sorted(slabs | {(edge, edge) for edge in bare})
    if any({(low, True), (high, False)} - flanks - ends for low, high in spots):
        return []
    return [_Mouth(low, high, min(leans)) for low, high in spots]


def slot_in_bevel(piece: Measured, feature: Feature) -> Cut | None:
    """Return the one pass of a tilted blade that makes a spline's slot; nothing where its waste has another form.

    The bevelled end rides the fence by its tip; the side down is the one that the bevel makes shorter.
    """
    mouth = _mouth_of_slot(feature)
    if mouth is None:
        return None
    box, (first, second) = mouth
    up, way = (first, second) if abs(first) > abs(second) else (second, first)
    down, against = side_of(opposite(up)), side_of(opposite(way))
    whole, along = feature.envelope(), 6 - down.axis - against.axis
    if not any(_beside(box, wedge.box, against.axis, down.axis) for wedge in feature.wedges):
        return None
    thick, long = box.high(down.axis) - box.low(down.axis), whole.high(down.axis) - whole.low(down.axis)
    middle = {side: (box.low(side.axis) + box.high(side.axis)) // 2 for side in (down, against)}
    leads = piece.nearest(along, whole.low(along), whole.high(along))
    start, end = piece.stops(leads, whole.low(along), whole.high(along))
    setting = Setting(
        fence=piece.span(against, middle[against], middle[against])[0],
        depth=piece.span(down, middle[down], middle[down])[0],
        cutter=round(thick * sqrt(2)),
        height=round((long - thick) * sqrt(2)),
        tilt_deg=SQUARE_DEG,
        tilts=Tilts.FAR,
        start=start,
        end=end,
    )
    return Cut(feature.kind, setting, down, against, leads, feature.label)


def _beside(box: Box, other: Box, way: int, up: int) -> bool:
    """Return whether another box stands against a square one, as large, along the way square to `up`."""
    level = (box.low(up), box.high(up)) == (other.low(up), other.high(up))
    wide = box.high(way) - box.low(way) == other.high(way) - other.low(way)
    return level and wide and (box.high(way) == other.low(way) or box.low(way) == other.high(way))


def _mouth_of_slot(feature: Feature) -> tuple[Box, tuple[Axis, Axis]] | None:
    """Return the square round the mouth of a slot at 45 degrees, and the two ways between which it goes in."""
    if feature.kind != "spline-slot":
        return None
    whole, into = feature.envelope(), opposite(feature.entry)
    for wedge in feature.wedges:
        sizes = {wedge.box.high(abs(axis)) - wedge.box.low(abs(axis)) for axis in wedge.corner}
        outside = all(
            wedge.box.low(axis) == whole.low(axis) if axis > 0 else wedge.box.high(-axis) == whole.high(-axis)
            for axis in wedge.corner
        )
        if into in wedge.corner and len(sizes) == 1 and outside:
            return wedge.box, wedge.corner
    return None
