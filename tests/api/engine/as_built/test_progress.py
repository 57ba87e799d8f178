"""Steps done and sizes measured, taken together."""

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
