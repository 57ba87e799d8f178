"""The face frame: stiles over the full height, rails between them, and members over each division."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.case import Shell, base_terms
from casewright.api.engine.construction.draft import Draft, Work, alike, require_room
from casewright.api.engine.construction.inside import Leaf, Split
from casewright.api.engine.construction.meet import meet, slack_terms
from casewright.sdk.geometry import Axis, Box, Wedge
from casewright.sdk.model import LENGTH, FaceFrame, Feature, Finding, HardwareUse, Material, Role, Term

BRAD = "brad-18-1-1-4"
"""Catalogue id of the brads that hold the frame while the glue sets."""


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening a door closes, seen from the front, and the keys of the members round it.

    Doors are made for `width` and `height`, the smaller of openings that come from one equal division.
    """

    x0: int
    x1: int
    z0: int
    z1: int
    left: str
    right: str
    below: str
    above: str
    leaf: Leaf
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class _Hole:
    """A region of the frame still to be divided, and the members round it."""

    x0: int
    x1: int
    z0: int
    z1: int
    left: str
    right: str
    below: str
    above: str


@dataclass(frozen=True, slots=True)
class _Member:
    """A member to be made: where it lies and which members its two ends meet."""

    key: str
    role: Role
    box: Box
    hosts: tuple[str, str]
    why_length: tuple[Term, ...]
    why_width: tuple[Term, ...]


def openings(work: Work, shell: Shell, tree: Split | Leaf) -> list[Opening]:
    """Build the face frame, if the cabinet has one, and return the openings the fronts close."""
    frame = work.cabinet.face_frame
    found = [_bare(leaf) for leaf in _leaves(tree)] if frame is None else _framed(work, shell, frame, tree)
    widths = alike([o.x1 - o.x0 for o in found])
    heights = alike([o.z1 - o.z0 for o in found])
    return [
        Opening(o.x0, o.x1, o.z0, o.z1, o.left, o.right, o.below, o.above, o.leaf, w, h)
        for o, w, h in zip(found, widths, heights, strict=True)
    ]


def _leaves(tree: Split | Leaf) -> list[Leaf]:
    return [tree] if isinstance(tree, Leaf) else [leaf for part in tree.parts for leaf in _leaves(part)]


def _bare(leaf: Leaf) -> Opening:
    r = leaf.region
    return Opening(r.x0, r.x1, r.z0, r.z1, r.left, r.right, r.floor, r.roof, leaf, r.width, r.height)


def _framed(work: Work, shell: Shell, frame: FaceFrame, tree: Split | Leaf) -> list[Opening]:
    material = work.material(frame.material)
    pointer = f"{work.cabinet.pointer}/face_frame"
    left, right = -frame.overhang, shell.width + frame.overhang
    inner = _Hole(
        left + frame.stile, right - frame.stile, shell.floor + frame.rail, shell.height - frame.rail,
        "frame-stile-left", "frame-stile-right", "frame-rail-bottom", "frame-rail-top",
    )  # fmt: skip
    require_room(inner.x1 - inner.x0, f"{pointer}/stile", "the frame opening's width", "Use narrower stiles.")
    require_room(inner.z1 - inner.z0, f"{pointer}/rail", "the frame opening's height", "Use narrower rails.")
    _add_stiles(work, shell, frame, material, left, right)
    width = [Term("cabinet width", work.cabinet.width), Term("two stiles", -2 * frame.stile)]
    rail = (Term("rail width", frame.rail),)
    members = [
        _Member("frame-rail-bottom", "frame-rail", _flat(inner.x0, inner.x1, shell.floor, inner.z0),
                (inner.left, inner.right), tuple(width), rail),
        _Member("frame-rail-top", "frame-rail", _flat(inner.x0, inner.x1, inner.z1, shell.height),
                (inner.left, inner.right), tuple(width), rail),
    ]  # fmt: skip
    found: list[Opening] = []
    _follow(work, frame, tree, inner, members, found, shell)
    _add_members(work, frame, material, members)
    _note_edges(work, shell, frame)
    _use_brads(work, shell, material)
    return [_beaded(work, frame, material, opening) for opening in found] if frame.bead else found


def _flat(x0: int, x1: int, z0: int, z1: int) -> Box:
    return Box(x0, 0, z0, x1, 0, z1)


def _add_stiles(work: Work, shell: Shell, frame: FaceFrame, material: Material, left: int, right: int) -> None:
    for key, x in (("left", left), ("right", right - frame.stile)):
        box = Box(x, -material.thickness, shell.floor, x + frame.stile, 0, shell.height)
        why = {
            3: [Term("cabinet height", shell.height), *base_terms(shell.floor)],
            1: [Term("stile width", frame.stile)],
        }
        work.add(
            Draft(f"frame-stile-{key}", "frame-stile", f"{key} frame stile", material, box, 3, 1, why, "face-frame")
        )


def _follow(
    work: Work,
    frame: FaceFrame,
    tree: Split | Leaf,
    hole: _Hole,
    members: list[_Member],
    found: list[Opening],
    shell: Shell,
) -> None:
    """Put a member over each part between entries and go on into each entry."""
    pointer = f"{work.cabinet.pointer}/face_frame"
    if isinstance(tree, Leaf):
        require_room(hole.x1 - hole.x0, pointer, "a frame opening's width", "Use narrower stiles or fewer bays.")
        require_room(hole.z1 - hole.z0, pointer, "a frame opening's height", "Use narrower rails or fewer tiers.")
        found.append(
            Opening(hole.x0, hole.x1, hole.z0, hole.z1, hole.left, hole.right, hole.below, hole.above, tree, 0, 0)
        )
        return
    upright = tree.space.division == "bays"
    first, last = (hole.x0, hole.x1) if upright else (hole.z1, hole.z0)
    edges = [first]
    keys: list[str] = [hole.left if upright else hole.above]
    for between in tree.between:
        box = work.drafts[between].box
        if upright:
            low = box.x0 + (box.x1 - box.x0 - frame.mid_stile) // 2
            members.append(_mid_stile(frame, hole, low, members))
            edges += [low, low + frame.mid_stile]
        else:
            members.append(_mid_rail(work, frame, hole, box.z1, members, shell))
            edges += [box.z1, box.z1 - frame.mid_rail]
        keys.append(members[-1].key)
    edges.append(last)
    keys.append(hole.right if upright else hole.below)
    for i, part in enumerate(tree.parts):
        a, b = edges[2 * i], edges[2 * i + 1]
        if upright:
            inner = _Hole(a, b, hole.z0, hole.z1, keys[i], keys[i + 1], hole.below, hole.above)
        else:
            inner = _Hole(hole.x0, hole.x1, b, a, hole.left, hole.right, keys[i + 1], keys[i])
        _follow(work, frame, part, inner, members, found, shell)


def _mid_stile(frame: FaceFrame, hole: _Hole, low: int, members: list[_Member]) -> _Member:
    number = 1 + sum(1 for m in members if m.key.startswith("frame-mid-stile"))
    size = hole.z1 - hole.z0
    return _Member(
        f"frame-mid-stile-{number}",
        "frame-stile",
        _flat(low, low + frame.mid_stile, hole.z0, hole.z1),
        (hole.below, hole.above),
        (Term("opening between rails", size),),
        (Term("mid stile width", frame.mid_stile),),
    )


def _mid_rail(work: Work, frame: FaceFrame, hole: _Hole, upper: int, members: list[_Member], shell: Shell) -> _Member:
    number = 1 + sum(1 for m in members if m.key.startswith("frame-mid-rail"))
    if hole.left == "frame-stile-left" and hole.right == "frame-stile-right":
        length: tuple[Term, ...] = (Term("cabinet width", work.cabinet.width), Term("two stiles", -2 * frame.stile))
    else:
        length = (Term("opening between stiles", hole.x1 - hole.x0),)
    return _Member(
        f"frame-mid-rail-{number}",
        "frame-rail",
        _flat(hole.x0, hole.x1, upper - frame.mid_rail, upper),
        (hole.left, hole.right),
        length,
        (Term("mid rail width", frame.mid_rail),),
    )


def _add_members(work: Work, frame: FaceFrame, material: Material, members: list[_Member]) -> None:
    """Add the members and fit their ends; lengths from one equal division are made alike."""
    for role in ("frame-rail", "frame-stile"):
        like = [m for m in members if m.role == role]
        lengths = alike([_length(m) for m in like])
        for member, length in zip(like, lengths, strict=True):
            _add_member(work, material, member, _length(member) - length)
    for member in members:
        ways: tuple[Axis, Axis] = (-1, 1) if member.role == "frame-rail" else (-3, 3)
        for host, way in zip(member.hosts, ways, strict=True):
            meet(work, "frame", work.drafts[host], work.drafts[member.key], way, frame.joint)


def _length(member: _Member) -> int:
    box = member.box
    return box.x1 - box.x0 if member.role == "frame-rail" else box.z1 - box.z0


def _add_member(work: Work, material: Material, member: _Member, slack: int) -> None:
    b, t = member.box, material.thickness
    why_length = [*member.why_length, *slack_terms(slack)]
    name = member.key.removeprefix("frame-").replace("-", " ")
    if member.role == "frame-rail":
        box = Box(b.x0, -t, b.z0, b.x1 - slack, 0, b.z1)
        why = {1: why_length, 3: list(member.why_width)}
        draft = Draft(member.key, member.role, f"frame {name}", material, box, 1, 3, why, "face-frame")
    else:
        box = Box(b.x0, -t, b.z0, b.x1, 0, b.z1 - slack)
        why = {3: why_length, 1: list(member.why_width)}
        draft = Draft(member.key, member.role, f"frame {name}", material, box, 3, 1, why, "face-frame")
    work.add(draft)


def _beaded(work: Work, frame: FaceFrame, material: Material, opening: Opening) -> Opening:
    """Line an opening with four mitred beads and return the smaller opening they leave."""
    bead, number = frame.bead, 1 + sum(1 for key in work.drafts if key.startswith("bead-") and key.endswith("-left"))
    x0, x1, z0, z1 = opening.x0, opening.x1, opening.z0, opening.z1
    require_room(min(x1 - x0, z1 - z0) - 2 * bead, f"{work.cabinet.pointer}/face_frame/bead",
                 "the opening inside the bead", "Use a thinner bead.")  # fmt: skip
    t = material.thickness
    strips: tuple[tuple[str, Box, tuple[Axis, Axis], int], ...] = (
        ("lower", Box(x0, -t, z0, x1, 0, z0 + bead), (-1, 3), 1),
        ("upper", Box(x0, -t, z1 - bead, x1, 0, z1), (-1, -3), 1),
        ("left", Box(x0, -t, z0, x0 + bead, 0, z1), (1, -3), 3),
        ("right", Box(x1 - bead, -t, z0, x1, 0, z1), (-1, -3), 3),
    )
    for side, box, corner, along in strips:
        _add_bead(work, material, f"bead-{number}-{side}", box, corner, along, bead)
    return replace(opening, x0=x0 + bead, x1=x1 - bead, z0=z0 + bead, z1=z1 - bead)


def _add_bead(
    work: Work, material: Material, key: str, box: Box, corner: tuple[Axis, Axis], along: int, bead: int
) -> None:
    """Add one bead, mitred at both ends; `corner` is where its first mitre's waste stands."""
    first, second = corner
    if along == 1:
        ends = [Box(box.x0, box.y0, box.z0, box.x0 + bead, box.y1, box.z1),
                Box(box.x1 - bead, box.y0, box.z0, box.x1, box.y1, box.z1)]  # fmt: skip
        corners: list[tuple[Axis, Axis]] = [(-1, second), (1, second)]
    else:
        ends = [Box(box.x0, box.y0, box.z0, box.x1, box.y1, box.z0 + bead),
                Box(box.x0, box.y0, box.z1 - bead, box.x1, box.y1, box.z1)]  # fmt: skip
        corners = [(first, -3), (first, 3)]
    size = box.x1 - box.x0 if along == 1 else box.z1 - box.z0
    length_axis: Axis = 1 if along == 1 else 3
    width_axis: Axis = 3 if along == 1 else 1
    why = {along: [Term("opening it lines", size)], 4 - along: [Term("bead", bead)]}
    draft = Draft(key, "strip", key.replace("-", " "), material, box, length_axis, width_axis, why, "face-frame")
    for end, waste in zip(ends, corners, strict=True):
        entry: Axis = waste[0] if along == 1 else waste[1]
        mitre = Feature("bevel", "bead mitre", entry, wedges=(Wedge(end, 2, waste),), run=2, angle_deg=45.0)
        draft.features.append(mitre)
    work.add(draft)


def _note_edges(work: Work, shell: Shell, frame: FaceFrame) -> None:
    """Tell where a frame member leaves part of a case edge bare."""
    case = work.cabinet.case
    rows = (
        ("top", "rail", frame.rail, case.top_inset + shell.side),
        ("bottom", "rail", frame.rail, case.bottom_inset + shell.side),
        ("side-left", "stile", frame.stile, frame.overhang + shell.side),
        ("side-right", "stile", frame.stile, frame.overhang + shell.side),
    )
    for key, member, wide, needed in rows:
        if wide < needed:
            work.find(
                f"{work.id}/{key}",
                Finding(
                    "frame-covers-edge",
                    "caution",
                    f"the frame {member} leaves part of this part's front edge bare",
                    wide,
                    needed,
                    LENGTH,
                    "common-practice",
                ),
            )


def _use_brads(work: Work, shell: Shell, material: Material) -> None:
    """Count brads for fixing the frame: one each 150 mm or less along each stile and rail (common practice)."""
    every = 150_000_000
    runs = (shell.height, shell.height, shell.width, shell.width)
    count = sum(-(-run // every) + 1 for run in runs)
    brad = work.registry.catalogue.nail(BRAD)
    work.use((HardwareUse(brad.id, brad.title, quantity=count),), f"{work.id}/face frame on case")
