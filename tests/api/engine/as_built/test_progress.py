"""Steps done and sizes measured, taken together."""

from collections import Counter

from casewright.api.engine import make_plan
from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay_breakdown import Sawn
from casewright.api.engine.work.replay_records import Order
from casewright.api.job.document import read_job
from casewright.sdk.units import MM

SHORT = {"cabinet": "bay", "part": "side-left", "measure": "length", "value": 898}


def cutting_of(plan, part):
    """Return the numbers of the steps that cut a part."""
    names = {part, f"{part}, ripped"}
    return [step.number for step in plan.steps if any(piece.keeps in names for piece in step.on)]


def test_what_done_steps_have_cut_is_built_to_the_size_planned(planned, codes):
    """Both sides are cut by the same steps; one of them is then measured 2 mm short, so the other is trimmed."""
    done = [1, *cutting_of(planned(), "bay/side-left")]
    plan = planned(done=done, built=[SHORT])
    (stop,) = [one for one in plan.checks if one.level == "stop"]
    assert (stop.code, stop.subject, stop.limit) == ("built-too-long", "bay/side-right", 898 * MM)
    assert {part.id: part.built for part in plan.parts if part.role == "side"} == {
        "bay/side-left": 1,
        "bay/side-right": 1,
    }


def test_what_was_done_stays_done_when_the_steps_are_others(planned):
    """The top is cut at the same setting as the bottom, of which nothing is measured: the step is done in both."""
    first = planned()
    done = [step.number for step in first.steps if step.number <= cutting_of(first, "bay/top")[-1]]
    plan = planned(done=done, built=[SHORT])
    assert not cutting_of(plan, "bay/top")
    assert plan.job.done
    assert all(plan.steps[number - 1].stage in ("measure", "cut") for number in plan.job.done)
    assert not [one for one in plan.checks if one.code == "done-before-its-needs"]


def test_a_step_is_done_by_what_it_does_not_by_its_number(planned):
    """The last step of all is done last in either plan, whatever its number there."""
    first = planned()
    plan = planned(done=list(range(1, len(first.steps) + 1)), built=[{**SHORT, "value": 900}])
    assert plan.job.done == tuple(range(1, len(plan.steps) + 1))


def sawn_by(plan, count):
    """Return how many of each part the first steps of a plan have cut, carried out in the simulated shop."""
    shop = Sawn(given_of(plan.job, plan.parts, plan.stock), Order.of(plan.steps))
    shop.carry_out([step for step in plan.steps if step.number <= count])
    parts = {part.id for part in plan.parts}
    return Counter({name: sum(n for _, n in lots) for name, lots in shop.there.items() if name in parts and lots})


def test_whatever_the_shop_has_cut_by_then_is_built(example, registry, full):
    """However many steps are done: also a part that a cut leaves, and one copy of two."""
    first = make_plan(read_job(example, registry), registry)
    measured = [{"cabinet": "spares", "part": "side-left", "measure": "length", "value": 30}]
    last = max(step.number for step in first.steps if step.stage == "cut" and step.number < 65)
    halves = 0
    for count in range(43, last + 1) if full else (43, 54, last):
        plan = make_plan(
            read_job({**example, "done": list(range(1, count + 1)), "built": measured}, registry), registry
        )
        sawn = sawn_by(first, count)
        expected = Counter({name: n for name, n in sawn.items() if not name.startswith("spares/side-left")})
        built = Counter({part.id: part.built for part in plan.parts if part.built and part.id != "spares/side-left"})
        assert built == expected, count
        halves += any(part.built not in (0, part.quantity) for part in plan.parts)
    assert halves  # some part was cut once of twice at one of them


def test_parts_of_no_cabinet_are_not_cut_again(planned):
    """Of one sheet lid and flap are cut; the sheet has no room for another of either, and none is bought."""
    loose = [{"id": "flap", "material": "case", "length": 1400, "width": 700, "quantity": 2}]
    stock = {"sheets": [{"id": "ply", "material": "case", "length": 2440, "width": 1430, "copies": 2}], "kerf": 3}
    first = planned(loose_parts=loose, stock=stock)
    assert not [one for one in first.checks if one.level == "stop"]
    done = [step.number for step in first.steps if step.stage in ("measure", "cut")]
    plan = planned(loose_parts=loose, stock=stock, done=done, built=[SHORT])
    assert {part.id: part.built for part in plan.parts}["loose/flap"] == 2
    assert not [part for layout in plan.stock.layouts for part in layout.placed]
    assert not [one for one in plan.checks if one.code == "no-stock"]
