"""Laying out a face frame: which members stand over the inside's divisions, and the openings they leave."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.inside import Leaf, Split, leaves_of
from casewright.api.engine.construction.meet import slack_terms
from casewright.sdk.model import FaceFrame, Role, Term


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening a door closes, seen from the front, and the keys of the members round it.

    Doors are made for `width` and `height`, the smaller of openings that are made alike.
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

    @property
    def why_width(self) -> tuple[Term, ...]:
        """The terms of its width."""
        return (Term("opening width", self.x1 - self.x0), *slack_terms(self.x1 - self.x0 - self.width))

    @property
    def why_height(self) -> tuple[Term, ...]:
        """The terms of its height."""
        return (Term("opening height", self.z1 - self.z0), *slack_terms(self.z1 - self.z0 - self.height))


@dataclass(frozen=True, slots=True)
class Hole:
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
class Member:
    """A member to be made: where it lies (x0, z0, x1, z1) and which members its two ends meet."""

    key: str
    role: Role
    at: tuple[int, int, int, int]
    hosts: tuple[str, str]
    why_length: tuple[Term, ...]
    why_width: tuple[Term, ...]

    @property
    def level(self) -> bool:
        """Whether it lies level, as rails do."""
        return self.role == "frame-rail"

    @property
    def length(self) -> int:
        """Room between its hosts, in nm."""
        x0, z0, x1, z1 = self.at
        return x1 - x0 if self.level else z1 - z0


@dataclass(frozen=True, slots=True)
class Layout:
    """Members and openings as far as the frame is laid out."""

    members: tuple[Member, ...]
    openings: tuple[Opening, ...]

    def next_number(self, stem: str) -> int:
        """Return the number of the next member of a kind."""
        return 1 + sum(member.key.startswith(stem) for member in self.members)


def bare_openings(tree: Split | Leaf) -> tuple[Opening, ...]:
    """Return the openings of a case without a face frame: its leaves' own regions."""
    regions = [(leaf, leaf.region) for leaf in leaves_of(tree)]
    return tuple(
        [
            Opening(r.x0, r.x1, r.z0, r.z1, r.left, r.right, r.floor, r.roof, leaf, r.width, r.height)
            for leaf, r in regions
        ]
    )


def lay_out(built: Construction, frame: FaceFrame, tree: Split | Leaf, hole: Hole, layout: Layout) -> Layout:
    """Put a member over each part between entries, go on into each entry, and return the layout with all of them."""
    if isinstance(tree, Leaf):
        return _opened(built, tree, hole, layout)
    upright = tree.space.division == "bays"
    edges = [hole.x0 if upright else hole.z1]
    keys = [hole.left if upright else hole.above]
    for between in tree.between:
        box = built.drafts[between].box
        if upright:
            low = box.x0 + (box.x1 - box.x0 - frame.mid_stile) // 2
            member = _mid_stile(frame, hole, low, layout)
            edges += [low, low + frame.mid_stile]
        else:
            member = _mid_rail(built, frame, hole, box.z1, layout)
            edges += [box.z1, box.z1 - frame.mid_rail]
        layout = replace(layout, members=(*layout.members, member))
        keys.append(member.key)
    edges.append(hole.x1 if upright else hole.z0)
    keys.append(hole.right if upright else hole.below)
    for i, part in enumerate(tree.parts):
        a, b = edges[2 * i], edges[2 * i + 1]
        if upright:
            inner = replace(hole, x0=a, x1=b, left=keys[i], right=keys[i + 1])
        else:
            inner = replace(hole, z0=b, z1=a, below=keys[i + 1], above=keys[i])
        layout = lay_out(built, frame, part, inner, layout)
    return layout


def _opened(built: Construction, leaf: Leaf, hole: Hole, layout: Layout) -> Layout:
    pointer, require_room = f"{built.cabinet.pointer}/face_frame", built.context.require_room
    require_room(hole.x1 - hole.x0, pointer, "a frame opening's width", "Use narrower stiles or fewer bays.")
    require_room(hole.z1 - hole.z0, pointer, "a frame opening's height", "Use narrower rails or fewer tiers.")
    bounds = (hole.x0, hole.x1, hole.z0, hole.z1)
    round_it = (hole.left, hole.right, hole.below, hole.above)
    opening = Opening(*bounds, *round_it, leaf, hole.x1 - hole.x0, hole.z1 - hole.z0)
    return replace(layout, openings=(*layout.openings, opening))


def _mid_stile(frame: FaceFrame, hole: Hole, low: int, layout: Layout) -> Member:
    return Member(
        f"frame-mid-stile-{layout.next_number('frame-mid-stile')}",
        "frame-stile",
        (low, hole.z0, low + frame.mid_stile, hole.z1),
        (hole.below, hole.above),
        (Term("opening between rails", hole.z1 - hole.z0),),
        (Term("mid stile width", frame.mid_stile),),
    )


def _mid_rail(built: Construction, frame: FaceFrame, hole: Hole, upper: int, layout: Layout) -> Member:
    if hole.left == "frame-stile-left" and hole.right == "frame-stile-right":
        length: tuple[Term, ...] = (Term("cabinet width", built.cabinet.width), Term("two stiles", -2 * frame.stile))
    else:
        length = (Term("opening between stiles", hole.x1 - hole.x0),)
    return Member(
        f"frame-mid-rail-{layout.next_number('frame-mid-rail')}",
        "frame-rail",
        (hole.x0, upper - frame.mid_rail, hole.x1, upper),
        (hole.left, hole.right),
        length,
        (Term("mid rail width", frame.mid_rail),),
    )
