"""Strategies that draw meetings, and one to work by hand.

Lengths in whole nm. A drawn meeting is one that a cabinet can have: the sizes are shop sizes, not the extremes
of what the types allow.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from casewright.sdk.materials import Catalogue, Stuff
from casewright.sdk.methods import Body, Meeting, MeetingKind
from casewright.sdk.model import Material
from casewright.sdk.model.parts import Role
from casewright.sdk.units import MM
from casewright.sdk.writer import INCHES, MILLIMETRES
from hypothesis import strategies as st

_Lengths = Callable[[float, float], int]
"""Draws a length in nm between two bounds in mm."""

_ROLES: dict[str, tuple[Role, Role]] = {
    "corner": ("side", "top"),
    "tee": ("side", "shelf"),
    "panel": ("side", "back"),
    "frame": ("frame-stile", "frame-rail"),
    "box": ("box-side", "box-front"),
}


def a_meeting(kind: MeetingKind, catalogue: Catalogue, **changes: Any) -> Meeting:
    """Return one plain meeting to work by hand: 18 mm birch plywood, 300 mm long; `changes` replace fields.

    Lengths in nm. The guest stands 100 mm from the host's ends for a tee, 20 mm from one for a corner.
    """
    ply = catalogue.stuff("birch-plywood")
    part = Material("case", "sheet", ply.id, 18 * MM)
    beside = {"tee": (100 * MM, 100 * MM), "frame": (0, 0), "box": (0, 200 * MM)}.get(kind, (20 * MM, 400 * MM))
    plain = Meeting(
        kind=kind,
        host=Body("side", "side", part, ply, 18 * MM),
        guest=Body("shelf", "shelf", part, ply, 18 * MM),
        run=300 * MM,
        guest_thickness=18 * MM,
        guest_length=500 * MM,
        host_depth=18 * MM,
        host_before=beside[0],
        host_after=beside[1],
        host_start=0,
        host_end=0,
        fit=0,
        side="left",
        catalogue=catalogue,
    )
    return replace(plain, **changes)


@st.composite
def meetings(
    draw: st.DrawFn,
    kind: MeetingKind,
    catalogue: Catalogue,
    *,
    at_end: bool | None = None,
    alike: bool = False,
    behind: bool = False,
    run_mm: tuple[float, float] | None = None,
) -> Meeting:
    """Draw a meeting of one kind.

    `at_end` says whether the guest is flush with an end or edge of the host (None: either), `alike` makes
    both parts equally thick, `behind` draws a panel that lies behind its hosts, `run_mm` bounds the joint's
    length.
    """

    def mm(low: float, high: float) -> int:
        return draw(st.integers(round(low * MM), round(high * MM)))

    stock = mm(12, 25)
    thick = stock if alike or kind == "frame" else mm(3.5, 19) if kind == "panel" else mm(12, 25)
    flush = draw(st.booleans()) if at_end is None else at_end
    before, after = _beside(mm, kind, flush, draw(st.booleans()))
    if behind:
        before = after = 0
    start, end = _beyond(mm, kind, draw(st.sampled_from(["low", "high", "between"])))
    usual = {"frame": (25.0, 80.0), "box": (60.0, 220.0)}.get(kind, (150.0, 600.0))
    run = mm(*(run_mm or usual))
    solid = kind == "frame" or draw(st.booleans())
    host_role, guest_role = _ROLES[kind]
    stuff = _stuff(catalogue, solid)
    return Meeting(
        kind=kind,
        host=Body("host", host_role, Material("case", stuff.kind, stuff.id, stock), stuff, stock),
        guest=Body("guest", guest_role, Material("guest", stuff.kind, stuff.id, thick), stuff, thick),
        run=run,
        guest_thickness=thick,
        guest_length=mm(150, 900),
        host_depth=mm(30, 80) if kind == "frame" else stock,
        host_before=before,
        host_after=after,
        host_start=start,
        host_end=end,
        fit=draw(st.sampled_from([0, 100_000, 198_437, 250_001])),
        side=draw(st.sampled_from(["left", "right"])),
        catalogue=catalogue,
        write=draw(st.sampled_from([MILLIMETRES, INCHES])),
        spare=draw(st.sampled_from([0, 0, 1, 2, 999, 100_000])) if kind in ("tee", "frame") else 0,
        far_side=kind in ("tee", "frame") and draw(st.booleans()),
    )


def _beside(mm: _Lengths, kind: MeetingKind, flush: bool, low: bool) -> tuple[int, int]:
    """Return the host's wood beside the guest, before and after it."""
    if kind == "frame":
        return 0, 0
    if kind == "tee":
        return mm(40, 500), mm(40, 500)
    far = mm(120, 800)
    near = 0 if flush else mm(10, 60)
    return (near, far) if low else (far, near)


def _beyond(mm: _Lengths, kind: MeetingKind, where: str) -> tuple[int, int]:
    """Return the host's wood beyond the contact, at its start and end."""
    if kind == "frame":
        return {"low": (0, mm(60, 600)), "high": (mm(60, 600), 0), "between": (mm(60, 600), mm(60, 600))}[where]
    if kind == "box":
        return 0, 0
    return (mm(0, 20), 0) if where == "low" else (0, mm(0, 20)) if where == "high" else (mm(0, 20), mm(0, 20))


def _stuff(catalogue: Catalogue, solid: bool) -> Stuff:
    kind = "board" if solid else "sheet"
    return next(s for s in catalogue.stuffs if s.kind == kind)
