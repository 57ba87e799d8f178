"""Laying out the case: sides, top, bottom and back, and the clear room they leave."""

from dataclasses import dataclass

from casewright.api.engine.construction.draft import Draft, Region, Work, require_room
from casewright.api.engine.construction.meet import Spans, joint_method, meet
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Band, Choice, Material, Role, Term

LEFT, RIGHT, TOP, BOTTOM, BACK = "side-left", "side-right", "top", "bottom", "back"
STRETCHERS = ("stretcher-front", "stretcher-rear")


@dataclass(frozen=True, slots=True)
class Shell:
    """The case's own box in the cabinet frame, all in nm.

    `width`, `height`, `depth` are the outside of the case without face frame. Case parts run from `front`
    (behind any band) to `rear` (before a back that sits behind them); `inner_back` is the clear inside's
    rear face. `frame` is the face frame's thickness, zero without one. `foot` is the height of the sides' lower
    ends above the floor, `floor` that of the case proper over its base.
    """

    width: int
    height: int
    depth: int
    front: int
    rear: int
    inner_back: int
    frame: int
    side: int
    room: Region
    foot: int = 0
    floor: int = 0


def build_case(work: Work) -> Shell:
    """Add the case's parts, fit its corners and back, and return the shell."""
    shell = _shell(work)
    _add_case_parts(work, shell)
    case = work.cabinet.case
    sides: tuple[tuple[str, Axis], ...] = ((LEFT, -1), (RIGHT, 1))
    crossed = _back_span(work, shell)
    for key in (TOP, BOTTOM):
        corner = _bottom_corner(work) if key == BOTTOM else case.corner
        for level in parts_at(work, key):
            for side, way in sides:
                meet(work, "corner", work.drafts[side], level, way, corner, crossed)
    return shell


def _back_span(work: Work, shell: Shell) -> Spans:
    """Return where a back within the case will cut across its corners, front to back."""
    back = work.cabinet.case.back
    if back is None or shell.rear < shell.depth:
        return ()
    thick = work.material(back.material).thickness
    return ((shell.inner_back - work.job.shop.fit, shell.inner_back + thick + work.job.shop.fit),)


def _bottom_corner(work: Work) -> Choice:
    """Return the bottom's corner joint: its own, that of fixed shelves over a toe recess, or the case's."""
    case, base = work.cabinet.case, work.cabinet.base
    if case.bottom_corner is not None:
        return case.bottom_corner
    raised = base is not None and base.kind == "toe-recess"
    return (
        case.fixed_joint if raised and "corner" in joint_method(work.registry, case.fixed_joint).does else case.corner
    )


def parts_at(work: Work, key: str) -> list[Draft]:
    """Return the parts that bound a region there: two stretchers may stand for the top."""
    if key == TOP and TOP not in work.drafts:
        return [work.drafts[name] for name in STRETCHERS]
    return [work.drafts[key]]


def top_box(work: Work) -> Box:
    """Return the box of the top, or of the rear stretcher that stands for it."""
    return parts_at(work, TOP)[-1].box


def _shell(work: Work) -> Shell:
    cabinet, case = work.cabinet, work.cabinet.case
    pointer = cabinet.pointer
    material = work.material(case.material)
    t = material.thickness
    frame = work.material(cabinet.face_frame.material).thickness if cabinet.face_frame else 0
    width = cabinet.width - (2 * cabinet.face_frame.overhang if cabinet.face_frame else 0)
    depth = cabinet.depth - frame
    front = work.material(case.case_band).thickness if case.case_band else 0
    if front and frame:
        raise NoGeometryError(
            Problem(
                f"{pointer}/case/case_band",
                "a case has a face frame or a band on its front edges, not both",
                f"band {case.case_band!r} under a face frame",
                "Leave out `case_band`, or leave out `face_frame`.",
            )
        )
    rear = inner_back = depth
    if case.back:
        back = work.material(case.back.material).thickness
        if joint_method(work.registry, case.back.joint).panel_sits == "behind":
            rear = inner_back = depth - back
            if case.back.inset:
                raise NoGeometryError(
                    Problem(
                        f"{pointer}/case/back/inset",
                        f"a back joined by {case.back.joint.method!r} sits behind the case and has no inset",
                        f"{case.back.inset / 1e6:g} mm",
                        "Set `inset` to 0, or use a back joint that captures the panel, such as housed-groove.",
                    )
                )
        else:
            inner_back = depth - case.back.inset - back
    floor = cabinet.base.height if cabinet.base else 0
    foot = 0 if cabinet.base and cabinet.base.kind == "toe-recess" else floor
    z0, z1 = floor + case.bottom_inset + t, cabinet.height - case.top_inset - t
    require_room(width - 2 * t, f"{pointer}/width", "the clear inside width", "Make the cabinet wider.")
    require_room(z1 - z0, f"{pointer}/height", "the clear inside height", "Make it higher or the insets smaller.")
    require_room(
        inner_back - front, f"{pointer}/depth", "the clear inside depth", "Make it deeper or the back inset less."
    )
    room = Region(t, width - t, z0, z1, LEFT, RIGHT, BOTTOM, TOP)
    return Shell(width, cabinet.height, depth, front, rear, inner_back, frame, t, room, foot, floor)


def case_width_terms(work: Work) -> list[Term]:
    """Return the terms that lead from the cabinet's width to the case's width."""
    cabinet = work.cabinet
    terms = [Term("cabinet width", cabinet.width)]
    if cabinet.face_frame and cabinet.face_frame.overhang:
        terms.append(Term("face frame overhang, both sides", -2 * cabinet.face_frame.overhang))
    return terms


def case_depth_terms(work: Work, shell: Shell) -> list[Term]:
    """Return the terms that lead from the cabinet's depth to the depth of the case's parts."""
    terms = [Term("cabinet depth", work.cabinet.depth)]
    if shell.frame:
        terms.append(Term("face frame thickness", -shell.frame))
    if shell.front:
        terms.append(Term("band on the front edge", -shell.front))
    if shell.rear < shell.depth:
        terms.append(Term("back panel behind", shell.rear - shell.depth))
    return terms


def inside_width_terms(work: Work, shell: Shell) -> list[Term]:
    """Return the terms of the clear inside width."""
    return [
        *case_width_terms(work),
        Term("left side thickness", -shell.side),
        Term("right side thickness", -shell.side),
    ]


def front_band(work: Work, key: str | None, box: Box, grown_from: int) -> list[Band]:
    """Return the band on a part's front edge: `box` is the part, `grown_from` the y of its front face."""
    if key is None:
        return []
    thick = work.material(key).thickness
    return [Band(key, Box(box.x0, grown_from - thick, box.z0, box.x1, grown_from, box.z1))]


def _add_case_parts(work: Work, shell: Shell) -> None:
    case = work.cabinet.case
    material = work.material(case.material)
    t, w, h = shell.side, shell.width, shell.height
    y0, y1 = shell.front, shell.rear
    for key, name, x in ((LEFT, "left side", 0), (RIGHT, "right side", w - t)):
        box = Box(x, y0, shell.foot, x + t, y1, h)
        why = {3: [Term("cabinet height", h), *base_terms(shell.foot)], 2: case_depth_terms(work, shell)}
        draft = Draft(key, "side", name, material, box, 3, 2, why, "case")
        draft.bands = front_band(work, case.case_band, box, y0)
        work.add(draft)
    top_z, bottom_z = h - case.top_inset - t, shell.floor + case.bottom_inset
    if case.top_kind == "stretchers":
        _add_stretchers(work, shell, material, top_z)
    else:
        _add_level(work, shell, TOP, material, top_z)
    _add_level(work, shell, BOTTOM, material, bottom_z)


def base_terms(height: int) -> list[Term]:
    """Return the term for the base under a part, if it stands on one."""
    return [Term("base under the case", -height)] if height else []


def _add_stretchers(work: Work, shell: Shell, material: Material, z: int) -> None:
    """Add a front and a rear stretcher in the top's place."""
    wide = work.cabinet.case.stretcher
    pointer = f"{work.cabinet.pointer}/case/stretcher"
    require_room(shell.rear - shell.front - 2 * wide, pointer, "the room between stretchers", "Use narrower ones.")
    for key, y in zip(STRETCHERS, (shell.front, shell.rear - wide), strict=True):
        box = Box(shell.side, y, z, shell.width - shell.side, y + wide, z + shell.side)
        why = {1: inside_width_terms(work, shell), 2: [Term("stretcher width", wide)]}
        draft = Draft(key, "stretcher", key.replace("-", " "), material, box, 1, 2, why, "case")
        if key == STRETCHERS[0]:
            draft.bands = front_band(work, work.cabinet.case.case_band, box, shell.front)
        work.add(draft)


def _add_level(work: Work, shell: Shell, key: str, material: Material, z: int) -> None:
    t = shell.side
    box = Box(t, shell.front, z, shell.width - t, shell.rear, z + t)
    why = {1: inside_width_terms(work, shell), 2: case_depth_terms(work, shell)}
    role: Role = "top" if key == TOP else "bottom"
    draft = Draft(key, role, role, material, box, 1, 2, why, "case")
    draft.bands = front_band(work, work.cabinet.case.case_band, box, shell.front)
    work.add(draft)


def add_back(work: Work, shell: Shell) -> None:
    """Add the back panel and fit its four edges; call when every other case part stands."""
    back = work.cabinet.case.back
    if back is None:
        return
    material = work.material(back.material)
    room = shell.room
    y = shell.rear if shell.rear < shell.depth else shell.inner_back
    box = Box(room.x0, y, room.z0, room.x1, y + material.thickness, room.z1)
    case = work.cabinet.case
    height = [
        Term("cabinet height", shell.height),
        Term("top inset and thickness", -(case.top_inset + shell.side)),
        Term("bottom inset and thickness", -(case.bottom_inset + shell.side)),
        *base_terms(shell.floor),
    ]
    draft = Draft(BACK, "back", "back", material, box, 3, 1, {3: height, 1: inside_width_terms(work, shell)}, "case")
    work.add(draft)
    edges: tuple[tuple[str, Axis], ...] = ((LEFT, -1), (RIGHT, 1), (BOTTOM, -3), (TOP, 3))
    for host, way in edges:
        meet(work, "panel", parts_at(work, host)[-1], draft, way, back.joint)
