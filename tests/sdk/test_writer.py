"""Quantities as words, against the exact definitions of the units (NIST SP 811, 2008, appendix B.8)."""

import pytest
from casewright.sdk.units import inches, mm
from casewright.sdk.writer import INCHES, MILLIMETRES, writer


@pytest.mark.parametrize(
    ("nm", "in_words", "mm_words"),
    [
        (inches("23 5/8"), "23.625 in", "600.08 mm"),  # 25.4 mm an inch: 600.075, halves to even in binary
        (mm(600), "23.622 in", "600 mm"),
        (inches("1/64"), "0.016 in", "0.4 mm"),
        (0, "0 in", "0 mm"),
        (-mm(5), "-0.197 in", "-5 mm"),
        (1000, "0.000039 in", "0.001 mm"),  # a micrometre is written, not rounded to nothing
    ],
)
def test_lengths(nm, in_words, mm_words):
    assert INCHES.length(nm) == in_words
    assert MILLIMETRES.length(nm) == mm_words


def test_the_number_of_places_can_be_asked_for():
    assert MILLIMETRES.length(mm("12.345"), places=1) == "12.3 mm"
    assert INCHES.length_mm(25.4) == "1 in"
    assert f"{INCHES.size(inches(3))} × {INCHES.length(inches(5))}" == "3 × 5 in"


def test_masses_forces_and_areas():
    assert INCHES.mass_kg(0.45359237) == "1 lb"
    assert MILLIMETRES.mass_kg(40) == "40 kg"
    assert INCHES.force_n(4.4482216152605) == "1 lbf"
    assert MILLIMETRES.force_n(931.9) == "932 N"
    assert INCHES.area_mm2(92_903.04) == "1 sq ft"
    assert MILLIMETRES.area_mm2(2_500_000) == "2.5 m2"


def test_nothing_is_written_as_minus_zero():
    assert MILLIMETRES.force_n(-0.2) == "0 N"


def test_a_writer_by_units():
    assert writer("in") is INCHES
    assert writer("mm") is MILLIMETRES


def test_small_masses_and_volumes():
    """Sixteen ounces are a pound of 453.59237 g, and 25.4 mm cubed are 16 387.064 mm3, both exactly."""
    assert (INCHES.mass_g(453.59237), MILLIMETRES.mass_g(12.4)) == ("16 oz", "12 g")
    assert (INCHES.volume_mm3(16_387.064), MILLIMETRES.volume_mm3(4_679.312)) == ("1.0000 in³", "4679.3 mm³")


def test_what_a_glue_up_asks_for():
    """645.16 mm2 are a square inch, exactly."""
    assert (INCHES.small_area_mm2(645.16 * 20), MILLIMETRES.small_area_mm2(2_000)) == ("20 in²", "20 cm²")


@pytest.mark.parametrize(
    ("value", "unit", "inches"),
    [
        (12.7, "mm", (0.5, "in")),  # 25.4 mm to the inch, exactly
        (0.45359237, "kg", (1.0, "lb")),  # the international pound
        (4.4482216152605, "N", (1.0, "lbf")),
        (112.984829, "N·mm", (1.0, "lbf·in")),  # NIST SP 811: 0.112 984 8 N·m
        (1.355818, "N·m", (1.0, "lbf·ft")),  # NIST SP 811
        (0.006894757, "MPa", (1.0, "psi")),  # NIST SP 811
        (47.88026, "Pa", (1.0, "psf")),  # NIST SP 811
        (7.0, "%", (7.0, "%")),
    ],
)
def test_measured_values_in_an_inch_job(value, unit, inches):
    assert INCHES.measured(value, unit) == (pytest.approx(inches[0], rel=1e-6), inches[1])
    assert MILLIMETRES.measured(value, unit) == (value, unit)
    assert INCHES.quantity(12.7, "mm") == "0.5 in"


def test_printed_inches_in_a_metric_job():
    assert MILLIMETRES.measured(0.25, "in") == (6.35, "mm")
    assert MILLIMETRES.quantity(0.25, "in") == "6.35 mm"


def test_what_is_cut_is_written_as_the_tape_shows_it():
    """476.25 mm are 18 3/4 in, and 1/64 in is 0.396875 mm, exactly; 1 mm lies on no inch tape."""
    assert [INCHES.cut(nm) for nm in (476_250_000, 396_875)] == ["18 3/4 in", "1/64 in"]
    assert (INCHES.cut(1_000_000), MILLIMETRES.cut(476_250_000)) == ("0.039 in", "476.25 mm")


def test_what_is_sold_in_millimetres_is_named_so_in_any_job():
    # A cup bit is sold as 35 mm, a dowel drill as 1/4 in (common practice).
    assert writer("in").sold(35_000_000) == writer("mm").sold(35_000_000) == "35 mm"
    assert writer("in").sold(6_350_000) == "1/4 in"
