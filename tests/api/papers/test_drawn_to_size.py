"""Where the lines of a drawing lie, in mm, worked by hand from the job: every view of the worked jobs.

The sizes are those of `test_worked_job` in tests/api/use: a shelf 600 × 720 × 320 of 18 mm plywood hung at 120, 1400;
a cupboard 24 × 30 × 12 in hung at 4, 54 in.
"""

import math
from itertools import pairwise

import pytest
from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.shapes import Circle, Dimension, Hatch, Kind, Line, Ring, Running, Text
from worked import CUPBOARD, IN, SHELF, STAND

STAND_JOB = {"units": "mm", "materials": SHELF["materials"], "shop": {"fit": 0}, "cabinets": [STAND]}
"""Cups 35 mm, their centres 17.5 + 5 from the edge and 80 from the ends."""


@pytest.fixture(scope="module")
def plans(registry):
    return {
        job["cabinets"][0]["id"]: make_plan(read_job(job, registry), registry) for job in (SHELF, CUPBOARD, STAND_JOB)
    }


def view(plans, cabinet, kind, page=0):
    """Return the view of a sheet that shows the thing itself."""
    sheet = papers.draw(plans[cabinet], kind)[page]
    return next(v for v in sheet.views if not v.furniture)


def lines(shown, *kinds):
    """Return lines as sets of rounded ends, of some kinds or of all."""
    return {
        tuple(sorted(((round(s.a[0], 3), round(s.a[1], 3)), (round(s.b[0], 3), round(s.b[1], 3)))))
        for s in shown.shapes
        if isinstance(s, Line) and (not kinds or s.kind in kinds)
    }


def drawn(strokes, a, b):
    """Whether lines along an axis cover the stretch from a to b without a gap."""
    axis = 0 if a[1] == b[1] else 1
    low, high = sorted((a[axis], b[axis]))
    spans = sorted((p[axis], q[axis]) for p, q in strokes if p[1 - axis] == q[1 - axis] == a[1 - axis])
    for start, end in spans:
        if start <= low < end:
            low = end
    return low >= high


def outlined(strokes, x0, y0, x1, y1):
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    return all(drawn(strokes, a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def boxes(shown):
    """Return the outline of each hatched region: the least box round its polygons."""
    out = set()
    for shape in shown.shapes:
        if isinstance(shape, Hatch):
            xs, ys = zip(*(point for polygon in shape.polygons for point in polygon), strict=True)
            out.add((min(xs), min(ys), max(xs), max(ys)))
    return out


def stops(shown, along):
    return [[s[0] for s in one.stops] for one in shown.shapes if isinstance(one, Running) and one.along == along]


def test_the_front_of_the_shelf(plans):
    shown = view(plans, "patch", "elevation")
    strokes = lines(shown)
    assert drawn(strokes, (0, 0), (0, 720))
    assert drawn(strokes, (600, 0), (600, 720))
    # Top and bottom show from rabbet to rabbet, 9 in from each end; the shelf from groove to groove, 12 in.
    for low, high, inset in ((702, 720, 9), (0, 18, 9), (369, 387, 12)):
        assert outlined(strokes, inset, low, 600 - inset, high)
    # Between them the sides' inner faces are 18 in.
    assert drawn(strokes, (18, 18), (18, 369))
    assert drawn(strokes, (582, 387), (582, 702))
    assert {x for line in strokes for x, _ in line} == {0, 9, 12, 18, 582, 588, 591, 600}
    assert stops(shown, "x") == [[18, 582]]
    assert stops(shown, "y") == [[18, 702]]


def test_the_upright_section_of_the_shelf(plans):
    # Cut at the middle of the room between the sides: 300. The strip ends flush with the rear, 80 high under the top.
    shown = view(plans, "patch", "section")
    assert boxes(shown) == {(0, 702, 320, 720), (0, 0, 320, 18), (0, 369, 320, 387), (302, 622, 320, 702)}
    for x0, z0, x1, z1 in boxes(shown):
        assert outlined(lines(shown, Kind.WIDE), x0, z0, x1, z1)
    # Beyond the cut the left side is seen, in narrow lines.
    assert outlined(lines(shown, Kind.NARROW), 0, 0, 320, 720)
    (angles,) = [[s.angle for s in shown.shapes if isinstance(s, Hatch)]]
    assert all(a != b for a, b in pairwise(angles))


def test_the_level_section_of_the_shelf(plans):
    # The highest room lies between bottom and shelf, 18 to 369: cut at 193.5. There only the sides are cut.
    sheet = papers.draw(plans["patch"], "section")[1]
    shown = view(plans, "patch", "section", 1)
    assert boxes(shown) == {(0, 0, 18, 320), (582, 0, 600, 320)}
    assert any(isinstance(s, Text) and "193.5 mm" in s.text for v in sheet.views for s in v.shapes)


def test_the_wall_with_the_shelf(plans):
    shown = view(plans, "patch", "wall")
    assert outlined(lines(shown, Kind.WIDE), 120, 1400, 720, 2120)
    assert {line[0][0] for line in lines(shown, Kind.CENTRE)} == {200, 600, 1000}
    # Floor and ceiling run from the wall's left end past the last stud.
    assert drawn(lines(shown, Kind.WIDE), (0, 0), (1000, 0))
    assert drawn(lines(shown, Kind.WIDE), (0, 2400), (1000, 2400))
    # Screws 12.065 from the edges of a strip 622 to 702 over the case's floor, in the studs at 200 and 600.
    rings = {(s.centre[0], round(s.centre[1], 3)) for s in shown.shapes if isinstance(s, Ring)}
    assert rings == {(x, 1400 + z) for x in (200, 600) for z in (634.065, 689.935)}
    assert stops(shown, "y") == [[1400]]


def test_the_wall_with_the_cupboard(plans):
    shown = view(plans, "tools", "wall")
    narrow = lines(shown, Kind.NARROW)
    # The wall cleat: 5 to 27 in along, 54 + 23 1/4 = 77 1/4 to 80 1/4 in up; lifted, the top passes 84 7/8.
    cleat = [round(n * IN, 3) for n in (5, 77.25, 27, 80.25)]
    assert outlined(narrow, *cleat)
    lifted = [line for line in lines(shown, Kind.CENTRE) if line[0][1] == line[1][1]]
    assert lifted == [((round(4 * IN, 3), round(84.875 * IN, 3)), (round(28 * IN, 3), round(84.875 * IN, 3)))]
    assert stops(shown, "y") == [[pytest.approx(n * IN) for n in (54, 77.25, 84.875)]]


def test_the_section_of_the_cupboard_shows_the_hook(plans):
    # Under the top the cleats lie behind the back: the cabinet's from 25 1/2 to 28 1/2, the wall's from 23 1/4 to
    # 26 1/4, both from 11 1/4 to 12, with one slope between them.
    shown = view(plans, "tools", "section")
    to_a_32nd = {tuple(round(n / IN * 32) / 32 for n in box) for box in boxes(shown)}
    assert {(11.25, 25.5, 12, 28.5), (11.25, 23.25, 12, 26.25), (10.5, 1.28125, 11.25, 28.71875)} <= to_a_32nd
    slope = tuple(sorted(((round(11.25 * IN, 3), round(26.25 * IN, 3)), (round(12 * IN, 3), round(25.5 * IN, 3)))))
    assert slope in lines(shown, Kind.WIDE)


def test_a_layout_shows_each_part_where_it_is_cut(plans):
    plan = plans["patch"]
    (layout,) = plan.stock.layouts
    shown = view(plans, "patch", "layout")
    ends = {point for line in lines(shown) for point in line}
    assert {(0, 0), (2440, 0), (2440, 1220), (0, 1220)} <= ends
    assert len(layout.placed) == 6
    for part in layout.placed:
        x0, y0 = part.x / 1e6, part.y / 1e6
        x1, y1 = x0 + part.dx / 1e6, y0 + part.dy / 1e6
        assert {(round(x, 3), round(y, 3)) for x in (x0, x1) for y in (y0, y1)} <= ends


def test_an_isometric_view_foreshortens_all_axes_alike(plans):
    # Isometric projection: every axis is drawn √(2/3) as long; x and y run at 30 degrees, z upright (ISO 5456-3).
    shown = view(plans, "patch", "isometric")
    strokes = [(b[0] - a[0], b[1] - a[1]) for a, b in lines(shown)]
    short = math.sqrt(2 / 3)
    assert {round(abs(math.degrees(math.atan2(dy, dx))), 1) for dx, dy in strokes} <= {30.0, 90.0, 150.0}
    tall = max(abs(dy) for dx, dy in strokes if abs(dx) < 1e-6)
    assert tall == pytest.approx(720 * short, abs=0.01)
    (x0, x1) = (f(x for line in lines(shown) for x, _ in line) for f in (min, max))
    assert x1 - x0 == pytest.approx((600 + 320) * short * math.cos(math.radians(30)), abs=0.01)


def test_a_door_seen_from_behind_is_bored_where_it_is_hung(plans):
    sheet = papers.draw(plans["stand"], "door")[0]
    back = next(v for v in sheet.views if v.name == "back")
    cups = {(s.centre, s.radius) for s in back.shapes if isinstance(s, Circle) and s.radius == 17.5}
    # Hinges on the left seen from the front stand on the right from behind: 584 − 22.5 = 561.5.
    assert {centre[0] for centre, _ in cups} == {561.5}
    assert {centre[1] for centre, _ in cups} >= {80, 684 - 80}


def test_the_cups_of_a_door_show_through_its_front(plans):
    # The door lies 10 over the opening of 18 mm sides: from 8 on; its cups 22.5 further, 80 from either end.
    shown = view(plans, "stand", "elevation")
    cups = {s.centre for s in shown.shapes if isinstance(s, Circle) and s.radius == 17.5}
    assert cups >= {(30.5, 8 + 80), (30.5, 700 - 8 - 80)}
    assert all(s.kind is Kind.HIDDEN for s in shown.shapes if isinstance(s, Circle) and s.radius == 17.5)


def test_a_door_lies_as_it_is_drilled(plans):
    # Seen on its back, its bottom on the left: cups 80 from either end, 22.5 from the edge that the hinges are on.
    views = [v for sheet in papers.draw(plans["stand"], "drilling") for v in sheet.views if not v.furniture]
    (back,) = [v for v in views if any(isinstance(s, Circle) and s.radius == 17.5 for s in v.shapes)]
    cups = {s.centre for s in back.shapes if isinstance(s, Circle)}
    assert {x for x, _ in cups} >= {80, 684 - 80}
    assert {y for _, y in cups} in ({22.5}, {584 - 22.5})
    rows = [one for one in back.shapes if isinstance(one, Running)]
    assert "80" in {text.split()[0] for one in rows if one.along == "x" for _, text, _ in one.stops}
    assert {text.split()[0] for one in rows if one.along == "y" for _, text, _ in one.stops} == {"22.5"}


def test_a_template_is_drawn_at_full_size(plans):
    shown = view(plans, "stand", "template")
    assert shown.scale == 1.0
    (cup,) = [s for s in shown.shapes if isinstance(s, Circle)]
    assert (cup.centre, cup.radius) == ((22.5, 80), 17.5)
    assert {(s.along, s.a, s.b, s.text) for s in shown.shapes if isinstance(s, Dimension)} == {
        ("x", 0, 22.5, "22.5"), ("y", 0, 80, "80"),
    }  # fmt: skip


def test_a_parts_page_shows_its_cuts_from_the_sides_their_steps_measure_from(plans):
    # The left side lies with its inner face up: rabbets 18 wide at both ends, the shelf's groove from 369 to 387.
    sheet = papers.draw(plans["patch"], "part", subject="patch/side-left")[0]
    face = next(v for v in sheet.views if v.name == "face")
    strokes = lines(face)
    for x in (0, 18, 369, 387, 702, 720):
        assert drawn(strokes, (x, 0), (x, 320)), x
    # Groove from 369 to 387 of 720: 333 from the top end, which is nearer than the bottom end's 369.
    assert [[text.split()[0] for _, text, _ in one.stops] for one in face.shapes if isinstance(one, Running)] == [
        ["333"]
    ]
    assert stops(face, "x") == [[387]]
    assert [d.datum for d in face.shapes if isinstance(d, Running)] == [720]
    # The far end shows the rabbet 9 deep in 18.
    end = next(v for v in sheet.views if v.name == "far end")
    assert {round(abs(x), 3) for line in lines(end) for x, _ in line} >= {0, 9, 18}


@pytest.mark.parametrize(("at", "missing"), [([200, 600], False), ([1500], True)])
def test_the_wall_says_where_no_fastener_could_be_placed(registry, at, missing):
    studs = {"at": at, "stuff": "spruce-pine-fir", "width": 38, "depth": 89}
    job = {**SHELF, "wall": {**SHELF["wall"], "studs": studs}}
    (sheet,) = papers.draw(make_plan(read_job(job, registry), registry), "wall")
    words = " ".join(s.text for v in sheet.views for s in v.shapes if isinstance(s, Text))
    assert ("No fasteners could be placed for patch:" in words) is missing
    # Without a stud behind its strip the cabinet may not be hung: the plan has a stop, and the drawing says so.
    assert ("DO NOT HANG YET" in words) is missing


def test_a_face_frame_over_a_plinth_is_as_high_as_what_is_left(registry):
    # 700 high on a plinth of 100: the frame runs from 100 to 700 and is 600 high, 600 wide.
    oak = {"kind": "board", "stuff": "red-oak", "thickness": 19}
    cabinet = {
        **STAND, "face_frame": {"material": "oak"}, "space": {},
        "base": {"kind": "plinth", "height": 100, "setback": 50},
    }  # fmt: skip
    job = {**STAND_JOB, "materials": {**SHELF["materials"], "oak": oak}, "cabinets": [cabinet]}
    (sheet,) = papers.draw(make_plan(read_job(job, registry), registry), "door", subject="stand/face-frame")
    shown = next(v for v in sheet.views if not v.furniture)
    sizes = {s.along: (s.a, s.b, s.text) for s in shown.shapes if isinstance(s, Dimension)}
    assert sizes == {"x": (0, 600, "600"), "y": (100, 700, "600")}
    assert outlined(lines(shown), 0, 100, 600, 700)


def test_what_is_seen_beyond_the_cut_is_seen_square_to_it(plans):
    # Toward the left side of the cupboard nothing stands before its front edge, 0 to 30 in, nor before its rear edge.
    strokes = lines(view(plans, "tools", "section"), Kind.NARROW)
    for y in (0, 12):
        assert drawn(strokes, (round(y * IN, 3), 0), (round(y * IN, 3), 762))


def test_a_bevelled_end_shows_four_corners(plans):
    # The wall cleat is 3/4 by 3 in; 45 degrees through 3/4 take one of its upper corners down to 2 1/4.
    sheet = papers.draw(plans["tools"], "part", subject="tools/wall-cleat")[0]
    end = next(v for v in sheet.views if v.name == "far end")
    ends = {(round(x / IN, 4), round(y / IN, 4)) for line in lines(end) for x, y in line}
    heights = sorted(y for _, y in ends)
    assert len(ends) == 4
    assert [h - heights[0] for h in heights] == pytest.approx([0, 0, 2.25, 3])
    (slope,) = [line for line in lines(end) if line[0][0] != line[1][0] and line[0][1] != line[1][1]]
    assert abs(slope[0][0] - slope[1][0]) == pytest.approx(abs(slope[0][1] - slope[1][1]))
