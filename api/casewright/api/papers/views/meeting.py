"""One meeting as a joint method fits it: both halves and the fit in three views, taken apart, with axes and sizes.

The joint frame is drawn with z, into the host, to the right; x, along the joint, away; y, through the guest, up.
"""

from collections.abc import Iterable, Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.hidden import DOWNWARD, FRONT, ISOMETRIC, LEFTWARD, Eye
from casewright.api.papers.drawing.shapes import (
    TEXT,
    XY,
    Circle,
    Dimension,
    Kind,
    Line,
    Shape,
    Sheet,
    Shown,
    Text,
    View,
)
from casewright.api.papers.drawing.solids import XYZ, Solid, solid
from casewright.api.papers.facts import mm
from casewright.api.papers.views.axes import ARROW, axes, head
from casewright.api.papers.views.common import bounds, picture
from casewright.api.papers.views.page import Area, centred, furniture
from casewright.sdk.geometry import Place
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.model import Part
from casewright.sdk.units import exact_text

SHEET: XY = (297.0, 210.0)
LINE = 4.4
"""Height of a line of words, mm."""

_INTO = Place((0, 0, 0), 2, 3, 1)
"""The joint frame as it is drawn: x goes back, y up, z right."""

_FACING = Place((0, 0, 0), 2, 3, -1)
"""The same with z to the left, so that the host's face is seen where the guest is drawn back from it."""

_VIEWS: tuple[tuple[str, Eye, Area], ...] = (
    ("along the joint", FRONT, Area(16, 112, 142, 192)),
    ("from above the guest", DOWNWARD, Area(16, 20, 142, 96)),
    ("into the host", LEFTWARD, Area(150, 112, 206, 192)),
)
_APART = Area(150, 20, 284, 104)
_WORDS = Area(212, 112, 290, 192)


def meeting_sheet(title: str, meeting: Meeting, fit: Fit, halves: tuple[Part, Part]) -> Sheet:
    """Return the sheet of one meeting; `halves` are host and guest as the fit makes them, in the joint frame."""
    host, guest = (_drawn(part, _INTO) for part in halves)
    views = [view for name, eye, area in _VIEWS for view in _projection(name, eye, area, (host, guest))]
    views[0] = _with_sizes(views[0], meeting, fit)
    apart = (_drawn(halves[0], _FACING), _drawn(halves[1], _FACING))
    views += _taken_apart(*apart, fit)
    views.append(furniture("words", _words(title, meeting, fit)))
    return Sheet(meeting.kind, title, *SHEET, meeting.write.units, tuple(views))


def _drawn(part: Part, frame: Place) -> Solid:
    return solid(part, _placed(part, frame))


def _placed(part: Part, frame: Place) -> Place:
    return Place(frame.point(part.place.at), frame.x, frame.y, frame.z)


def _projection(name: str, eye: Eye, area: Area, solids: Sequence[Solid]) -> list[View]:
    """Return both halves fitted together as one eye sees them, hidden edges dashed, with axes and caption."""
    box = bounds(solids, eye)
    room = (area.width - 14, area.height - 20 - ARROW)
    scale = _scale(box, room)
    at = centred((area.x0 + 7, area.y0 + 6), room, box, scale)
    shapes = [*picture(solids, eye, all_hidden=True), *_holes(solids, eye), *_axes(eye, scale, _INTO)]
    words: list[Shape] = [Text((area.x0, area.y1 - 4), name, TEXT)]
    return [View(name, tuple(shapes), at, scale), furniture(f"caption, {name}", words)]


def _scale(box: tuple[float, float, float, float], room: XY) -> float:
    return min(room[0] / max(box[2] - box[0], 1.0), room[1] / max(box[3] - box[1], 1.0), 1.0)


def _taken_apart(host: Solid, guest: Solid, fit: Fit) -> list[View]:
    """Return the guest drawn back against the way it is pressed home, with the arrow that it goes by."""
    way = _along(fit.press, _FACING)
    reach = 0.4 * max(abs(b - a) for a, b in zip(guest.pieces[0].box[:3], guest.pieces[0].box[3:], strict=True)) + 20.0
    back: XYZ = (-way[0] * reach, -way[1] * reach, -way[2] * reach)
    solids = (host, guest.moved(back))
    box = bounds(solids, ISOMETRIC)
    scale = _scale(box, (_APART.width - 8, _APART.height - 16))
    at = centred((_APART.x0 + 4, _APART.y0 + 2), (_APART.width - 8, _APART.height - 12), box, scale)
    tip = ISOMETRIC.flat((0.0, 0.0, 0.0))
    tail = ISOMETRIC.flat(back)
    arrow: list[Shape] = [
        Line(tail, tip, Kind.NARROW),
        *head(tail, tip),
        Text(tail, "press", TEXT, shift=(2, 2)),
    ]
    shapes = [*picture(solids, ISOMETRIC, Kind.NARROW), *arrow, *_axes(ISOMETRIC, scale, _FACING)]
    words: list[Shape] = [
        Text((_APART.x0, _APART.y1 - 4), "taken apart; the arrow is the way it is pressed home", TEXT)
    ]
    return [View("taken apart", tuple(shapes), at, scale), furniture("caption, apart", words)]


def _along(axis: int, frame: Place) -> XYZ:
    """Return a signed axis of the joint frame as a direction of the drawing."""
    drawn = (frame.x, frame.y, frame.z)[abs(axis) - 1] * (1 if axis > 0 else -1)
    out = [0.0, 0.0, 0.0]
    out[abs(drawn) - 1] = 1.0 if drawn > 0 else -1.0
    return (out[0], out[1], out[2])


def _axes(eye: Eye, scale: float, frame: Place) -> list[Shape]:
    """Return the three axes of the joint frame at its origin."""
    return axes(eye, scale, (_along(1, frame), _along(2, frame), _along(3, frame)))


def _holes(solids: Iterable[Solid], eye: Eye) -> list[Shape]:
    """Return round holes as the dashed outlines of their bores."""
    shapes: list[Shape] = []
    for one in solids:
        place = _placed(one.part, _INTO)
        for feature in one.part.features:
            for hole in feature.holes:
                drawn = place.cylinder(hole)
                box = drawn.envelope
                low = eye.flat((mm(box.x0), mm(box.y0), mm(box.z0)))
                high = eye.flat((mm(box.x1), mm(box.y1), mm(box.z1)))
                if abs(eye.toward[abs(drawn.into) - 1]) == 1:
                    centre = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
                    shapes.append(Circle(centre, mm(hole.diameter) / 2, Kind.HIDDEN))
                    continue
                (x0, x1), (y0, y1) = sorted((low[0], high[0])), sorted((low[1], high[1]))
                corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
                shapes += [Line(corners[i], corners[(i + 1) % 4], Kind.HIDDEN) for i in range(4)]
    return shapes


def _with_sizes(view: View, meeting: Meeting, fit: Fit) -> View:
    """Return the view along the joint with the guest's thickness, the host's depth and how far the guest grows."""
    write, t = meeting.write, meeting.guest_thickness
    left, low, high = -mm(meeting.guest_length), 0.0, mm(t)
    top = mm(t + meeting.host_after)
    sizes: list[Shape] = [
        Dimension("y", low, high, left, -6, write.length(t), (Shown("guest", "thickness", t),)),
        Dimension("x", 0.0, mm(meeting.host_depth), top, 6, write.length(meeting.host_depth),
                  (Shown("host", "depth", meeting.host_depth),)),
    ]  # fmt: skip
    if fit.growth > 0:
        words = write.length(fit.growth)
        sizes.append(
            Dimension("x", 0.0, mm(fit.growth), -mm(meeting.host_before), -6, words,
                      (Shown("guest", "growth", fit.growth),))
        )  # fmt: skip
    return View(view.name, (*view.shapes, *sizes), view.at, view.scale)


def _words(title: str, meeting: Meeting, fit: Fit) -> list[Shape]:
    """Return the fit in words: its lengths, its cuts and what it found."""
    write = meeting.write
    lines = [
        f"growth {write.length(fit.growth)}, seat {write.length(fit.seat)}",
        f"clearance {write.length(fit.clearance)}, press {fit.press:+d}",
        f"glue {write.small_area_mm2(fit.glue_area_mm2)}" if fit.glue_area_mm2 else "no glue",
        *[f"why: {term.label} {exact_text(term.nm)}" for term in fit.why],
        *[f"host: {cut.kind}, {cut.label}" for cut in fit.host],
        *[f"guest: {cut.kind}, {cut.label}" for cut in fit.guest],
        *[f"{use.count} × {use.name}" for use in fit.hardware],
        *[f"{finding.level}: {finding.message}" for finding in fit.findings],
    ]
    rows = [row for line in lines for row in metrics.wrapped(metrics.clean(line), TEXT, _WORDS.width, 3)]
    room = int(_WORDS.height / LINE)
    shapes: list[Shape] = [Text((16, 198), metrics.clean(title), 3.5, bold=True)]
    for number, row in enumerate(rows[:room]):
        shapes.append(Text((_WORDS.x0, _WORDS.y1 - 4 - LINE * number), row, TEXT))
    return shapes
