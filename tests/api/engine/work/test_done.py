"""Steps that the job marks as done: each must exist, and what it needs should be done too."""

import pytest
from casewright.sdk.errors import NoGeometryError


def test_a_number_that_no_step_has_is_refused_with_what_there_is(planned):
    last = len(planned().steps)
    with pytest.raises(NoGeometryError) as error:
        planned(done=[1, last + 1])
    (problem,) = error.value.problems
    assert (problem.pointer, problem.got) == ("/done/1", str(last + 1))
    assert f"1 to {last}" in problem.fix


def test_marks_change_no_step_and_leave_the_rest_to_do(planned):
    plain, marked = planned(), planned(done=[1, 2])
    assert marked.steps == plain.steps
    assert [one.number for one in marked.schedule.steps] == [step.number for step in plain.steps[2:]]


def test_what_is_needed_and_not_done_is_a_caution_that_names_it(planned, codes):
    plan = planned()
    number = plan.steps[-1].number
    needs = plan.steps[-1].needs
    made = planned(done=[number])
    assert codes(made, "done-before-its-needs") == [("caution", "done-before-its-needs", "/done/0")]
    (check,) = [one for one in made.checks if one.code == "done-before-its-needs"]
    assert all(str(need) in check.message for need in needs)
    assert codes(planned(done=[*range(1, number + 1)]), "done-before-its-needs") == []


def test_numbers_are_those_of_the_plan_with_its_cutting_in_every_view(document, registry):
    from casewright.api.engine import make_plan
    from casewright.api.job.document import read_job

    sheets = {"sheets": [{"id": "full", "material": "case", "length": 2440, "width": 1220}], "effort": 1}
    job = document(stock=sheets)
    last = len(make_plan(read_job(job, registry), registry).steps)
    marked = read_job({**job, "done": [last]}, registry)
    assert make_plan(marked, registry, with_stock=False).steps == make_plan(marked, registry).steps
