"""From the features of a part to the single cuts that make them, each as a machine is set for it.

A feature is taken apart into slabs, slants and bores. Each is measured from named sides: from the side it touches or
stands nearest to, so that a mirrored pair is cut at one setting, and from the same side wherever two are as near.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import atan2, degrees

from casewright.sdk.geometry import Axis, Box, Cylinder, Wedge, opposite
from casewright.sdk.model.operations import Action, Setting, Side, Tilts
from casewright.sdk.model.parts import Feature, FeatureKind, Part

__all__ = ["Cut", "cuts_of"]

ACTIONS: Mapping[FeatureKind, Action] = {
    "groove": Action.GROOVE,
    "rabbet": Action.RABBET,
    "notch": Action.NOTCH,
    "mortise": Action.MORTISE,
    "loose-mortise": Action.MORTISE,
    "biscuit-slot": Action.MORTISE,
    "spline-slot": Action.GROOVE,
    "pocket": Action.POCKET,
    "dovetail": Action.DOVETAIL,
    "fingers": Action.TENON,
    "tenon": Action.TENON,
    "hole": Action.BORE,
    "bevel": Action.BEVEL,
    "edge-profile": Action.PROFILE,
}
MARKED: frozenset[FeatureKind] = frozenset(
    {"mortise", "loose-mortise", "biscuit-slot", "pocket", "dovetail", "fingers"}
)
"""Kinds of cut whose places are marked on the piece, so that all of one size are made at one setting."""


FRONT: Axis = -2
"""The way a cabinet's front looks."""

OUTLINED: frozenset[FeatureKind] = frozenset({"notch"})
"""Kinds of cut that are sawn along their outline, not cleared by passes of a cutter."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One pass of a cutter over a part: what is done, how it is set, and which sides it is measured from."""

    kind: FeatureKind
    setting: Setting
    down: Side
    against: Side
    leads: Side | None
    label: str
    at: tuple[tuple[int, int], ...] = ()
    run: tuple[int, int] = (1, 1)

    @property
    def action(self) -> Action:
        """What is done."""
        return ACTIONS[self.kind]


def cuts_of(part: Part, features: Iterable[Feature], cutters: Sequence[int] = (), same: int = 0) -> Iterator[Cut]:
    """Yield the cuts that make features of a part, in the order of the features.

    `cutters` are the widths in nm that the shop has for grooves; without any, every slab is one pass. One that leaves
    at most `same` more play than asked cuts in one pass.
    """
    for feature in features:
        if undercut := _undercut(part, feature):
            yield from map(_through, undercut)
            continue
        marked = feature.kind in MARKED and feature.run is None
        slabs = [_slab(part, feature, box) for box in feature.boxes]
        cuts = (
            slabs
            if marked or feature.kind in OUTLINED
            else [one for cut in slabs for one in _passes(cut, cutters, same)]
        )
        cuts += [_slant(part, feature, wedge) for wedge in feature.wedges]
        yield from _places(cuts) if marked else (_through(cut) for cut in cuts)
        if feature.holes:
            yield _bores(part, feature, feature.holes)


def _through(cut: Cut) -> Cut:
    """Return a cut without the side it would be stopped from, where it is not stopped."""
    return replace(cut, leads=None) if cut.setting.end is None else cut


def _places(cuts: Iterable[Cut]) -> Iterator[Cut]:
    """Yield one cut for all that are alike but for their place, with the places: where each begins, both ways."""
    found: dict[Cut, list[tuple[int, int]]] = {}
    for cut in cuts:
        fence, start, end = cut.setting.fence or 0, cut.setting.start or 0, cut.setting.end
        long = (None, None) if end is None else (0, end - start)
        alike = replace(cut, setting=replace(cut.setting, fence=None, start=long[0], end=long[1]))
        found.setdefault(alike, []).append((fence, start))
    for cut, places in found.items():
        yield replace(cut, at=tuple(places))


def side_of(axis: Axis) -> Side:
    """Return the side whose outward normal a signed axis of the part frame is."""
    name = ("length", "width", "thickness")[abs(axis) - 1]
    return Side(f"{name}-{'high' if axis > 0 else 'low'}")


def _sides(axis: int) -> tuple[Side, Side]:
    """Return the low and the high side of a part axis."""
    return side_of(_signed(-axis)), side_of(_signed(axis))


def _signed(axis: int) -> Axis:
    signed: dict[int, Axis] = {1: 1, 2: 2, 3: 3, -1: -1, -2: -2, -3: -3}
    return signed[axis]


def _from(part: Part, side: Side, low: int, high: int) -> tuple[int, int]:
    """Return a span along the side's axis as distances inward from the side."""
    size = part.blank.high(side.axis)
    return (size - high, size - low) if side.high else (low, high)


def _nearest(part: Part, axis: int, low: int, high: int) -> Side:
    """Return the side a span is measured from: the nearer one, where both are as near the one that looks to the front.

    A span as near to both that looks to no front is measured from the low side.
    """
    near, far = _sides(axis)
    beyond = part.blank.high(axis) - high
    if low == beyond:
        return far if part.place.axis(_signed(axis)) == FRONT else near
    return near if low < beyond else far


def _slab(part: Part, feature: Feature, box: Box) -> Cut:
    """Return a slab as one cut of its own width."""
    down = side_of(feature.entry)
    whole = _measured(feature, box)
    others = [axis for axis in (1, 2, 3) if axis != down.axis]
    along = abs(feature.run) if feature.run is not None else max(others, key=lambda a: _length(part, box, a))
    across = next(axis for axis in others if axis != along)
    against = _nearest(part, across, whole.low(across), whole.high(across))
    leads = _nearest(part, along, whole.low(along), whole.high(along))
    start, end = _from(part, leads, box.low(along), box.high(along))
    through = (start, end) == (0, part.blank.high(along))
    near, far = _from(part, against, box.low(across), box.high(across))
    top, bottom = _from(part, down, box.low(down.axis), box.high(down.axis))
    setting = Setting(
        fence=near,
        cutter=far - near,
        height=bottom,
        depth=top or None,
        start=None if through else start,
        end=None if through else end,
    )
    return Cut(feature.kind, setting, down, against, leads, feature.label)


def _passes(cut: Cut, cutters: Sequence[int], same: int) -> Iterator[Cut]:
    """Yield the passes that cut a slab with the widest cutter that fits in it.

    A cutter that is wider by at most `same` makes it in one; its width in the setting is that of the slab.
    """
    fence, width = cut.setting.fence or 0, cut.setting.cutter or 0
    fit = any(width <= one <= width + same for one in cutters)
    cutter = width if fit else max((one for one in cutters if one < width), default=width)
    count = -(-width // cutter)
    for n in range(count):
        at = min(fence + cutter * n, fence + width - cutter)
        yield replace(cut, setting=replace(cut.setting, fence=at, cutter=cutter), run=(n + 1, count))


def _length(part: Part, box: Box, axis: int) -> tuple[bool, int]:
    """Return what makes a way the one a cutter runs along: first that the waste goes all through, then its length."""
    size = box.high(axis) - box.low(axis)
    return size == part.blank.high(axis), size


def _measured(feature: Feature, box: Box) -> Box:
    """Return the box whose place says which sides a cut is measured from: all places of one feature from the same."""
    return feature.envelope() if feature.kind in MARKED else box


def _slant(part: Part, feature: Feature, wedge: Wedge) -> Cut:
    """Return the pass that takes a wedge, with the side its base lies on down."""
    upright, base = wedge.corner
    if abs(base) == wedge.along or abs(upright) == abs(base):
        raise ValueError(f"a wedge of {part.id} has its right angle on its own axis")
    if abs(base) < abs(upright):  # the base lies on a face where it can, else on an edge
        upright, base = base, upright
    down, stands = side_of(base), side_of(upright)
    whole = _measured(feature, wedge.box)
    against = _nearest(part, stands.axis, whole.low(stands.axis), whole.high(stands.axis))
    leads = _nearest(part, wedge.along, whole.low(wedge.along), whole.high(wedge.along))
    start, end = _from(part, leads, wedge.box.low(wedge.along), wedge.box.high(wedge.along))
    through = (start, end) == (0, part.blank.high(wedge.along))
    near, far = _from(part, against, wedge.box.low(stands.axis), wedge.box.high(stands.axis))
    top, bottom = _from(part, down, wedge.box.low(down.axis), wedge.box.high(down.axis))
    setting = Setting(
        fence=near,
        height=bottom - top,
        depth=top or None,
        tilt_deg=degrees(atan2(far - near, bottom - top)),
        tilts=Tilts.NEAR if stands is against else Tilts.FAR,
        start=None if through else start,
        end=None if through else end,
    )
    return Cut(feature.kind, setting, down, against, leads, feature.label)


def _undercut(part: Part, feature: Feature) -> list[Cut]:
    """Return the passes of a dovetail cutter that make a slot or the waste beside a tail; none where it cannot.

    Each is a slab from one side of the part whose flanks lean out alike, but where the part ends at the slab.
    """
    mouths = _mouths(part, feature)
    whole = feature.envelope()
    down = side_of(feature.entry)
    top, height = _from(part, down, whole.low(down.axis), whole.high(down.axis))
    if not mouths or top:
        return []
    lean = degrees(atan2(mouths[0].lean, height))
    along = abs(feature.run or 0)
    across = 6 - along - down.axis
    leads = _nearest(part, along, whole.low(along), whole.high(along))
    start, end = _from(part, leads, whole.low(along), whole.high(along))
    stops = (None, None) if (start, end) == (0, part.blank.high(along)) else (start, end)
    cuts = []
    for mouth in mouths:
        against = _nearest(part, across, mouth.low, mouth.high)
        near, far = _from(part, against, mouth.low, mouth.high)
        setting = Setting(fence=near, cutter=far - near, height=height, tilt_deg=lean, start=stops[0], end=stops[1])
        cuts.append(Cut(feature.kind, setting, down, against, leads, feature.label))
    return cuts


@dataclass(frozen=True, slots=True)
class _Mouth:
    """Where a dovetail cutter goes in, from and to across its way, and how far its flanks lean out."""

    low: int
    high: int
    lean: int


def _mouths(part: Part, feature: Feature) -> list[_Mouth]:
    """Return where a dovetail cutter goes in to make a feature; none where its waste is not of that form."""
    into, along = opposite(feature.entry), abs(feature.run or 0)
    if feature.kind != "dovetail" or along in (0, abs(into)):
        return []
    across = 6 - along - abs(into)
    every = (*feature.boxes, *(wedge.box for wedge in feature.wedges))
    spans = {(box.low(along), box.high(along), box.low(abs(into)), box.high(abs(into))) for box in every}
    leans = {wedge.box.high(across) - wedge.box.low(across) for wedge in feature.wedges}
    if len(spans) != 1 or len(leans) != 1 or any(into not in wedge.corner for wedge in feature.wedges):
        return []
    flanks = {  # the edge of the mouth that a flank leans out from, and whether it is the mouth's low one
        (wedge.box.high(across), True) if across in wedge.corner else (wedge.box.low(across), False)
        for wedge in feature.wedges
    }
    ends = {(0, True), (part.blank.high(across), False)}
    slabs = {(box.low(across), box.high(across)) for box in feature.boxes}
    bare = {edge for edge, low in flanks if not any(slab[not low] == edge for slab in slabs)}
    spots = sorted(slabs | {(edge, edge) for edge in bare})
    if any({(low, True), (high, False)} - flanks - ends for low, high in spots):
        return []
    return [_Mouth(low, high, min(leans)) for low, high in spots]


def _bores(part: Part, feature: Feature, holes: Sequence[Cylinder]) -> Cut:
    """Return the bores of one feature, which enter by the same face and are alike."""
    first = holes[0]
    entry = side_of(_signed(-first.into))
    a, b = (axis for axis in (1, 2, 3) if axis != entry.axis)
    sides = []
    for axis in (a, b):
        marks = [hole.mouth[axis - 1] for hole in holes]
        sides.append(_nearest(part, axis, min(marks), max(marks)))
    places = []
    for hole in holes:
        spots = [_from(part, side, hole.mouth[side.axis - 1], hole.mouth[side.axis - 1])[0] for side in sides]
        places.append((spots[0], spots[1]))
    size = part.blank.high(entry.axis)
    depth = None if first.depth >= size else first.depth
    setting = Setting(cutter=first.diameter, depth=depth)
    return Cut(feature.kind, setting, entry.across, sides[0], sides[1], feature.label, at=tuple(places))
