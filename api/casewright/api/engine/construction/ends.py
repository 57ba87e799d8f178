"""Finished ends: a panel over the case's side, outside the cabinet's own width."""

from casewright.api.engine.construction.case import LEFT, RIGHT, Shell
from casewright.api.engine.construction.draft import Draft, Work
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.model import LENGTH, Finding, HardwareUse, Joint, Term

GROUP = "ends"
"""Group of the end panels' parts."""

SHORT_OF_FACE = 3_000_000
"""A screw from inside stops this far short of the panel's seen face (common practice, no source)."""

SCREW_GAUGE = 8
SCREWS_EVERY = 300_000_000
"""Two columns of screws, no farther apart than this in each (common practice, no source)."""


def add_ends(work: Work, shell: Shell) -> None:
    """Add a panel to each end that is finished, and tell where it stands proud of the face frame."""
    ends = work.cabinet.ends
    sides: tuple[tuple[str, str, str, Axis], ...] = (("left", ends.left, LEFT, 1), ("right", ends.right, RIGHT, -1))
    for name, kind, side, press in sides:
        if kind == "finished":
            _add_panel(work, shell, name, side, press)


def _add_panel(work: Work, shell: Shell, name: str, side: str, press: Axis) -> None:
    ends = work.cabinet.ends
    if ends.material is None:
        raise NoGeometryError(
            Problem(
                f"{work.cabinet.pointer}/ends/material",
                "a finished end needs the material of its panel",
                "nothing",
                "Name a material, or make the end open or hidden.",
            )
        )
    material = work.material(ends.material)
    t = material.thickness
    x = -t if name == "left" else shell.width
    box = Box(x, 0, 0, x + t, shell.depth + ends.scribe, shell.height)
    depth = [Term("cabinet depth", work.cabinet.depth)]
    if shell.frame:
        depth.append(Term("face frame thickness", -shell.frame))
    if ends.scribe:
        depth.append(Term("scribe to the wall", ends.scribe))
    why = {3: [Term("cabinet height", shell.height)], 2: depth}
    key = f"end-{name}"
    work.add(Draft(key, "end-panel", f"{name} end panel", material, box, 3, 2, why, GROUP))
    work.joints.append(
        Joint(f"{work.id}/{key}+{side}", work.id, "butt", "butt", f"{work.id}/{side}", f"{work.id}/{key}", press, 0, 0)
    )
    _use_screws(work, shell, key, t)
    frame = work.cabinet.face_frame
    if frame is not None and t > frame.overhang:
        work.find(
            f"{work.id}/{key}",
            Finding(
                "end-panel-proud",
                "note",
                "the end panel stands past the face frame's edge; let the frame stand out as far as the panel is thick "
                "to hide the panel's edge",
                t - frame.overhang,
                0,
                LENGTH,
                "common-practice",
            ),
        )


def _use_screws(work: Work, shell: Shell, key: str, thickness: int) -> None:
    """Count screws from inside the case, so long that none comes through."""
    screw = screw_within(work.registry.catalogue, SCREW_GAUGE, shell.side + thickness - SHORT_OF_FACE, shell.side)
    if screw is None:
        work.find(
            f"{work.id}/{key}",
            Finding(
                "end-panel-screws",
                "caution",
                f"no No. {SCREW_GAUGE} screw of the catalogue passes the side and stops short of the panel's face; "
                "glue the panel, or use a thicker one",
                shell.side + thickness - SHORT_OF_FACE,
                shell.side,
                LENGTH,
                "common-practice",
            ),
        )
        return
    rows = -(-shell.height // SCREWS_EVERY) + 1
    work.use((HardwareUse(screw.id, screw.title, quantity=2 * rows),), f"{work.id}/{key} from inside the case")
