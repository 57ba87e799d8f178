"""Wood Handbook tables: stiffness, moisture, movement."""

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import moisture, movement


@pytest.mark.parametrize(
    ("stuff", "printed_mpa"),
    [("hard-maple", 12_600), ("yellow-poplar", 10_900), ("red-oak", 12_500), ("longleaf-pine", 13_700)],
)
def test_modulus_against_metric_table(stuff, printed_mpa):
    """FPL-GTR-282 Table 5-3a, the metric twin; printed to 100 MPa."""
    assert CATALOGUE.stuff(stuff).e_along_mpa == pytest.approx(printed_mpa, abs=50)


def test_sugar_maple_exact():
    """FPL-GTR-282 Table 5-3b: 1.83 million psi × 0.00689476 = 12,617 MPa."""
    assert CATALOGUE.stuff("hard-maple").e_along_mpa == pytest.approx(12_617, abs=0.5)


def test_density_at_twelve_percent():
    """FPL-GTR-282 eq. 4-6 (from memory), 1000 G (1 + 12/100): sugar maple, G 0.63, 706 kg/m3; yellow-poplar 470."""
    assert CATALOGUE.stuff("yellow-poplar").density_kg_m3 == pytest.approx(470, abs=0.5)
    assert CATALOGUE.stuff("hard-maple").density_kg_m3 == pytest.approx(706, abs=0.5)


# relative humidity at 70 F → eq. 4-5 worked beforehand, Table 4-2 from memory
EMC_70_F = [
    (25, 5.36, 5.4), (30, 6.17, 6.2), (35, 6.95, 6.9), (40, 7.70, 7.7), (45, 8.46, 8.5), (50, 9.25, 9.2),
    (55, 10.07, 10.1), (60, 10.97, 11.0), (65, 11.96, 12.0), (70, 13.09, 13.1), (80, 16.00, 16.0), (90, 20.49, 20.5),
]  # fmt: skip


@pytest.mark.parametrize(("humidity", "equation", "table"), EMC_70_F)
def test_equilibrium_moisture_at_70_f(humidity, equation, table):
    value = moisture.equilibrium_moisture((70.0 - 32.0) / 1.8, humidity)
    assert value == pytest.approx(equation, abs=0.02)  # the deg C and deg F coefficients differ by up to 0.01
    assert value == pytest.approx(table, abs=0.1)


def test_equilibrium_moisture_elsewhere():
    """FPL-GTR-282 eq. 4-5, worked beforehand by hand: 20 C and 50 %: 9.27."""
    assert moisture.equilibrium_moisture(20.0, 50.0) == pytest.approx(9.27, abs=0.005)


@pytest.mark.parametrize(("humidity", "calculator"), [(60, 11.1), (25, 5.3)])
def test_equilibrium_moisture_published_calculator(humidity, calculator):
    """Points of a published moisture calculator at 70 F, read to one place; it agrees within 0.15 %."""
    assert moisture.equilibrium_moisture((70.0 - 32.0) / 1.8, humidity) == pytest.approx(calculator, abs=0.15)


def test_red_oak_flat_sawn():
    """FPL-GTR-190 Table 13-5 C_T 0.00369: 12 in, +4 % → 0.1771 in."""
    c_t = CATALOGUE.stuff("red-oak").c_tangential
    assert movement.change_mm(12 * 25.4, c_t, 8.0, 12.0) / 25.4 == pytest.approx(0.1771, abs=0.0001)


def test_white_fir_example():
    """FPL-GTR-190 ch. 13 example (from memory): white fir 232 mm, 8 → 11 % → 1.705 mm."""
    assert movement.change_mm(232.0, 0.00245, 8.0, 11.0) == pytest.approx(1.705, abs=0.001)


def test_yellow_poplar_examples():
    """FPL-GTR-282 ch. 13, C_T from memory: 300 mm, 6 → 10 % → 3.468 mm; 16 in, 30 → 65 % at 70 F → 0.268 in."""
    c_t = CATALOGUE.stuff("yellow-poplar").c_tangential
    assert movement.change_mm(300.0, c_t, 6.0, 10.0) == pytest.approx(3.468, abs=0.0005)
    dry, damp = (moisture.equilibrium_moisture((70.0 - 32.0) / 1.8, h) for h in (30.0, 65.0))
    assert movement.change_mm(16.0, c_t, dry, damp) == pytest.approx(0.268, abs=0.0005)


# FPL-GTR-190 Table 4-3 radial, tangential % against Table 13-5 C_R, C_T (both read)
PAIRS = [
    ("yellow birch", 7.3, 9.5, 0.00256, 0.00338),
    ("black cherry", 3.7, 7.1, 0.00126, 0.00248),
    ("beech", 5.5, 11.9, 0.00190, 0.00431),
    ("white ash", 4.9, 7.8, 0.00169, 0.00274),
    ("black walnut", 5.5, 7.8, 0.00190, 0.00274),
]


@pytest.mark.parametrize(("shrinkage", "c"), [(8.2, 0.00289), (9.9, 0.00353), (7.6, 0.00267)])
def test_a_coefficient_is_that_of_its_shrinkage(shrinkage, c):
    """C = S / (3000 - 20 S) by hand, S the tangential shrinkage of Table 4-3, to the five decimals of Table 13-5."""
    assert shrinkage / (3000 - 20 * shrinkage) == pytest.approx(c, abs=5e-6)
    assert movement.shrinkage_from_coefficient(shrinkage / (3000 - 20 * shrinkage)) == pytest.approx(shrinkage)


@pytest.mark.parametrize(("species", "radial", "tangential", "c_r", "c_t"), PAIRS)
def test_shrinkage_law_joins_two_tables(species, radial, tangential, c_r, c_t):
    """The coefficients are printed to five decimals: the shrinkage lies between those of half the last digit."""
    for shrinkage, c in ((radial, c_r), (tangential, c_t)):
        low, high = (movement.shrinkage_from_coefficient(c + half) for half in (-0.0000051, 0.0000051))
        assert low < shrinkage < high, species


@pytest.mark.parametrize(
    ("stuff", "c_r", "c_t"),
    [
        ("red-oak", 0.00158, 0.00369), ("white-oak", 0.00180, 0.00365), ("hard-maple", 0.00165, 0.00353),
        ("red-maple", 0.00137, 0.00289), ("yellow-birch", 0.00256, 0.00338), ("black-cherry", 0.00126, 0.00248),
        ("black-walnut", 0.00190, 0.00274), ("white-ash", 0.00169, 0.00274), ("red-alder", 0.00151, 0.00256),
    ],
)  # fmt: skip
def test_catalogue_against_table_13_5(stuff, c_r, c_t):
    """FPL-GTR-190 Table 13-5, hardwood block (read)."""
    assert (CATALOGUE.stuff(stuff).c_radial, CATALOGUE.stuff(stuff).c_tangential) == (c_r, c_t)


def test_two_gravities_are_kept_apart():
    """FPL-GTR-282 Table 5-3b at 12 % against NDS 2018 Table 12.3.3A oven-dry: poplar 0.42, 0.43; red oak 0.63, 0.67."""
    poplar, oak = CATALOGUE.stuff("yellow-poplar"), CATALOGUE.stuff("red-oak")
    assert (poplar.g_12, poplar.g_oven_dry) == (0.42, 0.43)
    assert (oak.g_12, oak.g_oven_dry) == (0.63, 0.67)
