"""General tolerances by the printed table, and the five-cut test by a worked example."""

import pytest
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.tolerances import five_cut_error, general_tolerance_mm


@pytest.mark.parametrize(
    ("size", "kind", "half"),
    [
        # ISO 2768-1:1989, table 1: bands over their lower bound, up to and with their upper one
        (30, "m", 0.2),
        (30.1, "m", 0.3),
        (400, "m", 0.5),
        (401, "m", 0.8),
        (0.5, "f", 0.05),
        (2000, "f", 0.5),
        (3, "c", 0.2),
        (4000, "c", 4.0),
        (3.01, "v", 0.5),
        (4000, "v", 8.0),
    ],
)
def test_the_table(size, kind, half):
    assert general_tolerance_mm(size, kind) == half


@pytest.mark.parametrize(("size", "kind"), [(0.4, "m"), (4001, "m"), (2001, "f"), (3, "v")])
def test_sizes_the_table_has_nothing_for(size, kind):
    with pytest.raises(OutsideLimits):
        general_tolerance_mm(size, kind)


def test_five_cuts():
    # ends of 10.10 and 10.02 on a strip of 24: .08 / 96 = 0.000833 (worked example)
    assert five_cut_error(10.10, 10.02, 24) == pytest.approx(0.000833, abs=1e-6)
    with pytest.raises(OutsideLimits):
        five_cut_error(1, 1, 0)
