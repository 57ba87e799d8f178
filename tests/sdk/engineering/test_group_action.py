"""The group action factor against cells of NDS 2018 Tables 11.3.6A and C (read in a page-cited second-hand copy)."""

import pytest
from casewright.sdk.engineering.group_action import group_factor

WOOD, STEEL = 1.4e6, 30e6


@pytest.mark.parametrize(
    ("number", "areas", "cell", "equation"),
    [(4, (12, 12), 0.96, 0.96053), (8, (10, 5), 0.55, 0.54764), (12, (64, 64), 0.88, 0.87679)],
)
def test_wood_to_wood(number, areas, cell, equation):
    """Table 11.3.6A: D 1 in, s 4 in, E 1,400,000 psi; the equation by hand to five places."""
    main, side = (WOOD * area for area in areas)
    assert group_factor(number, 4.0, 1.0, (main, side)) == pytest.approx(cell, abs=0.005)
    assert group_factor(number, 4.0, 1.0, (main, side)) == pytest.approx(equation, abs=1e-5)


@pytest.mark.parametrize(
    ("number", "wood", "steel", "cell", "equation"), [(6, 5, 5 / 12, 0.62, 0.62121), (12, 40, 0.8, 0.51, 0.50620)]
)
def test_wood_to_steel(number, wood, steel, cell, equation):
    """Table 11.3.6C, side plates of steel: D 1 in, s 4 in, E 30,000,000 psi; the equation by hand to five places."""
    factor = group_factor(number, 4.0, 1.0, (WOOD * wood, STEEL * steel), "metal")
    assert factor == pytest.approx(cell, abs=0.005)
    assert factor == pytest.approx(equation, abs=1e-5)


def test_one_fastener_and_thin_ones_share_nothing():
    assert group_factor(1, 4.0, 1.0, (1e6, 1e6)) == 1.0
    assert group_factor(8, 1.0, 0.19, (1e6, 1e6)) == 1.0
