"""Planning on from what is built. What is expected is hand arithmetic on the sizes in the documents."""

from itertools import permutations
from math import isqrt

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.as_built.openings import rooms_of
from casewright.api.engine.cache import PlanCache
from casewright.api.job.document import read_job
from casewright.api.use.examples import examples
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.model import BuiltMeasure
from casewright.sdk.units import INCH, MM

SHORT_SIDE = {"cabinet": "bay", "part": "side-left", "measure": "length", "value": 898}
PANEL = {
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin"},
    "face_frame": {"material": "frame"},
    "space": {"front": "door", "loose_shelves": 1},
}


def sizes(plan):
    return [(one.id, one.length, one.width, one.thickness, one.features, one.bands) for one in plan.parts]


def judged(plan):
    """Return the checks; what is taken from the work names steps, which number otherwise when less is to be cut."""
    return [(one.code, one.level, one.subject, one.value, one.limit) for one in plan.checks]


def test_a_side_2_mm_short_makes_what_is_still_to_be_cut_2_mm_lower(planned, part_of):
    """Asked for: 900 high. The other side, the back and the stiles of frame and door lose 2 mm; no width changes."""
    first, plan = planned(PANEL), planned(PANEL, built=[SHORT_SIDE])
    assert part_of(plan, "side-left").length == part_of(plan, "side-right").length == 898 * MM
    for key in ("back", "frame-stile-left", "door-1/stile-left", "door-1/panel"):
        assert part_of(plan, key).length == part_of(first, key).length - 2 * MM, key
    for key in ("top", "bottom", "frame-rail-top", "door-1/rail-top", "loose-shelf-1"):
        assert part_of(plan, key).length == part_of(first, key).length, key
    assert not [one for one in plan.checks if one.level == "stop"]
    assert {(one.part, one.built) for one in plan.built.changed} >= {("bay/side-left", True), ("bay/side-right", False)}


@pytest.mark.parametrize(("short", "listed"), [(1, False), (2, True)])
def test_a_back_that_is_cut_is_listed_only_where_it_is_to_be_trimmed(planned, short, listed):
    """The back is planned 880.41 long, with room for 1 mm less at its two ends and not for 2 mm."""
    cut = [{"cabinet": "bay", "part": "back", "measure": "length", "value": 880.4125}]
    plan = planned(
        None, {"back": {"material": "thin", "inset": 20}}, built=[{**SHORT_SIDE, "value": 900 - short}, *cut]
    )
    back = [one for one in plan.built.changed if one.part == "bay/back"]
    assert [(one.built, [size.now for size in one.sizes]) for one in back] == [(True, [878_412_500])] * listed


def test_what_is_cut_already_is_not_cut_again(planned, codes):
    plan = planned(built=[SHORT_SIDE], cabinet={"count": 2})
    cut = [piece for step in plan.steps if step.stage == "cut" for piece in step.on if piece.keeps == "bay/side-left"]
    assert not cut
    assert not codes(plan, "work-not-carried-out")


def test_a_cabinet_that_comes_out_smaller_says_so(planned, codes):
    """1/8 in is 3.175 mm: less is a caution, more a stop."""
    assert codes(planned(built=[SHORT_SIDE]), "built-outside") == [("caution", "built-outside", "/cabinets/0/height")]
    far = {**SHORT_SIDE, "value": 890}
    assert codes(planned(built=[far]), "built-outside") == [("stop", "built-outside", "/cabinets/0/height")]


def test_the_longer_of_two_sides_is_trimmed(planned, codes):
    plan = planned(built=[SHORT_SIDE, {**SHORT_SIDE, "part": "side-right", "value": 900}])
    (stop,) = [one for one in plan.checks if one.code == "built-too-long"]
    assert (stop.subject, stop.value, stop.limit) == ("/built/1", 900 * MM, 898 * MM)


def test_a_side_that_is_too_long_is_trimmed_to_what_is_asked_for(planned, part_of):
    plan = planned(built=[{**SHORT_SIDE, "value": 903}])
    (stop,) = [one for one in plan.checks if one.level == "stop"]
    assert (stop.code, stop.limit) == ("built-too-long", 900 * MM)
    assert part_of(plan, "side-right").length == 900 * MM


def test_a_shelf_short_in_its_grooves_goes_in_as_it_is(planned, part_of, codes):
    """Grooves 6 mm deep at both ends: 1.4 mm of 6 is within a quarter, 1.6 mm is not."""
    cabinet = {"space": {"fixed_shelves": 1}}
    case = {"fixed_joint": {"method": "housed-groove", "depth": 6}}
    whole = part_of(planned(cabinet, case), "shelf-1").length
    assert whole == (800 - 2 * 18 + 2 * 6) * MM
    entry = {"cabinet": "bay", "part": "shelf-1", "measure": "length", "value": whole / MM - 1.4}
    plan = planned(cabinet, case, built=[entry])
    assert part_of(plan, "shelf-1").length == whole - 1_400_000
    assert not [one for one in plan.checks if one.level == "stop"]
    assert all(seat.seated for seat in plan.dry_fit.seats)
    short = planned(cabinet, case, built=[{**entry, "value": whole / MM - 1.6}])
    assert [one[1:] for one in codes(short) if one[0] == "stop"] == [("built-too-short", "/built/0")]
    packed = planned(cabinet, case, built=[{**entry, "value": whole / MM - 1.6, "packed": 1.6}])
    assert not [one for one in packed.checks if one.level == "stop"]


def test_a_case_that_is_glued_up_gives_the_frame_and_the_back_their_width(planned, part_of):
    """Measured 801.5 over the sides: rails and the shelf gain 1.5 mm, and no part of the case is cut any more."""
    first = planned(PANEL)
    plan = planned(PANEL, built=[{"cabinet": "bay", "measure": "outside-width", "value": 801.5}])
    for key in ("frame-rail-top", "loose-shelf-1", "door-1/rail-top"):
        assert part_of(plan, key).length == part_of(first, key).length + 1_500_000, key
    assert [part.built for part in plan.parts if part.group == "case" and part.role == "side"] == [1, 1]
    assert part_of(plan, "frame-rail-top").built == 0


def test_what_came_out_as_planned_changes_nothing(planned):
    """Every part of two copies measured as planned: sizes, joints and checks are those of the plan without."""
    cabinet = {**PANEL, "count": 2}
    first = planned(cabinet)
    built = [
        {"cabinet": "bay", "part": part.id[4:], "measure": measure, "value": size / MM, "count": 1 + number % 2}
        for number, part in enumerate(first.parts)
        for measure, size in (("length", part.length), ("width", part.width))
    ]
    plan = planned(cabinet, built=built)
    assert sizes(plan) == sizes(first)
    assert (plan.joints, plan.hardware, plan.doors) == (first.joints, first.hardware, first.doors)
    assert judged(plan) == judged(first)
    assert plan.built.changed == ()
    assert {part.built for part in plan.parts} == {1, 2}


def test_the_order_of_entries_does_not_matter(planned):
    entries = [
        {**SHORT_SIDE, "count": 1},
        {"cabinet": "bay", "part": "top", "measure": "length", "value": 780, "count": 1},
        {"cabinet": "bay", "part": "side-left", "measure": "length", "value": 899, "count": 1},
        {"cabinet": "bay", "part": "side-right", "measure": "length", "value": 899, "copy": 2},
    ]
    orders = list(permutations(entries))[::5]
    plans = [planned({"count": 3}, built=list(order)) for order in orders]
    assert len({str(sizes(plan)) for plan in plans}) == 1
    assert len({str(sorted((c.code, c.level, c.value, c.limit) for c in plan.checks)) for plan in plans}) == 1


def test_copies_that_come_out_differently_are_cabinets_of_their_own(planned, part_of):
    """Three copies, the second measured 2 mm low: it alone changes, at its own place on the wall."""
    wall = {"lining": 12, "ceiling": 2400, "cabinets_at": {"bay": [{"x": x, "z": 1000} for x in (0, 900, 1800)]}}
    plan = planned({"count": 3}, built=[{**SHORT_SIDE, "copy": 2}], wall=wall)
    (low,) = [one.message for one in plan.checks if one.code == "built-outside"]
    assert low.startswith("bay 2 comes out 2 mm smaller in height")
    cabinets = {one.id: (one.copies, one.count) for one in plan.job.cabinets}
    assert cabinets == {"bay 1 and 3": ((1, 3), 2), "bay 2": ((2,), 1)}
    lengths = {part.id: (part.length, part.quantity) for part in plan.parts if part.role == "side"}
    assert lengths["bay 1 and 3/side-right"] == (900 * MM, 2)
    assert lengths["bay 2/side-right"] == (898 * MM, 1)
    places = {one.name: (one.cabinet, one.low[0]) for one in plan.run.standings}
    assert places == {
        "bay 1": ("bay 1 and 3", 0),
        "bay 2": ("bay 2", 900 * MM),
        "bay 3": ("bay 1 and 3", 1800 * MM),
    }
    assert {one.pointer for one in plan.run.standings} == {f"/wall/cabinets_at/bay/{n}" for n in range(3)}


@pytest.mark.parametrize(
    ("entry", "pointer", "words"),
    [
        ({**SHORT_SIDE, "part": "side-lefft"}, "/built/0/part", "side-left"),
        ({**SHORT_SIDE, "value": 89}, "/built/0/value", "450 mm to 1350 mm"),
        ({**SHORT_SIDE, "value": 1351}, "/built/0/value", "450 mm to 1350 mm"),
        ({"cabinet": "bay", "measure": "outside-width", "value": 80}, "/built/0/value", "400 mm to 1200 mm"),
    ],
)
def test_a_measurement_that_cannot_be_is_refused_with_the_range_that_can(planned, entry, pointer, words):
    with pytest.raises(NoGeometryError) as refused:
        planned(built=[entry])
    (problem,) = refused.value.problems
    assert problem.pointer == pointer
    assert words in problem.rule + problem.fix


def test_where_a_smaller_case_has_no_room_the_size_asked_for_is_kept(planned, codes, registry):
    """A slide that fits with 2 mm to spare, and a side that is 12 mm narrow: the side is to be made again."""
    slide = min(registry.catalogue.slides, key=lambda one: one.length)
    depth = slide.length / MM + 2
    drawers = {"material": "case", "bottom": "thin", "front": "case", "slide": slide.id}
    cabinet = {"depth": depth, "space": {"front": "drawer"}, "drawers": drawers}
    narrow = {"cabinet": "bay", "part": "side-left", "measure": "width", "value": depth - 12}
    plan = planned(cabinet, {"back": None}, built=[narrow])
    assert codes(plan, "built-too-short", "built-outside") == [("stop", "built-too-short", "/built/0")]


def test_the_examples_measured_as_planned_are_as_planned(registry, full):
    """Every third part of the run of benches measured, with `--full` every one: nothing differs."""
    every = 1 if full else 3
    document = examples()[-1].job()
    job = read_job(document, registry)
    first = make_plan(job, registry)
    mm_or_in = MM if job.units == "mm" else INCH
    built = [
        {"cabinet": part.cabinet, "part": part.id.partition("/")[2], "measure": measure, "value": size / mm_or_in}
        for part in first.parts[::every]
        if part.group != "filler"
        for measure, size in (("length", part.length), ("width", part.width))
    ]
    plan = make_plan(read_job({**document, "built": built}, registry), registry)
    assert sizes(plan) == sizes(first)
    assert plan.joints == first.joints
    assert judged(plan) == judged(first)


def as_planned(plan, cabinet):
    """Return an entry for every measure there is, each as planned: of parts, of the case, of what things go into."""
    case, frame = cabinet.construction.cabinet, cabinet.construction.cabinet.face_frame
    thick = plan.job.materials[frame.material].thickness if frame else 0
    sizes = [
        (part.id[4:], measure, size)
        for part in plan.parts
        for measure, size in (("length", part.length), ("width", part.width), ("thickness", part.thickness))
    ]
    sizes += [
        (key, measure, size)
        for key, room in rooms_of(cabinet).items()
        for measure, size in (("opening-width", room.width), ("opening-height", room.height))
    ]
    outside = {
        "outside-width": case.case_width,
        "outside-height": case.case_height,
        "outside-depth": case.depth - thick,
    }
    outside |= dict.fromkeys(("diagonal-rising", "diagonal-falling"), isqrt(case.case_width**2 + case.case_height**2))
    rows = [{"cabinet": "bay", "part": key, "measure": measure, "value": size / MM} for key, measure, size in sizes]
    return [*rows, *({"cabinet": "bay", "measure": name, "value": size / MM} for name, size in outside.items())]


@pytest.mark.parametrize("framed", [True, False])
def test_every_kind_of_entry_as_planned_changes_nothing(planned, document, registry, framed):
    """With a frame and a panelled door, and with an inset door in the case: and whatever the order of the entries."""
    inset = {"space": {"front": "door", "loose_shelves": 1}}
    cabinet = PANEL if framed else {**inset, "doors": {**PANEL["doors"], "hang": "inset"}}
    case = {
        "back": {"material": "thin", "inset": 15},
        "corner": {"method": "housed-groove"},
        "top_inset": 20,
        "bottom_inset": 20,
    }
    first = planned(cabinet, case)
    (one,) = PlanCache().cabinets(read_job(document(cabinet, case), registry), registry)
    rows = as_planned(first, one)
    assert {row["measure"] for row in rows} == set(BuiltMeasure)
    for entries in (rows, rows[::-1], sorted(rows, key=str)):
        plan = planned(cabinet, case, built=entries)
        assert sizes(plan) == sizes(first)
        assert (plan.joints, plan.hardware, plan.doors) == (first.joints, first.hardware, first.doors)
        assert judged(plan) == judged(first)
        assert plan.built.changed == ()


def test_the_order_of_entries_of_every_kind_does_not_matter(planned):
    """Sizes, a thickness, diagonals, an opening and mistakes of two copies, in any order."""
    cabinet = {**PANEL, "count": 2}
    case = {
        "corner": {"method": "housed-groove"},
        "top_inset": 20,
        "bottom_inset": 20,
        "back": {"material": "thin", "inset": 15},
    }
    entries = [
        {**SHORT_SIDE, "copy": 1},
        {"cabinet": "bay", "part": "top", "measure": "thickness", "value": 18.5, "copy": 2},
        {"cabinet": "bay", "measure": "diagonal-rising", "value": 1206, "copy": 1},
        {"cabinet": "bay", "part": "door-1/panel", "measure": "opening-width", "value": 620, "copy": 2},
        {"cabinet": "bay", "part": "door-1", "mistake": "panel-forgotten", "copy": 1},
        {"cabinet": "bay", "part": "side-left", "mistake": "groove-on-wrong-face", "copy": 2},
    ]
    plans = [planned(cabinet, case, built=list(order)) for order in list(permutations(entries))[::97]]
    assert len({str(sizes(plan)) for plan in plans}) == 1
    assert len({str(sorted((c.code, c.level, c.value, c.limit) for c in plan.checks)) for plan in plans}) == 1
    assert len({str(sorted(step.do for step in plan.steps)) for plan in plans}) == 1
