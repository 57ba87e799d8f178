"""Settings that are nearly one made one: clusters on their own, bays by hand, and over generated jobs."""

import sys
from collections import defaultdict
from dataclasses import replace
from itertools import pairwise, permutations
from pathlib import Path

from casewright.api.engine import make_plan
from casewright.api.engine.construction.equal import Measure, made_equal
from casewright.api.job.document import read_job
from casewright.sdk.model import Action
from casewright.sdk.testing.drawing import over
from casewright.sdk.units import mm
from hypothesis import given
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parents[1] / "work"))

from replay_jobs import planned as planned_job
from replay_jobs import work_jobs

HOUSED = {"fixed_joint": {"method": "housed-groove", "depth": 6, "clearance": 0}, "back": None}
WIDTH, DEPTH = Measure.CLEAR_WIDTH, Measure.DEPTH


def test_clusters_begin_at_the_smallest_and_span_no_more_than_asked():
    # 0, 60 and 100 lie within 100 of 0; 160 does not, and 250 lies within 100 of 160.
    sizes_of = [(WIDTH, nm) for nm in (0, 60, 100, 160, 250)]
    assert made_equal(sizes_of, 100) == {(WIDTH, 60): 0, (WIDTH, 100): 0, (WIDTH, 250): 160}


def test_only_like_is_made_equal_with_like():
    assert made_equal([(WIDTH, 0), (DEPTH, 50)], 100) == {}


@given(st.lists(st.integers(0, 2000), max_size=40), st.integers(0, 300))
def test_no_order_changes_a_cluster_and_no_two_are_left_near(sizes, same):
    sizes_of = [(DEPTH, size) for size in sizes]
    equal = made_equal(sizes_of, same)
    assert equal == made_equal(reversed(sizes_of), same)
    left = sorted({equal.get(one, one[1]) for one in sizes_of})
    assert all(b - a > same for a, b in pairwise(left))
    assert all(0 < size - to <= same for (_, size), to in equal.items())


def shelf(key, plan, part_of):
    part = part_of(plan, key)
    return part.length, {term.label: term.nm for term in part.why_length}


def bays(*sizes):
    return {"space": {"bays": [{**({"size": size} if size else {}), "fixed_shelves": 1} for size in sizes]}}


def test_unequal_bays_come_out_as_one(planned, part_of):
    # 764 clear: bays of 242.60 and 242.66 leave 242.74 over two dividers of 18. All lie within 0.1 of 242.60 but the
    # last. The second divider stands 242.74 from the right, within 0.2 of the first's 242.60, not 0.1.
    plan = planned(bays(242.6, 242.66, None), HOUSED)
    lengths = [shelf(f"shelf-{n}", plan, part_of) for n in (1, 2, 3)]
    assert [length for length, _ in lengths] == [mm("254.6"), mm("254.6"), mm("254.74")]
    assert lengths[1][1]["made alike with others, kept as clearance"] == -mm("0.06")
    assert plan.dry_fit.clashes == ()
    assert all(seat.seated for seat in plan.dry_fit.seats)


def test_dividers_that_stand_nearly_as_far_from_either_side_are_moved(planned, part_of):
    # 764 − 36 − 242.7 − 242.64 leaves 242.66 in the middle. The right divider stands 242.64 from its side: so does the
    # left one, moved 0.06 to the left, and the middle bay gains as much: 242.72, and its shelf is made for 242.64.
    plan = planned(bays(242.7, None, 242.64), HOUSED)
    box = part_of(plan, "divider-1")
    assert box.place.box(box.blank).x0 == mm(18) + mm("242.64")
    lengths = [shelf(f"shelf-{n}", plan, part_of) for n in (1, 2, 3)]
    assert {length for length, _ in lengths} == {mm("254.64")}
    assert lengths[0][1]["a part beside it set like others nearly there"] == -mm("0.06")
    assert lengths[1][1]["a part beside it set like others nearly there"] == mm("0.06")
    assert all(seat.seated for seat in plan.dry_fit.seats)
    of_top = [s for s in plan.steps if s.action is Action.GROOVE and "bay/top" in s.parts]
    assert {s.setting.fence for s in of_top} == {mm("251.64")}  # the top reaches half of 18 into the sides


def test_nothing_is_made_equal_where_the_shop_wants_none(planned, part_of):
    plan = planned(bays(242.6, 242.66, None), HOUSED, shop={"same": 0})
    lengths = [shelf(f"shelf-{n}", plan, part_of)[0] for n in (1, 2, 3)]
    assert lengths == [mm("254.6"), mm("254.66"), mm("254.74")]


INCHES = {
    "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 0.75},
    "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 0.25},
    "frame": {"kind": "board", "stuff": "red-oak", "thickness": 0.75},
    "edging": {"kind": "band", "stuff": "red-oak", "thickness": 0.04},
}


def test_settings_of_an_inch_job_a_hair_apart_are_one(planned, part_of):
    # 0.002 in is 0.0508 mm, within 0.1 mm: 9.5 in and 9.502 in come out as 9.5 in.
    cabinet = {"width": 32, "height": 36, "depth": 12, **bays(9.5, 9.502, None)}
    plan = planned(cabinet, {**HOUSED, "fixed_joint": {"method": "housed-groove", "depth": "1/4"}}, units="in",
                   materials=INCHES)  # fmt: skip
    lengths = {shelf(f"shelf-{n}", plan, part_of)[0] for n in (1, 2)}
    assert len(lengths) == 1


def two_cabinets(document):
    """Return a job of two cabinets whose sides, 18.00 and 18.08 thick, are grooved half their thickness deep."""
    job = document({"space": {"fixed_shelves": 1}}, {"fixed_joint": {"method": "housed-groove"}, "back": None})
    job["materials"]["other"] = {**job["materials"]["case"], "thickness": 18.08}
    first = job["cabinets"][0]
    job["cabinets"].append({**first, "id": "other", "case": {**first["case"], "material": "other"}})
    return job


def test_depths_nearly_alike_are_one_over_all_cabinets(document, registry):
    plan = make_plan(read_job(two_cabinets(document), registry), registry)
    # Half of 18.08 is 9.04, within 0.1 of 9.
    assert {step.setting.height for step in plan.steps if step.action is Action.GROOVE} == {mm(9)}
    (other,) = [part for part in plan.parts if part.id == "other/shelf-1"]
    assert {term.nm for term in other.why_length if term.label.startswith("made as deep")} == {-mm("0.04")}
    assert all(seat.seated for seat in plan.dry_fit.seats)


def test_the_order_of_cabinets_changes_nothing(document, registry):
    job = two_cabinets(document)
    for order in permutations(job["cabinets"]):
        plan = make_plan(read_job({**job, "cabinets": list(order)}, registry), registry)
        parts = {part.id: part for part in plan.parts}
        assert parts == {part.id: part for part in make_plan(read_job(job, registry), registry).parts}


EXACT = (Action.GROOVE, Action.RABBET, Action.DOVETAIL, Action.NOTCH, Action.MORTISE, Action.BORE)
"""What is set by offsets and depths that the layout and the joints choose.

Not so: a rip or a crosscut, whose distance follows from sizes the job gives; the sockets of a box joint, whose two
at the ends are open and so narrower than the others by half the shop's fit; places of holes and mortises, which are
marked on the piece. Two distances that the job gives outright, one for each of two parts (how far a back lies in, and
a drawer's bottom), stay as given: the jobs drawn have none nearly alike at the usual 0.1 mm. Nor where a further pass
of a slab wider than its cutter stands: that follows from the slab's own far side. Nor distances along a divider: a
shelf that ends in it stands as high as its other end does, and where the divider begins follows from the joints at
its ends.
"""
ODD = 1
"""An odd nanometre cannot be halved: what lies in the middle of an odd size is an nm nearer one side."""


def further_pass(before, step):
    """Return whether a step widens what the one before it cut: the same pieces, less than a cutter's width on."""
    if before is None or (before.action, before.parts) != (step.action, step.parts):
        return False
    here, there = before.setting, step.setting
    if here.fence is None or there.fence is None:
        return False
    return 0 < there.fence - here.fence <= (there.cutter or 0) and replace(here, fence=there.fence) == there


def nearly_one(plan):
    """Return offsets and depths of like operations that differ, and by less than the shop takes for the same."""
    found = defaultdict(set)
    for before, step in pairwise((None, *plan.steps)):
        if step.action in EXACT and not further_pass(before, step):
            divider = all("/divider-" in part for part in step.parts)
            for name in ("height", "depth") if divider else ("fence", "height", "depth"):
                found[step.machine, step.action, step.setting.cutter, name].add(getattr(step.setting, name))
    return [
        (key, a, b)
        for key, values in found.items()
        for a, b in pairwise(sorted(value for value in values if value is not None))
        if ODD < b - a < plan.job.shop.same
    ]


def test_no_two_settings_of_generated_jobs_are_nearly_one(full):
    def check(job):
        plan = planned_job(job)
        assert nearly_one(plan) == []
        assert plan.dry_fit.clashes == ()
        assert all(seat.seated for seat in plan.dry_fit.seats)

    over(1000 if full else 60, "jobs", check, job=work_jobs())
