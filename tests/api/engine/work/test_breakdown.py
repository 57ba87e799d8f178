"""From stock to parts, step by step, on plans small enough to follow by hand; sizes in mm."""

from dataclasses import replace

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.breakdown import breakdown_of
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.naming import NamedParts
from casewright.api.engine.work.quoting import quoting
from casewright.api.engine.work.replay import replay
from casewright.api.job.document import read_job
from casewright.sdk.model import Action, Machine, Stage

MM = 1_000_000

JOB = {
    "title": "Tyre rack",
    "units": "mm",
    "materials": {
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
    },
    "cabinets": [],
    "loose_parts": [
        {"id": "rack", "material": "ply", "length": 600, "width": 300, "quantity": 2},
        {"id": "rung", "material": "oak", "length": 500, "width": 60, "quantity": 3},
    ],
    "stock": {
        "sheets": [{"id": "full", "material": "ply", "length": 2440, "width": 1220}],
        "boards": [{"id": "plank", "material": "oak", "length": 2000, "width": 150, "thickness": 25}],
        "kerf": 4,
        "edge_trim": 10,
        "milling": {"length": 25, "width": 8, "thickness": 5},
    },
}


@pytest.fixture
def plan(registry):
    """Return a function that plans the rack with what is given laid over its stock."""

    def make(**stock):
        return make_plan(read_job({**JOB, "stock": {**JOB["stock"], **stock}}, registry), registry)

    return make


def test_a_sheet_is_trimmed_along_one_edge_and_one_end_and_keeps_its_name(plan):
    made = plan()
    (trim,) = [step for step in made.steps if step.action is Action.TRIM]
    assert trim.machine is Machine.TRACK_SAW
    assert (trim.setting.depth, trim.setting.kerf) == (10 * MM, 4 * MM)
    (sheet,) = [layout for layout in made.stock.layouts if layout.kind == "sheet"]
    assert [(one.piece, one.keeps, one.leaves) for one in trim.on] == [(f"full {sheet.number}",) * 2 + ("",)]
    assert sorted(cut.fence for cut in sheet.cuts if cut.step == trim.number) == [
        size * MM
        for size in (1210, 2430)  # 10 off one edge and one end
    ]


def test_an_offcut_and_a_sheet_with_no_trim_are_not_trimmed(plan):
    assert all(step.action is not Action.TRIM for step in plan(edge_trim=0).steps)
    offcut = {"offcuts": [{"id": "rest", "material": "ply", "length": 700, "width": 700}], "sheets": []}
    assert all(step.action is not Action.TRIM for step in plan(**offcut).steps)


def test_rough_blanks_are_milled_between_rough_and_final_cuts(plan):
    """25 rough to 19: 3 off the first face, then planed; 8 over in width less a kerf of 4: 2 off the first edge."""
    made = plan()
    steps = [step for step in made.steps if any("rung" in name for one in step.on for name in (one.piece, one.keeps))]
    assert [step.action for step in steps if step.stage in (Stage.CUT, Stage.MILL)][-6:] == [
        Action.FACE, Action.EDGE, Action.THICKNESS, Action.WAIT, Action.RIP, Action.CROSSCUT,
    ]  # fmt: skip
    face, edge, thickness, rest, rip, crosscut = [s for s in steps if s.stage in (Stage.CUT, Stage.MILL)][-6:]
    assert face.setting.depth == 3 * MM
    assert edge.setting.depth == 2 * MM
    assert thickness.setting.height == 19 * MM
    assert [(one.piece, one.count) for step in (face, edge, thickness, rest) for one in step.on] == [
        ("loose/rung, over size", 3)
    ] * 4
    assert (rip.setting.fence, crosscut.setting.stop) == (60 * MM, 500 * MM)
    assert [(one.piece, one.keeps, one.count) for one in rip.on] == [("loose/rung, over size", "loose/rung, ripped", 3)]
    assert [(one.piece, one.keeps, one.count) for one in crosscut.on] == [("loose/rung, ripped", "loose/rung", 3)]
    rough = [
        one for step in steps if step.number < face.number for one in step.on if one.keeps == "loose/rung, over size"
    ]
    assert sum(one.count for one in rough) == 3


def test_a_board_as_thick_as_the_part_with_nothing_left_on_is_not_milled(plan):
    boards = [{"id": "plank", "material": "oak", "length": 2000, "width": 150, "thickness": 19}]
    for milling in ({}, {"length": 25, "width": 8}):
        assert all(step.stage is not Stage.MILL for step in plan(boards=boards, milling=milling).steps)


def test_a_thicker_board_with_nothing_left_on_is_milled_after_its_last_cut(plan):
    made = plan(milling={"length": 0, "width": 0, "edge": 0})
    face, thickness, rest = [step for step in made.steps if step.stage is Stage.MILL]
    assert (face.setting.depth, thickness.setting.height) == (3 * MM, 19 * MM)
    assert [(one.piece, one.keeps, one.count) for one in thickness.on] == [("loose/rung, over size", "loose/rung", 3)]
    assert rest.action is Action.WAIT
    assert all(cut.step < face.number for layout in made.stock.layouts for cut in layout.cuts)


def test_a_rough_board_is_cross_cut_made_straight_on_an_edge_and_ripped_before_its_blanks_are_milled(plan):
    """A blank is 525 × 68; 2 lie side by side on a board of 150 less 4 off its edge, so that 2 lengths make 3 rungs."""
    made = plan(milling={"length": 25, "width": 8, "edge": 4})
    board = {one.number: one for one in made.stock.layouts if one.kind == "board"}
    steps = {cut.step for one in board.values() for cut in one.cuts} | {
        step.number for step in made.steps if step.stage is Stage.MILL
    }
    rough = [step for step in made.steps if step.number in steps]
    assert [step.action for step in rough] == [
        Action.CROSSCUT, Action.EDGE, Action.RIP, Action.FACE, Action.EDGE, Action.THICKNESS, Action.WAIT, Action.RIP,
        Action.CROSSCUT,
    ]  # fmt: skip
    crosscut, edge, rip, *_ = rough
    assert (crosscut.setting.stop, edge.setting.depth, rip.setting.fence) == (525 * MM, 4 * MM, 68 * MM)
    assert sum(one.count for one in edge.on) == 2
    assert edge.machine is Machine.TRACK_SAW
    assert [c for c in made.checks if c.code == "work-not-carried-out"] == []


@pytest.mark.parametrize(("length", "short"), [(279, True), (280, False)])
def test_a_length_too_short_to_lie_under_a_track_is_fixed_on_a_board(registry, length, short):
    """12 in is 304.8 mm: a length of 279 with 25 over is shorter, one of 280 is not (common practice, no source)."""
    rungs = {"id": "rung", "material": "oak", "length": length, "width": 60, "quantity": 2}
    job = {**JOB, "loose_parts": [rungs], "stock": {**JOB["stock"], "milling": {"length": 25, "width": 8, "edge": 4}}}
    made = make_plan(read_job(job, registry), registry)
    (edge,) = [step for step in made.steps if step.action is Action.EDGE and step.machine is Machine.TRACK_SAW]
    minds = [text for text in edge.cautions if "longer board" in text]
    assert len(minds) == short
    assert all(edge.on[0].piece in text for text in minds)


def test_a_board_with_planed_faces_has_an_edge_straightened_and_nothing_left_on(plan):
    boards = [{"id": "plank", "material": "oak", "length": 2000, "width": 150, "surfaced": "two-faces"}]
    made = plan(boards=boards, milling={"edge": 4})
    (edge,) = [step for step in made.steps if step.stage is Stage.MILL]
    assert (edge.action, edge.setting.depth) == (Action.EDGE, 4 * MM)
    rips = [step for step in made.steps if step.action is Action.RIP and any("plank" in one.piece for one in step.on)]
    assert [step.setting.fence for step in rips] == [60 * MM]
    assert edge.number < rips[0].number
    assert edge.number in rips[0].needs


def test_a_thicker_board_with_planed_faces_is_only_planed(plan):
    row = {"id": "plank", "material": "oak", "length": 2000, "width": 150, "thickness": 25, "surfaced": "all-sides"}
    thickness, rest = [step for step in plan(boards=[row], milling={}).steps if step.stage is Stage.MILL]
    assert (thickness.action, thickness.setting.height, rest.action) == (Action.THICKNESS, 19 * MM, Action.WAIT)


def test_a_rip_of_a_board_whose_edge_is_rough_is_found_by_the_simulated_shop(plan):
    made = plan(milling={"length": 25, "width": 8, "edge": 4})
    given = given_of(made.job, made.parts, made.stock)
    (edge,) = [step for step in made.steps if step.action is Action.EDGE and step.machine is Machine.TRACK_SAW]
    skipped = [replace(step, action=Action.WAIT) if step is edge else step for step in made.steps]
    faults = replay(skipped, made.parts, made.joints, given)
    assert "no edge of the piece is straight yet" in {fault.what for fault in faults}


def test_every_cut_of_the_layouts_quotes_the_step_that_makes_it(plan):
    made = plan()
    steps = {step.number: step for step in made.steps}
    for layout in made.stock.layouts:
        for cut in layout.cuts:
            step = steps[cut.step]
            if step.action not in (Action.TRIM, Action.EDGE):
                assert cut.fence in (step.setting.fence, step.setting.stop)
                assert (step.action is Action.RIP) is (cut.along == "length")
    parted = sum(one.count for s in made.steps if s.action in (Action.RIP, Action.CROSSCUT) for one in s.on)
    parted += sum(
        one.count for s in made.steps if s.action is Action.EDGE and s.machine is not Machine.JOINTER for one in s.on
    )
    assert parted + 2 == sum(len(layout.cuts) for layout in made.stock.layouts)  # 2 trims of the one sheet


def test_a_cut_is_made_at_the_saw_its_piece_is_safe_at_and_the_layout_names_no_other(plan):
    """A sheet 1220 wide is cut across with a track; a rest of 500 × 400 lies on the sled, and no step needs another."""
    offcut = {"offcuts": [{"id": "rest", "material": "ply", "length": 950, "width": 610}], "sheets": []}
    for made in (plan(), plan(**offcut)):
        of_step = {step.number: step for step in made.steps}
        for layout in made.stock.layouts:
            for cut in layout.cuts:
                step = of_step[cut.step]
                assert cut.tool == {"table-saw": "fence", "crosscut-sled": "stop", "track-saw": "track"}[step.machine]
                if step.action is not Action.TRIM and step.machine is Machine.TABLE_SAW:
                    assert cut.run >= cut.across


def test_cuts_are_numbered_in_the_order_of_the_steps(plan):
    made = plan()
    cuts = [cut for layout in made.stock.layouts for cut in layout.cuts]
    by_number = sorted(cuts, key=lambda cut: cut.number)
    assert [cut.number for cut in by_number] == list(range(1, len(cuts) + 1))
    assert [cut.step for cut in by_number] == sorted(cut.step for cut in cuts)
    for layout in made.stock.layouts:
        assert sorted(numbers(layout.tree)) == [cut.number for cut in layout.cuts]


def numbers(piece):
    return [*piece.cuts, *(number for one in piece.inside for number in numbers(one))]


def test_steps_in_another_order_are_quoted_all_the_same(plan):
    made = plan()
    breakdown = breakdown_of(made.job, {part.id: part for part in made.parts}, made.stock)
    later = [replace(step, number=step.number + 100) for step in reversed(made.steps)]
    quoted = quoting(made.stock, breakdown, later)
    for was, now in zip(made.stock.layouts, quoted.layouts, strict=True):
        assert [cut.step + 100 for cut in was.cuts] == [cut.step for cut in now.cuts]


def test_rips_and_cross_cuts_at_one_distance_are_two_steps(registry):
    """Six parts 300 × 300 of a sheet 1000 × 700: two strips are ripped at 300, and three parts crosscut off each."""
    parts = [{"id": "tile", "material": "ply", "length": 300, "width": 300, "quantity": 6}]
    sheet = {"id": "full", "material": "ply", "length": 1000, "width": 700}
    job = {**JOB, "loose_parts": parts, "stock": {"sheets": [sheet], "kerf": 4}}
    steps = make_plan(read_job(job, registry), registry).steps
    at = [step.action for step in steps if 300 * MM in (step.setting.fence, step.setting.stop)]
    assert sorted(at) == [Action.CROSSCUT, Action.RIP]


def test_a_caution_stands_at_its_step_and_names_the_piece(registry):
    """A lath 40 wide and 600 long of an offcut as long: one rip, narrower than the 50 that need no push block."""
    parts = [{"id": "lath", "material": "ply", "length": 600, "width": 40}]
    offcut = {"id": "rest", "material": "ply", "length": 600, "width": 300}
    job = {**JOB, "loose_parts": parts, "stock": {"offcuts": [offcut], "kerf": 4}}
    (rip,) = [step for step in make_plan(read_job(job, registry), registry).steps if step.action is Action.RIP]
    assert any(line.startswith("Narrow strip") and line.endswith("(lath).") for line in rip.cautions)


@pytest.mark.parametrize(
    ("machines", "saw", "fence"), [(["table-saw"], "table-saw", 197), (["table-saw", "track-saw"], "track-saw", 800)]
)
def test_without_a_track_what_is_beyond_the_blade_rides_the_fence_if_in_reach(registry, machines, saw, fence):
    """A fence reaches 600. Of 1000 a part 800 wide is ripped: 800 is too far, the rest less a kerf of 3 is 197."""
    parts = [{"id": "deck", "material": "ply", "length": 1900, "width": 800}]
    offcut = {"id": "rest", "material": "ply", "length": 1900, "width": 1000}
    job = {**JOB, "loose_parts": parts, "stock": {"offcuts": [offcut], "kerf": 3},
           "shop": {"rip_capacity": 600, "machines": machines}}  # fmt: skip
    made = make_plan(read_job(job, registry), registry)
    (rip,) = [step for step in made.steps if step.action is Action.RIP]
    assert (rip.machine, rip.setting.fence) == (saw, fence * MM)
    (cut,) = made.stock.layouts[0].cuts
    assert (cut.fence, cut.rides) == (fence * MM, "makes" if fence == 800 else "leaves")
    assert [c for c in made.checks if c.level == "stop"] == []


def test_a_cut_that_no_saw_of_the_shop_reaches_is_a_stop_naming_the_saw(registry):
    """Neither 800 nor 800 beyond it is in reach of a fence at 600."""
    parts = [{"id": "deck", "material": "ply", "length": 1900, "width": 800, "quantity": 2}]
    offcut = {"id": "rest", "material": "ply", "length": 1900, "width": 1603}
    job = {**JOB, "loose_parts": parts, "stock": {"offcuts": [offcut], "kerf": 3},
           "shop": {"rip_capacity": 600, "machines": ["table-saw"]}}  # fmt: skip
    (stop,) = [c for c in make_plan(read_job(job, registry), registry).checks if c.level == "stop"]
    assert (stop.code, "track saw" in stop.message) == ("no-machine", True)


def test_a_sheet_is_trimmed_when_it_comes_to_the_saw_and_not_before(registry):
    """Each sheet 2440 x 1220 holds four 1200 x 600; the second is trimmed when the first is no longer whole."""
    parts = [{"id": "leaf", "material": "ply", "length": 1150, "width": 590, "quantity": 5},
             {"id": "lath", "material": "ply", "length": 2400, "width": 100, "quantity": 8}]  # fmt: skip
    job = {**JOB, "loose_parts": parts, "stock": {**JOB["stock"], "boards": []}}
    made = make_plan(read_job(job, registry), registry)
    seen = set()
    for step in made.steps:
        if step.action is Action.TRIM:
            coming = {one.piece for one in step.on}
        elif step.stage is Stage.CUT:
            whole = {one.piece for one in step.on if one.piece.startswith("full ") and ":" not in one.piece}
            assert whole <= seen | coming
            assert coming <= whole | seen
            seen |= coming


def test_what_a_cut_leaves_is_named_once_it_goes_by_another_name(registry):
    """Of 1000 x 500 a part 1000 x 300 is ripped: 1000 x 196 is left, and kept."""
    offcut = {"id": "rest", "material": "ply", "length": 1000, "width": 500}
    parts = [{"id": "deck", "material": "ply", "length": 1000, "width": 300}]
    job = {**JOB, "loose_parts": parts, "stock": {"offcuts": [offcut], "kerf": 4}, "shop": {"keep_offcut": [150, 300]}}
    made = make_plan(read_job(job, registry), registry)
    (rip,) = [step for step in made.steps if step.action is Action.RIP]
    lines = piece_words(rip, NamedParts.of(made.parts), made.sides, (str, str))
    assert lines == ["deck: from “rest 1”, leaving “rest 1: leftover”"]


def test_stock_of_the_size_of_a_part_is_marked_and_not_cut(registry):
    stock = {"offcuts": [{"id": "scrap", "material": "ply", "length": 600, "width": 300}], "kerf": 4}
    parts = [{"id": "rack", "material": "ply", "length": 600, "width": 300}]
    made = make_plan(read_job({**JOB, "loose_parts": parts, "stock": stock}, registry), registry)
    (mark,) = [step for step in made.steps if step.action is Action.MARK and step.on[0].piece]
    assert [(one.piece, one.keeps) for one in mark.on] == [("scrap 1", "loose/rack")]
    assert not [step for step in made.steps if step.action in (Action.RIP, Action.CROSSCUT)]
    assert not [check for check in made.checks if check.level == "stop"]
    assert replay(made.steps, made.parts, made.joints, given_of(made.job, made.parts, made.stock)) == []
