"""How guest and host of one meeting sit, worked out from their cuts: what a fit says of it must be so."""

from collections.abc import Iterable

from casewright.sdk.geometry import Axis, Box, Cylinder, Point, Wedge
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.model import Feature, HardwareUse, Part
from casewright.sdk.units import MM, exact_text

LEAST_CUT = MM // 10
"""No cut that a shop makes is smaller in any direction: a length below it was meant in another unit."""

LEAST_SLICE = MM // 100
"""No piece of a cut is thinner: a slope is drawn in slices, and what remains beside one may be thin."""

ROUNDED = 2
"""nm by which two flanks that lean alike may miss each other: each is taken to a whole nm."""

PLAY = MM // 5
"""How much wider than its pin a hole may be (common practice, no source)."""


def assert_sized(fit: Fit) -> None:
    """Assert that no length of a fit is so small that it was meant in another unit: a raw 6 is 6 nm."""
    for name in ("growth", "seat", "clearance"):
        _assert_not_raw(name, getattr(fit, name))
    assert_no_raw_cuts((*fit.host, *fit.guest))


def assert_no_raw_cuts(features: Iterable[Feature]) -> None:
    """Assert that no cut is under 0.1 mm in any direction, nor any piece of one under 0.01 mm."""
    for feature in features:
        for size in feature.envelope().size:
            _assert_not_raw(f"a side of {feature.label!r}", size)
        for box in feature.waste_boxes:
            for size in box.size:
                _assert_not_raw(f"a side of a piece of {feature.label!r}", size, LEAST_SLICE)
        for hole in feature.holes:
            _assert_not_raw(f"the diameter of {feature.label!r}", hole.diameter)
            _assert_not_raw(f"the depth of {feature.label!r}", hole.depth)


def assert_no_raw_sizes(parts: Iterable[Part]) -> None:
    """Assert that no part is under 0.1 mm long, wide or thick, and that its cuts are no smaller."""
    for part in parts:
        for name in ("length", "width", "thickness"):
            _assert_not_raw(f"the {name} of {part.name!r}", getattr(part, name))
        assert_no_raw_cuts(part.features)


def _assert_not_raw(what: str, nm: int, least: int = LEAST_CUT) -> None:
    assert nm == 0 or abs(nm) >= least, f"{what} is {exact_text(nm)}; write mm({nm}) if {nm} mm were meant"


def assert_seated(meeting: Meeting, fit: Fit) -> None:
    """Assert that a guest pressed home along +z enters as far as its fit says, with no more play than the shop's fit.

    Flanks that lean along the joint are looked at in three heights, a guest that stands off by the meeting's spare
    included; mitres and other slants are left to the dry fit.
    """
    if fit.press != 3:
        return
    grown = max(0, fit.growth)
    assert fit.seat == grown, f"seat is {exact_text(fit.seat)}, but the guest enters its host by {exact_text(grown)}"
    wedges = [wedge for feature in (*fit.host, *fit.guest) for wedge in feature.wedges]
    mitred = any(feature.kind == "bevel" for feature in (*fit.host, *fit.guest))
    if mitred or any(abs(wedge.along) != 1 for wedge in wedges) or fit.growth <= 0:
        return
    if wedges:
        _assert_undercut(meeting, fit)
        return
    at = (meeting.run // 2, fit.growth // 2)
    tongue, socket = _tongue(meeting, fit.guest, at), _span(fit.host, at)
    if tongue is None or socket is None:
        return
    low = max(socket[0], -meeting.host_before)
    play = (socket[1] - low) - (tongue[1] - tongue[0])
    assert play <= meeting.fit, (
        f"the socket is {exact_text(play)} wider than what sits in it; the shop's fit adds {exact_text(meeting.fit)}"
    )


def _assert_undercut(meeting: Meeting, fit: Fit) -> None:
    """Assert that a guest with leaning flanks finds room in its slot, and little more than it needs."""
    most = meeting.fit + 2 * meeting.spare + ROUNDED
    for quarter in (1, 2, 3):
        deep = quarter * fit.growth // 4
        at, off = (meeting.run // 2, deep), (meeting.run // 2, min(deep + meeting.spare, fit.growth - 1))
        tongue, socket = _tongue(meeting, fit.guest, off), _span(fit.host, at)
        if tongue is None or socket is None:
            return
        low, high = tongue[0] - socket[0], socket[1] - tongue[1]
        words = f"{exact_text(deep)} deep, the guest {exact_text(meeting.spare)} off its host (the meeting's spare)"
        assert min(low, high) >= -ROUNDED, f"the guest is {exact_text(-min(low, high))} wider than its slot {words}"
        play = low + high
        assert play <= max(most, 2 * (meeting.fit + meeting.spare)), (
            f"the slot is {exact_text(play)} wider than what sits in it; the shop's fit adds {exact_text(meeting.fit)}"
        )


def assert_known(fit: Fit, catalogue: Catalogue, supplies: frozenset[str]) -> None:
    """Assert that hardware is in the catalogue, or that the method lists it, and that pins fill their holes."""
    known = _ids(catalogue) | supplies
    for use in fit.hardware:
        assert use.item in known, (
            f"hardware {use.item!r} is not in the catalogue; add it there, or list it in `supplies` of the method"
        )
        for dowel in (one for one in catalogue.dowels if one.id == use.item):
            _assert_holes(fit, use, dowel.diameter)


def _assert_holes(fit: Fit, use: HardwareUse, diameter: int) -> None:
    """Assert that a hole of its size is bored along the way that each pin goes: through the joint, or across it."""
    bored = [hole for feature in (*fit.host, *fit.guest) for hole in feature.holes]
    for point in use.at:
        holes = [hole for hole in bored if _goes_in(point, use.axis, hole)]
        assert holes, (
            f"no hole is bored where {use.item!r} goes: at ({', '.join(map(exact_text, point))}), "
            f"{'any way' if use.axis is None else f'along axis {abs(use.axis)}'}; its mouth lies on that line"
        )
        for hole in holes:
            assert diameter <= hole.diameter <= diameter + PLAY, (
                f"a hole of {exact_text(hole.diameter)} takes {use.item!r}, which is {exact_text(diameter)} thick"
            )


def _ids(catalogue: Catalogue) -> frozenset[str]:
    families = (
        catalogue.hinges, catalogue.pulls, catalogue.screws, catalogue.lags, catalogue.nails, catalogue.pins,
        catalogue.slides, catalogue.dowels, catalogue.loose_tenons,
    )  # fmt: skip
    return frozenset(entry.id for family in families for entry in family)


def _goes_in(point: Point, axis: Axis | None, hole: Cylinder) -> bool:
    """Return whether a pin at a point, which points along an axis (`None`: any), lies in the middle of a hole."""
    along = abs(hole.into)
    beside = (one for one in range(3) if one != along - 1)
    return axis in (None, along, -along) and all(point[one] == hole.mouth[one] for one in beside)


def _covering(features: Iterable[Feature], at: tuple[int, int]) -> list[tuple[int, int]]:
    """Return what is cut away along y at a point of the joint: by boxes, and by wedges that run along it."""
    x, z = at
    spans = []
    for feature in features:
        spans += [(box.y0, box.y1) for box in feature.boxes if _reaches(box, x, z)]
        spans += [_slanted(wedge, z) for wedge in feature.wedges if _reaches(wedge.box, x, z)]
    return sorted(spans)


def _reaches(box: Box, x: int, z: int) -> bool:
    return box.x0 <= x < box.x1 and box.z0 <= z < box.z1


def _slanted(wedge: Wedge, z: int) -> tuple[int, int]:
    """Return what a wedge along x takes away along y at a height: all of its width at its corner, none opposite."""
    box, ways = wedge.box, {abs(way): way for way in wedge.corner}
    off = box.z1 - z if ways[3] > 0 else z - box.z0
    wide = (box.y1 - box.y0) * (box.z1 - box.z0 - off) // (box.z1 - box.z0)
    return (box.y1 - wide, box.y1) if ways[2] > 0 else (box.y0, box.y0 + wide)


def _span(features: Iterable[Feature], at: tuple[int, int]) -> tuple[int, int] | None:
    """Return the waste along y at a point of the joint, from its lowest to its highest end."""
    spans = _covering(features, at)
    return (min(low for low, _ in spans), max(high for _, high in spans)) if spans else None


def _tongue(meeting: Meeting, features: Iterable[Feature], at: tuple[int, int]) -> tuple[int, int] | None:
    """Return what is left of the guest along y at a point of the joint; `None` where nothing is."""
    low, high = 0, meeting.guest_thickness
    spans = _covering(features, at)
    for start, end in spans:
        low = end if start <= low < end else low
    for start, end in reversed(spans):
        high = start if start < high <= end else high
    return (low, high) if low < high else None
