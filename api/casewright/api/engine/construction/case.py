"""Laying out the case: sides, top, bottom and back, and the clear room they leave."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft, Region
from casewright.api.engine.construction.meet import Joining, Spans, joint_method, meet
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Back, Band, Base, Choice, Material, Role, Term

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


def shell_of(context: Context) -> Shell:
    """Return the case's box. Raises `NoGeometryError` for one that has no inside."""
    cabinet, case = context.cabinet, context.cabinet.case
    pointer = cabinet.pointer
    t = context.material(case.material).thickness
    frame = context.material(cabinet.face_frame.material).thickness if cabinet.face_frame else 0
    width = cabinet.case_width
    depth = cabinet.depth - frame
    front = context.material(case.case_band).thickness if case.case_band else 0
    if front and frame:
        rule = "a face frame or a band on a case's front edges, not both"
        got = f"band {case.case_band!r} under a face frame"
        fix = "Leave out `case_band`, or leave out `face_frame`."
        raise NoGeometryError(Problem(f"{pointer}/case/case_band", rule, got, fix))
    rear, inner_back = _rear(context, case.back, depth) if case.back else (depth, depth)
    floor, foot = _heights(cabinet.base)
    z0, z1 = floor + case.bottom_inset + t, cabinet.height - case.top_inset - t
    context.require_room(width - 2 * t, f"{pointer}/width", "the clear inside width", "Make the cabinet wider.")
    context.require_room(
        z1 - z0, f"{pointer}/height", "the clear inside height", "Make the cabinet higher, or its base or insets less."
    )
    context.require_room(
        inner_back - front, f"{pointer}/depth", "the clear inside depth", "Make it deeper or the back inset less."
    )
    room = Region(t, width - t, z0, z1, LEFT, RIGHT, BOTTOM, TOP)
    return Shell(width, cabinet.height, depth, front, rear, inner_back, frame, t, room, foot, floor)


def _rear(context: Context, back: Back, depth: int) -> tuple[int, int]:
    """Return how far back the case's parts and the clear inside reach before a back panel."""
    thickness = context.material(back.material).thickness
    if joint_method(context.registry, back.joint).panel_sits != "behind":
        return depth, depth - back.inset - thickness
    if back.inset:
        raise NoGeometryError(
            Problem(
                f"{context.cabinet.pointer}/case/back/inset",
                f"no inset of a back joined by {back.joint.method!r}, which sits behind the case",
                context.write.length(back.inset),
                "Set `inset` to 0, or use a back joint that captures the panel, such as housed-groove.",
            )
        )
    return depth - thickness, depth - thickness


def _heights(base: Base | None) -> tuple[int, int]:
    """Return the height of the case over the floor, and of the sides' lower ends."""
    if base is None:
        return 0, 0
    return base.height, 0 if base.kind == "toe-recess" else base.height


def build_case(built: Construction, shell: Shell) -> Construction:
    """Add the case's parts and fit its corners; the back comes last of all (`add_back`)."""
    built = _with_parts(built, shell)
    crossed = _back_span(built.context, shell)
    sides: tuple[tuple[str, Axis], ...] = ((LEFT, -1), (RIGHT, 1))
    for key in (TOP, BOTTOM):
        corner = _bottom_corner(built.context) if key == BOTTOM else built.cabinet.case.corner
        joining = Joining("corner", corner, crossed, f"{key}_inset")
        refused: list[Problem] = []
        for level in keys_at(built, key):
            try:
                for side, way in sides:
                    built = meet(built, joining, side, level, way)
            except NoGeometryError as error:
                refused += [_parted(built, joining, level, problem) for problem in error.problems]
        if refused:
            raise NoGeometryError(*refused)
    return built


def _parted(built: Construction, joining: Joining, level: str, problem: Problem) -> Problem:
    """Return a corner's problem; where one choice stands for all corners, its fix says how to part them."""
    if built.cabinet.case.bottom_corner is not None or not joining.choice.pointer.endswith("/corner"):
        return problem
    apart = f"That is for {built.drafts[level].name}: the bottom can keep this joint by `bottom_corner`."
    if level == BOTTOM:
        apart = "`bottom_corner` gives the bottom another joint."
    return replace(problem, fix=f"{problem.fix} {apart}")


def _back_span(context: Context, shell: Shell) -> Spans:
    """Return where a back within the case will cut across its corners, front to back."""
    back, fit = context.cabinet.case.back, context.job.shop.fit
    if back is None or shell.rear < shell.depth:
        return ()
    thick = context.material(back.material).thickness
    return ((shell.inner_back - fit, shell.inner_back + thick + fit),)


def _bottom_corner(context: Context) -> Choice:
    """Return the bottom's corner joint: its own, that of fixed shelves over a toe recess, or the case's."""
    case, base = context.cabinet.case, context.cabinet.base
    if case.bottom_corner is not None:
        return case.bottom_corner
    raised = base is not None and base.kind == "toe-recess"
    if raised and "corner" in joint_method(context.registry, case.fixed_joint).does:
        return case.fixed_joint
    return case.corner


def keys_at(built: Construction, key: str) -> tuple[str, ...]:
    """Return the keys of the parts that bound a region there: two stretchers may stand for the top."""
    return STRETCHERS if key == TOP and TOP not in built.drafts else (key,)


def top_box(built: Construction) -> Box:
    """Return the box of the top, or of the rear stretcher that stands for it."""
    return built.drafts[keys_at(built, TOP)[-1]].box


def case_width_terms(context: Context) -> tuple[Term, ...]:
    """Return the terms that lead from the cabinet's width to the case's width."""
    cabinet = context.cabinet
    whole = Term("cabinet width", cabinet.width)
    if cabinet.face_frame and cabinet.face_frame.overhang:
        return (whole, Term("face frame overhang, both sides", -2 * cabinet.face_frame.overhang))
    return (whole,)


def case_depth_terms(context: Context, shell: Shell) -> tuple[Term, ...]:
    """Return the terms that lead from the cabinet's depth to the depth of the case's parts."""
    terms = [Term("cabinet depth", context.cabinet.depth)]
    if shell.frame:
        terms.append(Term("face frame thickness", -shell.frame))
    if shell.front:
        terms.append(Term("band on the front edge", -shell.front))
    if shell.rear < shell.depth:
        terms.append(Term("back panel behind", shell.rear - shell.depth))
    return tuple(terms)


def inside_width_terms(context: Context, shell: Shell) -> tuple[Term, ...]:
    """Return the terms of the clear inside width."""
    return (
        *case_width_terms(context),
        Term("left side thickness", -shell.side),
        Term("right side thickness", -shell.side),
    )


def inside_height_terms(context: Context, shell: Shell) -> tuple[Term, ...]:
    """Return the terms of the clear inside height."""
    case = context.cabinet.case
    return (
        Term("cabinet height", shell.height),
        Term("top inset and thickness", -(case.top_inset + shell.side)),
        Term("bottom inset and thickness", -(case.bottom_inset + shell.side)),
        *base_terms(shell.floor),
    )


def base_terms(height: int) -> tuple[Term, ...]:
    """Return the term for the base under a part, if it stands on one."""
    return (Term("base under the case", -height),) if height else ()


def front_band(context: Context, key: str | None, box: Box) -> tuple[Band, ...]:
    """Return the band on the front edge of the part that fills `box`."""
    if key is None:
        return ()
    thick = context.material(key).thickness
    return (Band(key, Box(box.x0, box.y0 - thick, box.z0, box.x1, box.y0, box.z1)),)


def _with_parts(built: Construction, shell: Shell) -> Construction:
    context = built.context
    case = context.cabinet.case
    material = context.material(case.material)
    t = shell.side
    why_height = (Term("cabinet height", shell.height), *base_terms(shell.foot))
    why_depth = case_depth_terms(context, shell)
    for key, name, x in ((LEFT, "left side", 0), (RIGHT, "right side", shell.width - t)):
        box = Box(x, shell.front, shell.foot, x + t, shell.rear, shell.height)
        bands = front_band(context, case.case_band, box)
        built = built.with_parts(
            Draft(key, "side", name, material, box, 3, 2, why_height, why_depth, "case", bands=bands)
        )
    top_z, bottom_z = shell.height - case.top_inset - t, shell.floor + case.bottom_inset
    if case.top_kind == "stretchers":
        built = built.with_parts(*_stretchers(context, shell, material, top_z))
    else:
        built = built.with_parts(_level(context, shell, TOP, "top", top_z))
    return built.with_parts(_level(context, shell, BOTTOM, "bottom", bottom_z))


def _stretchers(context: Context, shell: Shell, material: Material, z: int) -> tuple[Draft, Draft]:
    """Return a front and a rear stretcher in the top's place."""
    size = context.cabinet.case.stretcher
    pointer = f"{context.cabinet.pointer}/case/stretcher"
    context.require_room(shell.rear - shell.front - 2 * size, pointer, "the room between stretchers",
                         "Use narrower ones.")  # fmt: skip
    why = (inside_width_terms(context, shell), (Term("stretcher width", size),))
    x0, x1 = shell.side, shell.width - shell.side
    front = Box(x0, shell.front, z, x1, shell.front + size, z + shell.side)
    rear = Box(x0, shell.rear - size, z, x1, shell.rear, z + shell.side)
    bands = front_band(context, context.cabinet.case.case_band, front)
    return (
        Draft(STRETCHERS[0], "stretcher", "stretcher front", material, front, 1, 2, *why, "case", bands=bands),
        Draft(STRETCHERS[1], "stretcher", "stretcher rear", material, rear, 1, 2, *why, "case"),
    )


def _level(context: Context, shell: Shell, key: str, role: Role, z: int) -> Draft:
    case, t = context.cabinet.case, shell.side
    box = Box(t, shell.front, z, shell.width - t, shell.rear, z + t)
    why = (inside_width_terms(context, shell), case_depth_terms(context, shell))
    bands = front_band(context, case.case_band, box)
    return Draft(key, role, role, context.material(case.material), box, 1, 2, *why, "case", bands=bands)


def add_back(built: Construction, shell: Shell) -> Construction:
    """Add the back panel and fit its four edges; call when every other case part stands."""
    context, back = built.context, built.cabinet.case.back
    if back is None:
        return built
    material, room = context.material(back.material), shell.room
    y = shell.rear if shell.rear < shell.depth else shell.inner_back
    box = Box(room.x0, y, room.z0, room.x1, y + material.thickness, room.z1)
    why = (inside_height_terms(context, shell), inside_width_terms(context, shell))
    built = built.with_parts(Draft(BACK, "back", "back", material, box, 3, 1, *why, "case"))
    edges: tuple[tuple[str, Axis], ...] = ((LEFT, -1), (RIGHT, 1), (BOTTOM, -3), (TOP, 3))
    for host, way in edges:
        built = meet(built, Joining("panel", back.joint, inset_field="back.inset"), keys_at(built, host)[-1], BACK, way)
    return built
