"""Work counted in steps, and reported by twentieths of what is allowed."""

import pytest
from casewright.api.stock.search import StepBudget


@pytest.mark.parametrize(("limit", "each"), [(100, 5), (1000, 50), (1000, 10)])
def test_each_twentieth_is_reported_once(limit, each):
    reported: list[int] = []
    budget = StepBudget(limit, reported.append)
    for _ in range(2 * limit // each):
        budget.spend(each)
    assert reported == list(range(1, 21))
    assert budget.left == -limit


def test_steps_that_pass_several_twentieths_are_reported_as_the_last():
    reported: list[int] = []
    budget = StepBudget(100, reported.append)
    budget.spend(4)
    budget.spend(21)  # 25 of 100: five twentieths
    assert reported == [5]
