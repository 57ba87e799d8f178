"""What must hold for any cabinets along a wall: nothing is counted twice, and what is said agrees with the places."""

import copy

from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

MM = 1_000_000
QUICK = settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])


def row_of(document, gaps, widths, **wall):
    """Return a job of cabinets in one row with these gaps before, between and after them, between two corners."""
    job = document()
    (bay,) = job["cabinets"]
    job["cabinets"], places, x = [], {}, 0
    for i, width in enumerate(widths):
        x += gaps[i]
        job["cabinets"].append({**copy.deepcopy(bay), "id": f"bay-{i}", "width": width})
        places[f"bay-{i}"] = [{"x": x, "z": 1400}]
        x += width
    job["wall"] = {"cabinets_at": places, "length": x + gaps[-1], "corners": "both", **wall}
    return job


widths_and_gaps = st.lists(st.integers(300, 900), min_size=1, max_size=5).flatmap(
    lambda widths: st.tuples(
        st.just(widths), st.lists(st.integers(0, 200), min_size=len(widths) + 1, max_size=len(widths) + 1)
    )
)


@QUICK
@given(widths_and_gaps)
def test_cabinets_and_gaps_fill_the_wall_and_nothing_overlaps(document, registry, drawn):
    widths, gaps = drawn
    made = make_plan(read_job(row_of(document, gaps, widths), registry), registry)
    assert [g.size for g in made.run.gaps] == [gap * MM for gap in gaps]
    assert sum(widths) * MM + sum(g.size for g in made.run.gaps) == made.job.wall.length
    codes = {c.code for c in made.checks}
    assert not codes & {"cabinets-overlap", "wall-end-passed"}
    small = [c.value for c in made.checks if c.code == "gap-too-small"]
    assert small == [gap * MM for gap in gaps if 1 < gap <= 12]


@QUICK
@given(widths_and_gaps, st.data())
def test_pushing_one_cabinet_into_the_next_is_always_a_stop(document, registry, drawn, data):
    widths, gaps = drawn
    assume(len(widths) > 1)
    job = row_of(document, gaps, widths)
    which = data.draw(st.integers(0, len(widths) - 2))
    by = data.draw(st.integers(1, 50))
    place = job["wall"]["cabinets_at"][f"bay-{which}"][0]
    place["x"] += gaps[which + 1] + by
    made = make_plan(read_job(job, registry), registry)
    overlaps = [c for c in made.checks if c.code == "cabinets-overlap"]
    assert by * MM in [c.value for c in overlaps]
    assert {c.level for c in overlaps} == {"stop"}


@QUICK
@given(widths_and_gaps, st.integers(0, 20))
def test_fillers_close_every_gap_they_are_asked_to(document, registry, drawn, scribe):
    widths, gaps = drawn
    job = row_of(document, gaps, widths)
    for places in job["wall"]["cabinets_at"].values():
        for place in places:
            place["fillers"] = {side: {"material": "frame", "scribe": scribe} for side in ("left", "right")}
    made = make_plan(read_job(job, registry), registry)
    strips = {p.id: p for p in made.parts if p.group == "fillers"}
    for gap in made.run.gaps:
        wide = sum(strips[key].width - scribe * MM for key in gap.fillers)
        assert 0 <= gap.size - wide < 2  # equal strips take the floor
        assert bool(gap.fillers) == (gap.size > 0)
    assert sorted(key for gap in made.run.gaps for key in gap.fillers) == sorted(strips)
    assert not [c for c in made.checks if c.code == "end-shows"]


@QUICK
@given(widths_and_gaps)
def test_steps_come_after_what_they_need_and_every_place_is_set_once(document, registry, drawn):
    widths, gaps = drawn
    made = make_plan(read_job(row_of(document, gaps, widths), registry), registry)
    assert all(need < step.number for step in made.steps for need in step.needs)
    assert sorted(made.run.order) == sorted(s.name for s in made.run.standings)
    put = [step.do.split()[1] for step in made.steps if step.action == "hang"]
    assert tuple(put) == made.run.order


@QUICK
@given(widths_and_gaps)
def test_the_same_run_seen_in_a_mirror_has_the_same_gaps(document, registry, drawn):
    widths, gaps = drawn
    made = make_plan(read_job(row_of(document, gaps, widths), registry), registry)
    mirrored = make_plan(read_job(row_of(document, gaps[::-1], widths[::-1]), registry), registry)
    assert [g.size for g in made.run.gaps] == [g.size for g in mirrored.run.gaps][::-1]
    counts = [sorted(c.code for c in plan.checks if c.subject.startswith("/wall")) for plan in (made, mirrored)]
    assert counts[0] == counts[1]
