"""Packing behind hinge plates: pieces on a case's side that fill it out to the edge of the face frame before it."""

from collections.abc import Sequence

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import SIDES, Draft
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.sdk.geometry import Axis, Box, Point
from casewright.sdk.joinery import area_mm2, screw_within
from casewright.sdk.model import HardwareUse, Joint, Term
from casewright.sdk.units import MM

GROUP = "packing"
LEAST = 6 * MM
"""A piece thinner than this is no part to be ripped; the plates' own height makes up for it (common practice)."""

WHOLE = 1_000
"""Pieces are whole micrometres thick and long (in nm), so that those that are meant to be alike are so."""

BEYOND = 10 * MM
"""Wood over and under the outer screws of a plate (common practice, no source)."""


def add_packing(
    built: Construction, door: PlacedDoor, thick: int, plates: Sequence[Point], screws: int
) -> Construction:
    """Return it with a piece behind each plate: `thick` out from the side, round the plates' line, glued on.

    `plates` are the middles of the plates' faces, `screws` how far apart a plate's screws stand, in nm. A piece where
    something fixed stands is left out: the hinge is judged to stand too near that. Of the case's material, on edge.
    """
    left = door.hinge == "left"
    region = door.opening.leaf.region
    host = region.left if left else region.right
    material = built.material(built.cabinet.case.material)
    if thick < LEAST:
        return built
    wide = thick // WHOLE * WHOLE
    half = screws // 2 + BEYOND
    way: Axis = -1 if left else 1
    screwed: list[Box] = []
    fixed = [draft.box for draft in built.drafts.values() if draft.group != "loose"]
    for number, (x, y, up) in enumerate(plates, start=1):
        face, front = x + way * thick, y - material.thickness // 2
        low = face if left else face - wide
        shared = -(min(0, up - half - screwed[-1].z1) // WHOLE * WHOLE) if screwed else 0
        box = Box(low, front, up - half + shared, low + wide, front + material.thickness, up + half)
        if any(other.meets(box) for other in fixed):
            continue
        key = f"{door.key}-packing-{number}"
        built = built.with_parts(
            Draft(
                key, "strip", f"packing behind hinge {number} of {door.key.replace('-', ' ')}", material, box, 3, 1,
                (
                    Term("plate's screws", screws),
                    Term("wood over and under them", 2 * half - screws),
                    *([Term("filled by the piece below already", -shared)] if shared else []),
                ),
                (Term("from the side to the stile's edge", wide),), GROUP,
            )
        ).with_joints(
            Joint(
                f"{built.id}/{key}+{host}/{SIDES[way]}", built.id, "glued", "strip", f"{built.id}/{host}",
                f"{built.id}/{key}", way, 0, 0, area_mm2((material.thickness, 2 * half - shared)),
            )
        )  # fmt: skip
        screwed.append(box)
    return built.with_hardware(f"{built.id}/{GROUP}", *_screws(built, host, screwed, way))


def _screws(built: Construction, host: str, boxes: Sequence[Box], way: Axis) -> tuple[HardwareUse, ...]:
    """Return the screws that hold pieces while their glue sets, in the middle of each; none where none fits."""
    if not boxes:
        return ()
    thick = boxes[0].x1 - boxes[0].x0
    screw = screw_within(
        built.registry.catalogue, 8, thick + built.drafts[host].thickness - 2 * MM, least=thick + 6 * MM
    )
    if screw is None:
        return ()
    at = tuple([(box.x1 if way < 0 else box.x0, (box.y0 + box.y1) // 2, (box.z0 + box.z1) // 2) for box in boxes])
    return (HardwareUse(screw.id, screw.title, at, way, where="through the packing behind hinge plates"),)
