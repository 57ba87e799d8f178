"""Records of the catalogue as JSON values."""

from dataclasses import fields, is_dataclass
from typing import Any

from casewright.sdk.units import MM

LENGTHS = frozenset({
    "nominal", "least", "most", "up_to", "door_up_to", "cup_diameter", "bore", "bore_depth", "edge_least",
    "edge_usual", "edge_most", "screw_spacing", "screw_behind", "plate_setback", "plate_pitch", "from_door_end",
    "side_adjustment", "height_adjustment", "depth_out", "depth_in", "depth_adjustment",
    "wide_door_from", "spacing", "hole_diameter", "projection", "diameter", "root", "head",
    "length", "washer", "tip", "hole_depth", "pitch", "setback", "side_room", "height", "first_hole", "slack",
    "thickness", "width", "constant",
})  # fmt: skip
"""Catalogue fields that hold lengths in nm; they leave as millimetres, the unit in the name."""


def plain_record(value: Any) -> Any:
    """Return a frozen record as JSON values; lengths in nm become millimetres."""
    if is_dataclass(value) and not isinstance(value, type):
        out: dict[str, Any] = {}
        for f in fields(value):
            inner = getattr(value, f.name)
            if f.name == "sources":
                out["sources"] = dict(inner)
            elif f.name == "plate_heights":
                out["plate_heights_mm"] = [nm / MM for nm in inner]
            elif f.name in LENGTHS and (inner is None or isinstance(inner, int)):
                out[f"{f.name}_mm"] = None if inner is None else inner / MM
            else:
                out[f.name] = plain_record(inner)
        return out
    if isinstance(value, (list, tuple)):
        return [plain_record(item) for item in value]
    return value
