"""Stock with defects or a taper is cut clear of them by real steps, which the simulated saw carries out."""

from collections import Counter

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.api.job.document import read_job
from casewright.api.stock import pile_after
from casewright.sdk.model import Action, Defect, Machine
from hypothesis import given, settings
from hypothesis import strategies as st

MM = 1_000_000


def job(kind, stock, *parts):
    """Return a job of loose parts, (length, width, quantity) each, cut from one row of stock."""
    material = "oak" if kind == "boards" else "ply"
    return {
        "title": "Tyre rack",
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
        },
        "cabinets": [],
        "loose_parts": [
            {"id": f"rack-{k}", "material": material, "length": a, "width": b, "quantity": n}
            for k, (a, b, n) in enumerate(parts)
        ],
        "stock": {"kerf": 3, "edge_trim": 10, kind: [{"id": "knotty", "material": material, **stock}]},
    }


def first_cuts(made):
    return [
        (step.machine, step.action, (step.setting.fence or step.setting.stop or step.setting.depth) // MM,
         [(one.piece, one.keeps, one.leaves) for one in step.on])
        for step in made.steps
        if step.action in (Action.TRIM, Action.RIP, Action.CROSSCUT, Action.EDGE)
    ]  # fmt: skip


def pile(made):
    return pile_after(made.job.stock, made.stock, made.job.shop.keep_offcut)


def faults(made):
    return [check.message for check in made.checks if check.code == "work-not-carried-out"] + replay(
        made.steps, made.parts, made.joints, given_of(made.job, made.parts, made.stock)
    )


def test_a_knot_is_cut_out_and_what_is_left_of_the_offcut_is_kept(registry):
    knot = {"x": 400, "y": 0, "length": 50, "width": 200}
    made = make_plan(
        read_job(job("offcuts", {"length": 1000, "width": 200, "defects": [knot]}, (500, 200, 1)), registry), registry
    )
    # 400 clear of the knot on one side, 1000 - 450 = 550 on the other, of which the part takes 500
    assert first_cuts(made) == [
        (Machine.CROSSCUT_SLED, Action.CROSSCUT, 400, [("knotty", "knotty.1", "knotty: piece for knotty.2")]),
        (Machine.CROSSCUT_SLED, Action.CROSSCUT, 550, [("knotty: piece for knotty.2", "knotty.2 1", "")]),
        (Machine.CROSSCUT_SLED, Action.CROSSCUT, 500, [("knotty.2 1", "loose/rack-0", "")]),
    ]
    assert faults(made) == []
    assert [(one.id, one.length // MM, one.width // MM) for one in pile(made)] == [("knotty.1", 400, 200)]


def test_what_is_too_small_to_keep_is_not_cut_free(registry):
    # 940 and more are clear on one side; 50 by 200 beyond the knot is under the 300 by 150 mm that a shop keeps
    knot = {"x": 940, "y": 0, "length": 10, "width": 200}
    made = make_plan(
        read_job(job("offcuts", {"length": 1000, "width": 200, "defects": [knot]}, (900, 200, 1)), registry), registry
    )
    assert [len(on) for *_, on in first_cuts(made)] == [1, 1]
    assert first_cuts(made)[0][2:] == (940, [("knotty", "knotty.1 1", "")])
    assert faults(made) == []
    assert pile(made) == ()


def test_a_tapered_offcut_is_ripped_straight_first(registry):
    stock = {"length": 900, "width": 300, "taper": 20}
    made = make_plan(read_job(job("offcuts", stock, (900, 280, 1)), registry), registry)
    # the clean piece is the part as it is: it is only marked
    assert first_cuts(made) == [(Machine.TABLE_SAW, Action.RIP, 280, [("knotty", "knotty.1 1", "")])]
    (mark,) = [step for step in made.steps if step.action is Action.MARK and step.on[0].piece]
    assert [(one.piece, one.keeps) for one in mark.on] == [("knotty.1 1", "loose/rack-0")]
    assert faults(made) == []
    wider = make_plan(read_job(job("offcuts", stock, (900, 281, 1)), registry), registry)
    assert wider.stock.short


def test_what_is_not_begun_stays_as_it_was(registry):
    stock = {"length": 900, "width": 300, "taper": 20, "copies": 2,
             "defects": [{"x": 0, "y": 0, "length": 30, "width": 30}]}  # fmt: skip
    document = job("offcuts", stock, (860, 280, 1))
    made = make_plan(read_job(document, registry), registry)
    (one,) = pile(made)
    assert (one.id, one.length, one.width, one.taper, one.copies) == ("knotty", 900 * MM, 300 * MM, 20 * MM, 1)
    assert one.defects == (Defect(0, 0, 30 * MM, 30 * MM),)


@pytest.mark.parametrize(("rough", "depth"), [({"thickness": 25}, 13), ({"surfaced": "two-faces"}, 13)])
def test_the_taper_of_a_board_comes_off_with_its_edge(registry, rough, depth):
    stock = {"length": 1400, "width": 120, "taper": 10, **rough}
    document = job("boards", stock, (500, 60, 2))
    document["stock"]["milling"] = {"edge": 3}
    made = make_plan(read_job(document, registry), registry)
    (edge,) = [step for step in made.steps if step.action is Action.EDGE and step.machine is Machine.TRACK_SAW]
    assert edge.setting.depth == depth * MM  # 3 to make the edge straight, and 10
    assert faults(made) == []


@pytest.mark.parametrize(("cup", "twist", "depth"), [(0, 0, 3), (2, 1, 3), (3, 1, 4), (4, 1, 5)])
def test_what_a_board_is_cupped_and_twisted_by_comes_off_its_first_face(registry, cup, twist, depth):
    # 25 rough for 19: half of 6 off the first face, or all that it takes to make it flat
    stock = {"length": 1400, "width": 120, "thickness": 25, "cup": cup, "twist": twist}
    made = make_plan(read_job(job("boards", stock, (500, 60, 2)), registry), registry)
    (face,) = [step for step in made.steps if step.action is Action.FACE]
    assert face.setting.depth == depth * MM
    assert faults(made) == []


def test_a_planed_board_that_is_crooked_is_made_flat_first(registry):
    stock = {"length": 1400, "width": 120, "thickness": 25, "surfaced": "all-sides", "cup": 2}
    made = make_plan(read_job(job("boards", stock, (500, 60, 2)), registry), registry)
    assert [step.setting.depth for step in made.steps if step.action is Action.FACE] == [2 * MM]
    assert faults(made) == []


@pytest.mark.parametrize(
    ("surfaced", "machines", "saw"),
    [
        ("none", {}, Machine.BAND_SAW),
        ("none", {"machines": ["table-saw", "track-saw", "crosscut-sled", "jointer", "planer"]}, Machine.TRACK_SAW),
        ("none", {"machines": ["table-saw", "crosscut-sled", "jointer", "planer"]}, Machine.TABLE_SAW),
        ("all-sides", {}, Machine.TRACK_SAW),  # its edge is cut to size
    ],
)
def test_what_is_not_flat_yet_is_ripped_where_it_cannot_rock(registry, surfaced, machines, saw):
    """A table saw wants a flat face down and a straight edge at its fence (common practice, no source)."""
    found = {}
    for cup in (0, 4):
        stock = {"length": 1400, "width": 120, "thickness": 28, "surfaced": surfaced, "cup": cup}
        document = job("boards", stock, (500, 30, 2))
        document["shop"] = machines
        made = make_plan(read_job(document, registry), registry)
        assert faults(made) == []
        milled = min(step.number for step in made.steps if step.action in (Action.FACE, Action.THICKNESS))
        found[cup] = [step for step in made.steps if step.action is Action.RIP and step.number < milled]
    assert {step.machine for step in found[0]} == {Machine.TABLE_SAW}
    assert {step.machine for step in found[4]} == {saw}
    assert all(any("rocks" in one for one in step.cautions) is (saw is Machine.TABLE_SAW) for step in found[4])
    assert not any("rocks" in one for step in found[0] for one in step.cautions)


MARKS = st.fixed_dictionaries(
    {"x": st.integers(0, 900), "y": st.integers(0, 350), "length": st.integers(1, 200), "width": st.integers(1, 100)}
)


@settings(max_examples=8)
@given(
    st.sampled_from(["sheets", "offcuts", "boards"]),
    st.lists(MARKS, min_size=1, max_size=3),
    st.integers(1, 2),
    st.integers(0, 15),
)
def test_whatever_the_defects_every_part_is_cut_as_planned(registry, kind, marks, copies, taper):
    stock = {"length": 1000, "width": 400, "defects": marks, "copies": copies}
    stock |= {} if kind == "sheets" else {"taper": taper}
    stock |= {"thickness": 25} if kind == "boards" else {}
    made = make_plan(read_job(job(kind, stock, (250, 100, 2), (90, 60, 2)), registry), registry)
    assert faults(made) == []
    cut = Counter(one.stock for one in made.stock.layouts)
    assert max(cut.values(), default=0) <= copies
