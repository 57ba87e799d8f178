"""What fills a framed door: a flat panel, a raised solid panel, or glass with its stops.

Door frame as in `doorframe`; lengths in whole nm.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from casewright.sdk.engineering.movement import change_over_mm
from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery.checks import COMMON, Bound, check_least
from casewright.sdk.joinery.doorframe import Layout
from casewright.sdk.methods import CannotError
from casewright.sdk.model.parts import Feature, JointSpec, PartSpec, Purpose, Term
from casewright.sdk.units import INCH, MM

SHEET_PLAY = INCH // 32
BOARD_PLAY = INCH // 16
FITTED, DAMPEST = 8.0, 11.0
"""Moisture (%) at which a solid panel is fitted, and the dampest it is made for (common practice, indoors)."""

RATTLE = INCH // 32
"""A panel thinner than its groove by more than this rattles (common practice)."""

FIELD_MARGIN = INCH // 8
"""Room between the frame's inner edge and a raised field (common practice)."""

BED = INCH // 32
"""Bedding before and behind a pane (common practice)."""

LEAST_STOP = 3 * MM


@dataclass(frozen=True, slots=True)
class Filling:
    """The panels of a door, how they meet the frame, what was found, and the room across the grain."""

    parts: tuple[PartSpec, ...]
    joints: tuple[JointSpec, ...]
    findings: tuple[Finding, ...]
    clearance: int


def fill(layout: Layout, options: Mapping[str, Any], method: str) -> Filling:
    """Return what fills every opening. Raises `CannotError` for a panel that cannot go in."""
    if layout.request.panel is None:
        raise CannotError("a framed door has a panel", "no panel material", "Name a material in doors.panel.")
    play, findings = _play(layout, options)
    parts: list[PartSpec] = []
    joints: list[JointSpec] = []
    for i, (z0, z1) in enumerate(layout.openings):
        panel = _panel(layout, i, play)
        parts.append(panel)
        joints += _joints(layout, panel, i, play, method)
        if layout.panel_kind == "glass":
            stops = _stops(layout, i, z0, z1)
            parts += stops
            joints += _pinned(layout, stops, i)
    return Filling(tuple(parts), tuple(joints), (*findings, *_thickness(layout)), play.across)


@dataclass(frozen=True, slots=True)
class _Play:
    """The room at each groove bottom across and along the panel's grain, in nm."""

    across: int
    along: int


def _play(layout: Layout, options: Mapping[str, Any]) -> tuple[_Play, tuple[Finding, ...]]:
    """Return the room at the groove bottoms, and a stop where the panel swells by more."""
    panel = layout.request.panel
    assert panel is not None
    given: int | None = options.get("panel_clearance")
    solid = panel.kind == "board"
    usual = BOARD_PLAY if solid or layout.panel_kind == "glass" else SHEET_PLAY
    need = _growth(layout) if solid else 0
    along = usual if given is None else given
    across = max(usual, need) if given is None else given
    if across >= layout.groove.depth:
        raise CannotError(
            "a panel enters its grooves",
            f"{layout.request.write.length(across)} of room in grooves "
            f"{layout.request.write.length(layout.groove.depth)} deep",
            "Use deeper grooves, or a sheet panel.",
            "panel_clearance" if given is not None else "groove_depth",
        )
    if need <= across:
        return _Play(across, along), ()
    message = (
        f"The solid panel swells from {FITTED:g} to {DAMPEST:g} % moisture by more than the room in its grooves "
        "and would force the frame apart."
    )
    return _Play(across, along), (Finding("panel-room", "stop", message, across, need, LENGTH, "fpl-190-eq-13-2"),)


def _growth(layout: Layout) -> int:
    """Return the room a solid panel needs on each side, upward to 1/64 in."""
    stuff = layout.request.panel_stuff
    coefficient = None if stuff is None else stuff.c_tangential
    if coefficient is None:
        return 0
    width_mm = (layout.opening_width + 2 * layout.groove.depth) / MM
    each_side = change_over_mm(width_mm, coefficient, FITTED, DAMPEST) / 2.0
    return math.ceil(each_side * MM * 64 / INCH) * INCH // 64


def _front(layout: Layout, thickness: int) -> int:
    """Return where the panel's front stands: in the groove's middle, or so that a raised field stays in."""
    cut = layout.groove
    if layout.panel_kind == "glass":
        return cut.front + BED
    if layout.panel_kind == "raised" and thickness > cut.width:
        return max(0, cut.back - thickness)
    return cut.front + (cut.width - thickness) // 2


def _panel(layout: Layout, index: int, play: _Play) -> PartSpec:
    material = layout.request.panel
    assert material is not None
    across, along = play.across, play.along
    z0, z1 = layout.openings[index][0], layout.openings[index][1] - layout.spare_in(index)
    d, s = layout.groove.depth, layout.stile
    y = _front(layout, material.thickness)
    box = Box(
        s - d + across,
        y,
        z0 - d + along,
        layout.request.width - s + d - across,
        y + material.thickness,
        z1 + d - along,
    )
    more = len(layout.openings) > 1
    what = "glass" if layout.panel_kind == "glass" else "panel"
    return PartSpec(
        key=f"panel-{index + 1}" if more else "panel",
        role="door-panel",
        name=f"{what} {index + 1}" if more else what,
        material=material.key,
        box=box,
        length_axis=3,
        width_axis=1,
        why_length=(*layout.why_opening_height, *_into(d, along, "lower", "upper")),
        why_width=(*layout.why_opening_width, *_into(d, across, "left", "right")),
        features=_raising(layout, box) if layout.panel_kind == "raised" else (),
        grain="free" if layout.panel_kind == "glass" else "along-length",
    )


def _into(depth: int, play: int, first: str, second: str) -> tuple[Term, ...]:
    terms = [Term(f"groove depth, {first}", depth), Term(f"groove depth, {second}", depth)]
    if play:
        terms += [Term(f"clearance, {first}", -play), Term(f"clearance, {second}", -play)]
    return tuple(terms)


def _raising(layout: Layout, box: Box) -> tuple[Feature, ...]:
    """Return the rabbets that leave a tongue for the groove round a raised field."""
    cut = layout.groove
    margin = cut.depth + FIELD_MARGIN
    faces: list[tuple[str, int, int, Axis]] = []
    if box.y0 < cut.front:
        faces.append(("front", box.y0, cut.front, -2))
    if box.y1 > cut.back:
        faces.append(("back", cut.back, box.y1, 2))
    made = []
    for name, y0, y1, entry in faces:
        rims = (
            Box(box.x0, y0, box.z0, box.x0 + margin, y1, box.z1),
            Box(box.x1 - margin, y0, box.z0, box.x1, y1, box.z1),
            Box(box.x0 + margin, y0, box.z0, box.x1 - margin, y1, box.z0 + margin),
            Box(box.x0 + margin, y0, box.z1 - margin, box.x1 - margin, y1, box.z1),
        )
        if box.x1 - box.x0 <= 2 * margin or box.z1 - box.z0 <= 2 * margin:
            got = f"an opening {layout.request.write.length(layout.opening_width)} wide"
            raise CannotError("a raised panel has a field", got, "Use a flat panel.", "panel_kind")
        made.append(Feature("rabbet", f"raising round the field, {name}", entry, boxes=rims, purpose=Purpose.SHAPE))
    return tuple(made)


def _joints(layout: Layout, panel: PartSpec, index: int, play: _Play, method: str) -> list[JointSpec]:
    d = layout.groove.depth
    lower, upper = layout.rails[index].key, layout.rails[index + 1].key
    hosts: tuple[tuple[str, Axis, int], ...] = (
        ("stile-left", -1, play.across),
        ("stile-right", 1, play.across),
        (lower, -3, play.along),
        (upper, 3, play.along + layout.spare_in(index)),
    )
    return [JointSpec(method, "panel", host, panel.key, press, d - room, room) for host, press, room in hosts]


def _stops(layout: Layout, index: int, z0: int, z1: int) -> list[PartSpec]:
    """Return four strips that fill the rabbet behind the pane."""
    material = layout.request.panel
    assert material is not None
    d, s, w = layout.groove.depth, layout.stile, layout.request.width
    y0 = layout.groove.front + 2 * BED + material.thickness
    y1 = layout.thickness
    if y1 - y0 < LEAST_STOP:
        rule = f"stops behind glass are at least {layout.request.write.length(LEAST_STOP)} thick"
        got = f"{layout.request.write.length(max(0, y1 - y0))} left behind the glass"
        raise CannotError(rule, got, "Use thicker frame stock or thinner glass.", "panel_kind")
    x0, x1 = s - d, w - s + d
    tag = f"-{index + 1}" if len(layout.openings) > 1 else ""
    why_upright = (
        Term("clear height of the opening", z1 - z0),
        Term("rabbet depth, lower", d),
        Term("rabbet depth, upper", d),
    )
    why_level = layout.why_opening_width
    spots: tuple[tuple[str, Box, Axis, tuple[Term, ...]], ...] = (
        ("left", Box(x0, y0, z0 - d, s, y1, z1 + d), 3, why_upright),
        ("right", Box(w - s, y0, z0 - d, x1, y1, z1 + d), 3, why_upright),
        ("lower", Box(s, y0, z0 - d, w - s, y1, z0), 1, why_level),
        ("upper", Box(s, y0, z1, w - s, y1, z1 + d), 1, why_level),
    )
    return [
        PartSpec(
            key=f"stop-{side}{tag}",
            role="strip",
            name=f"glass stop, {side}",
            material=layout.request.frame.key,
            box=box,
            length_axis=run,
            width_axis=1 if run == 3 else 3,
            why_length=why,
            why_width=(Term("rabbet depth", d),),
        )
        for side, box, run, why in spots
    ]


def _pinned(layout: Layout, stops: Sequence[PartSpec], index: int) -> list[JointSpec]:
    """Return how the stops, listed left, right, lower and upper, lie in the rabbet: each in one member, pinned."""
    members = ("stile-left", "stile-right", layout.rails[index].key, layout.rails[index + 1].key)
    ways: tuple[Axis, ...] = (-1, 1, -3, 3)
    rows = zip(members, ways, stops, strict=True)
    return [JointSpec("pinned", "strip", host, stop.key, press, layout.groove.depth, 0) for host, press, stop in rows]


def _thickness(layout: Layout) -> tuple[Finding, ...]:
    material = layout.request.panel
    assert material is not None
    cut, t = layout.groove, material.thickness
    if layout.panel_kind == "glass":
        return ()
    if layout.panel_kind == "raised":
        return check_least("raised-field", "A raised panel is thicker than its groove.", t, Bound(cut.width + 1))
    if t > cut.width:
        message = "The panel is thicker than its groove; widen the groove or raise the panel."
        return (Finding("panel-thicker-than-groove", "stop", message, t, cut.width, LENGTH, COMMON),)
    stuff = layout.request.panel_stuff
    if stuff is not None and stuff.to_size:
        message = "A pane in grooves cannot be changed when it breaks; panel_kind glass holds it by stops instead."
        return (Finding("pane-captured", "caution", message, source=COMMON),)
    if cut.width - t > RATTLE:
        message = "The panel is thinner than its groove and will rattle; glue it, or use a narrower cutter."
        return (Finding("panel-rattles", "caution", message, cut.width - t, RATTLE, LENGTH, COMMON),)
    return ()
