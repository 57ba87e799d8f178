"""Drilling templates at full size: lay the edge and end lines on the door's edges and prick the centres."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import TEXT, XY, Circle, Dimension, Kind, Line, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import chosen, face_holes
from casewright.api.papers.views.page import Area, Page, area_of, furniture
from casewright.sdk.model import DoorLeaf
from casewright.sdk.units import INCH, MM

CHECK = {"mm": 100 * MM, "in": 4 * INCH}
"""Length of the check lines, nm."""

WORDS = 52.0
"""Room that the paper keeps beside a hole for its sizes and the edge line's margin, mm."""

CROSS = 6.0
"""Centre lines reach this far past a hole, mm."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A hole to be drilled: from the door's long edge and from one of its ends, seen from the face it enters, nm."""

    edge: int
    end: int
    diameter: int
    depth: int


@dataclass(frozen=True, slots=True)
class Pattern:
    """What one template drills, from which edge and ends of a door, and whether an end is on the paper (`from_end`)."""

    what: str
    spots: tuple[Spot, ...]
    edge: str
    ends: tuple[str, ...]
    from_end: bool
    through: bool

    @property
    def end(self) -> str:
        """The ends it is laid on in words."""
        return f"{' or '.join(self.ends)} end"


def template(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return a page for each different drilling of the doors asked for: a cabinet's, one door's, or all."""
    doors = list(facts.plan.doors)
    known = [*dict.fromkeys(d.cabinet for d in doors), *(d.id for d in doors)]
    wanted = chosen("template", subject, known) if subject is not None else known
    area = area_of(paper, upright=True)
    doors_of: dict[Pattern, list[str]] = {}
    for door in doors:
        if door.id in wanted or door.cabinet in wanted:
            for pattern in patterns(facts, door, area):
                doors_of.setdefault(pattern, []).append(door.id)
    return [_page(facts, pattern, users, area) for pattern, users in doors_of.items()]


def patterns(facts: Facts, door: DoorLeaf, area: Area) -> Iterator[Pattern]:
    """Yield a door's drillings: one for each cup distance from the top or bottom end, one for its pull.

    Cups are measured from the hinge edge, a pull from the meeting edge, or from the other where it is too far from
    that one for the paper; one too far from both has no template.
    """
    room = round((area.height - 73) * MM)
    cups: dict[Spot, dict[str, None]] = {}
    pulls: list[Spot] = []
    for part in (facts.parts[p] for p in door.parts if p in facts.parts):
        for hole in face_holes(part):
            x, z = hole.mouth[0] - door.at[0], hole.mouth[2] - door.at[2]
            hinged = x if door.hinge_side == "left" else door.width - x
            if hole.into == -2:
                spot = Spot(hinged, min(z, door.height - z), hole.diameter, hole.depth)
                cups.setdefault(spot, {})["bottom" if z == spot.end else "top"] = None
            else:
                pulls.append(Spot(door.width - hinged, z, hole.diameter, hole.depth))
    for spot, ends in cups.items():
        yield Pattern("hinge cup", (spot,), "hinge edge", tuple(sorted(ends)), _shows(spot, room), False)
    if not pulls:
        return
    lower = min(p.end for p in pulls) <= door.height - max(p.end for p in pulls)
    near = [p if lower else replace(p, end=door.height - p.end) for p in pulls]
    far = [replace(p, edge=door.width - p.edge) for p in near]
    for edge, spots in (("meeting edge", near), ("hinge edge", far)):
        if max(mm(p.edge) + mm(p.diameter) / 2 for p in spots) < area.width - WORDS:
            unique = tuple(sorted(spots, key=lambda p: (p.end, p.edge)))
            shown = all(_shows(p, room) for p in unique)
            yield Pattern("pull", unique, edge, ("bottom" if lower else "top",), shown, True)
            return


def _shows(spot: Spot, room: int) -> bool:
    """Return whether the paper has room for a hole and the door's end."""
    return spot.end + spot.diameter // 2 < room


def _page(facts: Facts, pattern: Pattern, users: list[str], area: Area) -> Page:
    shapes = _corner(facts, pattern, users[0], area)
    extra = _words(facts, pattern, users, area)
    check = View("check lines", tuple(_checks(facts, area)), (area.x0 + 2, area.y1 - 30), 1.0)
    view = View("template", tuple(shapes), (area.x0 + _offset(pattern, area), area.y0 + 14), 1.0)
    name = f"Template for the {pattern.what}"
    return Page(name, (view, check, furniture("words", extra)), "1:1", upright=True)


def _reach(pattern: Pattern) -> float:
    """Return how far a pattern's holes reach from the door's edge, mm."""
    return mm(max(s.edge for s in pattern.spots)) + mm(pattern.spots[0].diameter) / 2


def _offset(pattern: Pattern, area: Area) -> float:
    """Return how far the door's edge stands from the left of the paper, mm: less for holes that reach far."""
    return max(16.0, min(40.0, area.width - _reach(pattern) - 75.0))


def _checks(facts: Facts, area: Area) -> list[Shape]:
    """Return the check lines, level and upright, exactly as long as they say."""
    nm = CHECK[facts.units]
    long, length = mm(nm), facts.text(nm)
    short = 2.0
    x, low = area.width - 5.0, 48.0 - area.height
    return [
        Line((0, 0), (long, 0), Kind.NARROW),
        Line((0, -short), (0, short), Kind.NARROW),
        Line((long, -short), (long, short), Kind.NARROW),
        Text((long + 4, -0.9), f"this line must measure {length}", 2.5),
        Line((x, low), (x, low + long), Kind.NARROW),
        Line((x - short, low), (x + short, low), Kind.NARROW),
        Line((x - short, low + long), (x + short, low + long), Kind.NARROW),
        Text((x - 1.5, low + long / 2), f"and this one {length}", 2.5, "middle", 90),
    ]


def _words(facts: Facts, pattern: Pattern, users: list[str], area: Area) -> list[Shape]:
    y = area.y1 - 5
    lines = ["Print at 100 %, not fitted to the page. Measure both check lines before use."]
    cut = pattern.spots[0]
    size = facts.bit(cut.diameter)
    depth = "through" if pattern.through else f"{facts.text(cut.depth)} deep"
    face = "show face, that side up" if pattern.through else "back face"
    lines.append(f"Bore ⌀ {size}, {depth}, from the {face}. Try it on a scrap first; clamp the door down.")
    shapes: list[Shape] = [Text((area.x0, y), lines[0], 3.5, bold=True)]
    shapes.append(Text((area.x0, y - 6), metrics.fitted(lines[1], 2.5, area.width), 2.5))
    shown = (
        Shown(users[0], f"{pattern.what} diameter", cut.diameter),
        Shown(users[0], f"{pattern.what} depth", cut.depth),
    )
    users_text = f"For {len(users)} door{'s' if len(users) > 1 else ''}: " + ", ".join(users)
    for i, line in enumerate(metrics.wrapped(metrics.clean(users_text), TEXT, area.width, 2)):
        shapes.append(Text((area.x0, y - 10.5 - 3.8 * i), line, TEXT, shows=shown if i == 0 else ()))
    shapes.append(
        Text(
            (area.x0, y - 18.3),
            metrics.fitted("Turn the paper over for the other end or the other hand.", TEXT, area.width),
            TEXT,
        )
    )
    return shapes


def _corner(facts: Facts, pattern: Pattern, door: str, area: Area) -> list[Shape]:
    """Return the door's edge and end lines and the holes, at true size: edge along y, end along x."""
    spots = pattern.spots
    lift = 0.0 if pattern.from_end else mm(min(s.end for s in spots)) - 50.0
    top = mm(max(s.end for s in spots)) - lift + mm(spots[0].diameter) / 2 + 12
    free = area.width - _offset(pattern, area)
    width = _reach(pattern) + min(22.0, max(8.0, free - _reach(pattern) - 35.0))
    foot = 0.0 if pattern.from_end else 5.0
    shapes: list[Shape] = [
        Line((0, foot), (0, top), Kind.WIDE),
        Text((-1.5, top - 12), pattern.edge, TEXT, "end"),
    ]
    if pattern.from_end:
        shapes += [Line((0, 0), (min(width + 25, free), 0), Kind.WIDE), Text((width, -4.0), pattern.end, TEXT)]
    for spot in spots:
        x, y, r = mm(spot.edge), mm(spot.end) - lift, mm(spot.diameter) / 2
        shapes.append(Circle((x, y), r, Kind.WIDE))
        shapes.append(Line((x - r - CROSS, y), (x + r + CROSS, y), Kind.CENTRE))
        shapes.append(Line((x, y - r - CROSS), (x, y + r + CROSS), Kind.CENTRE))
    shapes += _sizes(facts, pattern, door, (width, top), lift)
    return shapes


def _sizes(facts: Facts, pattern: Pattern, door: str, corner: XY, lift: float) -> list[Shape]:
    """Return the distances of the holes; `corner` is the upper right one of what is drawn of the door."""
    width, top = corner
    out: list[Shape] = []
    what = pattern.what
    for i, edge in enumerate(dict.fromkeys(s.edge for s in pattern.spots)):
        shown = (Shown(door, f"{what} from the edge {i}", edge),)
        out.append(Dimension("x", 0.0, mm(edge), top, 8.0 + 8 * i, facts.bare(edge), shown))
    ends = list(dict.fromkeys(s.end for s in pattern.spots))
    for i, end in enumerate(ends):
        shown = (Shown(door, f"{what} from the end {i}", end),)
        if pattern.from_end:
            out.append(Dimension("y", 0.0, mm(end), width + 2, 8.0 + 9 * i, facts.bare(end), shown))
        else:
            at = (width + 4, mm(end) - lift)
            out.append(Text(at, f"centre line {facts.text(end)}", 2.5, shows=shown, shift=(0, 1.0)))
            out.append(Text(at, f"from the {pattern.end}", 2.5, shift=(0, -3.5)))
    return out
