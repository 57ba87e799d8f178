"""Hypothesis strategies that make job documents a shop could send: sound ones, that have a geometry.

Every length is drawn on the shop's own grid (1/64 in or 0.1 mm), sheet thickness as measured (17.1–18.1 mm
sold as 18 mm; 0.688–0.750 in sold as 3/4 in). What is drawn is a plain JSON document.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from hypothesis import strategies as st

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Using:
    """What to use in every generated job instead of drawing it: a method and its options, by place.

    Each is a JSON object such as `{"method": "rabbet"}`; `doors` holds a `style`.
    """

    corner: Mapping[str, Any] | None = None
    tee: Mapping[str, Any] | None = None
    panel: Mapping[str, Any] | None = None
    frame: Mapping[str, Any] | None = None
    doors: Mapping[str, Any] | None = None
    mounting: Mapping[str, Any] | None = None
    top_inset: int | None = None


@dataclass(slots=True)
class _Draw:
    """Draws on one job's grid. Lengths are counted in steps of the tape."""

    draw: st.DrawFn
    units: str
    using: Using
    materials: Document = field(default_factory=dict)

    def length(self, low_mm: float, high_mm: float) -> float:
        """Draw a length between two bounds in mm, in job units on the grid."""
        per = 64 / 25.4 if self.units == "in" else 10.0
        steps = self.draw(st.integers(round(low_mm * per), round(high_mm * per)))
        return steps / 64 if self.units == "in" else steps / 10

    def pick(self, *options: Any) -> Any:
        """Draw one of the options."""
        return self.draw(st.sampled_from(options))

    def mm(self, value: float) -> float:
        """Return a drawn length in mm."""
        return value * 25.4 if self.units == "in" else value


@st.composite
def jobs(draw: st.DrawFn, using: Using | None = None, cabinets: int = 1) -> Document:
    """Draw a job document with up to `cabinets` wall cabinets."""
    d = _Draw(draw, draw(st.sampled_from(["mm", "in"])), using or Using())
    _add_materials(d)
    rows = [_cabinet(d, f"box-{i + 1}") for i in range(d.draw(st.integers(1, cabinets)))]
    return {
        "title": "Repair bay",
        "units": d.units,
        "materials": d.materials,
        "cabinets": rows,
        "shop": {"fit": d.pick(0, "0.1 mm", "0.2 mm", "1/128 in")},
    }


def _add_materials(d: _Draw) -> None:
    if d.units == "mm":
        case = {"thickness": d.draw(st.integers(171, 181)) / 10, "nominal": "18 mm"}
        thin = {"thickness": d.draw(st.integers(50, 61)) / 10, "nominal": "6 mm"}
    else:
        case = {"thickness": d.draw(st.integers(688, 750)) / 1000, "nominal": "3/4"}
        thin = {"thickness": d.draw(st.integers(195, 240)) / 1000, "nominal": "1/4"}
    d.materials.update(
        {
            "case": {"kind": "sheet", "stuff": "birch-plywood", **case},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", **thin},
            "frame": {"kind": "board", "stuff": "red-oak", "thickness": d.length(18, 22)},
            "edging": {"kind": "band", "stuff": "red-oak", "thickness": d.length(0.8, 3)},
        }
    )


def _cabinet(d: _Draw, name: str) -> Document:
    framed = d.draw(st.booleans())
    height, width = d.length(400, 1400), d.length(300, 1000)
    if d.pick(False, False, False, True):
        width = d.length(1000, 1800)
    case = _case(d, framed)
    out: Document = {
        "id": name,
        "count": d.draw(st.integers(1, 3)),
        "width": width,
        "height": height,
        "depth": d.length(260, 420),
        "case": case,
        "space": _space(d, 0, d.mm(width), d.mm(height)),
        "face_frame": _face_frame(d) if framed else None,
    }
    out["doors"] = _doors(d, framed)
    if d.using.mounting is not None:
        out["mounting"] = dict(d.using.mounting)
    else:
        out["mounting"] = d.pick(None, {"method": "bevel-cleat"}, {"method": "screw-strip"})
    if out["mounting"] is None and d.using.panel is None and d.pick(False, False, True):
        case["back"] = None
    return out


def _corner(d: _Draw) -> Document:
    if d.using.corner:
        return dict(d.using.corner)
    return {"method": d.pick("housed-groove", "rabbet", "dowel", "loose-tenon")}


def _inset(d: _Draw, corner: Document) -> float:
    """Draw how far a top or bottom stands in: a groove needs wood outside it, a rabbet stands at the end."""
    if d.using.top_inset is not None:
        return d.using.top_inset
    if corner["method"] == "housed-groove":
        return d.length(19, 40)
    return 0 if corner["method"] == "rabbet" or d.using.corner else d.pick(0, d.length(0, 40))


def _case(d: _Draw, framed: bool) -> Document:
    corner = _corner(d)
    lower = dict(corner) if d.using.corner or d.draw(st.booleans()) else _corner(d)
    tee = dict(d.using.tee) if d.using.tee else {"method": d.pick("housed-groove", "dowel", "sliding-dovetail")}
    if tee["method"] == "housed-groove" and "depth" not in tee:
        tee["depth"] = d.length(4, 6)
    case: Document = {
        "material": "case",
        "corner": corner,
        "fixed_joint": tee,
        "top_inset": _inset(d, corner),
        "bottom_inset": _inset(d, lower),
        "back": _back(d),
        "pins": _pins(d),
    }
    if lower != corner:
        case["bottom_corner"] = lower
    if not framed:
        case["case_band"] = d.pick(None, "edging")
    case["shelf_band"] = d.pick(None, "edging")
    case["shelf_setback"] = d.pick(0, d.length(0, 20))
    return case


def _pins(d: _Draw) -> Document:
    """Draw rows of shelf pins: the 32 mm convention, or one of the shop's own."""
    if d.draw(st.booleans()):
        return {"depth": "8 mm"}
    return {
        "diameter": d.pick("5 mm", "1/4 in", "7 mm"),
        "pitch": d.length(25, 64),
        "depth": d.length(5, 8),
        "from_front": d.length(34, 60),
        "from_back": d.length(30, 60),
        "clear_ends": d.length(30, 90),
        "shelf_play": d.length(0, 4),
    }


def _back(d: _Draw) -> Document | None:
    material = d.pick("case", "thin")
    if d.using.panel is not None:
        joint = dict(d.using.panel)
    else:
        joint = d.pick({"method": "housed-groove"}, {"method": "rabbet"}, {"method": "applied"})
    if joint["method"] in ("rabbet", "applied"):
        return {"material": material, "inset": 0, "joint": joint}
    return {"material": material, "inset": d.length(10, 25), "joint": joint}


def _face_frame(d: _Draw) -> Document:
    joint = dict(d.using.frame) if d.using.frame else d.pick({"method": "loose-tenon"}, {"method": "dowel"})
    return {
        "material": "frame",
        "stile": d.length(36, 50),
        "rail": d.length(36, 50),
        "mid_stile": d.length(36, 50),
        "mid_rail": d.length(36, 50),
        "overhang": d.pick(0, d.length(1, 8)),
        "joint": joint,
    }


def _doors(d: _Draw, framed: bool) -> Document:
    hang = d.pick("overlay", "inset")
    doors: Document = {
        "hang": hang,
        "overlay": d.length(8, 14) if framed else d.length(3, 7),
        "gap": d.length(1.5, 3),
        "meeting_gap": d.length(2.5, 4),
        "stand_off": d.pick(0, d.length(0, 3)),
        "bore_edge": d.pick(None, "3 mm", "6 mm"),
        "hinges": d.pick(None, 2, 4),
        "pull": _pull(d),
    }
    if d.using.doors is not None:
        return {**doors, "material": "frame", "panel": "thin", **d.using.doors}
    if d.draw(st.booleans()):
        # An inset door thicker than its frame would meet the case behind it.
        return {**doors, "style": "slab", "material": "frame" if framed and hang == "inset" else "case"}
    edge = d.pick("square", "moulded")
    return {**doors, "style": "cope-and-stick", "material": "frame", "panel": "thin", "inner_edge": edge}


def _pull(d: _Draw) -> Document | None:
    if d.draw(st.booleans()):
        item = d.pick(None, "bar-96", "knob-1")
        return None if item is None else {"item": item}
    return {
        "item": d.pick("bar-96", "bar-128", "knob-1"),
        "at_end": d.pick("lower", "upper"),
        "direction": d.pick("upright", "level"),
        "from_end": d.length(20, 80),
        "from_edge": d.pick(None, d.length(15, 40)),
    }


def _space(d: _Draw, depth: int, width: float, height: float) -> Document:
    """Draw a space about `wide` by `tall` mm; entries stay large enough for a framed door."""
    options = ["leaf"]
    if depth < 2 and width > 640:
        options.append("bays")
    if depth < 2 and height > 640:
        options.append("tiers")
    kind = d.pick(*options)
    if kind == "leaf":
        return _leaf(d, width, height)
    across = kind == "bays"
    whole = width if across else height
    n = d.draw(st.integers(2, max(2, min(6, round(whole) // 320))))
    share = whole / n
    first, others = share, share
    entry: Document = {}
    if d.draw(st.booleans()):
        first = max(180, share * 0.6)
        entry["size"] = d.length(first, max(190, share * 0.8))
    else:
        entry["share"] = d.pick(1, 2) if share > 400 else 1
        others = whole / (n - 1 + entry["share"])
    sizes = [first, *[others] * (n - 1)]
    entries = [_space(d, depth + 1, size if across else width, height if across else size) for size in sizes]
    entries[0].update(entry)
    return {kind: entries}


def _leaf(d: _Draw, width: float, height: float) -> Document:
    fronts = ["open", "door"]
    if width > 480:
        fronts.append("door-pair")
    leaf: Document = {"front": d.pick(*fronts), "hinge_side": d.pick("left", "right")}
    if height > 330:
        leaf["fixed_shelves"] = d.pick(0, 1, [d.length(100, max(120, height * 0.3))])
    if height > 700:
        leaf["loose_shelves"] = d.draw(st.integers(0, 2))
    return leaf
