"""Beads: four thin mitred strips that line an opening of the face frame."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.frame_layout import Opening
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.model import FaceFrame, Feature, Material, Term


@dataclass(frozen=True, slots=True)
class _Bead:
    """One strip: its key, box, the axis it runs along, and the way its mitres' waste stands to the opening."""

    key: str
    box: Box
    along: Axis
    inward: Axis


def line_opening(built: Construction, frame: FaceFrame, opening: Opening) -> tuple[Construction, Opening]:
    """Line an opening with four mitred beads and return the smaller opening they leave."""
    bead, material = frame.bead, built.material(frame.material)
    x0, x1, z0, z1 = opening.x0, opening.x1, opening.z0, opening.z1
    pointer = f"{built.cabinet.pointer}/face_frame/bead"
    least = min(x1 - x0, z1 - z0) - 2 * bead
    built.context.require_room(least, pointer, "the opening inside the bead", "Use a thinner bead.")
    t = material.thickness
    stem = f"bead-{1 + sum(key.startswith('bead-') and key.endswith('-left') for key in built.drafts)}"
    strips = (
        _Bead(f"{stem}-lower", Box(x0, -t, z0, x1, 0, z0 + bead), 1, 3),
        _Bead(f"{stem}-upper", Box(x0, -t, z1 - bead, x1, 0, z1), 1, -3),
        _Bead(f"{stem}-left", Box(x0, -t, z0, x0 + bead, 0, z1), 3, 1),
        _Bead(f"{stem}-right", Box(x1 - bead, -t, z0, x1, 0, z1), 3, -1),
    )
    built = built.with_parts(*(_draft(material, strip, bead) for strip in strips))
    return built, replace(opening, x0=x0 + bead, x1=x1 - bead, z0=z0 + bead, z1=z1 - bead)


def _draft(material: Material, strip: _Bead, bead: int) -> Draft:
    """Return one bead, mitred at both ends."""
    box = strip.box
    level = strip.along == 1
    size = box.high(strip.along) - box.low(strip.along)
    width_axis: Axis = 3 if level else 1
    if level:
        ends = (Box(box.x0, box.y0, box.z0, box.x0 + bead, box.y1, box.z1),
                Box(box.x1 - bead, box.y0, box.z0, box.x1, box.y1, box.z1))  # fmt: skip
        wastes: tuple[tuple[Axis, Axis], ...] = ((-1, strip.inward), (1, strip.inward))
    else:
        ends = (Box(box.x0, box.y0, box.z0, box.x1, box.y1, box.z0 + bead),
                Box(box.x0, box.y0, box.z1 - bead, box.x1, box.y1, box.z1))  # fmt: skip
        wastes = ((strip.inward, -3), (strip.inward, 3))
    mitres = [
        Feature("bevel", "bead mitre", waste[0] if level else waste[1], wedges=(Wedge(end, 2, waste),), run=2,
                angle_deg=45.0)
        for end, waste in zip(ends, wastes, strict=True)
    ]  # fmt: skip
    return Draft(
        strip.key,
        "strip",
        strip.key.replace("-", " "),
        material,
        box,
        strip.along,
        width_axis,
        (Term("opening it lines", size),),
        (Term("bead", bead),),
        "face-frame",
        features=tuple(mitres),
    )
