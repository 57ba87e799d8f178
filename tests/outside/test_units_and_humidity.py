"""Conversion factors against pint; vapour pressures and the humidity path against psychrolib."""

import pint
import psychrolib
import pytest
from casewright.sdk.engineering import moisture, units, withdrawal

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


def test_temperature():
    assert units.fahrenheit(21.0) == pytest.approx(ureg.Quantity(21.0, "degC").to("degF").magnitude, rel=1e-12)


@pytest.fixture(autouse=True)
def _metric():
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("celsius", [-20.0, -5.0, 0.0, 0.005, 5.0, 10.0, 21.0, 30.0, 45.0])
def test_saturation_pressure(celsius):
    """ASHRAE Fundamentals (2017) ch. 1 eqs 5 and 6, as the library codes them."""
    assert moisture.saturation_pressure_pa(celsius) == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=1e-9)


@pytest.mark.parametrize(("celsius", "dew"), [(21.0, 10.19), (21.0, -4.0), (30.0, 24.0), (5.0, 1.0)])
def test_humidity_from_dew_point(celsius, dew):
    expected = 100.0 * psychrolib.GetRelHumFromTDewPoint(celsius, dew)
    assert moisture.humidity_from_dew_point(celsius, dew) == pytest.approx(expected, rel=1e-9)


def test_dew_point_of_a_room():
    """21 °C and 50 % has its dew point at 10.19 °C (printed by the reference library)."""
    assert moisture.humidity_from_dew_point(21.0, 10.19) == pytest.approx(50.0, abs=0.05)


@pytest.mark.parametrize(
    ("outside", "humidity", "inside"), [(-10.0, 80.0, 21.0), (5.0, 90.0, 20.0), (28.0, 70.0, 25.0)]
)
def test_humidity_path(outside, humidity, inside):
    """Outdoor air brought indoors with its water kept: humidity ratio by the library, then equilibrium moisture."""
    ratio = psychrolib.GetHumRatioFromRelHum(outside, humidity / 100.0, 101325.0)
    expected = 100.0 * psychrolib.GetRelHumFromHumRatio(inside, ratio, 101325.0)
    ours = moisture.humidity_after_warming(outside, humidity, inside)
    assert ours == pytest.approx(expected, rel=1e-6)
    clamped = min(95.0, max(5.0, expected))
    emc = moisture.equilibrium_moisture(inside, min(95.0, max(5.0, ours)))
    assert emc == pytest.approx(moisture.equilibrium_moisture_f(units.fahrenheit(inside), clamped), abs=0.02)
