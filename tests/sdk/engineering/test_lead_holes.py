"""Lead holes in inches, NDS 2018 12.1.4 and 12.1.5 (handbook table and page-cited copy read)."""

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.lead_holes import lead_holes

IN = 25.4


@pytest.mark.parametrize(
    ("screw", "g", "shank", "thread"),
    [
        # 7/8 D and 7/8 of the root in light wood: No. 8 .144 and .115, No. 10 .166 and .133
        ("screw-8-3", 0.42, 0.144, 0.115),
        ("screw-10-3", 0.42, 0.166, 0.133),
        # 70 % of the root from 0.5 to 0.6: No. 8 .092, No. 10 .106
        ("screw-8-3", 0.55, 0.144, 0.092),
        ("screw-10-3", 0.55, 0.166, 0.106),
        # 90 % of the root above 0.6, and the shank in full: No. 8 .118, No. 10 .137
        ("screw-8-3", 0.67, 0.164, 0.118),
        ("screw-10-3", 0.67, 0.190, 0.137),
    ],
)
def test_wood_screws(screw, g, shank, thread):
    holes = lead_holes(CATALOGUE.screw(screw), g, g)
    assert holes.shank_mm / IN == pytest.approx(shank, abs=0.0006)
    assert holes.thread_mm / IN == pytest.approx(thread, abs=0.0006)


@pytest.mark.parametrize(
    ("lag", "g", "low", "high"),
    [
        ("lag-1-4-3", 0.42, 0.100, 0.175), ("lag-1-4-3", 0.55, 0.150, 0.188), ("lag-1-4-3", 0.67, 0.163, 0.213),
        ("lag-5-16-3", 0.42, 0.125, 0.219), ("lag-3-8-3", 0.67, 0.244, 0.319),
    ],
)  # fmt: skip
def test_lags_within_the_range_of_their_stud(lag, g, low, high):
    one = CATALOGUE.lag(lag)
    holes = lead_holes(one, 0.42, g)
    assert low < holes.thread_mm / IN < high
    assert holes.shank_mm == one.diameter / 1e6


def test_each_wood_decides_its_own_hole():
    holes = lead_holes(CATALOGUE.screw("screw-10-3"), 0.67, 0.42)
    assert (holes.shank_mm / IN, holes.thread_mm / IN) == pytest.approx((0.190, 0.133), abs=0.0006)
