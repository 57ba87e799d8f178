"""Conversion factors against pint."""

import pint
import pytest
from casewright.sdk.engineering import units, withdrawal

ureg = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("factor", "unit", "si"),
    [
        (units.MM_PER_IN, "inch", "mm"),
        (units.MM_PER_FT, "foot", "mm"),
        (units.KG_PER_LB, "pound", "kg"),
        (units.N_PER_LBF, "pound_force", "N"),
        (units.MPA_PER_PSI, "psi", "MPa"),
        (units.PA_PER_PSF, "pound_force / foot ** 2", "Pa"),
        (units.N_MM_PER_LBF_IN, "pound_force / inch", "N/mm"),
        (units.G_M_S2, "standard_gravity", "m/s**2"),
    ],
)
def test_factor(factor, unit, si):
    assert factor == pytest.approx(ureg.Quantity(1.0, unit).to(si).magnitude, rel=1e-14)


def test_wrapped_equation_is_converted_exactly():
    printed = ureg.Quantity(withdrawal.screw_lb_in(0.5, 0.19), "lbf/inch").to("N/mm").magnitude
    assert withdrawal.screw_n_mm(0.5, 0.19 * 25.4) == pytest.approx(printed, rel=1e-12)
