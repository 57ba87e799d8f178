"""Pieces several views share: running dimensions of part faces, pictures of solids, pages of what fits."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from casewright.api.papers.drawing.collinear import runs_left
from casewright.api.papers.drawing.dimensions import running_reach
from casewright.api.papers.drawing.hidden import Eye, sight
from casewright.api.papers.drawing.shapes import XY, Kind, Line, Running, Shape, Shown
from casewright.api.papers.drawing.solids import Solid
from casewright.api.papers.facts import Facts, mm
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.geometry import Box, Cylinder
from casewright.sdk.model import Cabinet, Part
from casewright.sdk.units import MM

Stops = tuple[tuple[float, str, tuple[Shown, ...]], ...]
"""Running stops: coordinate in mm, its text, what is shown."""

WALL_ROLES = frozenset({"wall-cleat"})
"""Parts that stay on the wall."""

SKELETON = frozenset({"shelf", "divider"})
"""Parts whose hidden edges are worth showing in an elevation."""

RUNNING_STEP = 3.75
"""Paper taken by one running dimension's text, mm."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A view before it has its place: its box in mm of the thing, its running dimensions, all else by the scale."""

    box: tuple[float, float, float, float]
    row: Running
    column: Running | None
    shapes: Callable[[float], list[Shape]]

    @property
    def width(self) -> float:
        """How wide the thing is, mm."""
        return self.box[2] - self.box[0]

    @property
    def height(self) -> float:
        """How high it is, mm."""
        return self.box[3] - self.box[1]

    @property
    def below(self) -> float:
        """Paper its running dimensions take below it, mm."""
        return running_reach(self.row.stops) + 10

    @property
    def beside(self) -> float:
        """Paper its running dimensions take beside it, mm."""
        return running_reach(self.column.stops) + 10 if self.column else 0.0

    def dimensioned(self, scale: float, room: XY) -> tuple[list[Shape], int]:
        """Return the view with what of its running dimensions fits `room` (mm of paper), and how many do not."""
        row, missed = running(self.row, room[0])
        column, more = running(self.column, room[1]) if self.column else ([], 0)
        return [*self.shapes(scale), *row, *column], missed + more


class UnknownSubjectError(LookupError):
    """A view was wanted of something the plan does not have; `known` lists what it does."""

    def __init__(self, view: str, subject: str, known: Sequence[str]) -> None:
        self.view, self.subject, self.known = view, subject, tuple(known)
        some = ", ".join(self.known[:12]) + (" …" if len(self.known) > 12 else "")
        super().__init__(f"{view} has no subject {subject!r}; it has {some or 'none'}")


def chosen(view: str, subject: str | None, known: Sequence[str]) -> list[str]:
    """Return the subjects to draw: the one asked for, or all. Raises `UnknownSubjectError`."""
    if subject is None:
        return list(known)
    if subject not in known:
        raise UnknownSubjectError(view, subject, known)
    return [subject]


def placed_box(part: Part) -> Box:
    """Return a part's blank in the cabinet frame."""
    return part.place.box(part.blank)


def wall_face(facts: Facts, cabinet: Cabinet) -> float:
    """Return where the wall's face is in the cabinet frame, mm: behind the case, or behind a wall cleat beyond it."""
    frame = facts.job.materials[cabinet.face_frame.material].thickness if cabinet.face_frame else 0
    behind = [placed_box(part).y1 for part in facts.of(cabinet.id) if part.role in WALL_ROLES]
    return mm(max([cabinet.depth - frame, *behind]))


def strip_box(facts: Facts, cabinet: str, case: HangingCase) -> Box | None:
    """Return the box, in the cabinet frame, of the wood that the wall's fasteners pass through.

    It is the mounting's part on whose front face they bear; without points of theirs the wall cleat, else the highest.
    """
    strips = [(part.role in WALL_ROLES, placed_box(part)) for part in facts.of(cabinet) if part.group == "mounting"]
    item = case.fastener.id if case.fastener else ""
    points = [at for line in facts.plan.hardware if line.cabinet == cabinet and line.item == item for at in line.at]
    before = round(case.before_strip_mm * MM)
    for _, box in strips:
        if any(y == box.y0 - before and box.x0 <= x <= box.x1 and box.z0 < z < box.z1 for x, y, z in points):
            return box
    return max(strips, key=lambda one: (one[0], one[1].z1), default=(False, None))[1]


def solids_of(facts: Facts, cabinet: str) -> list[Solid]:
    """Return a cabinet's parts as solids, what stays on the wall included."""
    return [facts.solid(part) for part in facts.of(cabinet)]


def bounds(solids: Iterable[Solid], eye: Eye) -> tuple[float, float, float, float]:
    """Return the box round solids on a picture: x0, y0, x1, y1 in mm."""
    flat = [eye.flat(p) for s in solids for edge in s.edges for p in edge]
    return (min(p[0] for p in flat), min(p[1] for p in flat), max(p[0] for p in flat), max(p[1] for p in flat))


def picture(
    solids: Sequence[Solid],
    eye: Eye,
    kind: Kind = Kind.WIDE,
    hidden: frozenset[str] = frozenset(),
    all_hidden: bool = False,
) -> list[Shape]:
    """Return the lines of solids as an eye sees them; hidden ones dashed for the roles asked for."""
    seen: dict[tuple[float, ...], Line] = {}
    dashed: list[Line] = []
    for one in sight(solids, eye):
        for a, b in one.seen:
            seen.setdefault(_key(a, b), Line(a, b, kind))
        if all_hidden or solids[one.solid].part.role in hidden:
            for a, b in one.hidden:
                dashed.append(Line(a, b, Kind.HIDDEN))
    return [*seen.values(), *runs_left(dashed, seen.values())]


def moved(shapes: Iterable[Shape], dx: float, dy: float) -> list[Shape]:
    """Return a picture moved by mm of what is drawn; only its lines have places of their own."""
    return [
        Line((s.a[0] + dx, s.a[1] + dy), (s.b[0] + dx, s.b[1] + dy), s.kind) if isinstance(s, Line) else s
        for s in shapes
    ]


def _key(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, ...]:
    first, second = sorted(((round(a[0], 2), round(a[1], 2)), (round(b[0], 2), round(b[1], 2))))
    return (*first, *second)


def faces(facts: Facts, parts: Iterable[Part], axis: int, datum: int, skip: Iterable[int] = ()) -> Stops:
    """Return running stops for the faces of parts along a cabinet axis, from `datum`; each place once.

    Places in `skip` (nm from the datum) are dimensioned elsewhere.
    """
    places: dict[int, list[Shown]] = {}
    left_out = {0, *skip}
    for part in parts:
        box = placed_box(part)
        for name, place in (("low", box.low(axis)), ("high", box.high(axis))):
            nm = place - datum
            if nm not in left_out:
                places.setdefault(nm, []).append(Shown(part.id, f"{'xyz'[axis - 1]} {name}", nm))
    both = min(places, default=0) < 0 < max(places, default=0)
    return tuple(
        (mm(datum + nm), f"{'−' if both and nm < 0 else ''}{facts.bare(abs(nm))}", tuple(shows[:1]))
        for nm, shows in sorted(places.items())
    )


def running(dimensions: Running, room: float) -> tuple[list[Running], int]:
    """Return running dimensions that fit `room` mm of paper, and how many stops had to be left out."""
    stops = dimensions.stops
    kept = stops[: int(room / RUNNING_STEP)]
    if not kept:
        return [], len(stops)
    return [replace(dimensions, stops=kept)], len(stops) - len(kept)


def facing(first: Running, second: Running, room: float) -> list[Running]:
    """Return running dimensions from two datums on one line, as many stops of each as fit `room` mm of paper."""
    one, two = running(first, room)[0], running(second, room)[0]
    if one and two:
        return [replace(one[0], beside=two[0]), replace(two[0], beside=one[0])]
    return one + two


def face_holes(part: Part) -> Iterator[Cylinder]:
    """Yield the holes into the two faces of a door's part, at their places in the cabinet."""
    holes = (part.place.cylinder(hole) for feature in part.features for hole in feature.holes)
    return (hole for hole in holes if abs(hole.into) == 2)
