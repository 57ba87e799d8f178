"""Identical parts of several cabinets cut as one batch, and named part by part again."""

import copy
from collections import Counter
from dataclasses import replace

from casewright.api.engine import PlanCache, make_plan
from casewright.api.engine.work.batches import batches_of, named
from casewright.api.job.document import read_job
from casewright.api.stock import Demand, StockRequest, plan_stock
from casewright.sdk.model import StockPiece
from hypothesis import given, settings
from hypothesis import strategies as st

MM = 1_000_000


def demand(name, length=500, width=300, quantity=1, **more):
    return Demand(name, "ply", 18 * MM, length * MM, width * MM, quantity, **more)


def test_only_parts_that_are_cut_and_set_alike_are_one_batch():
    rows = [
        demand("a/shelf", quantity=2, label="shelf"),
        demand("b/board", label="board"),
        demand("b/turned", grain="along-width"),
        demand("b/short", length=499),
    ]
    by_id = {batch.demand.id: batch for batch in batches_of(rows)}
    assert list(by_id) == ["a/shelf", "b/turned", "b/short"]
    assert by_id["a/shelf"].members == (("a/shelf", 2), ("b/board", 1))
    assert by_id["a/shelf"].demand.quantity == 3


SHEET = StockPiece("sheet", "ply", 18 * MM, 2440 * MM, 1220 * MM)


def parts_of(piece):
    return ([piece] if piece.what == "part" else []) + [p for kid in piece.inside for p in parts_of(kid)]


@given(
    st.lists(st.tuples(st.sampled_from([300, 450, 2500]), st.integers(1, 4)), min_size=1, max_size=8), st.integers(1, 2)
)
@settings(max_examples=40)
def test_every_part_is_placed_or_short_exactly_as_often_as_it_is_wanted(rows, copies):
    demands = [demand(f"box-{i}/part", length, quantity=count)
               for i, (length, count) in enumerate(rows)]  # fmt: skip
    batches = batches_of(demands)
    plan = plan_stock(StockRequest(tuple(b.demand for b in batches), (replace(SHEET, copies=copies),), effort=1))
    by_part = named(plan, batches)
    placed = Counter(p.part for layout in by_part.layouts for p in layout.placed)
    short = Counter()
    for row in by_part.short:
        short[row.part] += row.quantity
    assert placed + short == Counter({d.id: d.quantity for d in demands})
    sizes = {d.id: (d.length, d.width) for d in demands}
    for layout in by_part.layouts:
        at = {(p.x, p.y): p.part for p in layout.placed}
        assert {(p.x, p.y): p.part for p in parts_of(layout.tree)} == at
        for p in layout.placed:
            assert sorted((p.dx, p.dy)) == sorted(sizes[p.part])


def two_alike(document):
    job = document(stock={"sheets": [{"id": "sheet", "material": "case", "length": 2440, "width": 1220}]})
    (bay,) = job["cabinets"]
    bay["case"] = {"material": "case", "back": None, "corner": {"method": "dowel"}}
    job["cabinets"] = [bay, {**copy.deepcopy(bay), "id": "store"}]
    return job


def distances(plan):
    """Return what the saws are set to where a cut makes a part of its size."""
    ids = {part.id for part in plan.parts}
    cuts = [s for s in plan.steps if s.stage == "cut" and any(one.keeps in ids for one in s.on)]
    return {s.setting.fence or s.setting.stop for s in cuts}


def test_alike_cabinets_are_cut_at_the_sizes_of_one(document, registry):
    both = make_plan(read_job(two_alike(document), registry), registry)
    placed = Counter(p.part.split("/")[0] for layout in both.stock.layouts for p in layout.placed)
    assert placed == {"bay": 4, "store": 4}
    bay = [part for part in both.parts if part.cabinet == "bay"]
    assert distances(both) <= {size for part in bay for size in (part.length, part.width)}
    cut = {one.keeps for s in both.steps if s.setting.fence or s.setting.stop for one in s.on}
    for step in both.steps:
        twins = {one.keeps.partition("/")[2] for one in step.on if one.keeps.startswith("bay/")}
        assert all(f"store/{twin}" in cut for twin in twins)


def test_the_same_question_is_answered_once(document, registry):
    cache = PlanCache()
    job = read_job(two_alike(document), registry)
    first = make_plan(job, registry, cache=cache)
    stages = set()
    again = make_plan(
        replace(job, title="Other bay"), registry, cache=cache, progress=lambda stage, *_: stages.add(stage)
    )
    assert stages == {"cabinets"}  # nothing is cut anew
    assert again.stock == first.stock
    wider = make_plan(replace(job, stock=replace(job.stock, kerf=5 * MM)), registry, cache=cache)
    assert wider.stock is not first.stock
    assert wider.stock == make_plan(replace(job, stock=replace(job.stock, kerf=5 * MM)), registry).stock
