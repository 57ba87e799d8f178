"""Strategies for base and tall cabinets with drawers, on the shop's own grid, as plain JSON documents."""

from collections.abc import Sequence
from typing import Any

from casewright.sdk.testing.strategies import Document
from hypothesis import strategies as st

CORNERS = ("box-rabbet", "box-joint", "box-dowel", "half-blind-dovetail")


@st.composite
def standing_jobs(draw: st.DrawFn, forms: Sequence[str] = ("base", "tall")) -> Document:
    """Draw a job with one cabinet of these forms, base or tall: any base, top, frame, drawers and doors, in mm."""
    form = draw(st.sampled_from(forms))
    framed = draw(st.booleans())
    sheet = draw(st.integers(171, 181)) / 10
    return {
        "title": "Repair bay",
        "units": "mm",
        "materials": {
            "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": sheet},
            "box": {"kind": "sheet", "stuff": "birch-plywood", "thickness": draw(st.integers(115, 125)) / 10},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": draw(st.integers(50, 61)) / 10},
            "frame": {"kind": "board", "stuff": "red-oak", "thickness": draw(st.integers(180, 220)) / 10},
        },
        "cabinets": [_cabinet(draw, form, framed)],
    }


def _cabinet(draw: st.DrawFn, form: str, framed: bool) -> Document:
    kind = draw(st.sampled_from(["toe-recess", "plinth", "feet", None]))
    stretchers = form == "base" and draw(st.booleans())
    base = {"kind": kind, "height": draw(st.integers(80, 120)), "setback": draw(st.integers(40, 75))}
    counter = {"material": "case", "front": draw(st.integers(0, 40)), "left": 5}
    return {
        "id": "stand",
        "form": form,
        "width": draw(st.integers(5000, 11000)) / 10,
        "height": draw(st.integers(8000, 9200) if form == "base" else st.integers(18000, 22000)) / 10,
        "depth": draw(st.integers(5200, 6200)) / 10,
        "case": {
            "material": "case",
            "corner": {"method": draw(st.sampled_from(["rabbet", "dowel"]))},
            "fixed_joint": {"method": "housed-groove", "depth": draw(st.integers(40, 60)) / 10},
            "top_kind": "stretchers" if stretchers else "full",
            "stretcher": draw(st.integers(80, 110)),
            "back": {"material": "thin", "inset": draw(st.integers(100, 200)) / 10},
        },
        "base": None if kind is None else base,
        "counter": counter if form == "base" and draw(st.booleans()) else None,
        "face_frame": _frame(draw) if framed else None,
        "space": _space(draw, form),
        "doors": _doors(draw, framed),
        "drawers": {
            "material": "box",
            "bottom": "thin",
            "front": "frame" if draw(st.booleans()) else "case",
            "corner": {"method": draw(st.sampled_from(CORNERS))},
            "pull": draw(st.sampled_from([None, "knob-1"])),
        },
        "mounting": draw(st.sampled_from([None, {"method": "screw-strip"}])),
    }


def _frame(draw: st.DrawFn) -> Document:
    return {"material": "frame", "stile": 40, "rail": 40, "bead": draw(st.sampled_from([0, 0, 6]))}


def _doors(draw: st.DrawFn, framed: bool) -> Document:
    return {
        "style": draw(st.sampled_from(["slab", "cope-and-stick"])),
        "material": "frame",
        "panel": "thin",
        "hang": draw(st.sampled_from(["overlay", "inset"])),
        "overlay": draw(st.integers(8, 12)) if framed else draw(st.integers(4, 7)),
        "gap": 2,
        "meeting_gap": 3,
    }


def _space(draw: st.DrawFn, form: str) -> Document:
    stack = _stack(draw)
    if form == "base":
        choice = draw(st.sampled_from(["stack", "over-doors", "bays"]))
        if choice == "stack":
            return stack
        if choice == "over-doors":
            return {"tiers": [{"size": 160, "front": "drawer"}, {"front": "door-pair", "fixed_shelves": 1}]}
        return {"bays": [stack, {"front": "door", "loose_shelves": 1}]}
    return {"tiers": [{"front": "door-pair", "loose_shelves": 1}, {"size": 620, **stack}]}


def _stack(draw: st.DrawFn) -> dict[str, Any]:
    rule = draw(st.sampled_from(["equal", "graduated"]))
    return {"front": "drawer", "drawers": draw(st.integers(1, 3)), "drawer_rule": rule}
