"""The face frame: stiles over the full height, rails between them, and members over each division."""

from dataclasses import replace

from casewright.api.engine.construction.beads import line_opening
from casewright.api.engine.construction.case import Shell, base_terms
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft, alike
from casewright.api.engine.construction.equal import Measure
from casewright.api.engine.construction.frame_layout import Hole, Layout, Member, Opening, bare_openings, lay_out
from casewright.api.engine.construction.inside import Leaf, Split
from casewright.api.engine.construction.measured import Edges, edges_of, measured_terms, moved_layout
from casewright.api.engine.construction.meet import Joining, meet, slack_terms
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import LENGTH, FaceFrame, Finding, HardwareUse, Term
from casewright.sdk.units import MM

BRAD = "brad-18-1-1-4"
"""Catalogue id of the brads that hold the frame while the glue sets."""

BRADS_EVERY = 150 * MM
"""One brad each 150 mm or less along each stile and rail (common practice, no source)."""


def add_face_frame(built: Construction, shell: Shell, tree: Split | Leaf) -> tuple[Construction, tuple[Opening, ...]]:
    """Build the face frame, if the cabinet has one, and return the openings the fronts close."""
    frame = built.cabinet.face_frame
    if frame is None:
        openings = bare_openings(tree)
    else:
        built, openings = _framed(built, shell, frame, tree)
    return _alike(built, openings)


def _alike(built: Construction, openings: tuple[Opening, ...]) -> tuple[Construction, tuple[Opening, ...]]:
    """Return openings with the sizes doors are made for: those of one division, or nearly alike, are alike."""
    built, widths = _made_alike(built, Measure.OPENING_WIDTH, [o.x1 - o.x0 - o.leaf.region.over_x for o in openings])
    built, heights = _made_alike(built, Measure.OPENING_HEIGHT, [o.z1 - o.z0 - o.leaf.region.over_z for o in openings])
    sized = [replace(o, width=width, height=height) for o, width, height in zip(openings, widths, heights, strict=True)]
    return built, tuple(sized)


def _made_alike(built: Construction, measure: Measure, sizes: list[int]) -> tuple[Construction, list[int]]:
    """Return sizes made alike within one division, and then with others nearly so."""
    near = alike(sizes)
    return built.asking(measure, *near), [built.context.equal(measure, size) for size in near]


def _framed(
    built: Construction, shell: Shell, frame: FaceFrame, tree: Split | Leaf
) -> tuple[Construction, tuple[Opening, ...]]:
    planned = _layout(built, shell, frame, tree)
    edges = edges_of(planned.openings)
    layout = moved_layout(planned, edges)
    built = built.with_parts(*_stiles(built.context, shell, frame, edges))
    built = _with_members(built, frame, layout.members)
    built = _with_bare_edges(built, shell, frame)
    runs = (shell.height, shell.height, shell.width, shell.width)
    brad = built.registry.catalogue.nail(BRAD)
    brads = HardwareUse(brad.id, brad.title, quantity=sum(-(-run // BRADS_EVERY) + 1 for run in runs))
    built = built.with_hardware(f"{built.id}/face frame on case", brads)
    openings = layout.openings
    if frame.bead:
        lined: list[Opening] = []
        for opening in openings:
            built, inner = line_opening(built, frame, opening)
            lined.append(inner)
        openings = tuple(lined)
    return built, openings


def _layout(built: Construction, shell: Shell, frame: FaceFrame, tree: Split | Leaf) -> Layout:
    """Return the members between the stiles and the openings they leave."""
    context = built.context
    pointer = f"{context.cabinet.pointer}/face_frame"
    inner = Hole(
        frame.stile - frame.overhang, shell.width + frame.overhang - frame.stile,
        shell.floor + frame.rail, shell.height - frame.rail,
        "frame-stile-left", "frame-stile-right", "frame-rail-bottom", "frame-rail-top",
    )  # fmt: skip
    context.require_room(inner.x1 - inner.x0, f"{pointer}/stile", "the frame opening's width", "Use narrower stiles.")
    context.require_room(inner.z1 - inner.z0, f"{pointer}/rail", "the frame opening's height", "Use narrower rails.")
    width = (Term("cabinet width", context.cabinet.width), Term("two stiles", -2 * frame.stile))
    rail = (Term("rail width", frame.rail),)
    stiles = (inner.left, inner.right)
    bottom, top = (inner.x0, shell.floor, inner.x1, inner.z0), (inner.x0, inner.z1, inner.x1, shell.height)
    rails = (
        Member("frame-rail-bottom", "frame-rail", bottom, stiles, width, rail),
        Member("frame-rail-top", "frame-rail", top, stiles, width, rail),
    )
    return lay_out(built, frame, tree, inner, Layout(rails, ()))


def _stiles(context: Context, shell: Shell, frame: FaceFrame, edges: Edges) -> list[Draft]:
    material = context.material(frame.material)
    left, right = -frame.overhang, shell.width + frame.overhang
    why_length = (Term("cabinet height", shell.height), *base_terms(shell.floor))
    narrower = {"left": -edges.high("frame-stile-left"), "right": edges.low("frame-stile-right")}
    widths = {side: frame.stile - by for side, by in narrower.items()}
    return [
        Draft(
            f"frame-stile-{side}",
            "frame-stile",
            f"{side} frame stile",
            material,
            Box(x, -material.thickness, shell.floor, x + widths[side], 0, shell.height),
            3,
            1,
            why_length,
            (Term("stile width", frame.stile), *measured_terms(-narrower[side])),
            "face-frame",
        )
        for side, x in (("left", left), ("right", right - widths["right"]))
    ]


def _with_members(built: Construction, frame: FaceFrame, members: tuple[Member, ...]) -> Construction:
    """Add the members and fit their ends; lengths from one equal division are made alike."""
    for role in ("frame-rail", "frame-stile"):
        like = [member for member in members if member.role == role]
        several = sum(_is_middle(member) for member in like) > 1
        built, lengths = _made_alike(built, Measure.MEMBER, [member.length for member in like])
        for member, length in zip(like, lengths, strict=True):
            name = _name(member, several)
            built = built.with_parts(_member(built.context, frame, member, name, member.length - length))
    for member in members:
        ways: tuple[Axis, Axis] = (-1, 1) if member.level else (-3, 3)
        for host, way in zip(member.hosts, ways, strict=True):
            built = meet(built, Joining("frame", frame.joint), host, member.key, way)
    return built


def _is_middle(member: Member) -> bool:
    """Return whether a member stands between others, by the number in its key: `frame-mid-rail-1`."""
    return member.key.rpartition("-")[2].isdigit()


def _name(member: Member, several: bool) -> str:
    """Return what a member is called; of several middle ones, each by its number."""
    which = member.key.rpartition("-")[2]
    kind = "frame rail" if member.level else "frame stile"
    if not _is_middle(member):
        return f"{which} {kind}"
    return f"middle {kind} {which}" if several else f"middle {kind}"


def _member(context: Context, frame: FaceFrame, member: Member, name: str, slack: int) -> Draft:
    """Return a member, `slack` nm shorter than the room for it."""
    material = context.material(frame.material)
    x0, z0, x1, z1 = member.at
    length_axis: Axis = 1 if member.level else 3
    width_axis: Axis = 3 if member.level else 1
    box = Box(x0, -material.thickness, z0, x1, 0, z1).grown(length_axis, -slack)
    why_length = (*member.why_length, *slack_terms(slack))
    return Draft(
        member.key,
        member.role,
        name,
        material,
        box,
        length_axis,
        width_axis,
        why_length,
        member.why_width,
        "face-frame",
    )


def _with_bare_edges(built: Construction, shell: Shell, frame: FaceFrame) -> Construction:
    """Note where a frame member leaves part of a case edge bare."""
    case = built.cabinet.case
    rows = (
        ("top", "rail", frame.rail, case.top_inset + shell.side),
        ("bottom", "rail", frame.rail, case.bottom_inset + shell.side),
        ("side-left", "stile", frame.stile, frame.overhang + shell.side),
        ("side-right", "stile", frame.stile, frame.overhang + shell.side),
    )
    for key, member, width, needed in rows:
        if width < needed:
            message = f"the frame {member} leaves part of this part's front edge bare"
            bare = Finding("frame-covers-edge", "caution", message, width, needed, LENGTH, "common-practice")
            built = built.with_findings(f"{built.id}/{key}", bare)
    return built
