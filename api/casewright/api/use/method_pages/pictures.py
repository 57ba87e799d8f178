"""Drawings of a method: each meeting of a joint as it fits it; a door or a mounting put together and taken apart."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from types import MappingProxyType
from typing import Any

from casewright.api.papers import draw
from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.papers.views.design import door_sheet, mounting_sheet
from casewright.api.papers.views.meeting import meeting_sheet
from casewright.api.use.method_pages.examples import example_of
from casewright.sdk.fields import units_in_force
from casewright.sdk.joinery.halves import halves
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Body, CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Material
from casewright.sdk.units import MM
from casewright.sdk.waiting import within


class NothingDrawnError(Exception):
    """A method refuses every meeting or job that it is drawn with: why, in words."""


def pictures_of(
    registry: Registry, family: str, method: str, options: Mapping[str, Any] = {}
) -> Iterator[tuple[str, Sheet]]:
    """Yield the drawings of a method, each with its name: `corner`, `door`, `fixing-1`. Raises `NothingDrawnError`.

    `options` are those of the method, as a job writes them.
    """
    if family in ("joints", "boxes"):
        joint: JointMethod = getattr(registry, family)[method]
        for kind in sorted(joint.does):
            meeting, fit = fitted(registry, family, joint, kind, options)
            parts = halves(meeting, fit, behind=joint.panel_sits == "behind")
            yield kind, meeting_sheet(f"{joint.title}: {kind}", meeting, fit, parts)
        return
    example = example_of(registry, family, method, options=options)
    if example.plan is None:
        raise NothingDrawnError(example.refused)
    title = getattr(registry, family)[method].title
    if family == "doors":
        yield "design", door_sheet(title, example.plan)
        yield from _named("door", draw(example.plan, "door"))
        return
    yield "design", mounting_sheet(title, example.plan)
    yield "section", draw(example.plan, "section")[0]
    yield from _named("fixing", draw(example.plan, "fixing"))


def _named(view: str, sheets: tuple[Sheet, ...]) -> Iterator[tuple[str, Sheet]]:
    for number, sheet in enumerate(sheets, start=1):
        yield (view if len(sheets) == 1 else f"{view}-{number}"), sheet


def fitted(
    registry: Registry, family: str, joint: JointMethod, kind: MeetingKind, options: Mapping[str, Any] = {}
) -> tuple[Meeting, Fit]:
    """Return the first of a few plain meetings that a method does not refuse, and its fit.

    Raises `NothingDrawnError` with what it says of the plainest.
    """
    with units_in_force("mm"):
        read = MappingProxyType(dict(joint.options().load(dict(options))))
    first: CannotError | None = None
    for meeting in _meetings(registry, kind):
        try:
            if (family, joint.id) in registry.outside:
                return meeting, within(registry.seconds, joint.id, partial(joint.fit, meeting, read))
            return meeting, joint.fit(meeting, read)
        except CannotError as error:
            first = first or error
    raise NothingDrawnError(f"{kind}: {first}") from first


def _meetings(registry: Registry, kind: MeetingKind) -> Iterator[Meeting]:
    """Yield plain meetings of a kind: the smallest first, for it is drawn largest."""
    plain = small_meeting(registry, kind)
    yield plain
    yield replace(plain, host_before=0)
    yield replace(plain, host_before=20 * MM)
    for more in (plain, replace(plain, host_before=0), replace(plain, host_before=20 * MM)):
        yield replace(more, run=2 * more.run, guest_length=3 * more.guest_length, host_end=2 * more.host_end)


def small_meeting(registry: Registry, kind: MeetingKind) -> Meeting:
    """Return a plain meeting that is small enough to be drawn large: 18 mm plywood, or 20 mm oak for a frame."""
    solid = kind == "frame"
    stuff = registry.catalogue.stuff("red-oak" if solid else "birch-plywood")
    thick = 20 * MM if solid else 12 * MM if kind == "box" else 18 * MM
    panel = 6 * MM if kind == "panel" else thick
    depth = 45 * MM if solid else thick
    before, after = {
        "tee": (45 * MM, 45 * MM), "frame": (0, 0), "corner": (0, 60 * MM), "panel": (10 * MM, 60 * MM),
        "box": (0, 0),
    }[kind]  # fmt: skip
    return Meeting(
        kind=kind,
        host=Body("host", "side", Material("host", stuff.kind, stuff.id, thick), stuff, thick),
        guest=Body("guest", "shelf", Material("guest", stuff.kind, stuff.id, panel), stuff, panel),
        run=(45 if solid else 90) * MM,
        guest_thickness=panel,
        guest_length=110 * MM,
        host_depth=depth,
        host_before=before,
        host_after=after,
        host_start=0,
        host_end=60 * MM if solid else 0,
        fit=0,
        side="left",
        catalogue=registry.catalogue,
    )
