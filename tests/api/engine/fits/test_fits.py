"""Fits of small cabinets by hand arithmetic (derived), and of every example against the boxes of its parts."""

import math
from dataclasses import replace

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.fits import Subject, unproved_fits
from casewright.api.job.document import read_job
from casewright.api.use.examples import example_job, examples
from casewright.sdk.geometry import Box
from casewright.sdk.model import Action, FitKind, Stage, Take, Verdict, Where, WhyUnproved

ACTIONS = ("rip", "crosscut", "trim", "thickness", "groove", "rabbet", "notch", "tenon", "dovetail", "profile", "bore")
ACTIONS += ("band", "fit", "mark", "measure", "sheet")
BUTT = {"corner": {"method": "screwed-butt"}, "back": None}
GROOVED = {"corner": {"method": "housed-groove"}, "back": None, "top_inset": 20, "bottom_inset": 20}
INSET = {
    "space": {"front": "door"},
    "doors": {"style": "slab", "material": "case", "hang": "inset", "gap": 2},
}


def accurate(size):
    """Return an accuracy of so much for every action."""
    return {"accuracy": dict.fromkeys(ACTIONS, size)}


def fit(plan, kind):
    """Return the one fit of a kind across its cabinet."""
    (one,) = [fit for fit in plan.fits if fit.kind is kind and fit.axis == 1]
    return one


def figures(fit):
    return fit.stack.worst / 1e6, fit.stack.root / 1e6, fit.stack.cautious / 1e6


def test_a_shelf_between_butted_sides(planned):
    # bottom 764 and shelf, each cut to a stop of its own: .2 + .2, root .28284, cautious the worst case, .4
    one = fit(planned({"space": {"loose_shelves": 1}}, BUTT), FitKind.SHELF_PLAY)
    assert figures(one) == pytest.approx((0.4, 0.2 * math.sqrt(2), 0.4), abs=1e-6)
    assert one.verdict is Verdict.HOLDS


def test_two_grooves_at_one_setting_add_before_the_root(planned):
    # bottom .2, both grooves .1 + .1 as one error, shelf .2: worst .6, root .34641, cautious .51962
    one = fit(planned({"space": {"loose_shelves": 1}}, GROOVED), FitKind.SHELF_PLAY)
    assert figures(one) == pytest.approx((0.6, 0.34641, 0.51962), abs=1e-5)
    assert sorted(share.half_width for share in one.stack.shares) == pytest.approx([2e5, 2e5, 2e5])


@pytest.mark.parametrize(
    ("size", "verdict"),
    [
        # bottom, door and cup, each a cut: root .34641, x 1.5 = .52 of the 1 mm that a gap of 2 may be off
        (0.2, Verdict.HOLDS),
        # 1.5588 is more than 1; without the cup 1.2728, shared by two gaps .636; the hinge reaches 2
        (0.6, Verdict.ADJUST),
        # 2.598 is more than the hinge's 2
        (1.0, Verdict.TAKE_FROM_WORK),
    ],
)
def test_an_inset_door(planned, size, verdict):
    one = fit(planned(INSET, BUTT, shop=accurate(size)), FitKind.DOOR_GAP)
    assert figures(one) == pytest.approx((3 * size, math.sqrt(3) * size, 1.5 * math.sqrt(3) * size), abs=1e-6)
    assert (one.nominal, one.least, one.most) == (2_000_000, 1_000_000, 3_000_000)
    assert one.verdict is verdict
    assert (one.measuring is None) == (verdict is not Verdict.TAKE_FROM_WORK)


def test_a_door_taken_from_the_work_is_cut_when_its_case_is_glued(planned):
    plan = planned(INSET, BUTT, shop=accurate(1.0))
    one = fit(plan, FitKind.DOOR_GAP)
    assert one.measuring.cut == ("bay/door-1/slab",)
    reading = one.measuring.measurement
    assert set(reading.between) == {"bay/side-left", "bay/side-right"}
    # 800 less two sides of 18, and the door less two gaps of 2
    assert (reading.planned, reading.where, reading.take) == (764_000_000, Where.BETWEEN, Take.LEAST)
    (width,) = one.measuring.sizes
    assert (width.planned, width.less, width.among) == (760_000_000, 4_000_000, 1)
    # what is left: the reading, the door's cut, its cup, 1 each: root 1.73205, x 1.5 = 2.59808, past the hinge's 2
    left = one.measuring.stack
    assert (left.worst / 1e6, left.root / 1e6) == pytest.approx((3.0, math.sqrt(3)), abs=1e-6)
    assert not one.measuring.good
    measures = plan.steps[one.measuring.step - 1]
    assert measures.action is Action.MEASURE
    assert {"bay/side-left", "bay/side-right"} == {piece.part for piece in measures.on}
    glued = max(step.number for step in plan.steps if step.stage is Stage.GLUE)
    (cut,) = [step for step in plan.steps if step.cut_to and step.cut_to.step == measures.number]
    assert glued < measures.number < cut.number
    assert [piece.keeps.split(", ")[0] for piece in cut.on] == ["bay/door-1/slab"]
    (note,) = [check for check in plan.checks if check.code == "fit-from-the-work" and check.subject == "bay/door-1"][
        :1
    ]
    assert (note.level, note.value, note.limit) == ("note", round(one.stack.cautious), 1_000_000)


def test_perfect_work_holds_everything(planned):
    plan = planned(INSET, BUTT, shop=accurate(0))
    assert plan.fits
    assert all(one.stack.worst == 0.0 and one.verdict is Verdict.HOLDS for one in plan.fits)


def test_a_frame_is_cut_to_its_case(planned):
    # case: bottom .2 and two thicknesses of one sheet, .1 + .1; frame: rail .2 and two stiles at one fence, .2 + .2;
    # set by hand .2: root sqrt(.04 + .04 + .04 + .16 + .04) = .56569, x 1.5 = .84853, more than 1/64 in
    frame = {"face_frame": {"material": "frame", "stile": 40, "rail": 40}}
    plan = planned(frame, BUTT)
    one = fit(plan, FitKind.FRAME_FLUSH)
    assert figures(one) == pytest.approx((1.2, 0.56569, 0.84853), abs=1e-5)
    assert one.verdict is Verdict.TAKE_FROM_WORK
    assert (one.measuring.measurement.where, one.measuring.measurement.take) == (Where.OVER, Take.GREATEST)
    # its rails are what the case measures less two stiles of 40; its stiles are no part of it
    assert {(size.part, size.less) for size in one.measuring.sizes} == {
        ("bay/frame-rail-bottom", 80_000_000),
        ("bay/frame-rail-top", 80_000_000),
    }
    # what is left: the reading .25, the rail .2, the stiles .2 + .2, set by hand .2: root sqrt(.3025) = .55, x 1.5 =
    # .825, more than 1/64 in: it is planed flush
    assert one.measuring.stack.root / 1e6 == pytest.approx(0.55, abs=1e-6)
    assert not one.measuring.good
    (note,) = [check for check in plan.checks if (check.code, check.subject) == ("fit-from-the-work", "bay")][:1]
    assert "0.82 mm off: they are left 0.9 mm full" in note.message
    # the case is glued when it is measured, and the frame is not begun
    on_frame = [step.number for step in plan.steps if step.stage is Stage.FACE_FRAME]
    glued = [step.number for step in plan.steps if step.stage is Stage.GLUE]
    assert max(glued) < one.measuring.step < min(on_frame)


def test_a_door_follows_the_frame_that_is_cut_to_its_case(planned):
    # rail .2, door .2 and cup .2; the rail is cut to the case as it is: bottom .2 and two thicknesses of one sheet,
    # .1 + .1, and the reading .25: worst 1.25, root sqrt(.2 + .0625) = .51235; x 1.5 = .76852 of the 1 mm that a gap
    # of 2 may be off
    frame = {"face_frame": {"material": "frame", "stile": 40, "rail": 40}}
    one = fit(planned({**INSET, **frame}, BUTT), FitKind.DOOR_GAP)
    assert figures(one) == pytest.approx((1.25, 0.51235, 0.76852), abs=1e-5)
    assert one.verdict is Verdict.HOLDS
    # cut to the drawing, as perfect frames may be, it hangs on rail, door and cup alone: root .2 x sqrt(3)
    sure = {"accuracy": {"fit": 0, "sheet": 0}}
    alone = fit(planned({**INSET, "face_frame": None}, BUTT, shop=sure), FitKind.DOOR_GAP)
    assert alone.stack.root / 1e6 == pytest.approx(0.2 * math.sqrt(3), abs=1e-5)


@pytest.fixture(scope="module")
def example_plans(registry):
    return [make_plan(read_job(one.job(), registry), registry) for one in examples()]


def box_of(plan, ids):
    return Box.union(part.place.box(part.blank) for part in plan.parts if part.id in ids)


def test_chains_close(example_plans):
    """What a chain's links come to is the room between its walls less what goes in, by the parts' own boxes."""
    judged = 0
    for plan in example_plans:
        leaves = {leaf.id: leaf for leaf in plan.doors}
        for one in plan.fits:
            if one.kind in (FitKind.SHELF_PLAY, FitKind.STRIP_PLAY, FitKind.RUNNER_ROOM, FitKind.PANEL_PLAY):
                assert sum(link.nm for link in one.links) == one.nominal
                judged += 1
            elif one.kind is FitKind.DOOR_GAP and one.axis == 3:
                assert sum(link.nm for link in one.links) == 2 * one.nominal
            elif one.kind is FitKind.DOOR_OVERLAP:
                assert sum(link.nm for link in one.links) == -2 * one.nominal
                assert one.id.split(" ")[0] in leaves
    assert judged > 20


def test_every_kind_but_runs_is_among_the_examples(example_plans):
    assert {one.kind for plan in example_plans for one in plan.fits} >= set(FitKind) - {FitKind.RUN_GAP}


@pytest.mark.parametrize(("size", "most"), [("1/32", 0.9), ("0.2 mm", 0.4)])
def test_rougher_work_leaves_more_to_be_measured(registry, size, most):
    """At 1/32 in the demo's doors, frames and panels wait for the work; at 0.2 mm doors and panels do not."""
    bay = example_job()
    plan = make_plan(read_job({**bay, "shop": {**bay["shop"], **accurate(size)}}, registry), registry)
    waiting = {one.kind for one in plan.fits if one.verdict is Verdict.TAKE_FROM_WORK}
    assert FitKind.FRAME_FLUSH in waiting
    assert ({FitKind.DOOR_GAP, FitKind.PANEL_PLAY} <= waiting) == (size == "1/32")
    assert sum(one.verdict is Verdict.TAKE_FROM_WORK for one in plan.fits) < most * len(plan.fits)


def test_what_has_no_chain_is_listed_with_why(planned, registry):
    plan = planned({"space": {"loose_shelves": 1}}, BUTT)
    assert plan.unproved == ()
    hinges, shelf = registry.catalogue.hinges, "bay/loose-shelf-1 across"
    whole = Subject(plan.job, plan.parts, plan.joints, plan.doors, hinges)
    for gone, why in (("top", WhyUnproved.NO_CHAIN), ("side-right", WhyUnproved.NO_BOUNDS)):
        left = [part for part in plan.parts if part.id not in (f"bay/{gone}", "bay/bottom")]
        reasons = {one.id: one.why for one in unproved_fits(replace(whole, parts=left), plan.steps)}
        assert reasons[shelf] is why


def test_doors_before_banded_edges_lap_what_the_wood_bounds(example_plans):
    """The run of benches has doors before cases whose bands stand 2 mm before the wood: they lap it all the same."""
    doors = {leaf.id for plan in example_plans for leaf in plan.doors}
    judged = {one.id.split(" ")[0] for plan in example_plans for one in plan.fits if one.axis == 3}
    assert doors <= judged
    assert not [one for plan in example_plans for one in plan.unproved]


# What a cabinetmaker takes from the work (common practice, no source): a frame's stiles and rails from its case, a
# door of a pair between stiles from its opening, a panel from the frame it goes in, a strip, shelf or nailer from
# between its sides. What laps, as a full-overlay door does, is made to the drawing.
FROM_THE_WORK = {
    "frame-stile": "frame from case",
    "frame-rail": "frame from case",
    "door-rail": "door from opening",
    "door-panel": "panel from frame",
    "back": "panel from frame",
    "cleat": "strip from between sides",
    "strip": "strip from between sides",
    "shelf": "shelf from between sides",
}


def test_a_cabinetmaker_s_list_comes_out_of_the_numbers(registry):
    """At 1/32 in all of it waits; at 0.2 mm what has no play of its own: frames and strips."""
    bay = example_job()
    lists = {}
    for size in ("1/32", "0.2 mm"):
        plan = make_plan(read_job({**bay, "shop": {**bay["shop"], **accurate(size)}}, registry), registry)
        roles = {part.id: part.role for part in plan.parts}
        taken = {roles[name] for fit in plan.fits if fit.measuring for name in fit.measuring.cut}
        lists[size] = {FROM_THE_WORK[role] for role in taken}
        lapping = [fit for fit in plan.fits if fit.kind is FitKind.DOOR_OVERLAP]
        assert lapping
        assert all(fit.verdict is Verdict.HOLDS for fit in lapping)
        assert not [check for check in plan.checks if check.level == "stop"]
    assert lists["1/32"] == set(FROM_THE_WORK.values())
    assert lists["0.2 mm"] == {"frame from case", "strip from between sides"}


def test_stops_round_a_pane_go_in_with_it(registry):
    # They are pinned one after another (common practice): none of them stands to be measured before the others go in.
    bay = example_job()
    bay["house"]["doors"]["panel_kind"] = "glass"
    bay["materials"]["infill"] = {"kind": "sheet", "stuff": "float-glass", "thickness": "1/8"}
    plan = make_plan(read_job(bay, registry), registry)
    assert not [one for one in plan.fits if "/stop-" in one.id]
    assert not [check for check in plan.checks if check.level == "stop"]


@pytest.mark.parametrize("size", ["1/32", "0.2 mm"])
def test_beads_and_fillers_are_taken_from_the_work(registry, size):
    """A bead is mitred to the opening that it lines, a filler ripped to its gap: neither has any play to spare."""
    bay = example_job()
    bay["house"]["face_frame"]["bead"] = "1/4"
    left = bay["wall"]["cabinets_at"]["tools"][0]
    left["fillers"] = {"left": {"material": "frame"}}
    bay["wall"] |= {"length": 96, "corners": "left"}
    bay["shop"] |= accurate(size)
    plan = make_plan(read_job(bay, registry), registry)
    taken = {name for fit in plan.fits if fit.measuring and fit.measuring.step for name in fit.measuring.cut}
    for group in ("face-frame", "fillers"):
        own = {part.id for part in plan.parts if (part.group, part.role) == (group, "strip")}
        assert own
        assert own <= taken, group
    assert not [check for check in plan.checks if check.level == "stop"]


def test_a_bead_is_cut_when_the_frame_that_it_lines_is_glued(registry):
    """Its other mitre stands a bead's thickness short of what was measured: 6 mm in the tall store."""
    (tall,) = [one.job() for one in examples() if "tall" in one.name]
    plan = make_plan(read_job(tall, registry), registry)
    (fit,) = [fit for fit in plan.fits if fit.id == "store/bead-1-left up"]
    glued = [step.number for step in plan.steps if step.action is Action.CLAMP and step.stage is Stage.FACE_FRAME]
    (sets_in,) = [
        step.number
        for step in plan.steps
        if step.action is Action.INSERT and "store/bead-1-left" in {one.part for one in step.on}
    ]
    assert min(glued) < fit.measuring.step < sets_in
    (mitre,) = [
        step
        for step in plan.steps
        if step.action is Action.BEVEL and "store/bead-1-left" in {one.part for one in step.on}
    ]
    assert (mitre.cut_to.step, mitre.cut_to.less, mitre.cut_to.among) == (fit.measuring.step, 6_000_000, 1)


@pytest.mark.parametrize("gap", ["0.2", "0.6", "3"])
def test_a_gap_between_neighbours_that_nothing_is_cut_for_leaves_nothing_over_size(registry, gap):
    """No filler goes into so narrow a gap: its fit is judged, and no part is left to be cut to it."""
    box = {"width": 400, "height": 400, "depth": 300, "case": {"material": "ply"}}
    job = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [{"id": "pumps", **box}, {"id": "tubes", **box}],
        "wall": {
            "studs": {"at": [100, 500], "stuff": "spruce-pine-fir"},
            "cabinets_at": {"pumps": [{"x": 0, "z": 900}], "tubes": [{"x": 400 + float(gap), "z": 900}]},
        },
    }
    plan = make_plan(read_job(job, registry), registry)
    assert [one.nominal / 1e6 for one in plan.fits if one.kind is FitKind.RUN_GAP] == [pytest.approx(float(gap))]
    assert [size for one in plan.fits if one.measuring for size in one.measuring.sizes] == []
