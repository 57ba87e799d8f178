"""A job that names no overlay: sums by hand from the thickness of the wood and 1/8 in between two fronts."""

from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.sdk.loader import load
from casewright.sdk.model import Job
from casewright.sdk.units import MM, inches

REGISTRY = load(discover="built-in")
DRAWER, OPEN = {"front": "drawer"}, {"front": "open"}


def read(units: str, thickness: float, **changes: Any) -> Job:
    """Return the job of one cabinet of a sheet of this thickness."""
    size = {"mm": (450, 600, 450), "in": (18, 24, 18)}[units]
    cabinet = {"id": "unit", **dict(zip(("width", "height", "depth"), size, strict=True)), "case": {"material": "ply"}}
    materials: dict[str, Any] = {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": thickness}}
    materials["oak"] = {"kind": "board", "stuff": "red-oak", "thickness": thickness}
    return read_job({"units": units, "materials": materials, "cabinets": [{**cabinet, **changes}]}, REGISTRY)


@pytest.mark.parametrize(
    ("units", "thickness", "changes", "nm"),
    [
        ("mm", 17.7, {"space": {"tiers": [DRAWER, DRAWER, DRAWER]}}, 7 * MM),  # (17.7 - 3.175) / 2 = 7.26
        ("in", 0.709, {"space": {"tiers": [DRAWER, DRAWER]}}, inches("9/32")),  # (0.709 - 0.125) / 2 = 0.292
        ("mm", 17.7, {"space": {"front": "drawer", "drawers": 3}}, inches("1/2")),
        ("mm", 17.7, {"space": {"tiers": [DRAWER, OPEN]}}, inches("1/2")),
        ("mm", 17.7, {"space": {"bays": [{"tiers": [DRAWER, DRAWER]}, OPEN]}}, 7 * MM),
        ("mm", 12, {"space": DRAWER}, 12 * MM),
        ("mm", 18, {"space": {"tiers": [DRAWER, DRAWER]}, "face_frame": {"material": "oak"}}, inches("1/2")),
        ("mm", 18, {"space": {"tiers": [DRAWER, DRAWER]}, "face_frame": {"material": "oak", "mid_rail": 20}}, 8 * MM),
    ],
)
def test_fronts_lap_no_more_than_leaves_a_gap(units: str, thickness: float, changes: dict[str, Any], nm: int) -> None:
    drawers = read(units, thickness, drawers={}, **changes).cabinets[0].drawers
    doors = read(units, thickness, doors={"style": "slab"}, **changes).cabinets[0].doors
    assert drawers is not None
    assert doors is not None
    assert (drawers.overlay, doors.overlay) == (nm, nm)


def test_an_overlay_that_is_named_is_kept() -> None:
    job = read("mm", 17.7, space={"tiers": [DRAWER, DRAWER]}, doors={"style": "slab", "overlay": 5}, drawers={})
    cabinet = job.cabinets[0]
    assert cabinet.drawers is not None
    assert cabinet.drawers.overlay == 5 * MM
