"""From the features of a part to the single cuts that make them, each as a machine is set for it.

A feature is taken apart into slabs, slants and bores. Each is measured from named sides: from the side it touches or
stands nearest to, so that a mirrored pair is cut at one setting, and from the same side wherever two are as near.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import atan2, degrees

from casewright.api.engine.work.cut import Cut, Measured, side_of, signed
from casewright.api.engine.work.undercuts import slot_in_bevel, undercut
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.model.operations import Setting, Tilts
from casewright.sdk.model.parts import Feature, FeatureKind
from casewright.sdk.model.sides import Side

__all__ = ["cuts_of", "measured_box"]

MARKED: frozenset[FeatureKind] = frozenset(
    {"mortise", "loose-mortise", "biscuit-slot", "pocket", "dovetail", "fingers"}
)
"""Kinds of cut whose places are marked on the piece, so that all of one size are made at one setting."""

EITHER_SIDE = 2
"""Cuts of a dovetail cutter that one on either side of a tail takes; more of them are marked on the piece."""
OUTLINED: frozenset[FeatureKind] = frozenset({"notch"})
"""Kinds of cut that are sawn along their outline, not cleared by passes of a cutter."""


MOST_CUTS = 20_000
"""Parts whose cuts are kept at the most; then they are worked out anew."""


@dataclass(frozen=True, slots=True)
class KnownCuts:
    """The cuts of parts by all that they hang on, each worked out once: handed on from one order of work to the next.

    They are the same whoever works them out, so threads may share them.
    """

    known: dict[tuple[object, ...], tuple[tuple[Cut, ...], ...]] = field(default_factory=dict)

    def of(
        self, piece: Measured, features: tuple[Feature, ...], cutters: tuple[int, ...], same: int
    ) -> tuple[tuple[Cut, ...], ...]:
        """Return the cuts of each feature of a part, as `cuts_of` does; the names of its sides are known."""
        key = piece.part.blank, piece.sides, features, cutters, same
        cuts = self.known.get(key)
        if cuts is None:
            cuts = tuple([tuple(cuts_of(piece, (feature,), cutters, same)) for feature in features])
            if len(self.known) >= MOST_CUTS:
                self.known.clear()
            self.known[key] = cuts
        return cuts


def cuts_of(piece: Measured, features: Iterable[Feature], cutters: Sequence[int] = (), same: int = 0) -> Iterator[Cut]:
    """Yield the cuts that make features of a part, in the order of the features.

    `cutters` are the widths in nm that the shop has for grooves; without any, every slab is one pass. Sizes that differ
    by at most `same` nm are one to the shop.
    """
    for feature in features:
        if single := slot_in_bevel(piece, feature):
            yield _through(single)
            continue
        if undercuts := undercut(piece, feature):
            yield from _places(undercuts) if len(undercuts) > EITHER_SIDE else map(_through, undercuts)
            continue
        marked = feature.kind in MARKED and feature.run is None
        slabs = [_slab(piece, feature, box) for box in feature.boxes]
        if feature.kind == "fingers":
            slabs = [*_of_one_width(slabs)]
        cuts = (
            slabs
            if marked or feature.kind in OUTLINED
            else [one for cut in slabs for one in _passes(cut, cutters, same)]
        )
        cuts += [_slant(piece, feature, wedge) for wedge in feature.wedges]
        yield from _places(cuts) if marked else (_through(cut) for cut in cuts)
        if feature.holes:
            yield _bores(piece, feature, feature.holes)


def _through(cut: Cut) -> Cut:
    """Return a cut without the side it would be stopped from, where it is not stopped."""
    return replace(cut, leads=None) if cut.setting.end is None and cut.setting.turn_deg is None else cut


def _places(cuts: Iterable[Cut]) -> Iterator[Cut]:
    """Yield one cut for all that are alike but for their place, with the places: where each begins, both ways."""
    by_cut: dict[Cut, list[tuple[int, int]]] = {}
    for cut in cuts:
        fence, start, end = cut.setting.fence or 0, cut.setting.start or 0, cut.setting.end
        long = (None, None) if end is None else (0, end - start)
        alike = replace(cut, setting=replace(cut.setting, fence=None, start=long[0], end=long[1]))
        by_cut.setdefault(alike, []).append((fence, start))
    for cut, places in by_cut.items():
        yield replace(cut, at=tuple(places))


def _of_one_width(cuts: Sequence[Cut]) -> Iterator[Cut]:
    """Yield the cuts between fingers as cuts of the narrowest one's width: wider ones take several beside each other.

    Joints whose ends differ with the height of the box are so cut at one setting.
    """
    width = min(cut.setting.cutter or 0 for cut in cuts)
    for cut in cuts:
        fence, whole = cut.setting.fence or 0, cut.setting.cutter or 0
        for n in range(-(-whole // width)):
            at = min(fence + width * n, fence + whole - width)
            yield replace(cut, setting=replace(cut.setting, fence=at, cutter=width))


def _slab(piece: Measured, feature: Feature, box: Box) -> Cut:
    """Return a slab as one cut of its own width."""
    down = side_of(feature.entry)
    whole = measured_box(feature, box)
    others = [axis for axis in (1, 2, 3) if axis != down.axis]
    along = abs(feature.run) if feature.run is not None else max(others, key=lambda a: _length(piece, box, a))
    across = next(axis for axis in others if axis != along)
    against = piece.nearest(across, whole.low(across), whole.high(across))
    leads = piece.nearest(along, whole.low(along), whole.high(along))
    start, end = piece.stops(leads, box.low(along), box.high(along))
    near, far = piece.span(against, box.low(across), box.high(across))
    top, bottom = piece.span(down, box.low(down.axis), box.high(down.axis))
    setting = Setting(
        fence=near,
        cutter=far - near,
        height=bottom,
        depth=top or None,
        start=start,
        end=end,
    )
    return Cut(feature.kind, setting, down, against, leads, feature.label)


def _passes(cut: Cut, cutters: Sequence[int], same: int) -> Iterator[Cut]:
    """Yield the passes that cut a slab with the widest cutter that fits in it.

    A cutter that is wider by at most `same` makes it in one; its width in the setting is that of the slab. So does one
    that is narrower by as little for a rabbet, which is open at an edge: it squeezes no part, and no fence is set so
    finely that a second pass would be of use.
    """
    fence, width = cut.setting.fence or 0, cut.setting.cutter or 0
    narrowest = width - same if cut.kind == "rabbet" else width
    fit = any(narrowest <= one <= width + same for one in cutters)
    cutter = width if fit else max((one for one in cutters if one < width), default=width)
    count = -(-width // cutter)
    if count == 1:
        yield cut
        return
    for n in range(count):
        at = min(fence + cutter * n, fence + width - cutter)
        yield replace(cut, setting=replace(cut.setting, fence=at, cutter=cutter), run=(n + 1, count))


def _length(piece: Measured, box: Box, axis: int) -> tuple[bool, int]:
    """Return what makes a way the one a cutter runs along: first that the waste goes all through, then its length."""
    size = box.high(axis) - box.low(axis)
    return size == piece.size(axis), size


def measured_box(feature: Feature, box: Box) -> Box:
    """Return the box whose place says which sides a cut is measured from: all places of one feature from the same."""
    return feature.envelope() if feature.kind in MARKED else box


def _slant(piece: Measured, feature: Feature, wedge: Wedge) -> Cut:
    """Return the pass that takes a wedge, with the side its base lies on down."""
    upright, base = wedge.corner
    if abs(base) == wedge.along or abs(upright) == abs(base):
        raise ValueError(f"a wedge of {piece.part.id} has its right angle on its own axis")
    if abs(base) < abs(upright):  # the base lies on a face where it can, else on an edge
        upright, base = base, upright
    down, stands = side_of(base), side_of(upright)
    whole = measured_box(feature, wedge.box)
    against = piece.nearest(stands.axis, whole.low(stands.axis), whole.high(stands.axis))
    if feature.kind == "bevel" and piece.span(against, whole.low(stands.axis), whole.high(stands.axis))[0] <= 0:
        against = against.across  # so that what falls off lies free, and not between blade and fence
    leads = piece.nearest(wedge.along, whole.low(wedge.along), whole.high(wedge.along))
    start, end = piece.stops(leads, wedge.box.low(wedge.along), wedge.box.high(wedge.along))
    near, far = piece.span(against, wedge.box.low(stands.axis), wedge.box.high(stands.axis))
    top, bottom = piece.span(down, wedge.box.low(down.axis), wedge.box.high(down.axis))
    setting = Setting(
        fence=near,
        height=bottom - top,
        depth=top or None,
        tilt_deg=degrees(atan2(far - near, bottom - top)),
        tilts=Tilts.NEAR if stands is against else Tilts.FAR,
        start=start,
        end=end,
    )
    if feature.kind == "bevel" and (down.axis, leads.axis, end) == (2, 3, None) and piece.size(2) > piece.size(3):
        turned = replace(setting, fence=None, stop=near, tilt_deg=None, turn_deg=setting.tilt_deg)
        return Cut(feature.kind, turned, _lying_on(piece), against, down, feature.label)
    return Cut(feature.kind, setting, down, against, leads, feature.label)


def _lying_on(piece: Measured) -> Side:
    """Return the face that a piece lies on to be mitred: its show face is up."""
    shows = piece.sides is not None and piece.sides[Side.FACE_HIGH].startswith("show")
    return Side.FACE_LOW if shows else Side.FACE_HIGH


def _bores(piece: Measured, feature: Feature, holes: Sequence[Cylinder]) -> Cut:
    """Return the bores of one feature, which enter by the same face and are alike."""
    first = holes[0]
    entry = side_of(signed(-first.into))
    a, b = (axis for axis in (1, 2, 3) if axis != entry.axis)
    sides = []
    for axis in (a, b):
        marks = [hole.mouth[axis - 1] for hole in holes]
        sides.append(piece.nearest(axis, min(marks), max(marks)))
    places = []
    for hole in holes:
        spots = [piece.span(side, hole.mouth[side.axis - 1], hole.mouth[side.axis - 1])[0] for side in sides]
        places.append((spots[0], spots[1]))
    size = piece.size(entry.axis)
    depth = None if first.depth >= size else first.depth
    setting = Setting(cutter=first.diameter, depth=depth)
    return Cut(feature.kind, setting, entry.across, sides[0], sides[1], feature.label, at=tuple(places))
