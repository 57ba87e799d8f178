"""Tipping against statics worked by hand (moments about the standing line)."""

import pytest
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.tipping import Load, tipping


def test_a_chest_with_its_drawer_out() -> None:
    # 400 N acting 250 mm behind the line holds 100 N·m; a 150 N drawer 300 mm in front tips with 45 N·m.
    answer = tipping([Load(400, 250), Load(150, -300)], 800)
    assert (answer.holding_n_mm, answer.tipping_n_mm, answer.pull_n, answer.tips) == (100_000, 45_000, 0.0, False)


def test_the_pull_that_holds_it() -> None:
    # 150 N at 300 mm behind holds 45 N·m; 400 N at 250 mm in front tips with 100 N·m: (100 - 45) / 0.5 m = 110 N.
    answer = tipping([Load(150, 300), Load(400, -250)], 500)
    assert answer.tips
    assert answer.pull_n == pytest.approx(110.0)


def test_a_fixing_higher_up_needs_less() -> None:
    loads = [Load(150, 300), Load(400, -250)]
    assert tipping(loads, 1000).pull_n == pytest.approx(tipping(loads, 500).pull_n / 2)


@pytest.mark.parametrize("height", [0.0, 0.999])
def test_a_fixing_at_the_floor_is_refused(height: float) -> None:
    with pytest.raises(OutsideLimits):
        tipping([Load(1, 1)], height)


def test_the_least_height_is_taken() -> None:
    assert tipping([Load(1, 1)], 1.0).pull_n == 0.0
