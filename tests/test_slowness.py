"""How slow the machine is: never less than as it should be, and in proportion to what the work takes."""

import pytest
import slowness


@pytest.mark.parametrize(("seconds", "times"), [(slowness.USUAL / 2, 1), (slowness.USUAL, 1), (4 * slowness.USUAL, 4)])
def test_slowness_is_what_the_work_takes_over_what_it_usually_does(
    monkeypatch: pytest.MonkeyPatch, seconds: float, times: float
) -> None:
    clock = iter(range(100))
    monkeypatch.setattr("time.process_time", lambda: next(clock) * seconds)
    assert slowness.slowness() == pytest.approx(times)
