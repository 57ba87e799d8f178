"""Finished ends: a panel over the case's side, outside the cabinet's own width."""

from casewright.api.engine.construction.case import LEFT, RIGHT, Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.model import LENGTH, EndKind, Finding, HardwareUse, Joint, Term
from casewright.sdk.units import MM

GROUP = "ends"
"""Group of the end panels' parts."""

SHORT_OF_FACE = 3 * MM
"""A screw from inside stops this far short of the panel's seen face (common practice, no source)."""

SCREW_GAUGE = 8
SCREWS_EVERY = 300 * MM
"""Two columns of screws, no farther apart than this in each (common practice, no source)."""


def add_ends(built: Construction, shell: Shell) -> Construction:
    """Add a panel to each end that is finished, and note where it stands proud of the face frame."""
    ends = built.cabinet.ends
    sides: tuple[tuple[str, EndKind, str, Axis], ...] = (("left", ends.left, LEFT, 1), ("right", ends.right, RIGHT, -1))
    for name, kind, side, press in sides:
        if kind == "finished":
            built = _with_panel(built, shell, name, side, press)
    return built


def _with_panel(built: Construction, shell: Shell, name: str, side: str, press: Axis) -> Construction:
    ends = built.cabinet.ends
    if ends.material is None:
        rule = "the material of a finished end's panel"
        fix = "Name a material, or make the end open or hidden."
        raise NoGeometryError(Problem(f"{built.cabinet.pointer}/ends/material", rule, "nothing", fix))
    material = built.material(ends.material)
    t = material.thickness
    x = -t if name == "left" else shell.width
    box = Box(x, 0, 0, x + t, shell.depth + ends.scribe, shell.height)
    depth = [Term("cabinet depth", built.cabinet.depth)]
    if shell.frame:
        depth.append(Term("face frame thickness", -shell.frame))
    if ends.scribe:
        depth.append(Term("scribe to the wall", ends.scribe))
    height = (Term("cabinet height", shell.height),)
    key = f"end-{name}"
    panel, host = f"{built.id}/{key}", f"{built.id}/{side}"
    built = built.with_parts(
        Draft(key, "end-panel", f"{name} end panel", material, box, 3, 2, height, tuple(depth), GROUP)
    ).with_joints(Joint(f"{panel}+{side}", built.id, "butt", "butt", host, panel, press, 0, 0))
    built = _with_screws(built, shell, panel, t)
    frame = built.cabinet.face_frame
    if frame is None or t <= frame.overhang:
        return built
    message = (
        "the end panel stands past the face frame's edge; let the frame stand out as far as the panel is thick "
        "to hide the panel's edge"
    )
    proud = Finding("end-panel-proud", "note", message, t - frame.overhang, 0, LENGTH, "common-practice")
    return built.with_findings(panel, proud)


def _with_screws(built: Construction, shell: Shell, panel: str, thickness: int) -> Construction:
    """Count screws from inside the case, so long that none comes through."""
    most = shell.side + thickness - SHORT_OF_FACE
    screw = screw_within(built.registry.catalogue, SCREW_GAUGE, most, shell.side)
    if screw is None:
        message = (
            f"no No. {SCREW_GAUGE} screw of the catalogue passes the side and stops short of the panel's face; "
            "glue the panel, or use a thicker one"
        )
        missing = Finding("end-panel-screws", "caution", message, most, shell.side, LENGTH, "common-practice")
        return built.with_findings(panel, missing)
    rows = -(-shell.height // SCREWS_EVERY) + 1
    use = HardwareUse(screw.id, screw.title, quantity=2 * rows)
    return built.with_hardware(f"{panel} from inside the case", use)
